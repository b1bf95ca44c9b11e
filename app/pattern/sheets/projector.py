"""The pattern for a projector: one page without margins, strong lines, a large grid, pieces well apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import atan2, ceil, floor, pi
from pathlib import Path as FilePath

from shapely import get_coordinates

from app.pattern.drawing import GREY, DrawingLook, Face, LineStyle, Palette, PdfPen, Stroke, piece_marks
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.problem import Place, Problem, Refused
from app.pattern.sheets.artwork import Ply, pattern_problems
from app.pattern.sheets.book import Book, draw_ply
from app.pattern.sheets.footprint import Ground, ground_of
from app.pattern.sheets.info import PrintInfo, PrintStyle, info_problems, look_of
from app.pattern.sheets.roll import LONGEST
from app.pattern.sheets.setting import Column, wrapped
from app.pattern.units import MM_PER, Unit, show_length

__all__ = ["PROJECTOR", "ProjectorPlan", "plan_projector", "write_projector_pdf"]

#: Room between pieces and to the page's edge, mm.
APART = 60.0
#: A projected picture is about so many times as wide as high (16:10; common practice).
_SHAPE = 1.6
#: Letters and lines against those on paper: they are read from a table's length away.
_LARGER, _STRONGER = 2.2, 3.0
_ORIGIN = Point(0.0, 0.0)
_GRID_LAYER, _PIECES_LAYER, _WORDS_LAYER = "Grid", "Pieces", "Words"
#: The em of the words along the lower edge, mm: the largest, and the step by which it shrinks until they fit.
_WORDS_SIZE, _WORDS_STEP, _FROM_EDGE = 10.0, 0.5, 6.0
_SET_TRUE = (
    "The grid has {squares}, from the middle of one line to the middle of the next. Before you cut, measure it along "
    "and across, in the middle of the table and at its ends; measure again after each bump."
)
_SQUARES = {
    Unit.CM: "squares of 10\u00a0cm and a strong line every 50\u00a0cm",
    Unit.INCH: "squares of 4\u00a0in and a strong line every 20\u00a0in",
}
#: Common practice with any projector; its maker's handbook goes before.
_CAUTION = (
    "Never look into the lens or the beam, and keep children out of it. Fasten the projector, its stand and its "
    "cables, so that nobody trips over them or pulls them down. These are the usual cautions: follow the maker's "
    "handbook."
)


def _projector_palette() -> Palette:
    strong = GREY.darker().thicker(_STRONGER)
    grid = {LineStyle.FURNITURE: Stroke(0.7, 0.35), LineStyle.JOINT: Stroke(1.4, 0.5)}
    return replace(strong, strokes={**strong.strokes, **grid})


PROJECTOR = _projector_palette()


@dataclass(frozen=True, slots=True)
class _Spot:
    """A piece turned so that its grain runs along the page, and its size and lower left corner, mm."""

    piece: Piece
    turn: Transform
    ground: Ground
    wide: float
    high: float
    corner: Point = _ORIGIN


@dataclass(frozen=True, slots=True)
class ProjectorPlan:
    """The pieces on one page of `width` x `height` mm, whole squares of the grid in the reader's unit."""

    width: float
    height: float
    spots: tuple[_Spot, ...]
    style: PrintStyle = field(default_factory=PrintStyle)


def plan_projector(pattern: Pattern, info: PrintInfo, style: PrintStyle | None = None) -> ProjectorPlan | Refused:
    """Where the pieces lie on the page, or why they do not go on one.

    Every grain line runs along the page, as the cloth lies on the table.
    """
    if problems := pattern_problems(pattern):
        return Refused(problems)
    chosen, unit = style or PrintStyle(), info.unit
    look = _look(pattern, info, chosen)
    spots, wide, high = _spread([_turned(piece, ground_of(piece, look)) for piece in pattern.pieces], unit)
    if max(wide, high) > LONGEST:
        return Refused.of(_too_large(spots, max(wide, high), unit))
    return ProjectorPlan(wide, high, spots, chosen)


def _look(pattern: Pattern, info: PrintInfo, style: PrintStyle) -> DrawingLook:
    return replace(look_of(pattern, info, style), scale=_LARGER)


def write_projector_pdf(plan: ProjectorPlan, pattern: Pattern, info: PrintInfo, path: FilePath) -> tuple[Problem, ...]:
    """Write the projector file for a plan made from this pattern; returns warnings about the words on it, if any.

    The grid is of 10 cm, or of 4 in for those who read inches; grid, pieces and words are layers of their own.
    """
    look = _look(pattern, info, plan.style)
    layers = (_GRID_LAYER, _PIECES_LAYER, _WORDS_LAYER)
    book = Book(path, info, "Sewing pattern for a projector, true to scale", layers)
    names = tuple(f"piece {piece.name}" for piece in pattern.pieces)
    pen = book.open_page(plan.width, plan.height, label="projector", marks=("all", *names)).inked(PROJECTOR)
    with book.layer(_GRID_LAYER):
        _draw_grid(pen, plan.width, plan.height, info.unit)
    with book.layer(_WORDS_LAYER):
        _draw_words(pen, plan.width, info.unit)
    for spot in plan.spots:
        marks = piece_marks(spot.piece, replace(look, upright=round(-spot.turn.angle / (pi / 2.0)) * pi / 2.0))
        draw_ply(book, pen.moved(_place(spot)), Ply(marks, _PIECES_LAYER))
    book.close_page()
    book.bookmark("All pieces", "all", under=((piece.title, f"piece {piece.name}") for piece in pattern.pieces))
    book.close()
    return info_problems(info)


