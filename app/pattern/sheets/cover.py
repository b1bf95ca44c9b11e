"""The first page: what this is, how to print it true, how the sheets go together, and what the lines mean."""

from __future__ import annotations

from app.pattern.drawing import Anchor, Face, Lettering, LineStyle, PdfPen
from app.pattern.drawing.fonts import width_of
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.sheets.artwork import Artwork, Sign
from app.pattern.sheets.info import Join, PrintInfo, PrintStyle
from app.pattern.sheets.joining_figure import JOINING_HIGH, JOINING_WIDE, draw_joining
from app.pattern.sheets.key import KEY_ROW, draw_key, key_entries, key_rows, sign_entries
from app.pattern.sheets.maps import draw_assembly_map
from app.pattern.sheets.plan import Sheet, SheetPlan
from app.pattern.sheets.scale_figures import (
    BAR_DEEP,
    READINGS_HIGH,
    SHORT_BAR,
    SQUARES_HIGH,
    TOLERANCE,
    bar_length,
    both_units,
    draw_bar_across,
    draw_bar_down,
    draw_check_squares,
    draw_readings,
    readings,
    squares_wide,
)
from app.pattern.sheets.setting import Column, fitted, fitted_lines, wrapped

__all__ = ["CAUTION", "draw_cover", "draw_heading", "page_list", "sheet_list"]

_TEXT, _HEAD, _CAUTION_TEXT = 3.6, 4.6, 3.1
#: How large the words are set against those on A4, at least and at most.
_SMALLEST, _LARGEST = 0.8, 2.6
_KEY_COLUMNS, _SIGN_COLUMNS = 2, 4
CAUTION = (
    "Shears, pins, machine and iron can hurt: keep them from children, mind your hands, and follow the makers' and "
    "your local safety rules. Test the scale before you cut cloth."
)
_PRINTING = (
    "Print this page first, at 100\u00a0% (“actual size”), never “fit to page”.",
    "Measure every bar and square from outer edge to outer edge. On the long bar {off} more or less is fine.",
    "If it is further off, cut nothing: set 100\u00a0%, or as the table says, and print and measure this page again.",
    "Print the other pages on {paper} at the same setting, one side only.",
)
#: Room between the long bar and the words beside it, and between the figures of the scale, mm.
_BESIDE_BAR, _UNDER_BAR = 5.0, 3.0
#: How wide the words beside the squares are at least, mm: on narrower paper the other unit's square is left out.
_LEAST_WORDS = 55.0
_ROUND = "A joint is right when its button is round and both halves carry the same names."
_JOINING = {
    Join.TRIM: "Cut along the right and lower line of a sheet, where the scissors are. Lay it over its neighbour’s "
    f"margin, line on line, and tape. {_ROUND}",
    Join.BUTT: "Cut or fold back every sheet along the lines where the scissors are. Push the edges together, line to "
    f"line without overlap, and tape from behind. {_ROUND}",
}
_LAYERS = "Print your size only: in your reader’s list of layers, switch the other sizes off."
_ONE_PIECE = "To print one piece only, print its pages."


def _rule(pen: PdfPen, left: float, right: float, y: float) -> None:
    pen.line(Path.through(Point(left, y), Point(right, y)), LineStyle.FURNITURE)


def draw_heading(pen: PdfPen, room: Box, info: PrintInfo) -> float:
    """Studio and order over a rule, then the garment's title and for whom; returns the height used down to."""
    left, _, right, top = room
    order = f"order {info.order_number}" if info.order_number else ""
    pen.text(Point(right, top - 3.4), order, Lettering(4.0, 0.0, Anchor.END, Face.REGULAR))
    em = fitted(info.studio, 4.0, right - left - width_of(order, 4.0) - 6.0, Face.STRONG)
    pen.text(Point(left, top - 3.4), info.studio, Lettering(em, 0.0, Anchor.START, Face.STRONG))
    _rule(pen, left, right, top - 5.6)
    size, lines = fitted_lines(info.title, 15.0, right - left, Face.STRONG)
    y = top - 8.5
    for line in lines:
        pen.text(Point(left - 0.06 * size, y - size * 0.8), line, Lettering(size, 0.0, face=Face.STRONG))
        y -= size * 1.12
    if info.customer:
        words = f"made to measure for {info.customer}"
        pen.text(Point(left, y - 5.0), words, Lettering(fitted(words, 5.4, right - left), 0.0))
        y -= 7.4
    return y


