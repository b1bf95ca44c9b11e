"""A wall of sheets as a raster of cells: which are taken, where a piece still fits, and what each place would cost.

A sheet is cut into cells of about 5 mm. A piece, grown by a small clearance, takes
every cell that it touches. All free places of a piece come from one convolution with
what is taken; how many new sheets each place needs comes from a table.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy import fft
from shapely.geometry.base import BaseGeometry

from app.pattern.geometry import Transform
from app.pattern.sheets.footprint import Ground, moved, quarter

__all__ = ["CLEAR", "Place", "Taste", "Tile", "Turned", "Wall", "quarter_turns"]

#: Pieces keep this far from each other's and from the sheets' edges, mm.
CLEAR = 1.5
_CELL, _MOST_CELLS = 5.0, 60
#: Walls are padded to multiples of so many cells, so that few sizes of convolution are needed.
_PAD = 48
_NEW = 1000.0

Mask = NDArray[np.bool_]
Costs = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Tile:
    """The part of a sheet that is drawn on, mm."""

    width: float
    height: float

    @property
    def cells(self) -> tuple[int, int]:
        """How many cells up and across."""
        cell = max(_CELL, max(self.width, self.height) / _MOST_CELLS) if self.height > _CELL * 4.0 else _CELL
        return max(1, ceil(self.height / cell)), max(1, ceil(self.width / cell))

    @property
    def cell(self) -> tuple[float, float]:
        """Height and width of a cell, mm."""
        up, across = self.cells
        return self.height / up, self.width / across


@dataclass(frozen=True, slots=True)
class Turned:
    """A piece at one quarter turn as a mask of cells, top row first, with the sheets it touches at every offset."""

    turns: int
    home: Transform
    mask: Mask
    touches: NDArray[np.float64]  # cells up and across of a tile, then rows and columns of sheets from there
    _spectra: dict[tuple[int, ...], NDArray[np.complex128]] = field(default_factory=dict)

    def spectrum(self, shape: tuple[int, ...]) -> NDArray[np.complex128]:
        """The mask ready for convolution with a wall padded to `shape`; worked out once for each shape."""
        if shape not in self._spectra:
            self._spectra[shape] = np.conj(fft.rfft2(self.mask, shape))
        return self._spectra[shape]


def _mask(shape: BaseGeometry, tile: Tile) -> Mask:
    """The cells touched by a shape whose box's top left corner is the origin."""
    cell_up, cell_across = tile.cell
    left, bottom, right, _ = shape.bounds
    rows, columns = ceil(-bottom / cell_up - 1e-9), ceil((right - left) / cell_across - 1e-9)
    lefts, tops = np.meshgrid(np.arange(columns) * cell_across, -np.arange(rows) * cell_up)
    shapely.prepare(shape)
    hit: Mask = shapely.intersects(shape, shapely.box(lefts, tops - cell_up, lefts + cell_across, tops))
    return hit


def _touches(mask: Mask, tile: Tile) -> NDArray[np.float64]:
    """For every offset of a mask within a sheet: which of the sheets below and to the right it touches."""
    up, across = tile.cells
    rows, columns = mask.shape
    deep, wide = ceil((rows + up - 1) / up), ceil((columns + across - 1) / across)
    sums = np.zeros((rows + 1, columns + 1), dtype=np.int64)
    sums[1:, 1:] = mask.cumsum(0).cumsum(1)
    ys = np.clip(np.arange(deep + 1)[None, :] * up - np.arange(up)[:, None], 0, rows)
    xs = np.clip(np.arange(wide + 1)[None, :] * across - np.arange(across)[:, None], 0, columns)
    corner = sums[ys[:, None, :, None], xs[None, :, None, :]]
    held = corner[:, :, 1:, 1:] - corner[:, :, :-1, 1:] - corner[:, :, 1:, :-1] + corner[:, :, :-1, :-1]
    touched: NDArray[np.float64] = (held > 0).astype(np.float64)
    return touched


def quarter_turns(ground: Ground, tile: Tile) -> tuple[Turned, ...]:
    """A piece at its quarter turns, ready to be laid; turns that look the same are given once."""
    found: list[Turned] = []
    for turns in range(4):
        one = _turned(ground, turns, tile)
        if not any(np.array_equal(one.mask, other.mask) for other in found):
            found.append(one)
    return tuple(found)


def _turned(ground: Ground, turns: int, tile: Tile) -> Turned:
    spun = quarter(turns)
    grown = moved(ground.shape, spun).buffer(CLEAR, join_style="mitre", mitre_limit=2.0)
    left, _, _, top = grown.bounds
    home = spun.then(Transform.move(-left, -top))
    mask = _mask(moved(grown, Transform.move(-left, -top)), tile)
    return Turned(turns, home, mask, _touches(mask, tile))


