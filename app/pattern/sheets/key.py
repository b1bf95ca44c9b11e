"""The key to the lines: each kind drawn as it is on the pieces, with its meaning."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from app.pattern.drawing import (
    Anchor,
    Face,
    FillStyle,
    Lettering,
    Lines,
    LineStyle,
    NotchWay,
    PdfPen,
    Pen,
    RecordPen,
    replay,
)
from app.pattern.drawing.arrows import arrow_head
from app.pattern.drawing.curves import rectangle, ring
from app.pattern.geometry import Box, Path, Point
from app.pattern.sheets.artwork import Sign
from app.pattern.sheets.info import PrintStyle
from app.pattern.sheets.setting import fitted

__all__ = ["KEY_ROW", "Draw", "draw_key", "key_entries", "key_rows", "sign_entries"]

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


Draw = Callable[[Pen, Point], None]
_CUT_HERE = {
    Lines.BOTH: "cut here: allowances are included",
    Lines.CUTTING: "cut here: allowances are included",
    Lines.STITCHING: "stitch here: add an allowance of your own before you cut",
}
_REST: tuple[tuple[Draw, str], ...] = (
    (_plain(LineStyle.FOLD), "fold: place on folded cloth, or fold here"),
    (_grain, "grain: parallel to the selvedge"),
    (_notches, "notches: snip; single and double meet their like"),
    (_dart, "dart: legs, fold and point"),
    (_lengthen, "lengthen or shorten here"),
    (_plain(LineStyle.GATHER), "gather between the ends"),
)


def key_entries(style: PrintStyle) -> tuple[tuple[Draw, str], ...]:
    """What the key shows of every pattern: the lines as they are drawn in a style."""
    stitch = ((_plain(LineStyle.STITCHING), "stitch here"),) if style.lines is Lines.BOTH else ()
    rest = tuple((_wedges, "notches: cut round them") if entry[0] is _notches else entry for entry in _REST)
    return (
        (_plain(LineStyle.CUTTING), _CUT_HERE[style.lines]),
        *stitch,
        *(rest if style.notches is NotchWay.OUT else _REST),
    )


def sign_entries(signs: tuple[Sign, ...]) -> tuple[tuple[Draw, str], ...]:
    """What the key shows of one artwork besides: its sizes and fabrics."""
    return tuple((_sign(sign), sign.words) for sign in signs)


def _wedges(pen: Pen, at: Point) -> None:
    """A cutting line with the notches standing on it."""
    foot = at.moved(0.0, -1.2)
    corners = [foot, *(foot.moved(x, y) for x, y in ((3.0, 0.0), (4.6, 2.6), (6.2, 0.0), (_LONG, 0.0)))]
    pen.line(Path.through(*corners), LineStyle.CUTTING)


def _sign(sign: Sign) -> Draw:
    def draw(pen: Pen, at: Point) -> None:
        record = RecordPen()
        if isinstance(sign.style, FillStyle):
            patch = rectangle(at.x, at.y - 1.8, at.x + _LONG, at.y + 1.8)
            record.fill(patch, sign.style)
            record.line(patch, LineStyle.MINIATURE)
        else:
            record.line(Path.through(at, at.moved(_LONG, 0.0)), sign.style)
        replay(record.marks, pen.inked(sign.palette) if sign.palette and isinstance(pen, PdfPen) else pen)

    return draw


def key_rows(entries: Sequence[object], columns: int) -> int:
    """How many rows the key has when set in so many columns."""
    return -(-len(entries) // columns)


def draw_key(pen: Pen, room: Box, entries: tuple[tuple[Draw, str], ...], columns: int) -> None:
    """The key in columns from the top left corner of a room, its words fitted to the columns."""
    rows, wide = key_rows(entries, columns), (room.right - room.left) / columns
    for number, (draw, words) in enumerate(entries):
        column, row = divmod(number, rows)
        at = Point(room.left + column * wide, room.top - (row + 0.5) * KEY_ROW)
        draw(pen, at)
        size = fitted(words, 3.3, wide - _LONG - 5.0)
        pen.text(at.moved(_LONG + 3.0, -1.1), words, Lettering(size, 0.0, Anchor.START, Face.REGULAR))
