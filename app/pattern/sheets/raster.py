"""A wall of sheets as a raster of cells: which are taken, where a piece still fits, and what each place would cost.

A sheet is cut into cells of about 5 mm. A piece, grown by a small clearance, takes
every cell that it touches. All free places of a piece come from one convolution with
what is taken; how many new sheets each place needs comes from a table.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from itertools import count
from math import ceil, sqrt
from typing import Any, Literal

import numpy as np
import shapely
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.pattern.geometry import Transform
from app.pattern.sheets.footprint import Ground, moved, quarter

__all__ = ["CLEAR", "WallPlace", "Taste", "Tile", "Turned", "Wall", "quarter_turns"]

#: Pieces keep this far from each other's and from the sheets' edges, mm.
CLEAR = 1.5
_CELL, _MOST_CELLS = 5.0, 60
#: Walls are padded to multiples of so many cells, so that few sizes of convolution are needed.
_PAD = 8
_NEW = 1000.0

#: Outlines are simplified by so much before they are cut into cells, mm: far less than the clearance.
_ROUGH = 0.1

#: Transforms both ways divided alike: numpy is six times slower one way where it divides in the other alone.
_NORM: Literal["ortho"] = "ortho"

Mask = NDArray[np.bool_]
Costs = NDArray[np.float32]
Spectrum = NDArray[np.complexfloating[Any, Any]]


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
    touches: Costs  # rows and columns of sheets, then the cells up and across of a tile where the piece begins
    _spectra: dict[tuple[int, ...], Spectrum] = field(default_factory=dict)

    def spectrum(self, shape: tuple[int, ...]) -> Spectrum:
        """The mask ready for convolution with a wall padded to `shape`; worked out once for each shape."""
        if shape not in self._spectra:
            spectrum: Spectrum = np.fft.rfft2(self.mask.astype(np.float32), shape, norm=_NORM)
            self._spectra[shape] = spectrum.conj() * np.float32(sqrt(shape[0] * shape[1]))
        return self._spectra[shape]


def _mask(shape: BaseGeometry, tile: Tile) -> Mask:
    """The cells touched by a shape whose box's top left corner is the origin.

    In a strip one cell high, a connected part of the shape touches every cell between its ends.
    """
    cell_up, cell_across = tile.cell
    _, bottom, right, _ = shape.bounds
    rows, columns = ceil(-bottom / cell_up - 1e-9), ceil(right / cell_across - 1e-9)
    strips = [
        shapely.clip_by_rect(shape, -1.0, -(row + 1) * cell_up, right + 1.0, -row * cell_up) for row in range(rows)
    ]
    parts, at = shapely.get_parts(np.array(strips), return_index=True)
    spans = shapely.bounds(parts)
    first = np.clip(np.floor(spans[:, 0] / cell_across + 1e-9), 0, columns - 1).astype(np.int64)
    last = np.clip(np.ceil(spans[:, 2] / cell_across - 1e-9), 1, columns).astype(np.int64)
    steps = np.zeros((rows, columns + 1), dtype=np.int64)
    np.add.at(steps, (at, first), 1)
    np.add.at(steps, (at, np.maximum(last, first + 1)), -1)
    hit: Mask = steps.cumsum(1)[:, :-1] > 0
    return hit


def _touches(mask: Mask, tile: Tile) -> Costs:
    """For every offset of a mask within a sheet (rows): which of the sheets below and to the right it touches."""
    up, across = tile.cells
    rows, columns = mask.shape
    deep, wide = ceil((rows + up - 1) / up), ceil((columns + across - 1) / across)
    sums = np.zeros((rows + 1, columns + 1), dtype=np.int64)
    sums[1:, 1:] = mask.cumsum(0).cumsum(1)
    ys = np.clip(np.arange(deep + 1)[:, None] * up - np.arange(up)[None, :], 0, rows)
    xs = np.clip(np.arange(wide + 1)[:, None] * across - np.arange(across)[None, :], 0, columns)
    corner = sums[ys[:, None, :, None], xs[None, :, None, :]]
    held = corner[1:, 1:] - corner[:-1, 1:] - corner[1:, :-1] + corner[:-1, :-1]
    touched: Costs = (held > 0).astype(np.float32)
    return touched


def quarter_turns(ground: Ground, tile: Tile) -> tuple[Turned, ...]:
    """A piece at its quarter turns, ready to be laid; turns that look the same are given once."""
    found: list[Turned] = []
    for turns in range(4):
        spun = quarter(turns)
        grown = moved(ground.shape, spun).buffer(CLEAR, join_style="mitre", mitre_limit=2.0).simplify(_ROUGH)
        left, _, _, top = grown.bounds
        home = spun.then(Transform.move(-left, -top))
        mask = _mask(moved(grown, Transform.move(-left, -top)), tile)
        one = Turned(turns, home, mask, _touches(mask, tile))
        if not any(np.array_equal(one.mask, other.mask) for other in found):
            found.append(one)
    return tuple(found)


@dataclass(frozen=True, slots=True)
class Taste:
    """What decides between places that need equally many new sheets: joints crossed, then how far down and across."""

    joints: float = 8.0
    down: float = 1.0
    across: float = 1.0


@dataclass(frozen=True, slots=True)
class WallPlace:
    """A place for a turned piece: its cost, and the row and column of its top left cell."""

    cost: float
    row: int
    column: int
    turned: Turned

    def covers(self, window: tuple[slice, slice]) -> bool:
        """True when the piece takes a cell in a window of the wall (rows, columns)."""
        down, along = window
        mask = self.turned.mask
        rows = slice(max(0, down.start - self.row), max(0, down.stop - self.row))
        columns = slice(max(0, along.start - self.column), max(0, along.stop - self.column))
        return bool(mask[rows, columns].any())


class Wall:
    """A wall of sheets being filled from the top left."""

    def __init__(self, rows: int, columns: int, tile: Tile, taste: Taste) -> None:
        """An empty wall of so many rows and columns of sheets."""
        self.tile, self.rows, self.columns, self._taste = tile, rows, columns, taste
        up, across = tile.cells
        self.taken: Mask = np.zeros((rows * up, columns * across), dtype=np.bool_)
        self.used: Mask = np.zeros((rows, columns), dtype=np.bool_)
        ys = np.arange(rows * up, dtype=np.float32)[:, None]
        xs = np.arange(columns * across, dtype=np.float32)[None, :]
        near = (taste.down * ys / up + taste.across * xs / across) / (rows + columns)
        self._near: Costs = near.astype(np.float32)

    @property
    def sheets(self) -> int:
        """How many sheets are touched so far."""
        return int(self.used.sum())

    def _shares(self) -> Costs:
        up, across = self.tile.cells
        shares: Costs = self.taken.reshape(self.rows, up, self.columns, across).mean(axis=(1, 3), dtype=np.float32)
        return shares

    def poorest(self, count: int) -> tuple[tuple[int, int], ...]:
        """Row and column of the used sheets that carry least, at most `count`, the poorest first."""
        shares = self._shares()
        used = [(int(row), int(column)) for row, column in np.argwhere(self.used)]
        return tuple(sorted(used, key=lambda at: float(shares[at]))[:count])

    def crowding(self) -> float:
        """How unevenly sheets are filled, from 0 to 1: higher leaves some sheet nearly empty, easier to do without."""
        shares = self._shares()
        return float((shares**2).sum() / max(1, self.sheets))

    def sides(self) -> float:
        """Width and height of the wall that is used, added, mm."""
        rows, columns = (np.flatnonzero(self.used.any(axis=axis)) for axis in (1, 0))
        high, wide = (float(np.ptp(places)) + 1.0 if places.size else 0.0 for places in (rows, columns))
        return high * self.tile.height + wide * self.tile.width

    def best(self, choices: tuple[Turned, ...]) -> WallPlace | None:
        """The cheapest free place of a piece over its turns; None when there is none."""
        reach = max(t.touches.shape[0] for t in choices)
        used_rows = int(self.used.any(axis=1).sum())
        rows = min(self.rows, used_rows + reach)
        taken = self.taken[: rows * self.tile.cells[0]]
        shape = tuple(_smooth(-(-n // _PAD) * _PAD) for n in taken.shape)
        seen = np.fft.rfft2(taken.astype(np.float32), shape, norm=_NORM)
        places = []
        for choice in choices:
            free = _free(choice, seen, taken.shape, shape)
            if free is not None and free.any():
                cost = np.where(free, self._cost(choice, rows)[: free.shape[0], : free.shape[1]], np.inf)
                row, column = divmod(int(np.argmin(cost)), cost.shape[1])
                places.append(WallPlace(float(cost[row, column]) + 0.0025 * choice.turns, row, column, choice))
        return min(places, key=lambda p: p.cost, default=None)

    def _cost(self, choice: Turned, rows: int) -> Costs:
        """The cost of every place of the top left cell: new sheets, then joints, then distance from the corner."""
        fresh = np.where(self.used[:rows], self._taste.joints, _NEW + self._taste.joints).astype(np.float32)
        met = _strips_met(fresh[:, 0], choice.touches) if self.columns == 1 else _sheets_met(fresh, choice.touches)
        up, across = self.tile.cells
        return met.reshape(rows * up, self.columns * across) + self._near[: rows * up]

    def take(self, place: WallPlace) -> None:
        """Take the cells of a piece in its place, and mark the sheets it touches as used."""
        mask = place.turned.mask
        self.taken[place.row : place.row + mask.shape[0], place.column : place.column + mask.shape[1]] |= mask
        up, across = self.tile.cells
        self.used |= self.taken.reshape(self.rows, up, self.columns, across).any(axis=(1, 3))


def _sheets_met(fresh: Costs, touches: Costs) -> Costs:
    """The sum of `fresh` over the sheets that a piece touches, by row, cell up, column and cell across."""
    deep, wide, _, _ = touches.shape
    beyond = np.pad(fresh, ((0, deep), (0, wide)), constant_values=_NEW)
    windows = sliding_window_view(beyond, fresh.shape)[:deep, :wide]
    met: Costs = np.einsum("ijrc,ijua->ruca", windows, touches)
    return met


def _strips_met(fresh: Costs, touches: Costs) -> Costs:
    """The same on a wall one sheet wide, where a piece touches sheets without a gap: a difference of two sums."""
    deep, _, up, across = touches.shape
    sums = np.concatenate(([0.0], np.pad(fresh, (0, deep), constant_values=_NEW).cumsum(dtype=np.float64)))
    high = touches.max(axis=(1, 3)).sum(axis=0).astype(np.int64)
    first = np.arange(fresh.shape[0])[:, None]
    met: Costs = (sums[first + high[None, :]] - sums[first]).astype(np.float32)
    return np.repeat(met[:, :, None, None], across, axis=3).reshape(len(fresh), up, 1, across)


@cache
def _smooth(least: int) -> int:
    """The smallest number from `least` on without prime factors over 5: convolutions of such sizes are quick."""
    return next(n for n in count(least) if 30**20 % n == 0)


def _free(choice: Turned, seen: Spectrum, taken: tuple[int, ...], shape: tuple[int, ...]) -> Mask | None:
    """Where a piece's top left cell may lie; None when the piece is larger than the wall."""
    rows, columns = taken[0] - choice.mask.shape[0] + 1, taken[1] - choice.mask.shape[1] + 1
    if rows <= 0 or columns <= 0:
        return None
    met = np.fft.irfft2(seen * choice.spectrum(shape), shape, norm=_NORM)
    found: Mask = met[:rows, :columns] < 0.5
    return found
