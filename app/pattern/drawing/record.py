"""Pens that draw nothing: one remembers, one measures the box of the ink."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, sin

from app.pattern.drawing.fonts import CAP_HEIGHT, width_of
from app.pattern.drawing.pen import Anchor, FillStyle, Lettering, LineStyle, Pen
from app.pattern.geometry import Box, Path, Point, Transform

__all__ = [
    "BoundsPen",
    "Filled",
    "Lined",
    "Drawn",
    "RecordPen",
    "Said",
    "box_of_points",
    "join_boxes",
    "replay",
    "text_corners",
]


@dataclass(frozen=True, slots=True)
class Lined:
    """A line that was drawn."""

    path: Path
    style: LineStyle

    @property
    def bounds(self) -> Box:
        """The box round its middle line, mm."""
        return self.path.bounds


@dataclass(frozen=True, slots=True)
class Filled:
    """A shape that was filled."""

    path: Path
    style: FillStyle

    @property
    def bounds(self) -> Box:
        """The box round it, mm."""
        return self.path.bounds


@dataclass(frozen=True, slots=True)
class Said:
    """Words that were set."""

    at: Point
    words: str
    lettering: Lettering

    @property
    def bounds(self) -> Box:
        """The box round the words, mm."""
        return box_of_points(text_corners(self.at, self.words, self.lettering))


Drawn = Lined | Filled | Said


def text_corners(at: Point, words: str, lettering: Lettering) -> tuple[Point, Point, Point, Point]:
    """The four corners of the words' box (descender to a little over the capitals), anticlockwise, mm."""
    wide = width_of(words, lettering.size, lettering.face)
    back = {Anchor.START: 0.0, Anchor.MIDDLE: wide / 2.0, Anchor.END: wide}[lettering.anchor]
    low, high = -0.22 * lettering.size, (CAP_HEIGHT + 0.06) * lettering.size
    c, s = cos(lettering.angle), sin(lettering.angle)
    corners = ((-back, low), (wide - back, low), (wide - back, high), (-back, high))
    one, two, three, four = (Point(at.x + c * x - s * y, at.y + s * x + c * y) for x, y in corners)
    return one, two, three, four


def box_of_points(points: Iterable[Point]) -> Box:
    """The smallest upright box round some points."""
    places = tuple(points)
    xs, ys = [p.x for p in places], [p.y for p in places]
    return Box(min(xs), min(ys), max(xs), max(ys))


def join_boxes(boxes: Iterable[Box]) -> Box:
    """The smallest box round some boxes; there must be one at least."""
    some = tuple(boxes)
    return Box(
        min(b.left for b in some), min(b.bottom for b in some), max(b.right for b in some), max(b.top for b in some)
    )


class RecordPen:
    """Remembers everything in order, to be tested or drawn again."""

    def __init__(self) -> None:
        """Start with nothing drawn."""
        self.marks: list[Drawn] = []

    def line(self, path: Path, style: LineStyle) -> None:
        """Remember a line."""
        self.marks.append(Lined(path, style))

    def fill(self, path: Path, style: FillStyle) -> None:
        """Remember a filled shape."""
        self.marks.append(Filled(path, style))

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Remember words."""
        self.marks.append(Said(at, words, lettering))

    def lines(self, style: LineStyle) -> tuple[Path, ...]:
        """The paths drawn in a style, in order."""
        return tuple(m.path for m in self.marks if isinstance(m, Lined) and m.style is style)

    def words(self) -> tuple[str, ...]:
        """All words set, in order."""
        return tuple(m.words for m in self.marks if isinstance(m, Said))


def replay(marks: Iterable[Drawn], pen: Pen) -> None:
    """Draw remembered marks with another pen."""
    for mark in marks:
        if isinstance(mark, Lined):
            pen.line(mark.path, mark.style)
        elif isinstance(mark, Filled):
            pen.fill(mark.path, mark.style)
        else:
            pen.text(mark.at, mark.words, mark.lettering)


class BoundsPen:
    """Measures the box round the ink (lines' own width not counted), after a transform."""

    def __init__(self, transform: Transform | None = None) -> None:
        """Measure in the frame that `transform` leads to; the drawing's own by default."""
        self.box: Box | None = None
        self._transform = transform or Transform()

    def line(self, path: Path, style: LineStyle) -> None:
        """Take in a line."""
        self._take(path.transformed(self._transform).bounds)

    def fill(self, path: Path, style: FillStyle) -> None:
        """Take in a filled shape."""
        self._take(path.transformed(self._transform).bounds)

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Take in words."""
        self._take(box_of_points(self._transform.apply(c) for c in text_corners(at, words, lettering)))

    def _take(self, box: Box) -> None:
        self.box = box if self.box is None else join_boxes((self.box, box))
