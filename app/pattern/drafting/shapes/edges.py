"""Work on sides: moving one in or out, truing one after a spread, and making one of those left when a dart is gone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from math import acos, pi

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.folded import Folds, part_of, shifted
from app.pattern.drafting.shapes.shape import Item, Shape, ShapeDart, Side, outline_path
from app.pattern.geometry import Line, Path, Point, crossings, nearest, offset, smooth

__all__ = ["move_side", "true_side", "unite"]

_REACH = 300.0  # mm: how far a moved side's neighbours are run on to meet it
_CLEAR = 1.0  # mm: a point that a side is trued through lies so far from its ends
_KINK = 3.0 * pi / 180.0  # a turn sharper than this is a corner to be trued


def move_side(shape: Shape, name: str, distance: float) -> Shape:
    """A side moved out by `distance` mm (in, when negative), parallel to itself; its neighbours trimmed or run on."""
    side = shape.side(name)
    index = shape.items.index(side)
    chain = shape.from_item(index)
    before, after = chain[-1], chain[1]
    if isinstance(before, ShapeDart) or isinstance(after, ShapeDart):
        raise CannotDraw("drafting.move-side", f"A dart ends on “{name}”.", "Pivot the dart elsewhere first.")
    if abs(distance) < 1e-9:
        return shape
    moved = offset(side.path, -distance)  # anticlockwise travel: outside lies to the right
    first, last = _corner(before.path, moved, at_end=True), _corner(after.path, moved, at_end=False)
    middle = _between(moved, first, last)
    longer = _lengthened(before.path, True)
    further, nearer = _from(after.path, last), longer.part(0.0, nearest(longer, first))
    rest = [Side(after.name, further, _later(after, further)), *chain[2:-1]]
    closing = Side(before.name, nearer, part_of(before.folds, 0.0, nearer.length))
    if len(chain) == 2:
        raise CannotDraw("drafting.move-side", "A shape of two sides cannot have one moved.", "Draw it anew.")
    items: list[Item] = [Side(name, middle, _beside(side, middle)), *rest, closing]
    grown = Shape(tuple(items), shape.inside, shape.log)
    if outline_path(items).signed_area <= 0.0:
        raise CannotDraw("drafting.move-side", f"Moved so far, “{name}” leaves nothing.", "Move it by less.")
    return grown


def _later(side: Side, path: Path) -> Folds:
    """The folds of a side that now begins elsewhere, as `path` does."""
    missing = side.path.length - path.length
    return part_of(side.folds, missing, side.path.length) if missing > 0.0 else shifted(side.folds, -missing)


def _beside(side: Side, moved: Path) -> Folds:
    """The folds of a side along the line that lies beside it now; only a straight one can be moved when folded."""
    if side.folds and not (len(side.path.segments) == 1 and isinstance(side.path.segments[0], Line)):
        raise CannotDraw(
            "drafting.folded-side", f"“{side.name}” is folded and not straight.", "Move it before you pleat or tuck it."
        )
    return tuple(
        (nearest(moved, side.path.point_at(start)), nearest(moved, side.path.point_at(end)))
        for start, end in side.folds
    )


def _corner(neighbour: Path, moved: Path, at_end: bool) -> Point:
    """Where the neighbour, trimmed or run on straight, meets the moved side, itself run on straight."""
    near = _lengthened(neighbour, at_end)
    longer = _lengthened(_lengthened(moved, True), False)
    target = neighbour.end if at_end else neighbour.start
    found = [c.point for c in crossings(near, longer)]
    if found:
        return min(found, key=target.distance)
    raise CannotDraw(
        "drafting.move-side", "A neighbouring side does not meet the moved one.", "Move it by less, or draw it anew."
    )


def _lengthened(path: Path, at_end: bool) -> Path:
    if at_end:
        way = path.tangent_at(path.length)
        return path.joined(Path.through(path.end, path.end.moved(way.x * _REACH, way.y * _REACH)))
    way = path.tangent_at(0.0)
    return Path.through(path.start.moved(-way.x * _REACH, -way.y * _REACH), path.start).joined(path)


def _between(moved: Path, first: Point, last: Point) -> Path:
    """The moved side, run on or trimmed, from one corner to the other."""
    longer = _lengthened(_lengthened(moved, True), False)
    a, b = nearest(longer, first), nearest(longer, last)
    if b - a < 1e-6:
        raise CannotDraw("drafting.move-side", "Moved so far, the side has no length.", "Move it by less.")
    return longer.part(a, b)


def _from(path: Path, point: Point) -> Path:
    longer = _lengthened(path, False)
    return longer.part(nearest(longer, point), longer.length)


def true_side(shape: Shape, name: str, points: Sequence[Point] = ()) -> Shape:
    """A side drawn anew as one fair curve that leaves and arrives as it did.

    It goes through the points given, in their order along it; without any, through the
    middles of the stretches between its corners.
    """
    side = shape.side(name)
    through = sorted(points, key=lambda point: nearest(side.path, point)) if points else _middles(side.path)
    if not through:
        return shape
    # Refuse points to true through that are not somewhere along the side
    for point in through:
        along = nearest(side.path, point)
        if not _CLEAR < along < side.path.length - _CLEAR:
            raise CannotDraw(
                "drafting.true-through",
                f"A point to true “{side.name}” through lies beside an end of it.",
                "Choose points between its ends; the curve keeps the ends as they are.",
            )
    first, last = side.path.tangent_at(0.0), side.path.tangent_at(side.path.length)
    fair = smooth([side.path.start, *through, side.path.end], _angle(first), _angle(last))
    if side.folds:
        raise CannotDraw("drafting.folded-side", f"“{name}” is folded.", "True it before you pleat or tuck it.")
    items = tuple(Side(name, fair) if item is side else item for item in shape.items)
    return Shape(items, shape.inside, shape.log)


def unite(shape: Shape, names: Sequence[str], new_name: str) -> Shape:
    """Sides that follow one another made one, under a new name or that of one of them; its path is theirs."""
    wanted = {shape.side(name).name for name in names}
    if new_name not in wanted and any(item.name == new_name for item in shape.items):
        raise CannotDraw(
            "drafting.unite", f"The shape has a “{new_name}” already.", "Give the whole side another name."
        )
    count = len(shape.items)
    starts = [i for i, item in enumerate(shape.items) if item.name in wanted and shape.items[i - 1].name not in wanted]
    chain = shape.from_item(starts[0]) if starts else shape.items
    run = [item for item in chain[: len(wanted)] if isinstance(item, Side) and item.name in wanted]
    if len(starts) != 1 or len(run) < len(wanted) or len(run) < 2 or len(run) == count:
        raise CannotDraw(
            "drafting.unite",
            f"{' and '.join(f'“{name}”' for name in names)} do not follow one another round the shape.",
            "Unite sides that meet. Where a dart lies between them, pivot it elsewhere first.",
        )
    whole = run[0]
    for side in run[1:]:
        folds = (*whole.folds, *shifted(side.folds, whole.path.length))
        whole = Side(new_name, whole.path.joined(side.path), folds)
    return Shape((replace(whole, name=new_name), *chain[len(run) :]), shape.inside, shape.log)


def _middles(path: Path) -> list[Point]:
    """The middles of the stretches between sharp corners; none where there is no corner."""
    corners = _corners(path)
    stops = [0.0, *corners, path.length]
    return [path.point_at((a + b) / 2.0) for a, b in pairwise(stops)] if corners else []


def _angle(way: Point) -> float:
    return Point(0.0, 0.0).angle_to(way)


def _corners(path: Path) -> list[float]:
    """Distances along a path at which it turns sharply."""
    found = []
    for stop, (a, b) in zip(path.stops[1:], pairwise(path.segments), strict=False):
        out, into = a.tangent(1.0), b.tangent(0.0)
        if acos(max(-1.0, min(1.0, out.x * into.x + out.y * into.y))) > _KINK:
            found.append(stop)
    return found
