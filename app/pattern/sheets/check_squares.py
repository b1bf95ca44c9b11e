"""The two squares that prove the scale: 5 cm and 2 in, drawn true."""

from __future__ import annotations

from app.pattern.drawing import Anchor, Face, Lettering, LineStyle, Pen
from app.pattern.drawing.curves import rectangle
from app.pattern.geometry import Path, Point
from app.pattern.units import MM_PER, Unit

__all__ = ["SQUARES_HIGH", "SQUARES_WIDE", "draw_check_squares"]

_CM = 5.0 * MM_PER["cm"]
_INCH = 2.0 * MM_PER["in"]
_GAP = 6.0
#: The room both squares take side by side, mm.
SQUARES_WIDE, SQUARES_HIGH = _CM + _GAP + _INCH, _INCH


def draw_check_squares(pen: Pen, left: float, top: float, unit: Unit) -> None:
    """Both squares with their upper edges level, the reader's unit first; the pen must not scale."""
    squares = [(_CM, "5 cm", MM_PER["cm"]), (_INCH, "2 in", MM_PER["in"] / 4.0)]
    for side, words, step in squares if unit is Unit.CM else reversed(squares):
        _square(pen, Point(left, top), side, words, step)
        left += side + _GAP


def _square(pen: Pen, corner: Point, side: float, words: str, step: float) -> None:
    bottom, right = corner.y - side, corner.x + side
    pen.line(rectangle(corner.x, bottom, right, corner.y), LineStyle.RULER)
    for number in range(1, round(side / step)):
        along = number * step
        pen.line(Path.through(Point(corner.x + along, bottom), Point(corner.x + along, bottom + 2.2)), LineStyle.RULER)
        pen.line(Path.through(Point(corner.x, bottom + along), Point(corner.x + 2.2, bottom + along)), LineStyle.RULER)
    middle = Point(corner.x + side / 2.0, corner.y - side / 2.0)
    pen.text(middle, words, Lettering(9.0, 0.0, Anchor.MIDDLE, Face.STRONG))
    pen.text(middle.moved(0.0, -6.0), "each side, edge to edge", Lettering(3.0, 0.0, Anchor.MIDDLE, Face.PALE))
