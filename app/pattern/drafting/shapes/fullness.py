"""Fullness: slashing a shape and spreading it in parallel or in a fan, and pleats with their fold lines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import asin

from app.pattern.drafting.cannot import CannotDraw
from app.pattern.drafting.shapes.shape import Inside, Item, Shape, Side, outline_path
from app.pattern.drafting.shapes.where import carried, divided, merged, region, side_of
from app.pattern.geometry import Path, Point, Transform

__all__ = ["fan", "pleat", "spread"]

_MOST = 3_000.0  # mm: no shape is spread further


@dataclass(frozen=True, slots=True)
class _Slash:
    """A straight cut from `start` to `end`, both on the outline, with the sides it meets there."""

    start: Point
    end: Point
    start_side: str
    end_side: str


def spread(shape: Shape, slashes: Sequence[Path], amount: float) -> Shape:
    """Open each slash in parallel by `amount` mm: the paper to its right moves away square to it."""
    return _opened(shape, slashes, amount, _parallel)


def fan(shape: Shape, slashes: Sequence[Path], amount: float) -> Shape:
    """Open each slash by `amount` mm at its start, the paper hinged at its end."""
    return _opened(shape, slashes, amount, _hinged)


def _parallel(slash: _Slash, amount: float) -> Transform:
    way = slash.end.minus(slash.start)
    length = slash.start.distance(slash.end)
    return Transform.move(way.y / length * amount, -way.x / length * amount)


def _hinged(slash: _Slash, amount: float) -> Transform:
    length = slash.start.distance(slash.end)
    if amount > 1.8 * length:
        raise CannotDraw(
            "drafting.fan", f"A slash of {length:.1f} mm cannot open by {amount:.1f} mm.", "Use more slashes, or less."
        )
    return Transform.turn(2.0 * asin(amount / (2.0 * length)), slash.end)


def _opened(shape: Shape, slashes: Sequence[Path], amount: float, move: Callable[[_Slash, float], Transform]) -> Shape:
    if not 0.0 <= amount <= _MOST:
        raise CannotDraw("drafting.spread", f"A spread of {amount:.1f} mm is not possible.", "Spread by 0 to 3 m.")
    waiting = list(slashes)
    while waiting:
        slash = _met(shape, waiting.pop(0))
        shape, waiting = _one_opened(shape, slash, waiting, move(slash, amount))
    return shape


def _met(shape: Shape, path: Path) -> _Slash:
    """The slash with the sides on which it ends."""
    names = [shape.items[side_of(shape, point)[0]].name for point in (path.start, path.end)]
    return _Slash(path.start, path.end, names[0], names[1])


def _one_opened(shape: Shape, slash: _Slash, waiting: Sequence[Path], transform: Transform) -> tuple[Shape, list[Path]]:
    """The shape with one slash opened, and the waiting slashes where the paper took them."""
    right, left = divided(shape, slash.start, slash.end)
    moved = [item.moved(transform) for item in right]
    items = _bridged(left, moved, slash)
    area = region(Path.of((*outline_path(right).segments, *Path.through(slash.end, slash.start).segments)))
    flags = carried(shape.inside, area)
    inside = tuple(t.moved(transform) if f else t for t, f in zip(shape.inside, flags, strict=True))
    taken = carried([Inside("", path) for path in waiting], area)
    rest = [p.transformed(transform) if there else p for p, there in zip(waiting, taken, strict=True)]
    opened = Shape(tuple(items), inside, shape.log)
    return _told(shape, opened, slash), rest


def _bridged(left: list[Item], right: list[Item], slash: _Slash) -> list[Item]:
    """Both halves joined again, the opened sides filled with straight lines of their own names."""
    items = [*_filled(left, right[0].start, slash.start_side), *right]
    return _filled(items, items[0].start, slash.end_side)


def _filled(items: list[Item], onto: Point, name: str) -> list[Item]:
    """The chain run on to a point, its last side (of that name) made longer."""
    last = items[-1]
    if last.end.distance(onto) < 1e-3:
        return items
    line = Path.through(last.end, onto)
    if isinstance(last, Side) and last.name == name:
        return [*items[:-1], Side(name, last.path.joined(line), last.taken_in)]
    return [*items, Side(name, line)]


def _told(before: Shape, after: Shape, slash: _Slash) -> Shape:
    """The opened shape: sides cut by the slash made one again, and its log told what grew."""
    whole = Shape(tuple(merged(after.items)), after.inside, after.log)
    words = [
        f"{name} goes from {_total(before, name):.1f} to {_total(whole, name):.1f} mm"
        for name in dict.fromkeys((slash.start_side, slash.end_side))
        if abs(_total(before, name) - _total(whole, name)) > 1e-6
    ]
    return whole.noted(*words)


def _total(shape: Shape, name: str) -> float:
    return sum(item.path.length for item in shape.items if isinstance(item, Side) and item.name == name)


def pleat(shape: Shape, slashes: Sequence[Path], depth: float) -> Shape:
    """A knife pleat at each slash: the paper opens by twice `depth` mm, folded away again before the side is sewn.

    The slash itself is the edge that shows; the fold lies on the paper to its left. The
    three lines of each pleat are kept inside the shape as fold lines: where it folds,
    where it turns under, and where it comes to lie. Both sides it meets count as shorter
    by twice the depth once the pleat is folded.
    """
    if depth <= 0.0:
        raise CannotDraw("drafting.pleat", "A pleat needs a depth above nothing.", "Write: deep 3cm.")
    waiting = list(slashes)
    number = sum(thing.kind == "fold" for thing in shape.inside) // 3
    while waiting:
        slash = _met(shape, waiting.pop(0))
        number += 1
        shape, waiting = _one_opened(shape, slash, waiting, _parallel(slash, 2.0 * depth))
        shape = _folded(shape, slash, depth, number)
    return shape


def _folded(shape: Shape, slash: _Slash, depth: float, number: int) -> Shape:
    lines = [
        Inside(f"pleat_{number}_{word}", Path.through(slash.start, slash.end).transformed(_parallel(slash, by)), "fold")
        for word, by in (("edge", 0.0), ("turn", depth), ("place", 2.0 * depth))
    ]
    shorter = {slash.start_side: 0.0, slash.end_side: 0.0}
    for name in (slash.start_side, slash.end_side):
        shorter[name] += 2.0 * depth
    items = tuple(
        Side(item.name, item.path, item.taken_in + shorter.pop(item.name))
        if isinstance(item, Side) and item.name in shorter
        else item
        for item in shape.items
    )
    return Shape(items, (*shape.inside, *lines), shape.log)