def _turned(piece: Piece, ground: Ground) -> _Spot:
    """The piece with its grain along the page."""
    way = piece.grain.end.minus(piece.grain.start)
    turn = Transform.turn(-atan2(way.y, way.x), _ORIGIN)
    points = [turn.apply(Point(x, y)) for x, y in get_coordinates(ground.shape)]
    left, bottom = min(p.x for p in points), min(p.y for p in points)
    wide, high = max(p.x for p in points) - left, max(p.y for p in points) - bottom
    return _Spot(piece, turn.then(Transform.move(-left, -bottom)), ground, wide, high)


def _place(spot: _Spot) -> Transform:
    return spot.turn.then(Transform.move(spot.corner.x, spot.corner.y))


def _spread(spots: Sequence[_Spot], unit: Unit) -> tuple[tuple[_Spot, ...], float, float]:
    """The pieces in rows, the page's width and height in whole squares of the grid, shaped as projectors show it.

    What does not go on one page in that shape may do so in another.
    """
    in_order = sorted(spots, key=lambda spot: -spot.high)
    widths = [sum(s.wide + APART for s in in_order[: n + 1]) + APART for n in range(len(in_order))]
    least = max(s.wide for s in in_order) + 2.0 * APART
    tried = [_rows(in_order, max(least, wide)) for wide in widths]
    step = _grid(unit)
    most = floor(LONGEST / step) * step
    rows, wide, high = min(tried, key=lambda one: (max(one[1:]) > most, max(one[1] / _SHAPE, one[2])))
    return rows, ceil(wide / step) * step, ceil(high / step) * step


def _rows(spots: Sequence[_Spot], width: float) -> tuple[tuple[_Spot, ...], float, float]:
    placed: list[_Spot] = []
    left, bottom, deep, right = APART, APART, 0.0, 0.0
    for spot in spots:
        if left > APART and left + spot.wide + APART > width + 1e-6:
            left, bottom, deep = APART, bottom + deep + APART, 0.0
        placed.append(replace(spot, corner=Point(left, bottom)))
        left, deep = left + spot.wide + APART, max(deep, spot.high)
        right = max(right, left)
    return tuple(placed), right, bottom + deep + APART


def _grid(unit: Unit) -> float:
    return 10.0 * MM_PER["cm"] if unit is Unit.CM else 4.0 * MM_PER["in"]


def _draw_grid(pen: PdfPen, wide: float, high: float, unit: Unit) -> None:
    """The grid over the whole page, every fifth line stronger; the middles of its lines are a square apart."""
    step = _grid(unit)
    for number in range(round(wide / step) + 1):
        x = number * step
        pen.line(Path.through(Point(x, 0.0), Point(x, high)), LineStyle.FURNITURE if number % 5 else LineStyle.JOINT)
    for number in range(round(high / step) + 1):
        y = number * step
        pen.line(Path.through(Point(0.0, y), Point(wide, y)), LineStyle.FURNITURE if number % 5 else LineStyle.JOINT)


def _draw_words(pen: PdfPen, wide: float, unit: Unit) -> None:
    """What the grid measures, and the cautions, along the lower edge under the pieces."""
    room, size = Box(_FROM_EDGE, _FROM_EDGE, wide - _FROM_EDGE, APART - _FROM_EDGE), _WORDS_SIZE
    words = ((_SET_TRUE.format(squares=_SQUARES[unit]), Face.STRONG), (_CAUTION, Face.REGULAR))
    while sum(len(wrapped(said, size, room.width, face)) for said, face in words) * 1.28 * size > room.height:
        size -= _WORDS_STEP
    column = Column(pen, room.left, room.top, room.width)
    for said, face in words:
        column.paragraph(said, size, face)


def _too_large(spots: Sequence[_Spot], side: float, unit: Unit) -> Problem:
    """Which piece is too long for any page, or that all of them together are."""
    step = _grid(unit)
    most = floor(LONGEST / step) * step
    widest = max(spots, key=lambda spot: max(spot.wide, spot.high))
    long = max(widest.wide, widest.high)
    alone = long + 2.0 * APART > most
    what = (
        f"the piece “{widest.piece.title}” is {show_length(long, unit)} long"
        if alone
        else (f"the pieces spread over {show_length(side, unit)}")
    )
    return Problem(
        code="sheets.too-long",
        message=f"There is no file for a projector: {what}, and its page holds {show_length(most, unit)} with the room "
        "round the pieces.",
        fix="Use the sheets for a home printer instead.",
        where=Place(piece=widest.piece.name) if alone else Place(point="projector"),
    )
