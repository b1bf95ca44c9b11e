"""The values of pattern work: a shape with its named sides, its darts, and what lies inside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.kinds import DartShape
from app.pattern.drafting.shapes.folded import Folds, taken_in, turned
from app.pattern.geometry import Path, Point, Transform
from app.pattern.names import part_named
from app.pattern.units import mm

__all__ = ["Change", "Inside", "Item", "Shape", "ShapeDart", "Side", "outline_path", "trace"]

#: Ends that lie nearer than this (mm) are one corner of the outline.
CORNER = 0.05


@dataclass(frozen=True, slots=True)
class Side:
    """One named side, its path in the direction of travel round the shape (anticlockwise).

    `folds` are the stretches of it that pleats and tucks fold away before it is sewn.
    """

    name: str
    path: Path
    folds: Folds = ()

    @property
    def taken_in(self) -> float:
        """The length that its folds take away, mm."""
        return taken_in(self.folds)

    def moved(self, transform: Transform) -> Side:
        """The side after a move of the paper."""
        return replace(self, path=self.path.transformed(transform))

    @property
    def start(self) -> Point:
        """Where travel along it starts."""
        return self.path.start

    @property
    def end(self) -> Point:
        """Where travel along it ends."""
        return self.path.end


@dataclass(frozen=True, slots=True)
class ShapeDart:
    """A dart between two sides; its mouth goes from `dart.a` to `dart.b` in the direction of travel."""

    name: str
    dart: DartShape

    def moved(self, transform: Transform) -> ShapeDart:
        """The dart after a move of the paper; what it keeps clear of moves with it."""
        d = self.dart
        clear = transform.apply(d.clear_of) if d.clear_of is not None else None
        points = (transform.apply(d.a), transform.apply(d.tip), transform.apply(d.b))
        return replace(self, dart=DartShape(*points, d.pressed, clear, d.clear_by))

    @property
    def start(self) -> Point:
        """Where travel round the outline reaches the dart."""
        return self.dart.a

    @property
    def end(self) -> Point:
        """Where travel goes on after the dart."""
        return self.dart.b


Item = Side | ShapeDart


@dataclass(frozen=True, slots=True)
class Inside:
    """A point or path inside the shape, by the name it has on the sheet. `kind` is free for marks such as "fold"."""

    name: str
    what: Point | Path
    kind: str = ""

    def moved(self, transform: Transform) -> Inside:
        """The same after a move of the paper."""
        if isinstance(self.what, Path):
            return replace(self, what=self.what.transformed(transform))
        return replace(self, what=transform.apply(self.what))


@dataclass(frozen=True, slots=True)
class Change:
    """A length in mm that pattern work changed; None before it was there or after it is gone.

    `measure` is "length" of a side on paper, or "mouth" or "legs" of a dart. `folded` is
    the length of a side once its pleats and tucks are folded, where it has any.
    """

    name: str
    measure: str
    before: float | None
    after: float | None
    folded: float | None = None


@dataclass(frozen=True, slots=True)
class Shape:
    """A closed outline, anticlockwise: each item starts where the one before it ends. `log` tells all work on it."""

    items: tuple[Item, ...]
    inside: tuple[Inside, ...] = ()
    log: tuple[Change, ...] = ()

    def find(self, name: str) -> Side | ShapeDart | Inside:
        """The side, dart or inside thing of that name; CannotDraw when there is none."""
        things = {thing.name: thing for thing in reversed((*self.items, *self.inside))}
        if (meant := part_named(name, things)) is not None:
            return things[meant]
        names = ", ".join(thing.name for thing in (*self.items, *self.inside))
        raise CannotDraw("drafting.not-on-shape", f"This shape has no “{name}”.", f"It has: {names}.")

    def side(self, name: str) -> Side:
        """The side of that name."""
        found = self.find(name)
        if not isinstance(found, Side):
            raise CannotDraw("drafting.not-a-side", f"“{name}” is no side of this shape.", "Name one of its sides.")
        return found

    def dart(self, name: str) -> ShapeDart:
        """The dart of that name."""
        found = self.find(name)
        if not isinstance(found, ShapeDart):
            raise CannotDraw("drafting.not-a-dart", f"“{name}” is no dart of this shape.", "Name one of its darts.")
        return found

    def moved(self, transform: Transform) -> Shape:
        """The whole shape moved, turned or mirrored; a mirrored one is walked the other way, to stay anticlockwise."""
        items = tuple(item.moved(transform) for item in self.items)
        inside = tuple(thing.moved(transform) for thing in self.inside)
        if transform.flips:
            items = tuple(turned_round(item) for item in reversed(items))
        return Shape(items, inside, self.log)

    def noted(self, changes: Iterable[Change]) -> Shape:
        """The shape with more in its log."""
        return replace(self, log=(*self.log, *changes))

    def from_item(self, index: int) -> tuple[Item, ...]:
        """All items in order, beginning with the one at `index`."""
        return (*self.items[index:], *self.items[:index])


def turned_round(item: Item) -> Item:
    """The item walked the other way."""
    if isinstance(item, Side):
        return replace(item, path=item.path.reversed(), folds=turned(item.folds, item.path.length))
    d = item.dart
    return replace(item, dart=DartShape(d.b, d.tip, d.a, d.pressed, d.clear_of, d.clear_by))


def outline_path(items: Sequence[Item]) -> Path:
    """The outline of items that follow one another, darts crossed at their mouths."""
    segments = [s for item in items for s in _edge(item).segments]
    return Path.of(segments)


def _edge(item: Item) -> Path:
    return item.path if isinstance(item, Side) else Path.through(item.dart.a, item.dart.b)


def trace(items: Sequence[tuple[str, Path | DartShape]], inside: Sequence[tuple[str, Point | Path]]) -> Shape:
    """A shape from named paths and darts listed in order round it, either way, each drawn in either direction.

    Raises CannotDraw naming the two neighbours when the outline has a gap.
    """
    if len(items) < 2:
        raise CannotDraw("drafting.trace", "A shape needs at least two sides.", "List all its sides in order.")
    ordered = [Side(name, what) if isinstance(what, Path) else ShapeDart(name, what) for name, what in items]
    ordered = list(_chained(ordered))
    if outline_path(ordered).signed_area < 0.0:
        ordered = [turned_round(item) for item in reversed(ordered)]
    return Shape(tuple(ordered), tuple(Inside(name, what) for name, what in inside))


def _chained(items: list[Item]) -> Iterator[Item]:
    """The items each turned so that it starts where the one before it ends."""
    first, second = items[0], items[1]
    ends = (second.start, second.end)
    if min(map(first.start.distance, ends)) < min(map(first.end.distance, ends)):
        first = turned_round(first)
    yield first
    at = first.end
    previous = first
    for item in items[1:]:
        item = item if at.distance(item.start) <= at.distance(item.end) else turned_round(item)
        _meets(previous, item)
        yield item
        at, previous = item.end, item
    _meets(previous, first)


def _meets(before: Item, after: Item) -> None:
    gap = before.end.distance(after.start)
    if gap > CORNER:
        raise CannotDraw(
            "drafting.trace-gap",
            f"Between “{before.name}” and “{after.name}” the outline has a gap of {mm(gap)}.",
            "List the sides in order round the shape, each meeting the next.",
        )
