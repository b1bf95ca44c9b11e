"""The key to the lines: each kind drawn as it is on the pieces, with its meaning."""

from __future__ import annotations

from collections.abc import Callable

from app.pattern.drawing import Anchor, Face, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.arrows import arrow_head
from app.pattern.drawing.curves import ring
from app.pattern.geometry import Path, Point

__all__ = ["KEY_ROW", "draw_key", "key_rows"]

_LONG = 15.0
#: Height of one row of the key, mm.
KEY_ROW = 6.2


def _plain(style: LineStyle) -> Callable[[Pen, Point], None]:
    def draw(pen: Pen, at: Point) -> None:
        pen.line(Path.through(at, at.moved(_LONG, 0.0)), style)

    return draw


def _grain(pen: Pen, at: Point) -> None:
    end = at.moved(_LONG, 0.0)
    pen.line(Path.through(at, end), LineStyle.GRAIN)
    arrow_head(at, end, pen, 4.0)
    arrow_head(end, at, pen, 4.0)


def _notches(pen: Pen, at: Point) -> None:
    pen.line(Path.through(at.moved(0.0, 1.6), at.moved(_LONG, 1.6)), LineStyle.CUTTING)
    for x in (3.0, 9.5, 12.0):
        pen.line(Path.through(at.moved(x, 1.6), at.moved(x, -1.6)), LineStyle.NOTCH)


def _dart(pen: Pen, at: Point) -> None:
    tip = at.moved(_LONG - 1.0, 0.0)
    for y in (2.0, -2.0):
        pen.line(Path.through(at.moved(0.0, y), tip), LineStyle.DART)
    pen.line(Path.through(at, tip), LineStyle.DART_FOLD)
    pen.fill(ring(tip, 0.9), FillStyle.INK)


def _lengthen(pen: Pen, at: Point) -> None:
    for y in (1.2, -1.2):
        pen.line(Path.through(at.moved(0.0, y), at.moved(_LONG, y)), LineStyle.LENGTHEN)


_KEY: tuple[tuple[Callable[[Pen, Point], None], str], ...] = (
    (_plain(LineStyle.CUTTING), "cut here: allowances are included"),
    (_plain(LineStyle.STITCHING), "stitch here"),
    (_plain(LineStyle.FOLD), "fold: place on folded cloth, or fold here"),
    (_grain, "grain: parallel to the selvedge"),
    (_notches, "notches: snip; single and double meet their like"),
    (_dart, "dart: legs, fold and point"),
    (_lengthen, "lengthen or shorten here"),
    (_plain(LineStyle.GATHER), "gather between the ends"),
)


def key_rows(columns: int) -> int:
    """How many rows the key has when set in so many columns."""
    return -(-len(_KEY) // columns)


def draw_key(pen: Pen, corner: Point, width: float, columns: int) -> None:
    """The key in columns, its top left corner at a place."""
    rows, wide = key_rows(columns), width / columns
    for number, (draw, words) in enumerate(_KEY):
        column, row = divmod(number, rows)
        at = corner.moved(column * wide, -(row + 0.5) * KEY_ROW)
        draw(pen, at)
        pen.text(at.moved(_LONG + 3.0, -1.1), words, Lettering(3.3, 0.0, Anchor.START, Face.REGULAR))