@dataclass(frozen=True, slots=True)
class Taste:
    """What decides between places that need equally many new sheets: joints crossed, then how far down and across."""

    joints: float = 8.0
    down: float = 1.0
    across: float = 1.0


@dataclass(frozen=True, slots=True)
class Place:
    """A place for a turned piece: its cost, and the row and column of its top left cell."""

    cost: float
    row: int
    column: int
    turned: Turned


class Wall:
    """A wall of sheets being filled from the top left."""

    def __init__(self, rows: int, columns: int, tile: Tile, taste: Taste) -> None:
        """An empty wall of so many rows and columns of sheets."""
        self.tile, self.rows, self.columns, self._taste = tile, rows, columns, taste
        up, across = tile.cells
        self.taken: Mask = np.zeros((rows * up, columns * across), dtype=np.bool_)
        self.used: Mask = np.zeros((rows, columns), dtype=np.bool_)
        ys = np.arange(rows * up, dtype=np.float64)[:, None]
        xs = np.arange(columns * across, dtype=np.float64)[None, :]
        self._near: Costs = (taste.down * ys / up + taste.across * xs / across) / (rows + columns)

    @property
    def sheets(self) -> int:
        """How many sheets are touched so far."""
        return int(self.used.sum())

    def crowding(self) -> float:
        """How unevenly sheets are filled, from 0 to 1: higher leaves some sheet nearly empty, easier to do without."""
        up, across = self.tile.cells
        shares = self.taken.reshape(self.rows, up, self.columns, across).mean(axis=(1, 3))
        return float((shares**2).sum() / max(1, self.sheets))

    def sides(self) -> float:
        """Width and height of the wall that is used, added, mm."""
        rows, columns = (np.flatnonzero(self.used.any(axis=axis)) for axis in (1, 0))
        high, wide = (float(np.ptp(places)) + 1.0 if places.size else 0.0 for places in (rows, columns))
        return high * self.tile.height + wide * self.tile.width

    def best(self, choices: tuple[Turned, ...]) -> Place | None:
        """The cheapest free place of a piece over its turns; None when there is none."""
        reach = max(t.touches.shape[2] for t in choices)
        used_rows = int(self.used.any(axis=1).sum())
        rows = min(self.rows, used_rows + reach)
        taken = self.taken[: rows * self.tile.cells[0]]
        shape = tuple(fft.next_fast_len(-(-n // _PAD) * _PAD, real=True) for n in taken.shape)
        seen = fft.rfft2(taken.astype(np.float64), shape)
        places = []
        for choice in choices:
            free = _free(choice, seen, taken.shape, shape)
            if free is not None and free.any():
                cost = np.where(free, self._cost(choice, rows)[: free.shape[0], : free.shape[1]], np.inf)
                row, column = divmod(int(np.argmin(cost)), cost.shape[1])
                places.append(Place(float(cost[row, column]) + 0.0025 * choice.turns, row, column, choice))
        return min(places, key=lambda p: p.cost, default=None)

    def _cost(self, choice: Turned, rows: int) -> Costs:
        """The cost of every place of the top left cell: new sheets, then joints, then distance from the corner."""
        up, across, deep, wide = choice.touches.shape
        fresh: Costs = np.full((rows + deep, self.columns + wide), _NEW + self._taste.joints)
        fresh[:rows, : self.columns][self.used[:rows]] = self._taste.joints
        cost: Costs = self._near[: rows * up].reshape(rows, up, self.columns, across).copy()
        for i, j in np.ndindex(deep, wide):
            each = fresh[i : i + rows, j : j + self.columns]
            cost += each[:, None, :, None] * choice.touches[None, :, None, :, i, j]
        flat: Costs = cost.reshape(rows * up, self.columns * across)
        return flat

    def take(self, place: Place) -> None:
        """Take the cells of a piece in its place, and mark the sheets it touches as used."""
        mask = place.turned.mask
        self.taken[place.row : place.row + mask.shape[0], place.column : place.column + mask.shape[1]] |= mask
        up, across = self.tile.cells
        self.used |= self.taken.reshape(self.rows, up, self.columns, across).any(axis=(1, 3))


def _free(choice: Turned, seen: NDArray[np.complex128], taken: tuple[int, ...], shape: tuple[int, ...]) -> Mask | None:
    """Where a piece's top left cell may lie; None when the piece is larger than the wall."""
    rows, columns = taken[0] - choice.mask.shape[0] + 1, taken[1] - choice.mask.shape[1] + 1
    if rows <= 0 or columns <= 0:
        return None
    met = fft.irfft2(seen * choice.spectrum(shape), shape)
    found: Mask = met[:rows, :columns] < 0.5
    return found
