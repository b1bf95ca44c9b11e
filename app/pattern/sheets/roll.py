"""The whole pattern on one sheet, for a copy shop's roll or a plotter."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import ceil
from pathlib import Path as FilePath
from types import MappingProxyType

from app.pattern.drawing import GREY, Face, Palette, PdfPen
from app.pattern.geometry import Box, Point, Transform
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Place, Problem, Refused
from app.pattern.sheets.artwork import Artwork, OnePattern, pattern_problems
from app.pattern.sheets.book import Book, draw_ply
from app.pattern.sheets.cover import CAUTION, draw_heading
from app.pattern.sheets.footprint import Ground, moved
from app.pattern.sheets.info import PrintInfo, PrintStyle, info_problems
from app.pattern.sheets.packing import Laid, pack
from app.pattern.sheets.plan import PlacedPiece
from app.pattern.sheets.raster import CLEAR, Tile
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
from app.pattern.sheets.setting import Column
from app.pattern.units import Unit, mm

__all__ = [
    "LONGEST",
    "ROLLS",
    "RollPlan",
    "least_roll",
    "plan_artwork_roll",
    "plan_roll",
    "write_roll_artwork",
    "write_roll_pdf",
]

#: A PDF page may not be longer than 14 400 units of 1/72 inch (ISO 32000-1:2008, annex C).
LONGEST = 14_400 / 72.0 * 25.4
MARGIN = 10.0
#: Width tried first when none is asked for: that of an A0 roll (ISO 216), mm.
USUAL_WIDTH = 841.0
#: Widths of common rolls and sheets in mm: ISO 216 A1 and A0 short sides, and rolls named by their inches.
ROLLS = MappingProxyType({"a1": 594.0, "a0": 841.0, "24in": 24 * 25.4, "36in": 36 * 25.4, "44in": 44 * 25.4})
#: Widths tried when the pieces are too many for the usual one: the widest roll, then as wide as a page may be, mm.
_WIDER = (ROLLS["44in"], LONGEST)
_STEP = 10.0
_HEADING, _TEXT = 108.0, 3.6
_WORDS = (
    "Print at 100\u00a0% (“actual size”), never “fit to page”. Before you cut, measure every bar and square from outer "
    "edge to outer edge. On the long bar {off} more or less is fine; if it is further off, cut nothing and print again."
)
#: Room beside the bar that runs down the page, and between the bar across and the squares, mm.
_BESIDE_BAR, _UNDER_BAR = 5.0, 3.0
_BOTH_SQUARES = squares_wide(tuple(Unit)) + 7.0
#: Widths in mm of the words beside the squares: the least, that at which the table of readings fits, and the most.
_LEAST_WORDS, _READINGS_WIDE, _MOST_WORDS = 62.0, 90.0, 130.0
#: What the heading needs between the margins, mm, and what it gets where the page may be as wide as it likes.
_LEAST_USABLE = _BOTH_SQUARES + _LEAST_WORDS + _BESIDE_BAR + BAR_DEEP
_GOOD_USABLE = _BOTH_SQUARES + _READINGS_WIDE + _BESIDE_BAR + BAR_DEEP


@dataclass(frozen=True, slots=True)
class RollPlan:
    """One page of `width` x `height` mm; `placed` leads from each piece's frame to the page's (lower left origin)."""

    width: float
    height: float
    placed: tuple[PlacedPiece, ...]
    style: PrintStyle = field(default_factory=PrintStyle)


def plan_roll(
    pattern: Pattern, width: float | None = None, *, tries: int = 20, style: PrintStyle | None = None
) -> RollPlan | Refused:
    """The pattern on one page as short as found: `width` mm wide, or as wide as the packed pieces when None."""
    if problems := pattern_problems(pattern):
        return Refused(problems)
    return plan_artwork_roll(OnePattern(pattern, None, style), width, tries=tries)


def least_roll(pattern: Pattern, style: PrintStyle | None = None) -> tuple[float, str]:
    """The width in mm of the narrowest sheet on which every piece goes, and the title of the piece that needs it."""
    titles = {piece.name: piece.title for piece in pattern.pieces}
    widest = max(OnePattern(pattern, None, style).grounds(), key=_least_side)
    return _needed(widest), titles[widest.piece]


def _needed(ground: Ground) -> float:
    return ceil(_least_side(ground) + 2.0 * CLEAR + 2.0 * MARGIN + 1.0)


def plan_artwork_roll(art: Artwork, width: float | None = None, *, tries: int = 20) -> RollPlan | Refused:
    """Any artwork on one page as short as found; its pieces must be fit to print."""
    grounds = art.grounds()
    if width is not None:
        return _on_roll(art, grounds, width, tries)
    usual = max(USUAL_WIDTH, *(_needed(ground) for ground in grounds))
    for wide in (usual, *(roll for roll in _WIDER if roll > usual)):
        plan = _on_roll(art, grounds, wide, tries)
        if not isinstance(plan, Refused):
            # The same page without what its pieces and its heading leave blank at the right
            ground = {g.piece: g.shape for g in grounds}
            right = max(moved(ground[placed.piece], placed.transform).bounds[2] for placed in plan.placed) - MARGIN
            return replace(plan, width=ceil(max(right + CLEAR, _GOOD_USABLE)) + 2.0 * MARGIN)
    return plan


def _on_roll(art: Artwork, grounds: tuple[Ground, ...], width: float, tries: int) -> RollPlan | Refused:
    """The artwork on a page of that width, mm."""
    usable = width - 2.0 * MARGIN
    if usable < _LEAST_USABLE:
        return Refused.of(
            Problem(
                code="sheets.roll-too-narrow",
                message=f"A sheet {width:g} mm wide has no room for the check squares.",
                fix=f"Choose a width of at least {ceil(_LEAST_USABLE + 2.0 * MARGIN)} mm.",
                where=Place(point="roll"),
            )
        )
    laid = pack(grounds, Tile(usable, _STEP), widths=1, tries=tries)
    if laid is None:
        return Refused.of(_too_wide(grounds, usable))
    plan = _as_page(laid, grounds, width, art.style)
    if max(plan.height, plan.width) > LONGEST:
        return Refused.of(_too_long(plan))
    return plan


def _least_side(ground: Ground) -> float:
    left, bottom, right, top = ground.shape.bounds
    return float(min(right - left, top - bottom))


def _as_page(laid: tuple[Laid, ...], grounds: tuple[Ground, ...], width: float, style: PrintStyle) -> RollPlan:
    ground = {g.piece: g.shape for g in grounds}
    low = min(moved(ground[one.piece], one.transform).bounds[1] for one in laid)
    high = ceil(-low + CLEAR) + _HEADING + 2.0 * MARGIN
    shift = Transform.move(MARGIN, high - MARGIN - _HEADING)
    places = {one.piece: PlacedPiece(one.piece, one.turns, one.transform.then(shift)) for one in laid}
    return RollPlan(width, high, tuple(places[g.piece] for g in grounds), style)


def _too_wide(grounds: tuple[Ground, ...], usable: float) -> Problem:
    widest = max(grounds, key=_least_side)
    need = _least_side(widest) + 2.0 * CLEAR
    return Problem(
        code="sheets.too-wide",
        message=f"{widest.piece} is {mm(need)} across and the sheet has {mm(usable)} between its margins.",
        fix=f"Choose a roll at least {mm(_needed(widest))} wide.",
        where=Place(piece=widest.piece),
    )


def _too_long(plan: RollPlan) -> Problem:
    wider, side = ", or choose a wider roll" if plan.width < LONGEST else "", max(plan.height, plan.width)
    return Problem(
        code="sheets.too-long",
        message=f"The whole pattern on one sheet would be {side / 1000.0:.2f} m long; a PDF page holds "
        f"{LONGEST / 1000.0:.2f} m.",
        fix=f"Use the sheets for a home printer{wider}.",
        where=Place(point="roll"),
    )


def write_roll_pdf(
    plan: RollPlan, pattern: Pattern, info: PrintInfo, path: FilePath, *, palette: Palette = GREY
) -> tuple[Problem, ...]:
    """Write the one-page PDF for a plan made from this pattern; returns warnings about the words on it, if any."""
    return write_roll_artwork(plan, OnePattern(pattern, info, plan.style), info, path, palette=palette)


def write_roll_artwork(
    plan: RollPlan, art: Artwork, info: PrintInfo, path: FilePath, *, palette: Palette = GREY
) -> tuple[Problem, ...]:
    """Write the one-page PDF of any artwork for the plan made from it; returns warnings about its words, if any."""
    book = Book(path, info, "Sewing pattern on one sheet, true to scale at 100 %", art.layers)
    pieces = tuple(f"piece {name}" for name, _ in art.pieces)
    pen = book.open_page(plan.width, plan.height, label="sheet", marks=("sheet", *pieces)).inked(palette)
    _draw_head(plan, info, pen)
    for placed in plan.placed:
        for ply in art.plies(placed.piece, (), placed.turns):
            draw_ply(book, pen.moved(placed.transform), ply)
    book.close_page()
    book.bookmark(f"{info.title}, whole", "sheet", under=((title, f"piece {name}") for name, title in art.pieces))
    book.close()
    return info_problems(info)


def _draw_head(plan: RollPlan, info: PrintInfo, pen: PdfPen) -> None:
    """The heading, the figures of the scale, and beside the squares how to print."""
    unit, top = info.unit, plan.height - MARGIN
    right = plan.width - MARGIN - BAR_DEEP
    draw_bar_down(pen, right, top, SHORT_BAR[unit], unit)
    room = Box(MARGIN, 0.0, right - _BESIDE_BAR, top)
    y = draw_heading(pen, room, info) - 4.0
    long_bar = bar_length(room.right - room.left, unit)
    draw_bar_across(pen, room.left, y, long_bar, unit)
    y -= BAR_DEEP + _UNDER_BAR
    draw_check_squares(pen, room.left, y, both_units(unit))
    column = Column(pen, room.left + _BOTH_SQUARES, y, min(_MOST_WORDS, room.right - room.left - _BOTH_SQUARES))
    column.line("Print it true", 4.6, Face.STRONG)
    column.paragraph(_WORDS.format(off=TOLERANCE[unit]), _TEXT)
    if column.width >= _READINGS_WIDE:
        column.space(1.0)
        draw_readings(pen, Point(column.left, column.y), column.width, _TEXT, readings(long_bar, unit))
        column.space(READINGS_HIGH * _TEXT + 1.0)
    column.paragraph(CAUTION, 3.1)
    assert min(column.y, y - SQUARES_HIGH, top - SHORT_BAR[unit]) >= top - _HEADING
