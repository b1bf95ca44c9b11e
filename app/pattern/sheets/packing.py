"""Lays pieces on a grid of sheets so that few sheets are touched, by looking at every place on a fine raster.

A sheet is cut into cells of about 5 mm. A piece, grown by a small clearance, takes
every cell that it touches. For each piece in turn, and each of four quarter turns,
all free places come from one convolution with what is taken, and the number of new
sheets at each place from a table; the place that needs the fewest new
sheets wins, then the one that crosses the fewest joints, then the nearest to the
first corner. Several orders of pieces and widths of the wall are tried. No clock and
no chance decide: the same pieces always give the same plan.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy import fft
from shapely.geometry.base import BaseGeometry

from app.pattern.geometry import Transform
from app.pattern.sheets.footprint import Ground, moved, quarter

__all__ = ["Laid", "Tile", "pack", "row_of"]

#: Pieces keep this far from each other's and from the sheets' edges, mm.
CLEAR = 1.5
_CELL = 5.0
_NEW, _TOUCHED = 1000.0, 8.0

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
        return max(1, ceil(self.height / _CELL)), max(1, ceil(self.width / _CELL))

    @property
    def cell(self) -> tuple[float, float]:
        """Height and width of a cell, mm."""
        up, across = self.cells
        return self.height / up, self.width / across


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece in its place: from its own frame to the wall's (origin at the top left corner, y up, so y <= 0)."""

    piece: str
    turns: int
    transform: Transform


@dataclass(frozen=True, slots=True)
class _Turned:
    """A piece at one quarter turn as a mask of cells, top row first, with the sheets it touches at every offset."""

    turns: int
    home: Transform
    mask: Mask
    touches: NDArray[np.float64]  # cells up and across of a tile, then rows and columns of sheets from there


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


def _turned(ground: Ground, turns: int, tile: Tile) -> _Turned:
    spun = quarter(turns)
    grown = moved(ground.shape, spun).buffer(CLEAR, join_style="mitre", mitre_limit=2.0)
    left, _, _, top = grown.bounds
    home = spun.then(Transform.move(-left, -top))
    mask = _mask(moved(grown, Transform.move(-left, -top)), tile)
    return _Turned(turns, home, mask, _touches(mask, tile))


class _Wall:
    """A wall of sheets being filled: which cells are taken, which sheets used."""

    def __init__(self, rows: int, columns: int, tile: Tile) -> None:
        self.tile, self.rows, self.columns = tile, rows, columns
        up, across = tile.cells
        self.taken: Mask = np.zeros((rows * up, columns * across), dtype=np.bool_)
        self.used: Mask = np.zeros((rows, columns), dtype=np.bool_)
        self._shape = tuple(fft.next_fast_len(n, real=True) for n in self.taken.shape)
        ys, xs = np.indices(self.taken.shape)
        self._near = (ys / up + xs / across) / (rows + columns)

    def free(self, mask: Mask, seen: NDArray[np.complex128]) -> Mask | None:
        """Where the mask's top left cell may lie; None when it is larger than the wall."""
        rows, columns = self.taken.shape[0] - mask.shape[0] + 1, self.taken.shape[1] - mask.shape[1] + 1
        if rows <= 0 or columns <= 0:
            return None
        met = fft.irfft2(seen * np.conj(fft.rfft2(mask, self._shape)), self._shape)
        found: Mask = met[:rows, :columns] < 0.5
        return found

    def seen(self) -> NDArray[np.complex128]:
        """What is taken, ready for convolution."""
        spectrum: NDArray[np.complex128] = fft.rfft2(self.taken.astype(np.float64), self._shape)
        return spectrum

    def cost(self, turned: _Turned) -> Costs:
        """The cost of every place of the top left cell: new sheets, then joints, then distance from the corner."""
        up, across, deep, wide = turned.touches.shape
        fresh = np.full((self.rows + deep, self.columns + wide), _NEW + _TOUCHED)
        fresh[: self.rows, : self.columns][self.used] = _TOUCHED
        cost = self._near.reshape(self.rows, up, self.columns, across).copy()
        for i, j in np.ndindex(deep, wide):
            each = fresh[i : i + self.rows, j : j + self.columns]
            cost += each[:, None, :, None] * turned.touches[None, :, None, :, i, j]
        flat: Costs = cost.reshape(self.taken.shape)
        return flat

    def best(self, turned: _Turned, seen: NDArray[np.complex128]) -> tuple[float, int, int] | None:
        """The cheapest free place of a turned piece: cost, row and column; None when there is none."""
        free = self.free(turned.mask, seen)
        if free is None or not free.any():
            return None
        cost = np.where(free, self.cost(turned)[: free.shape[0], : free.shape[1]], np.inf)
        row, column = divmod(int(np.argmin(cost)), cost.shape[1])
        return float(cost[row, column]) + 0.01 * turned.turns / 4.0, row, column

    def take(self, turned: _Turned, row: int, column: int) -> None:
        """Take the cells of a piece, and mark the sheets it touches as used."""
        rows, columns = turned.mask.shape
        self.taken[row : row + rows, column : column + columns] |= turned.mask
        up, across = self.tile.cells
        sheets = self.taken.reshape(self.rows, up, self.columns, across)
        self.used |= sheets.any(axis=(1, 3))