def draw_cover(plan: SheetPlan, art: Artwork, info: PrintInfo, pen: PdfPen) -> None:
    """The first page of a tiled pattern, on the sheets' paper, upright; the words as large as it has room for."""
    paper, scale = plan.paper.upright, _scale_for(plan)
    margin = paper.margin / scale
    long_bar = bar_length(paper.printable[1], info.unit)
    draw_bar_down(pen, paper.width - paper.margin - BAR_DEEP, paper.height - paper.margin, long_bar, info.unit)
    pen = pen.moved(Transform.scale(scale))
    right = paper.width / scale - margin - (BAR_DEEP + _BESIDE_BAR) / scale
    room = Box(margin, margin, right, paper.height / scale - margin)
    y = draw_heading(pen, room, info) - 5.0
    y = _printing(plan, (art, info), pen, Box(room.left, room.bottom, room.right, y)) - 2.0
    draw_readings(pen, Point(room.left, y), room.right - room.left, _TEXT, readings(long_bar, info.unit))
    y -= READINGS_HIGH * _TEXT + 4.0
    lines = len(wrapped(CAUTION, _CAUTION_TEXT, room.right - room.left, Face.ITALIC))
    foot = room.bottom + (10.5 + _key_high(plan.style, art.signs) + lines * 1.28 * _CAUTION_TEXT)
    _joining(plan, art, pen, Box(room.left, foot + 4.0, room.right, y))
    _foot(pen, Box(room.left, room.bottom, room.right, foot), plan.style, art.signs)


def _scale_for(plan: SheetPlan) -> float:
    """How large the words are set against those on A4 between the usual margins."""
    wide, high = plan.paper.upright.printable
    return min(max(_SMALLEST, min(wide / 190.0, high / 277.0)), _LARGEST)


def _printing(plan: SheetPlan, told: tuple[Artwork, PrintInfo], pen: PdfPen, room: Box) -> float:
    """The figures of the scale, true on any paper, and beside them how to print; returns the height used down to."""
    (art, info), scale = told, _scale_for(plan)
    true, left, top = pen.moved(Transform.scale(1.0 / scale)), room.left * scale, room.top * scale
    units, under = both_units(info.unit), room.top
    if room.right - room.left - squares_wide(units) / scale - 7.0 < _LEAST_WORDS:
        units, under = units[:1], room.top - (BAR_DEEP + _UNDER_BAR) / scale
    draw_bar_across(true, left, top, SHORT_BAR[info.unit], info.unit)
    draw_check_squares(true, left, top - BAR_DEEP - _UNDER_BAR, units)
    beside = room.left + squares_wide(units) / scale + 7.0
    column = Column(pen, beside, under, room.right - beside)
    column.line("Print it true", _HEAD, Face.STRONG)
    column.space(1.0)
    words = {"paper": plan.paper.title, "off": TOLERANCE[info.unit]}
    for number, line in enumerate((*_PRINTING, _LAYERS) if art.layers else _PRINTING, start=1):
        column.item(str(number), line.format(**words), _TEXT)
        column.space(0.7)
    return min(column.y, room.top - (BAR_DEEP + _UNDER_BAR + SQUARES_HIGH) / scale)


