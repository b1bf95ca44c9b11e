"""The figures that prove the scale: two squares and ruler-like bars, true from outer edge to outer edge."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from app.pattern.drawing import GREY, Anchor, Face, Lettering, LineStyle, Pen
from app.pattern.drawing.curves import rectangle
from app.pattern.drawing.fonts import width_of
from app.pattern.geometry import Path, Point, Transform
from app.pattern.sheets.setting import fitted
from app.pattern.units import MM_PER, Unit, read_length, show_length

__all__ = [
    "BAR_DEEP",
    "READINGS_HIGH",
    "SHORT_BAR",
    "SQUARES_HIGH",
    "TOLERANCE",
    "BarReading",
    "bar_length",
    "both_units",
    "draw_bar_across",
    "draw_bar_down",
    "draw_check_squares",
    "draw_readings",
    "readings",
    "squares_wide",
]

_CM = 5.0 * MM_PER["cm"]
_INCH = 2.0 * MM_PER["in"]
_GAP = 6.0
#: The height of the higher square, mm.
SQUARES_HIGH = _INCH
#: How far the middle of a line lies inside the edge that is measured, so that its ink ends at that edge, mm.
_INSIDE = GREY.strokes[LineStyle.RULER].width / 2.0
_TICK, _LONG_TICK = 2.2, 3.0
#: How deep a bar is, mm.
BAR_DEEP = 6.0
#: Lengths of bars in mm, the longest first: what the rulers of a sewing room reach, 30 cm and 12 in (common practice).
_BARS = {
    Unit.CM: tuple(n * MM_PER["cm"] for n in (30.0, 20.0, 10.0)),
    Unit.INCH: tuple(n * MM_PER["in"] for n in (12.0, 8.0, 4.0)),
}
#: The bar that goes beside the squares on the narrowest paper, mm.
SHORT_BAR = {unit: lengths[-1] for unit, lengths in _BARS.items()}
#: From tick to tick in mm, and at which ticks there is a figure.
_TICKS = {Unit.CM: (MM_PER["cm"], 5), Unit.INCH: (MM_PER["in"] / 2.0, 4)}
#: How far off a bar may be in words: half a millimetre on 20 cm takes 2.5 mm off a girth of a metre.
TOLERANCE = {Unit.CM: "0.5\u00a0mm", Unit.INCH: "1/32\u00a0in"}
#: Common mishaps of printing as shares of the true size: Letter and A4 fitted on each other, margins kept free.
_MISHAPS = (0.94, 0.97, 0.99, 1.03)
_HEADS = ("If the long bar measures", "it was printed at", "if 100 % was set, set instead")
#: The room that `draw_readings` takes at an em of 1 mm, mm.
READINGS_HIGH = 3.0 * 1.32


#: Each unit's square: its side in mm, what it measures in words, and its ticks in mm.
_SQUARES = {Unit.CM: (_CM, "5 cm", MM_PER["cm"]), Unit.INCH: (_INCH, "2 in", MM_PER["in"] / 4.0)}


def draw_check_squares(pen: Pen, left: float, top: float, units: tuple[Unit, ...]) -> None:
    """The squares of some units side by side, their upper edges level; the pen must not scale."""
    for side, words, step in (_SQUARES[unit] for unit in units):
        _square(pen, Point(left, top), side, words, step)
        left += side + _GAP


def squares_wide(units: tuple[Unit, ...]) -> float:
    """The room that the squares of some units take side by side, mm."""
    return sum(_SQUARES[unit][0] + _GAP for unit in units) - _GAP


def both_units(first: Unit) -> tuple[Unit, ...]:
    """The reader's unit, then the other: she may have a ruler of either."""
    return (first, *(unit for unit in Unit if unit is not first))


def _frame(wide: float, high: float) -> Path:
    """A rectangle from the origin up whose ink ends at its true edges."""
    return rectangle(_INSIDE, _INSIDE, wide - _INSIDE, high - _INSIDE)


