"""The pattern for a projector: one page without margins, strong lines, a large grid, pieces well apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import atan2, ceil, pi
from pathlib import Path as FilePath

from shapely import get_coordinates

from app.pattern.drawing import GREY, Anchor, Face, Lettering, LineStyle, Palette, PdfPen, Stroke, piece_marks
from app.pattern.geometry import Path, Point, Transform
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.problem import Place, Problem
from app.pattern.sheets.artwork import Ply, pattern_problems
from app.pattern.sheets.book import Book, draw_ply
from app.pattern.sheets.footprint import Ground, ground_of
from app.pattern.sheets.info import PrintInfo, PrintStyle, info_problems, look_of
from app.pattern.sheets.roll import LONGEST
from app.pattern.units import MM_PER, Unit

__all__ = ["PROJECTOR", "write_projector_pdf"]

#: Room between pieces and to the page's edge, mm.
APART = 60.0
#: A projected picture is about so many times as wide as high (16:10; common practice).
_SHAPE = 1.6
#: Letters and lines against those on paper: they are read from a table's length away.
_LARGER, _STRONGER = 2.2, 3.0
_ORIGIN = Point(0.0, 0.0)
_GRID_LAYER, _PIECES_LAYER = "Grid", "Pieces"


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


def write_projector_pdf(
    pattern: Pattern, info: PrintInfo, path: FilePath, *, style: PrintStyle | None = None
) -> tuple[Problem, ...]:
    """Write the projector file, or say why there is none; warnings about the words on it come back too.

    Every grain line runs along the page, as the cloth lies on the table. The grid is of
    10 cm, or of 4 in for those who read inches; grid and pieces are layers of their own.
    """
    if problems := pattern_problems(pattern):
        return problems
    look = replace(look_of(pattern, info, style), scale=_LARGER)
    spots, wide, high = _spread([_turned(piece, ground_of(piece, look)) for piece in pattern.pieces], info.unit)
    if max(wide, high) > LONGEST:
        return (_too_large(max(wide, high)),)
    book = Book(path, info, "Sewing pattern for a projector, true to scale", (_GRID_LAYER, _PIECES_LAYER))
    names = tuple(f"piece {piece.name}" for piece in pattern.pieces)
    pen = book.open_page(wide, high, label="projector", marks=("all", *names)).inked(PROJECTOR)
    with book.layer(_GRID_LAYER):
        _draw_grid(pen, wide, high, info.unit)
    for spot in spots:
        marks = piece_marks(spot.piece, replace(look, upright=_upright(spot.turn)))
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


def _upright(turn: Transform) -> float:
    """The quarter turn in the piece's frame that is level on the page as nearly as may be."""
    return round(-turn.angle / (pi / 2.0)) * pi / 2.0


def _place(spot: _Spot) -> Transform:
    return spot.turn.then(Transform.move(spot.corner.x, spot.corner.y))


def _spread(spots: Sequence[_Spot], unit: Unit) -> tuple[tuple[_Spot, ...], float, float]:
    """The pieces in rows, the page's width and height in whole squares of the grid, shaped as projectors show it."""
    in_order = sorted(spots, key=lambda spot: -spot.high)
    widths = [sum(s.wide + APART for s in in_order[: n + 1]) + APART for n in range(len(in_order))]
    least = max(s.wide for s in in_order) + 2.0 * APART
    tried = [_rows(in_order, max(least, wide)) for wide in widths]
    rows, wide, high = min(tried, key=lambda one: max(one[1] / _SHAPE, one[2]))
    step = _grid(unit)
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
    """The grid over the whole page, every fifth line stronger, with what a square measures in the corner."""
    step = _grid(unit)
    for number in range(round(wide / step) + 1):
        x = number * step
        pen.line(Path.through(Point(x, 0.0), Point(x, high)), LineStyle.FURNITURE if number % 5 else LineStyle.JOINT)
    for number in range(round(high / step) + 1):
        y = number * step
        pen.line(Path.through(Point(0.0, y), Point(wide, y)), LineStyle.FURNITURE if number % 5 else LineStyle.JOINT)
    words = (
        "squares of 10 cm, strong lines every 50 cm" if unit is Unit.CM else "squares of 4 in, strong lines every 20 in"
    )
    pen.text(Point(6.0, 6.0), f"{words}: measure before you cut", Lettering(12.0, 0.0, Anchor.START, Face.STRONG))


def _too_large(side: float) -> Problem:
    return Problem(
        code="sheets.too-long",
        message=f"The pieces spread over {side / 1000.0:.2f} m; a PDF page holds {LONGEST / 1000.0:.2f} m.",
        fix="Print on a roll or on single sheets.",
        where=Place(point="projector"),
    )
