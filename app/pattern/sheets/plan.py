"""Where every piece lies on the wall of sheets, and which sheets carry it: values to be kept with an order."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import ceil, floor

from shapely.geometry import box
from shapely.geometry.base import BaseGeometry

from app.pattern.geometry import Box, Transform
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Refused
from app.pattern.sheets.artwork import Artwork, OnePattern, pattern_problems
from app.pattern.sheets.footprint import Ground, moved
from app.pattern.sheets.info import Join, PrintStyle
from app.pattern.sheets.packing import Laid, pack, row_of
from app.pattern.sheets.paper import Paper, paper_problems
from app.pattern.sheets.raster import CLEAR, Tile

__all__ = ["PlacedPiece", "Sheet", "SheetPlan", "plan_artwork", "plan_sheets", "sheet_name"]

#: Half of the widest line, mm: a line this near to a joint shows on both sheets.
_INK = 0.3
_USUAL_WIDTHS = 5


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """A piece in its place. `transform` leads from the piece's frame to the wall's.

    The wall's origin is the top left corner of sheet A1's printed part; x right, y up
    (so y <= 0), mm. `turns` counts quarter turns anticlockwise.
    """

    piece: str
    turns: int
    transform: Transform


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of the wall: row and column from 0 at the top left, the part of the wall it shows, and its pieces."""

    row: int
    column: int
    box: Box
    pieces: tuple[str, ...]

    @property
    def name(self) -> str:
        """Row letter and column number, such as B3."""
        return sheet_name(self.row, self.column)


@dataclass(frozen=True, slots=True)
class SheetPlan:
    """The wall of sheets for one pattern on one paper; sheets go row by row, only those that carry a piece."""

    paper: Paper
    placed: tuple[PlacedPiece, ...]
    sheets: tuple[Sheet, ...]
    in_a_row: int
    join: Join = Join.TRIM
    style: PrintStyle = field(default_factory=PrintStyle)

    @property
    def rows(self) -> int:
        """How many rows the wall has."""
        return 1 + max(s.row for s in self.sheets)

    @property
    def columns(self) -> int:
        """How many columns the wall has."""
        return 1 + max(s.column for s in self.sheets)

    def sheet_at(self, row: int, column: int) -> Sheet | None:
        """The sheet at a place of the wall; None where the wall has a gap or ends."""
        return next((s for s in self.sheets if (s.row, s.column) == (row, column)), None)

    def sheets_of(self, piece: str) -> tuple[Sheet, ...]:
        """The sheets that carry a piece."""
        return tuple(s for s in self.sheets if piece in s.pieces)


@dataclass(frozen=True, slots=True)
class Ways:
    """The paper, how its sheets are joined, and how the pieces are drawn."""

    paper: Paper
    join: Join
    style: PrintStyle


def sheet_name(row: int, column: int) -> str:
    """A1 at the top left; after row Z comes AA."""
    letters, rest = "", row + 1
    while rest:
        rest, letter = divmod(rest - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return f"{letters}{column + 1}"


def plan_sheets(
    pattern: Pattern, paper: Paper, *, tries: int = 30, join: Join = Join.TRIM, style: PrintStyle | None = None
) -> SheetPlan | Refused:
    """The pattern laid on as few sheets of a paper as found, or why it cannot be.

    `tries` is how many further orders of the pieces are tried; the same input always gives the same plan.
    """
    if problems := (*paper_problems(paper), *pattern_problems(pattern)):
        return Refused(problems)
    return plan_artwork(OnePattern(pattern, None, style), paper, join, tries=tries)


def plan_artwork(art: Artwork, paper: Paper, join: Join = Join.TRIM, *, tries: int = 30) -> SheetPlan:
    """Any artwork laid on as few sheets of a paper as found; paper and pieces must be fit to print."""
    grounds, tile = art.grounds(), Tile(*paper.printable)
    row = row_of(grounds)
    in_a_row = len(_touched(row, grounds, tile))
    # The widest wall to try, in sheets: as a table holds, or as the largest piece needs
    need = max(min(b[2] - b[0], b[3] - b[1]) for b in (g.shape.bounds for g in grounds)) + 2.0 * CLEAR
    packed = pack(grounds, tile, widths=max(_USUAL_WIDTHS, ceil(need / tile.width)), tries=tries)
    laid = packed if packed and len(_touched(packed, grounds, tile)) <= in_a_row else row
    places = {one.piece: one for one in laid}
    in_order = tuple(places[ground.piece] for ground in grounds)
    whole = Ways(paper, join, art.style)
    return _as_plan(whole, _pulled_in(in_order, grounds, tile), grounds, in_a_row)


def _shape_of(one: Laid, grounds: Sequence[Ground]) -> BaseGeometry:
    ground = next(g for g in grounds if g.piece == one.piece)
    return moved(ground.shape, one.transform)


def _cells(shape: BaseGeometry, tile: Tile) -> set[tuple[int, int]]:
    """The sheets (row, column) that a shape on the wall touches."""
    inked = shape.buffer(_INK)
    left, bottom, right, top = inked.bounds
    rows = range(floor(-top / tile.height), floor(-bottom / tile.height) + 1)
    columns = range(floor(left / tile.width), floor(right / tile.width) + 1)
    return {(r, c) for r in rows for c in columns if inked.intersects(box(*_tile_box(r, c, tile)))}


def _tile_box(row: int, column: int, tile: Tile) -> Box:
    left, top = column * tile.width, -row * tile.height
    return Box(left, top - tile.height, left + tile.width, top)


def _touched(laid: Iterable[Laid], grounds: Sequence[Ground], tile: Tile) -> set[tuple[int, int]]:
    return {cell for one in laid for cell in _cells(_shape_of(one, grounds), tile)}


def _pulled_in(laid: tuple[Laid, ...], grounds: Sequence[Ground], tile: Tile) -> tuple[Laid, ...]:
    """The wall moved by whole sheets so that its first used row and column come first."""
    used = _touched(laid, grounds, tile)
    row, column = min(r for r, _ in used), min(c for _, c in used)
    shift = Transform.move(-column * tile.width, row * tile.height)
    return tuple(Laid(one.piece, one.turns, one.transform.then(shift)) for one in laid)


def _as_plan(ways: Ways, laid: tuple[Laid, ...], grounds: Sequence[Ground], in_a_row: int) -> SheetPlan:
    tile = Tile(*ways.paper.printable)
    held = {one.piece: _cells(_shape_of(one, grounds), tile) for one in laid}
    sheets = tuple(
        Sheet(row, column, _tile_box(row, column, tile), tuple(n for n in held if (row, column) in held[n]))
        for row, column in sorted({cell for cells in held.values() for cell in cells})
    )
    placed = tuple(PlacedPiece(one.piece, one.turns, one.transform) for one in laid)
    return SheetPlan(ways.paper, placed, sheets, in_a_row, ways.join, ways.style)
