"""The first page: what this is, how to print it true, how the sheets go together, and what the lines mean."""

from __future__ import annotations

from app.pattern.drawing import Anchor, Face, Lettering, LineStyle, PdfPen
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.pieces.model import Pattern
from app.pattern.sheets.check_squares import SQUARES_HIGH, SQUARES_WIDE, draw_check_squares
from app.pattern.sheets.info import PrintInfo
from app.pattern.sheets.joining_figure import JOINING_HIGH, JOINING_WIDE, draw_joining
from app.pattern.sheets.key import KEY_ROW, draw_key, key_rows
from app.pattern.sheets.maps import draw_assembly_map
from app.pattern.sheets.plan import Sheet, SheetPlan
from app.pattern.sheets.setting import Column, fitted, wrapped

__all__ = ["CAUTION", "draw_cover", "draw_heading", "sheet_list"]

_TEXT, _HEAD, _CAUTION_TEXT = 3.6, 4.6, 3.1
_LARGEST = 2.6
_KEY_COLUMNS = 2
CAUTION = (
    "Shears, pins, machine and iron can hurt: keep them from children, mind your hands, and follow the makers' and "
    "your local safety rules. Test the scale before you cut cloth."
)
_PRINTING = (
    "Print this page first, at 100 % (“actual size”); never “fit to page”.",
    "Measure both squares along their sides. They must be exactly 5 cm and 2 in.",
    "If they are not, stop: set scaling to 100 % in the print window and print this page again.",
    "Print the other pages on {paper}, one side only.",
)
_JOINING = (
    "Cut along the right and lower line of a sheet, where the scissors are. Lay it over its neighbour’s margin, "
    "line on line, and tape. A joint is right when its button is round and both halves carry the same names."
)


def _rule(pen: PdfPen, left: float, right: float, y: float) -> None:
    pen.line(Path.through(Point(left, y), Point(right, y)), LineStyle.FURNITURE)


def draw_heading(pen: PdfPen, room: Box, info: PrintInfo) -> float:
    """Studio and order over a rule, then the garment's title and for whom; returns the height used down to."""
    left, _, right, top = room
    pen.text(Point(left, top - 3.4), info.studio, Lettering(4.0, 0.0, Anchor.START, Face.STRONG))
    order = f"order {info.order_number}" if info.order_number else ""
    pen.text(Point(right, top - 3.4), order, Lettering(4.0, 0.0, Anchor.END, Face.REGULAR))
    _rule(pen, left, right, top - 5.6)
    size = fitted(info.title, 15.0, right - left, Face.STRONG)
    pen.text(Point(left - 0.06 * size, top - 8.5 - size * 0.8), info.title, Lettering(size, 0.0, face=Face.STRONG))
    y = top - 8.5 - size * 1.12
    if info.customer:
        words = f"made to measure for {info.customer}"
        pen.text(Point(left, y - 5.0), words, Lettering(fitted(words, 5.4, right - left), 0.0))
        y -= 7.4
    return y


def draw_cover(plan: SheetPlan, pattern: Pattern, info: PrintInfo, pen: PdfPen) -> None:
    """The first page of a tiled pattern, on the sheets' paper; larger on large paper, but for the squares."""
    paper, scale = plan.paper, _scale_for(plan)
    pen, margin = pen.moved(Transform.scale(scale)), paper.margin / scale
    room = Box(margin, margin, paper.width / scale - margin, paper.height / scale - margin)
    y = draw_heading(pen, room, info) - 5.0
    y = _printing(plan, info, pen, Box(room.left, room.bottom, room.right, y)) - 5.0
    foot = room.bottom + _foot_height(room)
    _joining(plan, pattern, pen, Box(room.left, foot + 4.0, room.right, y))
    _foot(pen, Box(room.left, room.bottom, room.right, foot))


def _scale_for(plan: SheetPlan) -> float:
    """How much larger than on A4 the words are set."""
    wide, high = plan.paper.printable
    return min(max(1.0, min(wide / 196.0, high / 277.0)), _LARGEST)