def _laid(name: str, turned: _Turned, place: tuple[int, int], tile: Tile) -> Laid:
    cell_up, cell_across = tile.cell
    shift = Transform.move(place[1] * cell_across, -place[0] * cell_up)
    return Laid(name, turned.turns, turned.home.then(shift))


@dataclass(frozen=True, slots=True)
class _Try:
    """One filled wall: what is laid, how many sheets, and a finer figure to choose between equals."""

    laid: tuple[Laid, ...]
    sheets: int
    finer: float


def _fill(turns: dict[str, tuple[_Turned, ...]], order: Sequence[str], wall: _Wall, most: int) -> _Try | None:
    """Lay pieces in an order, each where it costs least; None when one finds no place or `most` sheets are exceeded."""
    laid, finer = [], 0.0
    for name in order:
        seen = wall.seen()
        places = [(place, t) for t in turns[name] if (place := wall.best(t, seen)) is not None]
        if not places:
            return None
        (cost, row, column), turned = min(places, key=lambda pair: pair[0])
        wall.take(turned, row, column)
        if wall.used.sum() > most:
            return None
        finer += cost % _NEW
        laid.append(_laid(name, turned, (row, column), wall.tile))
    return _Try(tuple(laid), int(wall.used.sum()), finer)


def _shapes(grounds: Sequence[Ground], tile: Tile, widths: int) -> Iterator[tuple[int, int]]:
    """Walls (rows, columns of sheets) worth trying."""
    area = sum(g.shape.area for g in grounds) / (tile.width * tile.height)
    longest = max(max(b[2] - b[0], b[3] - b[1]) for b in (g.shape.bounds for g in grounds)) + 2.0 * CLEAR
    spare = ceil(longest / tile.height) + 1
    for columns in range(1, widths + 1):
        yield ceil(1.5 * area / columns) + spare, columns


def _orders(grounds: Sequence[Ground], tries: int) -> Iterator[tuple[str, ...]]:
    """Orders to lay pieces in: by area, by longest side, then by area with a few pieces exchanged."""

    def longest(ground: Ground) -> float:
        left, bottom, right, top = ground.shape.bounds
        return float(max(right - left, top - bottom))

    by_area = tuple(g.piece for g in sorted(grounds, key=lambda g: -g.shape.area))
    yield by_area
    yield tuple(g.piece for g in sorted(grounds, key=lambda g: -longest(g)))
    dice = random.Random(20_480)
    for _ in range(tries):
        order = list(by_area)
        for _ in range(dice.randint(1, max(1, len(order) // 2))):
            i, j = dice.randrange(len(order)), dice.randrange(len(order))
            order[i], order[j] = order[j], order[i]
        yield tuple(order)


def pack(grounds: Sequence[Ground], tile: Tile, *, widths: int = 5, tries: int = 6) -> tuple[Laid, ...] | None:
    """The pieces laid on as few sheets as found; None when some piece fits on no wall tried.

    `widths` is the widest wall tried, in sheets; `tries` the number of further orders for the two best widths.
    """
    search = _Search({g.piece: tuple(_turned(g, n, tile) for n in range(4)) for g in grounds}, tile)
    orders = tuple(dict.fromkeys(_orders(grounds, tries)))
    for shape in _shapes(grounds, tile, widths):
        search.run(shape, orders[:2])
    for shape in search.best_walls(2):
        search.run(shape, orders[2:])
    return search.found[0][0].laid if search.found else None


class _Search:
    """The walls filled so far, best first."""

    def __init__(self, turns: dict[str, tuple[_Turned, ...]], tile: Tile) -> None:
        self.found: list[tuple[_Try, tuple[int, int]]] = []
        self._turns, self._tile = turns, tile

    def run(self, shape: tuple[int, int], orders: Sequence[Sequence[str]]) -> None:
        """Fill a wall of that shape in each order, giving up an order once it needs more sheets than the best."""
        for order in orders:
            most = self.found[0][0].sheets if self.found else shape[0] * shape[1]
            done = _fill(self._turns, order, _Wall(*shape, self._tile), most)
            if done is not None:
                self.found.append((done, shape))
                self.found.sort(key=lambda pair: (pair[0].sheets, pair[0].finer))

    def best_walls(self, count: int) -> tuple[tuple[int, int], ...]:
        """The shapes of the best walls, each once."""
        return tuple(dict.fromkeys(shape for _, shape in self.found))[:count]


def row_of(grounds: Sequence[Ground], gap: float = 10.0) -> tuple[Laid, ...]:
    """The pieces in one row as they come, unturned: the plain way, against which a plan is judged."""
    laid, left = [], CLEAR
    for ground in grounds:
        low_x, _, high_x, high_y = ground.shape.bounds
        laid.append(Laid(ground.piece, 0, Transform.move(left - low_x, -CLEAR - high_y)))
        left += high_x - low_x + gap
    return tuple(laid)