def _joining(plan: SheetPlan, art: Artwork, pen: PdfPen, room: Box) -> None:
    """How the sheets go together: words, the map, and which sheets hold which piece."""
    _rule(pen, room.left, room.right, room.top)
    column = Column(pen, room.left, room.top - 2.5, room.right - room.left)
    count = len(plan.sheets)
    sheets = f"{count} sheets" if count > 1 else "one sheet"
    column.line(f"Put {sheets} together", _HEAD, Face.STRONG)
    column.space(0.8)
    column.width -= JOINING_WIDE + 8.0
    draw_joining(pen, plan, Point(room.right - JOINING_WIDE, room.top - 4.0))
    column.paragraph(_JOINING[plan.join], _TEXT)
    column.y = min(column.y, room.top - 4.0 - JOINING_HIGH)
    column.space(3.0)
    list_wide = max(0.36 * (room.right - room.left), 62.0)
    map_room = Box(room.left, room.bottom, room.right - list_wide - 8.0, column.y)
    taken = draw_assembly_map(plan, art, pen, map_room)
    _piece_list(plan, art, pen, Box(taken.right + 8.0, room.bottom, room.right, column.y))


def _piece_list(plan: SheetPlan, art: Artwork, pen: PdfPen, room: Box) -> None:
    """Each piece with its sheets and pages, in as few columns as leave room for words of one size."""
    pen.text(Point(room.left, room.top - 2.6), _ONE_PIECE, Lettering(3.1, 0.0, face=Face.ITALIC))
    top, count = room.top - 6.5, len(art.pieces)
    columns = next((n for n in (1, 2) if (top - room.bottom) * n / count >= 9.5), 3)
    rows, wide = -(-count // columns), (room.right - room.left) / columns
    step = min(16.0, (top - room.bottom) / rows)
    held = {name: plan.sheets_of(name) for name, _ in art.pieces}
    told = {name: (sheet_list(sheets), page_list(plan, sheets)) for name, sheets in held.items()}
    size = min(3.8, step / 4.1, *(fitted(words, 3.8, wide - 4.0) for both in told.values() for words in both))
    for number, (name, title) in enumerate(art.pieces):
        across, down = divmod(number, rows)
        column = Column(pen, room.left + across * wide, top - down * step, wide - 4.0)
        column.line(title, min(3.8, 1.2 * size), Face.STRONG)
        for words in told[name]:
            column.line(words, size)


def page_list(plan: SheetPlan, sheets: tuple[Sheet, ...]) -> str:
    """The pages of the file that carry some sheets, as a print window takes them: `pages 2-4, 6`."""
    pages = [2 + plan.sheets.index(sheet) for sheet in sheets]
    runs: list[list[int]] = []
    for page in pages:
        if runs and runs[-1][-1] + 1 == page:
            runs[-1].append(page)
        else:
            runs.append([page])
    words = ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)
    return f"page {words}" if len(pages) == 1 else f"pages {words}"


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


def _key_high(style: PrintStyle, signs: tuple[Sign, ...]) -> float:
    return (key_rows(key_entries(style), _KEY_COLUMNS) + key_rows(signs, _SIGN_COLUMNS)) * KEY_ROW


def _foot(pen: PdfPen, room: Box, style: PrintStyle, signs: tuple[Sign, ...]) -> None:
    """The key to the lines, and the cautions."""
    _rule(pen, room.left, room.right, room.top)
    head = Column(pen, room.left, room.top - 2.0, room.right - room.left)
    head.line("What the lines mean", _HEAD, Face.STRONG)
    entries, own = key_entries(style), sign_entries(signs)
    draw_key(pen, Box(room.left, room.bottom, room.right, head.y), entries, _KEY_COLUMNS)
    below = head.y - key_rows(entries, _KEY_COLUMNS) * KEY_ROW
    draw_key(pen, Box(room.left, room.bottom, room.right, below), own, _SIGN_COLUMNS)
    foot = head.y - _key_high(style, signs) - 1.5
    Column(pen, room.left, foot, room.right - room.left).paragraph(CAUTION, _CAUTION_TEXT, Face.ITALIC)