def _printing(plan: SheetPlan, info: PrintInfo, pen: PdfPen, room: Box) -> float:
    """The check squares, true whatever the scale, and beside them how to print; returns the height used down to."""
    scale = _scale_for(plan)
    draw_check_squares(pen.moved(Transform.scale(1.0 / scale)), room.left * scale, room.top * scale, info.unit)
    left = room.left + SQUARES_WIDE / scale + 7.0
    column = Column(pen, left, room.top, room.right - left)
    column.line("Print it true", _HEAD, Face.STRONG)
    column.space(1.0)
    for number, words in enumerate(_PRINTING, start=1):
        column.item(str(number), words.format(paper=plan.paper.title), _TEXT)
        column.space(0.7)
    return min(column.y, room.top - SQUARES_HIGH / scale)


def _joining(plan: SheetPlan, pattern: Pattern, pen: PdfPen, room: Box) -> None:
    """How the sheets go together: words, the map, and which sheets hold which piece."""
    _rule(pen, room.left, room.right, room.top)
    column = Column(pen, room.left, room.top - 2.5, room.right - room.left)
    count = len(plan.sheets)
    sheets = f"{count} sheets" if count > 1 else "one sheet"
    column.line(f"Put {sheets} together", _HEAD, Face.STRONG)
    column.space(0.8)
    column.width -= JOINING_WIDE + 8.0
    draw_joining(pen, plan, Point(room.right - JOINING_WIDE, room.top - 4.0))
    column.paragraph(_JOINING, _TEXT)
    column.y = min(column.y, room.top - 4.0 - JOINING_HIGH)
    column.space(3.0)
    list_wide = min(70.0, 0.36 * (room.right - room.left))
    map_room = Box(room.left, room.bottom, room.right - list_wide - 8.0, column.y)
    taken = draw_assembly_map(plan, pattern, pen, map_room)
    _piece_list(plan, pattern, pen, Box(taken.right + 8.0, room.bottom, room.right, column.y))


def _piece_list(plan: SheetPlan, pattern: Pattern, pen: PdfPen, room: Box) -> None:
    """Each piece with its sheets, in as many columns as fit; the lines close up when there are many pieces."""
    short = len(pattern.pieces) * 9.0 <= room.top - room.bottom
    columns = 1 if short else max(1, min(2, int((room.right - room.left) / 50.0)))
    rows = -(-len(pattern.pieces) // columns)
    wide = (room.right - room.left) / columns
    step = min(12.0, (room.top - room.bottom) / rows)
    size = min(3.8, step / 2.6)
    for number, piece in enumerate(pattern.pieces):
        across, down = divmod(number, rows)
        column = Column(pen, room.left + across * wide, room.top - down * step, wide - 4.0)
        column.line(piece.title, size, Face.STRONG)
        column.line(sheet_list(plan.sheets_of(piece.name)), size * 0.95)


def sheet_list(sheets: tuple[Sheet, ...]) -> str:
    """Sheets by name, runs in a row drawn together: `A1–A3, B2`."""
    runs: list[list[Sheet]] = []
    for sheet in sheets:
        last = runs[-1][-1] if runs else None
        if last is not None and (last.row, last.column + 1) == (sheet.row, sheet.column):
            runs[-1].append(sheet)
        else:
            runs.append([sheet])
    return ", ".join(run[0].name if len(run) == 1 else f"{run[0].name}–{run[-1].name}" for run in runs)


def _foot_height(room: Box) -> float:
    lines = len(wrapped(CAUTION, _CAUTION_TEXT, room.right - room.left, Face.ITALIC))
    return 10.5 + key_rows(_KEY_COLUMNS) * KEY_ROW + lines * 1.28 * _CAUTION_TEXT


def _foot(pen: PdfPen, room: Box) -> None:
    """The key to the lines, and the cautions."""
    _rule(pen, room.left, room.right, room.top)
    head = Column(pen, room.left, room.top - 2.0, room.right - room.left)
    head.line("What the lines mean", _HEAD, Face.STRONG)
    draw_key(pen, Point(room.left, head.y), room.right - room.left, _KEY_COLUMNS)
    column = Column(pen, room.left, head.y - key_rows(_KEY_COLUMNS) * KEY_ROW - 1.5, room.right - room.left)
    column.paragraph(CAUTION, _CAUTION_TEXT, Face.ITALIC)
