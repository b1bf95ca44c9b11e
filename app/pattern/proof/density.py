"""Where bodies were tried densely: a stretch of one measurement, and cells of two against each other.

A place counts as densely tried when `ENOUGH` bodies that held lie within `NEAR` of it, in each measurement. Both
figures are our own choice: 5 % of a bust of 96 cm is 4.8 cm, a size and a little.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypedDict

import numpy as np
from numpy.typing import NDArray

__all__ = ["CELL", "ENOUGH", "NEAR", "Area", "AreaValues", "area_values", "dense_area", "dense_stretch", "read_area"]

#: So many bodies make a place densely tried, and so near (share of the measurement) they must lie.
ENOUGH, NEAR = 5, 0.05
#: Side of a cell, mm.
CELL = 20.0


@dataclass(frozen=True, slots=True)
class Area:
    """Cells of `CELL` mm, as (column, row) from 0 mm, in which bodies were tried densely by two measurements."""

    across: str
    up: str
    cells: frozenset[tuple[int, int]]

    def cell_of(self, across: float, up: float) -> tuple[int, int]:
        """The cell in which two values (mm) lie."""
        return int(across // CELL), int(up // CELL)

    def holds(self, across: float, up: float) -> bool:
        """True when two values (mm) lie in one of its cells."""
        return self.cell_of(across, up) in self.cells

    def without(self, cells: frozenset[tuple[int, int]]) -> Area:
        """The area less some cells."""
        return Area(self.across, self.up, self.cells - cells)


class AreaValues(TypedDict):
    """An area as JSON: each row of cells, as (row, first column, last column) runs."""

    across: str
    up: str
    runs: list[tuple[int, int, int]]


def dense_stretch(values: Sequence[float]) -> tuple[float, float] | None:
    """The least and most of the values (mm) that lie densely, from the middle one outwards; None when they lie nowhere.

    The stretch ends before the first value, or the first gap, that is not densely tried.
    """
    known = np.sort(np.asarray(values, dtype=np.float64))
    middle = len(known) // 2
    if not len(known) or not _dense(known, known[middle]):
        return None
    between = (known[1:] + known[:-1]) / 2.0
    dense = [_dense(known, value) for value in known]
    joined = [_dense(known, value) for value in between]
    low = high = middle
    while low > 0 and dense[low - 1] and joined[low - 1]:
        low -= 1
    while high < len(known) - 1 and dense[high + 1] and joined[high]:
        high += 1
    return float(known[low]), float(known[high])


def _dense(known: NDArray[np.float64], value: float) -> bool:
    least, most = np.searchsorted(known, (value * (1.0 - NEAR), value * (1.0 + NEAR)), side="left")
    return bool(most - least >= ENOUGH)


def dense_area(across: str, up: str, values: Sequence[tuple[float, float]]) -> Area:
    """The cells whose middles lie densely among the values (mm) of two measurements."""
    known = np.asarray(values, dtype=np.float64).reshape(-1, 2)
    if not len(known):
        return Area(across, up, frozenset())
    first = (known.min(axis=0) * (1.0 - NEAR) // CELL).astype(int)
    last = (known.max(axis=0) * (1.0 + NEAR) // CELL).astype(int)
    columns, rows = (np.arange(start, end + 1) for start, end in zip(first, last, strict=True))
    near = [
        np.abs(known[:, axis][None, :] - middles[:, None]) <= NEAR * middles[:, None]
        for axis, middles in enumerate(((columns + 0.5) * CELL, (rows + 0.5) * CELL))
    ]
    tried = near[0].astype(np.float64) @ near[1].astype(np.float64).T
    found = np.argwhere(tried >= ENOUGH)
    return Area(across, up, frozenset((int(columns[i]), int(rows[j])) for i, j in found))


def area_values(area: Area) -> AreaValues:
    """The area as JSON."""
    runs: list[tuple[int, int, int]] = []
    for column, row in sorted(area.cells, key=lambda cell: (cell[1], cell[0])):
        if runs and runs[-1][0] == row and runs[-1][2] == column - 1:
            runs[-1] = (row, runs[-1][1], column)
        else:
            runs.append((row, column, column))
    return AreaValues(across=area.across, up=area.up, runs=runs)


def read_area(values: AreaValues) -> Area:
    """The area that `area_values` wrote."""
    cells = ((column, row) for row, first, last in values["runs"] for column in range(first, last + 1))
    return Area(values["across"], values["up"], frozenset(cells))