def _square(pen: Pen, corner: Point, side: float, words: str, step: float) -> None:
    place = Transform.move(corner.x, corner.y - side)
    ticks = [number * step for number in range(1, round(side / step))]
    lines = [_frame(side, side)]
    lines += [Path.through(Point(along, _INSIDE), Point(along, _TICK)) for along in ticks]
    lines += [Path.through(Point(_INSIDE, along), Point(_TICK, along)) for along in ticks]
    for line in lines:
        pen.line(line.transformed(place), LineStyle.RULER)
    middle = Point(corner.x + side / 2.0, corner.y - side / 2.0)
    pen.text(middle, words, Lettering(9.0, 0.0, Anchor.MIDDLE, Face.STRONG))
    for number, small in enumerate(("each side, from outer", "edge to outer edge")):
        at = middle.moved(0.0, -6.0 - 3.8 * number)
        pen.text(at, small, Lettering(3.0, 0.0, Anchor.MIDDLE, Face.PALE))


def bar_length(room: float, unit: Unit) -> float:
    """The longest bar, in mm, that goes into a room of that length; the shortest when none does."""
    return next((length for length in _BARS[unit] if length <= room), SHORT_BAR[unit])


def draw_bar_across(pen: Pen, left: float, top: float, length: float, unit: Unit) -> None:
    """A bar `length` mm from left to right, with its upper left corner at a place; the pen must not scale."""
    _bar(pen, Transform.move(left, top - BAR_DEEP), length, unit)


def draw_bar_down(pen: Pen, left: float, top: float, length: float, unit: Unit) -> None:
    """A bar `length` mm down the page, read from below, its upper left corner at a place; the pen must not scale."""
    turned = Transform.turn(pi / 2.0, Point(0.0, 0.0))
    _bar(pen, turned.then(Transform.move(left + BAR_DEEP, top - length)), length, unit)


def _bar(pen: Pen, place: Transform, length: float, unit: Unit) -> None:
    """A bar along +x from the origin, moved to its place: ticks, figures, and what it measures."""
    step, every = _TICKS[unit]
    pen.line(_frame(length, BAR_DEEP).transformed(place), LineStyle.RULER)
    for number in range(1, round(length / step)):
        x, named = number * step, number % every == 0
        tick = Path.through(Point(x, _INSIDE), Point(x, _LONG_TICK if named else _TICK))
        pen.line(tick.transformed(place), LineStyle.RULER)
        if named:
            lettering = Lettering(2.5, place.angle, Anchor.MIDDLE, Face.PALE)
            pen.text(place.apply(Point(x, _LONG_TICK + 0.6)), show_length(x, unit, named=False), lettering)
    words = f"{show_length(length, unit)} from outer edge to outer edge"
    em = fitted(words, 2.7, step * every - 5.0)
    pen.text(place.apply(Point(2.4, 3.0)), words, Lettering(em, place.angle))


@dataclass(frozen=True, slots=True)
class BarReading:
    """What the long bar measures when printed wrongly, the scale that this was, and the one that mends it, in words."""

    measured: str
    printed: str
    mend: str


def readings(length: float, unit: Unit) -> tuple[BarReading, ...]:
    """What a bar of that length (mm) measures after the common mishaps; per cent of what the figures say, rounded."""
    found = []
    for share in _MISHAPS:
        words = show_length(length * share, unit)
        scale = read_length(words, unit) / length
        found.append(BarReading(words, f"{100.0 * scale:.0f} %", f"{100.0 / scale:.0f} %"))
    return tuple(found)


def draw_readings(pen: Pen, corner: Point, width: float, size: float, rows: tuple[BarReading, ...]) -> None:
    """The readings as a small table of three lines with its upper left corner at a place, set in an em of `size` mm."""
    heads = max(width_of(words, size) for words in _HEADS)
    step = (width - heads) / len(rows)
    for number, words in enumerate(_HEADS):
        y = corner.y - (1.32 * number + 0.95) * size
        pen.text(Point(corner.x, y), words, Lettering(size))
        for across, row in enumerate(rows, start=1):
            cell = (row.measured, row.printed, row.mend)[number]
            at = Point(corner.x + heads + across * step, y)
            face = Face.STRONG if number == 0 else Face.REGULAR
            pen.text(at, cell, Lettering(fitted(cell, size, step - 2.0, face), 0.0, Anchor.END, face))
