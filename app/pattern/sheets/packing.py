"""Lays pieces on a grid of sheets so that few sheets are touched.

Each piece in turn goes where it needs the fewest new sheets, at any quarter turn. The
order of the pieces, the width of the wall and what decides between equal places make
up a recipe; starting from a few plain recipes, the best is varied, or mended where its
sheets carry least, and the better kept.
No clock and no chance decide: the same pieces always give the same plan.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import ceil

from app.pattern.geometry import Transform
from app.pattern.sheets.footprint import Ground
from app.pattern.sheets.raster import CLEAR, Taste, Tile, Turned, Wall, WallPlace, quarter_turns

__all__ = ["Laid", "pack", "row_of"]


@dataclass(frozen=True, slots=True)
class Laid:
    """A piece in its place: from its own frame to the wall's (origin at the top left corner, y up, so y <= 0)."""

    piece: str
    turns: int
    transform: Transform


@dataclass(frozen=True, slots=True)
class _Recipe:
    """In which order to lay pieces, on how wide a wall, and by which taste."""

    order: tuple[str, ...]
    columns: int
    taste: Taste


Places = dict[str, WallPlace]


@dataclass(frozen=True, slots=True)
class _Result:
    """One filled wall: what lies where, the sheets it takes, how crowded some are, and the length of its two sides."""

    recipe: _Recipe
    places: Places
    sheets: int
    crowding: float
    sides: float

    @property
    def promise(self) -> tuple[int, float]:
        """To be made small while searching: a crowded wall has some sheet that can soon be done without."""
        return self.sheets, -self.crowding

    @property
    def neatness(self) -> tuple[int, float]:
        """To be made small in the end: a compact wall is joined on a table, a long one on the floor."""
        return self.sheets, self.sides


def _laid(name: str, place: WallPlace, tile: Tile) -> Laid:
    cell_up, cell_across = tile.cell
    shift = Transform.move(place.column * cell_across, -place.row * cell_up)
    return Laid(name, place.turned.turns, place.turned.home.then(shift))


class _Search:
    """Tries recipes, mends what they give, and keeps the best."""

    def __init__(self, grounds: Sequence[Ground], tile: Tile) -> None:
        self.best: _Result | None = None
        self.neatest: _Result | None = None
        self._turns: Mapping[str, tuple[Turned, ...]] = {g.piece: quarter_turns(g, tile) for g in grounds}
        self._tile = tile
        self._area = sum(g.shape.area for g in grounds) / (tile.width * tile.height)
        longest = max(max(b[2] - b[0], b[3] - b[1]) for b in (g.shape.bounds for g in grounds)) + 2.0 * CLEAR
        self._spare = ceil(longest / tile.height) + 1

    @property
    def done(self) -> bool:
        """True when no plan can be better: the pieces' area alone needs this many sheets."""
        return self.best is not None and self.best.sheets <= ceil(self._area)

    def _wall(self, recipe: _Recipe) -> Wall:
        return Wall(ceil(1.5 * self._area / recipe.columns) + self._spare, recipe.columns, self._tile, recipe.taste)

    def run(self, recipe: _Recipe) -> None:
        """Fill a wall by a recipe."""
        self._fill(self._wall(recipe), recipe, {}, recipe.order)

    def mend(self, dice: random.Random) -> None:
        """Take the pieces off one of the emptiest sheets of the best wall, and one or two more, and lay them anew."""
        assert self.best is not None
        best = self.best
        # The pieces on one of the sheets that carry least
        wall = self._wall(best.recipe)
        for place in best.places.values():
            wall.take(place)
        row, column = dice.choice(wall.poorest(3))
        up, across = self._tile.cells
        window = slice(row * up, (row + 1) * up), slice(column * across, (column + 1) * across)
        off = [name for name, place in best.places.items() if place.covers(window)]
        kept = [name for name in best.recipe.order if name not in off]
        off += dice.sample(kept, min(len(kept), dice.choice((0, 1, 1, 2))))
        dice.shuffle(off)
        wall, places = self._wall(best.recipe), {n: p for n, p in best.places.items() if n not in off}
        for place in places.values():
            wall.take(place)
        self._fill(wall, best.recipe, places, off)

    def _fill(self, wall: Wall, recipe: _Recipe, places: Places, order: Sequence[str]) -> None:
        """Lay pieces on a wall in an order, giving up once it needs more sheets than the best."""
        for name in order:
            place = wall.best(self._turns[name])
            if place is None:
                return
            wall.take(place)
            if self.best is not None and wall.sheets > self.best.sheets:
                return
            places[name] = place
        result = _Result(recipe, places, wall.sheets, wall.crowding(), wall.sides())
        if self.best is None or result.promise < self.best.promise:
            self.best = result
        if self.neatest is None or result.neatness < self.neatest.neatness:
            self.neatest = result


