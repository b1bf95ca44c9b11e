"""Finding places on and in a shape, and opening its outline at a point."""

from __future__ import annotations

from collections.abc import Sequence

from shapely import Point as PlanePoint
from shapely import Polygon, covers

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.folded import part_of, shifted
from app.pattern.drafting.shapes.shape import Inside, Item, Shape, ShapeDart, Side
from app.pattern.geometry import Path, Point, nearest
from app.pattern.units import mm

__all__ = ["carried", "divided", "merged", "middle", "open_at", "region", "side_of", "split_side"]

_ON = 0.5  # mm: a point this near to a side lies on it
_JOINT = 0.02  # mm: two corners of an opened outline this near are one
_END = 0.01  # mm: this near to an end of a side, the side is not cut


def middle(thing: Inside) -> Point:
    """A point that stands for where an inside thing lies."""
    what = thing.what
    return what.point_at(what.length / 2.0) if isinstance(what, Path) else what


def region(outline: Path) -> Polygon:
    """The area inside a closed path, for asking what lies in it."""
    return Polygon(outline.flatten(0.1)).buffer(0.0)


def carried(inside: Sequence[Inside], area: Polygon) -> list[bool]:
    """For each inside thing whether it lies in the area, and so goes where that paper goes."""
    return [bool(covers(area, PlanePoint(middle(thing)))) for thing in inside]


def side_of(shape: Shape, point: Point, called: str = "The point") -> tuple[int, float]:
    """Index of the side on which the point lies and its distance along it in mm; CannotDraw when it is on none.

    `called` is what the point is called where it lies on none.
    """
    best: tuple[float, int, float] | None = None
    for index, item in enumerate(shape.items):
        if isinstance(item, Side):
            along = nearest(item.path, point)
            off = item.path.point_at(along).distance(point)
            if best is None or off < best[0] - 1e-9:
                best = (off, index, along)
    if best is None or best[0] > _ON:
        off = best[0] if best else 0.0
        raise CannotDraw(
            "drafting.off-outline",
            f"{called} lies {mm(off)} away from every side of the shape.",
            "Take a point on one of its sides, as with “along ... by ...”.",
        )
    return best[1], best[2]


def split_side(side: Side, along: float) -> tuple[Side | None, Side | None]:
    """The side before and after a place on it; None for a part of no length."""
    whole = side.path.length
    if along <= _END:
        return None, side
    if along >= whole - _END:
        return side, None
    return (
        Side(side.name, side.path.part(0.0, along), part_of(side.folds, 0.0, along)),
        Side(side.name, side.path.part(along, whole), part_of(side.folds, along, whole)),
    )


def open_at(shape: Shape, point: Point) -> tuple[Item, ...]:
    """The outline as a chain that starts and ends at a point on it.

    A dart's tip opens the outline there: the chain begins with the leg from the tip and
    ends with the leg to it, both as sides named after the dart.
    """
    for index, item in enumerate(shape.items):
        if isinstance(item, ShapeDart) and item.dart.tip.distance(point) <= _ON:
            leg_out = Side(item.name, Path.through(item.dart.tip, item.dart.b))
            leg_in = Side(item.name, Path.through(item.dart.a, item.dart.tip))
            return (leg_out, *shape.from_item(index)[1:], leg_in)
    index, along = side_of(shape, point)
    side = shape.items[index]
    assert isinstance(side, Side)
    before, after = split_side(side, along)
    chain = shape.from_item(index)[1:]
    return tuple(part for part in (after, *chain, before) if part is not None)


def divided(shape: Shape, start: Point, end: Point) -> tuple[list[Item], list[Item]]:
    """The outline opened at two points on it: from start to end in the direction of travel, and back to the start."""
    from_end = open_at(Shape(open_at(shape, start)), end)
    back: list[Item] = []
    for index, item in enumerate(from_end):
        back.append(item)
        there = list(from_end[index + 1 :])
        if item.end.distance(start) < _JOINT and there:
            return there, back
    raise CannotDraw(
        "drafting.cut-nothing", "The cut begins and ends in the same place.", "Give it two ends on the outline."
    )


def merged(items: Sequence[Item]) -> list[Item]:
    """The items with neighbouring sides of one name made one, the last and the first too."""
    found: list[Item] = []
    for item in items:
        if found and _of_one_name(found[-1], item):
            found[-1] = _joined(found[-1], item)
        else:
            found.append(item)
    if len(found) > 2 and _of_one_name(found[-1], found[0]):
        found = [_joined(found[-1], found[0]), *found[1:-1]]
    return found


def _of_one_name(before: Item, after: Item) -> bool:
    return isinstance(before, Side) and isinstance(after, Side) and before.name == after.name


def _joined(before: Item, after: Item) -> Item:
    assert isinstance(before, Side)
    assert isinstance(after, Side)
    folds = (*before.folds, *shifted(after.folds, before.path.length))
    return Side(before.name, before.path.joined(after.path), folds)
