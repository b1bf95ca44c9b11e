"""A facing: the part of a shape along some of its sides, traced with the darts between them closed."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Point as PlanePoint

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.cutting import cut_along
from app.pattern.drafting.shapes.darts import opening
from app.pattern.drafting.shapes.shape import Item, Shape, ShapeDart, Side, outline_path
from app.pattern.drafting.shapes.where import region
from app.pattern.geometry import GeometryError, Path, Transform, distance_to, offset
from app.pattern.units import mm, mm_unlike

__all__ = ["facing"]

_LEGS = 0.5  # mm: legs of a dart may differ so much
_MEETS = 0.05  # mm: ends so near are one corner


def facing(shape: Shape, names: Sequence[str], depth: float) -> Shape:
    """The part of a shape within `depth` mm of sides that follow one another; its new side is `inner`.

    Darts between those sides are closed first, as a cutter folds them shut to trace a
    facing: it has no dart, and its edge is as long as the sides are sewn. What lies
    inside the shape comes along only where no dart was closed.
    """
    if depth <= 0.0:
        raise CannotDraw("drafting.facing", "A facing needs a depth above nothing.", "Write: deep 6cm.")
    run, rest = _run(shape, names)
    closed = any(isinstance(item, ShapeDart) for item in run)
    if closed:
        # Refuse a dart whose point lies outside the shape: closing it would turn the paper inside out
        paper = region(outline_path(shape.items))
        for item in run:
            if isinstance(item, ShapeDart) and not paper.covers(PlanePoint(item.dart.tip)):
                raise CannotDraw(
                    "drafting.facing-point",
                    f"The point of “{item.name}” lies outside the shape, so that it cannot be folded shut.",
                    "Shorten the dart, or give it an intake only where there is one to take in.",
                )
    whole = _closed(run, rest, depth) if closed else shape
    sides = [whole.side(name) for name in (item.name for item in run if isinstance(item, Side))]
    try:
        part = cut_along(whole, _inner(sides, depth), "inner", "right")
    except CannotDraw as refused:
        if refused.code != "drafting.cut-inside":
            raise
        ends = " or ".join(f"“{name}”" for name in dict.fromkeys((sides[0].name, sides[-1].name)))
        raise CannotDraw(
            refused.code,
            f"The inner line of the facing, {mm(depth)} deep, does not end on a side of the shape beside {ends}.",
            "Make it less deep, face the next side as well, or draw the facing line by line.",
        ) from None
    return Shape(part.items, part.inside, shape.log)


def _inner(sides: Sequence[Side], depth: float) -> Path:
    """The facing's inner edge; anticlockwise travel: inside lies to the left."""
    path = sides[0].path
    for side in sides[1:]:
        path = path.joined(side.path)
    try:
        return offset(path, depth)
    except GeometryError:
        folded = next((side.name for side in sides if side.folds), None)
        if folded is None:
            raise
        raise CannotDraw(
            "drafting.facing-folds",
            f"“{folded}” is shaped for pleats or tucks, so that no facing can be drawn beside it.",
            "Face the shape as it was before them: there the side is as long as this one is when folded.",
        ) from None


def _run(shape: Shape, names: Sequence[str]) -> tuple[list[Item], list[Item]]:
    """The named sides with the darts between them in the order of travel, and all that comes after them."""
    wanted = {shape.side(name).name for name in names}
    for turn in range(len(shape.items)):
        chain = list(shape.from_item(turn))
        if chain[0].name not in wanted or chain[-1].name in wanted:
            continue
        last = max(index for index, item in enumerate(chain) if item.name in wanted)
        run = chain[: last + 1]
        if all(item.name in wanted or isinstance(item, ShapeDart) for item in run):
            if isinstance(chain[-1], ShapeDart) and chain[-2].name in wanted:
                continue
            return run, chain[last + 1 :]
    raise CannotDraw(
        "drafting.facing",
        "The sides do not follow one another.",
        "Face sides that meet, or that only darts lie between, and leave at least one side of the shape out.",
    )


def _closed(run: Sequence[Item], rest: Sequence[Item], depth: float) -> Shape:
    """The shape with the run's darts closed: what follows each is turned about its point, but the last side stays.

    The gap that closing leaves in the outline is bridged far from the run.
    """
    turn = Transform.move(0.0, 0.0)
    items: list[Item] = []
    for item in run:
        if isinstance(item, ShapeDart):
            _deep_enough(item, run, depth)
            turn = turn.then(_shut(item.moved(turn)))
        else:
            items.append(item.moved(turn))
    after = [item.moved(turn) for item in rest[:-1]]
    last = rest[-1]
    if not after:
        raise CannotDraw("drafting.facing", "Too few sides are left beside the facing.", "Leave two sides out.")
    gap = after[-1].end.distance(last.start)
    bridge = [Side("bridge", Path.through(after[-1].end, last.start))] if gap > _MEETS else []
    return Shape((*items, *after, *bridge, last))


def _shut(held: ShapeDart) -> Transform:
    """The move that lays the end of a dart's second leg on that of its first, turning about its point."""
    dart = held.dart
    turn = Transform.turn(opening(dart), dart.tip)
    end = turn.apply(dart.b)
    if end.distance(dart.a) > _LEGS:
        raise CannotDraw(
            "drafting.facing-legs",
            f"The legs of “{held.name}” differ by {mm(end.distance(dart.a))}, so that its closed edge has a step.",
            "Make its legs equally long: move its point over the middle of its mouth, or, where the side is straight, "
            "find its second leg's end with “reach”.",
        )
    return turn.then(Transform.move(*dart.a.minus(end)))


def _deep_enough(dart: ShapeDart, run: Sequence[Item], depth: float) -> None:
    """Refuse a facing that reaches past a dart's point, where the paper cannot lie flat."""
    sides = [item.path for item in run if isinstance(item, Side)]
    reach = min(distance_to(path, dart.dart.tip) for path in sides)
    if reach < depth:
        deep, ends = mm_unlike(depth, reach)
        raise CannotDraw(
            "drafting.facing-dart",
            f"The facing is {deep} deep and “{dart.name}” ends {ends} from its edge: "
            "with the dart closed the paper does not lie flat there.",
            "Make the facing shallower than its darts are long, or pivot the dart elsewhere first.",
        )
