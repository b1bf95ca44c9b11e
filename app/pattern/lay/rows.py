"""Our own placer: pieces held on the fold and loose ones, laid one after the other, each as far left as it goes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from shapely import Polygon, affinity

from app.pattern.lay.layers import LayPart
from app.pattern.lay.model import FOLD_CLEAR
from app.pattern.lay.nofit import (
    NOTHING,
    Convex,
    convex_parts,
    forbidden_shifts,
    mirrored_parts,
    negated,
    turned_parts,
)
from app.pattern.lay.shapes import REACH, grown

__all__ = ["NextPart", "Spot", "ClothRoom", "ShiftTables", "lay_down", "turned_shape"]

Floats = NDArray[np.float64]

#: Rows on which pieces may lie, mm apart: the closest that are not too many. The clearance from the fold is whole rows.
STEPS = (FOLD_CLEAR / 3.0, FOLD_CLEAR / 2.0, FOLD_CLEAR)
MOST_ROWS = 340


@dataclass(frozen=True, slots=True)
class ClothRoom:
    """What the cloth offers: its depth from edge to edge, the strip kept clear at y = 0 (mm), and the turns allowed."""

    depth: float
    clear: float
    turns: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a part lies: the left and lower bounds of its shape on the cloth, mm, and whether it is turned."""

    part: int
    turned: bool
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class NextPart:
    """The next part to lay: turned or not (None: whichever ends further left), beside the fold or `far` from it."""

    part: int
    turned: bool | None = None
    far: bool = False


def turned_shape(part: LayPart) -> Polygon:
    """The part's shape after half a turn, settled; a half held on the fold stays above it, as its whole piece would."""
    width, height = part.shape.bounds[2], part.shape.bounds[3]
    over = affinity.scale(part.shape, -1.0, 1.0 if part.held else -1.0, origin=(0.0, 0.0))
    return affinity.translate(over, width, 0.0 if part.held else height)


@dataclass(frozen=True, slots=True)
class _PartShape:
    part: int
    turned: bool
    width: float
    height: float
    lowest: int  # the first row its lower bound may lie on
    rows: int  # and how many there are from there
    convex: tuple[Convex, ...]


class ShiftTables:
    """The shapes of a lay, and the shifts each forbids another."""

    def __init__(self, parts: Sequence[LayPart], table: ClothRoom) -> None:
        depth = table.depth
        self.step = next((step for step in STEPS if depth <= step * MOST_ROWS), STEPS[-1])
        self.all_rows = int(depth / self.step) + 1
        self.turns = table.turns
        self.shapes: dict[tuple[int, bool], _PartShape] = {}
        for index, part in enumerate(parts):
            self._add(index, part, table)
        self._known: dict[tuple[tuple[int, bool], tuple[int, bool]], Floats] = {}
        self._heights = np.arange(-self.all_rows, self.all_rows + 1, dtype=np.float64) * self.step

    def _add(self, index: int, part: LayPart, table: ClothRoom) -> None:
        """The part's shape, and the same after half a turn (which for a half on the fold is end for end)."""
        width, height = float(part.shape.bounds[2]), part.height
        lowest = 0 if part.held else round(table.clear / self.step)
        rows = 1 if part.held else int((table.depth - height) / self.step + 1e-6) - lowest + 1
        parts = convex_parts(grown(part.shape))
        around = mirrored_parts(parts, width) if part.held else turned_parts(parts, width, height)
        self.shapes[index, False] = _PartShape(index, False, width, height, lowest, rows, parts)
        self.shapes[index, True] = _PartShape(index, True, width, height, lowest, rows, around)

    def ways(self, call: NextPart) -> list[_PartShape]:
        """The shapes to choose from for a call: the way it asks for, or every allowed way."""
        turns = self.turns if call.turned is None else (call.turned,)
        return [self.shapes[call.part, turned] for turned in turns]

    def between(self, lying: _PartShape, coming: _PartShape) -> Floats:
        """Forbidden dx of `coming` beside `lying` for row differences from -all_rows to all_rows."""
        key = ((lying.part, lying.turned), (coming.part, coming.turned))
        if key not in self._known:
            # Beyond these heights the two cannot meet: their bounds, and what both are grown by, lie apart.
            near = (self._heights > -coming.height - 2 * REACH) & (self._heights < lying.height + 2 * REACH)
            shifts = forbidden_shifts(lying.convex, coming.convex, self._heights[near])
            table = np.full((len(self._heights), *shifts.shape[1:]), NOTHING)
            table[near] = shifts
            self._known[key] = table
            self._known[key[1], key[0]] = negated(table)
        return self._known[key]

    def rows_beside(self, lying: _PartShape, at: tuple[float, int], coming: _PartShape) -> Floats:
        """Forbidden x of `coming` on each of its rows, beside `lying` at (x, row)."""
        first = self.all_rows - at[1] + coming.lowest
        return self.between(lying, coming)[first : first + coming.rows] + at[0]


def _leftmost(forbidden: list[Floats], rows: int) -> Floats:
    """The least x >= 0 outside every forbidden interval, for each row."""
    if not forbidden:
        return np.zeros(rows)
    # As complex numbers, the intervals sort by their lower ends in one call.
    spans = np.sort(np.concatenate(forbidden, axis=1).view(np.complex128)[:, :, 0], axis=1)
    here = np.zeros((rows, spans.shape[1] + 1))
    np.maximum.accumulate(spans.imag, axis=1, out=here[:, 1:])
    np.maximum(here, 0.0, out=here)
    low = np.full(here.shape, np.inf)
    low[:, :-1] = spans.real
    least: Floats = here[np.arange(rows), np.argmax(low >= here, axis=1)]
    return least


def lay_down(calls: Sequence[NextPart], tables: ShiftTables, limit: float) -> tuple[float, list[Spot]]:
    """Lay the parts as called, each as far left as it goes; (inf, no spots) as soon as it is `limit` mm long."""
    lying: list[tuple[_PartShape, tuple[float, int]]] = []
    length = 0.0
    for call in calls:
        end, x, row, shape = min((_end_of(call, shape, lying, tables) for shape in tables.ways(call)), key=_by_end)
        length = max(length, end)
        if length >= limit:
            return float("inf"), []
        lying.append((shape, (x, row)))
    return length, [Spot(shape.part, shape.turned, at[0], at[1] * tables.step) for shape, at in lying]


def _end_of(
    call: NextPart, shape: _PartShape, lying: Sequence[tuple[_PartShape, tuple[float, int]]], tables: ShiftTables
) -> tuple[float, float, int, _PartShape]:
    """Where the shape ends when laid as far left as it goes, with its x and row there."""
    xs = _leftmost([tables.rows_beside(one, at, shape) for one, at in lying], shape.rows)
    row = len(xs) - 1 - int(np.argmin(xs[::-1])) if call.far else int(np.argmin(xs))
    return float(xs[row]) + shape.width, float(xs[row]), shape.lowest + row, shape


def _by_end(laid: tuple[float, float, int, _PartShape]) -> float:
    return round(laid[0], 6)  # so that a hair's difference never turns a piece for nothing
