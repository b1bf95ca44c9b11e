"""Scissors and tape: cutting a shape along a path, and joining two shapes on a seam."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely import Point as PlanePoint

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.shape import Item, Shape, Side, outline_path
from app.pattern.drafting.shapes.where import carried, divided, merged, region
from app.pattern.geometry import Path, Point, Transform, crossings, nearest
from app.pattern.names import part_named
from app.pattern.units import mm

__all__ = ["cut_along", "join"]

_REACH = 400.0  # mm: a cutting path that ends inside is run on straight so far to meet the outline
_LIE = 1.0  # mm: two seams that are taped together may differ so much in shape
_LENGTH = 0.5  # mm: and so much in length
_ON = 1e-4  # mm: an end so near to the outline lies on it
_NEAR = 0.05  # mm: an end so near is brought onto it, and may stay where it is when the cut runs past


def cut_along(shape: Shape, path: Path, cut_name: str, keep: str) -> Shape:
    """The part of a shape to the `keep` ("left" or "right") of a path that crosses it.

    The path may begin or end at a dart's tip: the cut then runs on along both legs, so
    that the dart is taken into the new seam. An end inside the shape is run on straight
    to the outline; what reaches beyond the outline is trimmed. The cut is a new side
    named `cut_name`, as long on both parts.
    """
    path = _fitted(shape, path)
    there, back = divided(shape, path.start, path.end)
    if keep == "right":  # anticlockwise: out along the outline, back along the cut
        items = [*there, Side(cut_name, path.reversed())]
    else:
        items = [*back, Side(cut_name, path)]
    items = _whole_again(merged([_renamed(item, cut_name, shape) for item in items]), shape)
    flags = carried(shape.inside, region(outline_path(items)))
    inside = tuple(thing for thing, there_too in zip(shape.inside, flags, strict=True) if there_too)
    return Shape(tuple(items), inside, shape.log)


def _whole_again(items: list[Item], shape: Shape) -> list[Item]:
    """Numbered parts of a side of which the cut left one alone are called by the side's own name again."""
    names = [item.name for item in items]
    before = {item.name for item in shape.items}
    again = []
    for item in items:
        stem, _, number = item.name.rpartition("_")
        others = [name for name in before - {item.name} if name.rpartition("_")[0] == stem and name[-1].isdigit()]
        alone = number.isdigit() and others and part_named(stem, names) == item.name
        again.append(replace(item, name=stem) if alone and isinstance(item, Side) else item)
    return again


def _renamed(item: Item, cut_name: str, shape: Shape) -> Item:
    """A dart's leg that the cut opened belongs to the cut."""
    darts = {thing.name for thing in shape.items if not isinstance(thing, Side)}
    return Side(cut_name, item.path) if isinstance(item, Side) and item.name in darts else item


def _fitted(shape: Shape, path: Path) -> Path:
    """The path trimmed, or run on straight, to begin and end on the outline or at darts' tips."""
    tips = [item.dart.tip for item in shape.items if not isinstance(item, Side)]
    outline = outline_path(shape.items)
    path = _ended(path, outline, tips)
    return _ended(path.reversed(), outline, tips).reversed()


def _ended(path: Path, outline: Path, tips: Sequence[Point]) -> Path:
    """The path with its end brought onto the outline."""
    end = path.end
    off = outline.point_at(nearest(outline, end)).distance(end)
    if off < _ON or any(tip.distance(end) < 0.5 for tip in tips):
        return path
    longer = _run_on(path)
    found = [c.along_a for c in crossings(longer, outline)]
    late = [along for along in found if along > path.length * 0.5]
    if off < _NEAR:  # as good as on it: a crossing further off is another side's
        late = [along for along in late if abs(along - path.length) < 1.0]
        return longer.part(0.0, min(late)) if late else path
    if not late and not region(outline).covers(PlanePoint(end)):  # well outside: back to where it went out
        late = [along for along in (max(found, default=0.0),) if along > 1.0]
    if not late:
        raise CannotDraw(
            "drafting.cut-inside", "The cut does not reach the outline.", "Let it begin and end on sides of the shape."
        )
    return longer.part(0.0, min(late))


def _run_on(path: Path) -> Path:
    """The path, run on straight beyond its end."""
    end, way = path.end, path.tangent_at(path.length)
    return path.joined(Path.through(end, end.moved(way.x * _REACH, way.y * _REACH)))


def join(first: Shape, first_side: str, second: Shape, second_side: str) -> Shape:
    """Tape `second` to `first` along a seam, which disappears; sides of one name that meet become one.

    The second shape is laid so that its side lies on the first's. Both must be as long
    (within 0.5 mm) and of one shape (within 1 mm), or a seam would be lost.
    """
    a, b = first.side(first_side), second.side(second_side)
    if abs(a.path.length - b.path.length) > _LENGTH:
        raise CannotDraw(
            "drafting.join-length",
            f"“{first_side}” is {mm(a.path.length)} and “{second_side}” {mm(b.path.length)} long.",
            "Join seams that are equally long.",
        )
    laid = second.moved(_laying(a.path, b.path))
    _lies_on(a.path, laid.side(second_side).path.reversed(), first_side, second_side)
    at, other = first.items.index(a), laid.items.index(laid.side(second_side))
    taken = {item.name for item in first.items if item is not a}
    tail = [_fresh(item, taken, first, laid) for item in laid.from_item(other)[1:]]
    items = merged([*_snapped(first.from_item(at)[1:], tail)])
    inside = (*first.inside, *laid.inside)
    return Shape(tuple(items), inside, (*first.log, *laid.log))


def _laying(a: Path, b: Path) -> Transform:
    """The move that lays b's end on a's start and b's start on a's end."""
    turn = Transform.turn(a.start.angle_to(a.end) - b.end.angle_to(b.start), b.end)
    return turn.then(Transform.move(a.start.x - b.end.x, a.start.y - b.end.y))


def _lies_on(a: Path, b: Path, name_a: str, name_b: str) -> None:
    apart = max(a.point_at(a.length * i / 16).distance(b.point_at(b.length * i / 16)) for i in range(17))
    if apart > _LIE:
        raise CannotDraw(
            "drafting.join-shape",
            f"Laid together, “{name_a}” and “{name_b}” lie up to {mm(apart)} apart.",
            "Join seams of one shape.",
        )


def _fresh(item: Item, taken: set[str], first: Shape, laid: Shape) -> Item:
    """The item, renamed when the first shape has one of that name which it does not meet."""
    if item.name not in taken or not isinstance(item, Side):
        return item
    meets = any(
        other.name == item.name and min(other.start.distance(item.end), other.end.distance(item.start)) < 2.0
        for other in first.items
    )
    return item if meets else Side(f"{item.name}_2", item.path, item.folds)


def _snapped(head: Sequence[Item], tail: Sequence[Item]) -> list[Item]:
    """Both chains, the second's outer ends drawn onto the first's corners where a hair is between them."""
    items = [*head, *tail]
    gap_one, gap_two = head[-1].end.distance(tail[0].start), tail[-1].end.distance(head[0].start)
    if max(gap_one, gap_two) < 1e-3:
        return items
    middle = [_bridge(head[-1], tail[0])] if gap_one >= 1e-3 else []
    last = [_bridge(tail[-1], head[0])] if gap_two >= 1e-3 else []
    return [*head, *middle, *tail, *last]


def _bridge(before: Item, after: Item) -> Item:
    return Side(before.name, Path.through(before.end, after.start))