_TASTES = (
    Taste(),
    Taste(down=1.0, across=0.1),
    Taste(down=0.1, across=1.0),
    Taste(joints=0.0),
    Taste(joints=40.0),
    Taste(joints=0.0, down=0.1, across=1.0),
)


#: Share of the tries that mend the best wall; the others vary its recipe.
_MENDED = 0.7


def _plain_recipes(grounds: Sequence[Ground], widths: int) -> Iterator[_Recipe]:
    """By area and by longest side, on walls from one sheet wide."""

    def longest(ground: Ground) -> float:
        left, bottom, right, top = ground.shape.bounds
        return float(max(right - left, top - bottom))

    by_area = tuple(g.piece for g in sorted(grounds, key=lambda g: -g.shape.area))
    by_side = tuple(g.piece for g in sorted(grounds, key=lambda g: -longest(g)))
    for columns in range(1, widths + 1):
        for order in dict.fromkeys((by_area, by_side)):
            yield _Recipe(order, columns, _TASTES[0])


def _varied(recipe: _Recipe, dice: random.Random, widths: int) -> _Recipe:
    """A recipe with one thing changed: two pieces exchanged, one piece moved, the taste, or the width."""
    order, what = list(recipe.order), dice.random()
    if what < 0.2:
        return replace(recipe, taste=dice.choice(_TASTES))
    if what < 0.3:
        return replace(recipe, columns=dice.randint(1, widths))
    i, j = dice.randrange(len(order)), dice.randrange(len(order))
    if what < 0.65:
        order[i], order[j] = order[j], order[i]
    else:
        order.insert(j, order.pop(i))
    return replace(recipe, order=tuple(order))


def pack(grounds: Sequence[Ground], tile: Tile, *, widths: int = 5, tries: int = 30) -> tuple[Laid, ...] | None:
    """The pieces laid on as few sheets as found; None when some piece fits on no wall tried.

    `widths` is the widest wall tried, in sheets; `tries` how often the best is mended or its recipe varied.
    """
    search = _Search(grounds, tile)
    for recipe in _plain_recipes(grounds, widths):
        if not search.done:
            search.run(recipe)
    dice = random.Random(20_480)
    tried: set[_Recipe] = set()
    for _ in range(tries):
        if search.best is None or search.done:
            break
        if dice.random() < _MENDED:
            search.mend(dice)
            continue
        recipe = search.best.recipe
        for _ in range(dice.choice((1, 1, 2, 4))):
            recipe = _varied(recipe, dice, widths)
        if recipe not in tried:
            tried.add(recipe)
            search.run(recipe)
    if search.neatest is None:
        return None
    return tuple(_laid(name, place, tile) for name, place in search.neatest.places.items())


def row_of(grounds: Sequence[Ground], gap: float = 10.0) -> tuple[Laid, ...]:
    """The pieces in one row as they come, unturned: the plain way, against which a plan is judged."""
    laid, left = [], CLEAR
    for ground in grounds:
        low_x, _, high_x, high_y = ground.shape.bounds
        laid.append(Laid(ground.piece, 0, Transform.move(left - low_x, -CLEAR - high_y)))
        left += high_x - low_x + gap
    return tuple(laid)
