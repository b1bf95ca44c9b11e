"""Slashing a shape: cut along a straight line across it, the paper to its right moved, the opened sides filled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.shape import Inside, Item, Shape, Side, outline_path
from app.pattern.drafting.shapes.where import carried, divided, merged, region, side_of
from app.pattern.geometry import Path, Point, Transform, crossings

__all__ = ["Halves", "Slash", "across", "halved", "met", "opened"]

_SHUT = 1e-3  # mm: an opening no wider than this is none
_ON = 0.05  # mm: slashes that meet so near to an end of one do not cross


@dataclass(frozen=True, slots=True)
class Slash:
    """A straight cut from `start` to `end`, both on the outline, with the sides it meets there."""

    start: Point
    end: Point
    start_side: str
    end_side: str

    @property
    def length(self) -> float:
        """From start to end, mm."""
        return self.start.distance(self.end)

    def aside(self, distance: float) -> Transform:
        """The move to the right of the slash, square to it, by a distance in mm."""
        way, length = self.end.minus(self.start), self.length
        return Transform.move(way.y / length * distance, -way.x / length * distance)


@dataclass(frozen=True, slots=True)
class Halves:
    """The outline on both sides of a slash, in the direction of travel: right from its start, left from its end."""

    right: tuple[Item, ...]
    left: tuple[Item, ...]


def met(shape: Shape, path: Path) -> Slash:
    """The slash from a path's start to its end, with the sides on which they lie."""
    names = [shape.items[side_of(shape, point)[0]].name for point in (path.start, path.end)]
    return Slash(path.start, path.end, names[0], names[1])


def across(shape: Shape, paths: Sequence[Path]) -> list[Slash]:
    """The slashes from each path's start to its end; CannotDraw where one ends off the outline or crosses another."""
    for number, path in enumerate(paths, 1):
        line = f"line {number} of {len(paths)}" if len(paths) > 1 else "the line"
        side_of(shape, path.start, f"The start of {line}")
        side_of(shape, path.end, f"The end of {line}")
    slashes = [met(shape, path) for path in paths]
    for (i, one), (j, other) in combinations(enumerate(slashes, 1), 2):
        if _cross(one, other):
            raise CannotDraw(
                "drafting.slashes-cross",
                f"Lines {i} and {j} cross, so that the paper cannot be opened along both.",
                "Draw them so that they lie side by side.",
            )
    return slashes


def _cross(one: Slash, other: Slash) -> bool:
    a, b = (Path.through(slash.start, slash.end) for slash in (one, other))
    inner = [(c.along_a, a.length - c.along_a, c.along_b, b.length - c.along_b) for c in crossings(a, b)]
    return any(min(ends) > _ON for ends in inner)


def halved(shape: Shape, slash: Slash) -> Halves:
    """The outline of a shape on both sides of a slash."""
    right, left = divided(shape, slash.start, slash.end)
    return Halves(tuple(right), tuple(left))


def opened(
    shape: Shape, slash: Slash, move: Transform, waiting: Sequence[Path], fills: tuple[Side | None, Side | None]
) -> tuple[Shape, list[Path]]:
    """The shape with the paper right of a slash moved, and waiting slashes where the paper took them.

    `fills` are the new edges across the opening at the start and at the end of the
    slash, in the direction of travel; None draws a straight line.
    """
    halves = halved(shape, slash)
    moved = [item.moved(move) for item in halves.right]
    begin, finish = fills
    items = [
        *halves.left,
        *_across(halves.left[-1].end, moved[0].start, slash.start_side, begin),
        *moved,
        *_across(moved[-1].end, halves.left[0].start, slash.end_side, finish),
    ]
    area = region(Path.of((*outline_path(halves.right).segments, *Path.through(slash.end, slash.start).segments)))
    flags = carried(shape.inside, area)
    inside = tuple(t.moved(move) if f else t for t, f in zip(shape.inside, flags, strict=True))
    taken = carried([Inside("", path) for path in waiting], area)
    rest = [p.transformed(move) if there else p for p, there in zip(waiting, taken, strict=True)]
    return Shape(tuple(merged(items)), inside, shape.log), rest


def _across(start: Point, end: Point, name: str, drawn: Side | None) -> tuple[Side, ...]:
    if drawn is not None:
        return (drawn,)
    return () if start.distance(end) < _SHUT else (Side(name, Path.through(start, end)),)
