"""What a lay plan is made of: the items to cut, the cloth, where each piece lies, and how hard to look."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.geometry import Point
from app.pattern.pieces.model import Fabric

__all__ = [
    "CLOTH_WIDTHS",
    "EFFORT_FULL",
    "EFFORT_QUICK",
    "EFFORT_STEADY",
    "FOLD_CLEAR",
    "GAP",
    "MOST_PIECES",
    "LayEffort",
    "LayItem",
    "LayPlan",
    "Placement",
    "clear_of_fold",
]

#: Least distance between two pieces on the cloth, mm: room for the shears, and a lay free of overlap with certainty.
GAP = 2.0
#: What is not cut on the fold keeps this far from it, mm, lest it be taken for a piece on the fold (our own figure).
FOLD_CLEAR = 9.0
#: Usable widths that are cloth, mm: from ribbon looms to wide sheeting.
CLOTH_WIDTHS = (300.0, 3200.0)
#: More pieces than this in one cloth is a slip in a count, not a garment.
MOST_PIECES = 200


@dataclass(frozen=True, slots=True)
class LayItem:
    """One kind of piece to cut.

    `outline` is the cutting outline as a ring of points in mm, turned so that the grain
    runs along +x, the length of the cloth. With `on_fold` it is half of the piece and
    `fold` the two ends of its fold edge, and `count` counts whole pieces; with `pair`
    half of the count are mirrored.
    """

    piece: str
    title: str
    outline: tuple[Point, ...]
    count: int
    pair: bool = False
    on_fold: bool = False
    fold: tuple[Point, Point] | None = None


def clear_of_fold(cloth: Fabric) -> float:
    """How far from y = 0 a piece that is not on the fold begins, mm."""
    return FOLD_CLEAR if cloth.folded else 0.0


@dataclass(frozen=True, slots=True)
class Placement:
    """One outline as it lies on the cloth, in the cloth's frame (mm; x along the length, y across).

    `on_fold`: half a piece whose fold edge lies on y = 0. `turned`: by half a turn.
    `mirrored`: the paper is turned over. `layers` is how many layers of the cloth are
    cut through: 2 gives a pair, or one whole piece on the fold.
    """

    piece: str
    outline: tuple[Point, ...]
    label: tuple[float, float]
    on_fold: bool
    mirrored: bool
    turned: bool
    layers: int = 1
    title: str = ""

    @property
    def gives(self) -> int:
        """How many pieces of cloth this outline yields."""
        return 1 if self.on_fold else self.layers


@dataclass(frozen=True, slots=True)
class LayPlan:
    """A lay that the second opinion has passed. Lengths in mm; `utilisation` is the share of the cloth used, 0 to 1."""

    cloth: Fabric
    length: float
    buy: float
    utilisation: float
    placements: tuple[Placement, ...]


@dataclass(frozen=True, slots=True)
class LayEffort:
    """How hard to look for a short lay.

    `orders` are tried by our own placer where a piece is held on the fold; where none
    is, it tries `beside` and the general nester has `runs` of `seconds` each. A look with
    more orders starts with the same ones, so that it never ends with a longer lay.
    """

    runs: int
    seconds: float
    orders: int
    beside: int


#: For a page that is waiting: about a third of a second.
EFFORT_QUICK = LayEffort(runs=0, seconds=0.0, orders=160, beside=60)
#: A hard look without the clock: the same plan each time and on every machine; about a second.
EFFORT_STEADY = LayEffort(runs=0, seconds=0.0, orders=1200, beside=160)
#: For a plan that is printed: the same look, and the nester's. With one seed it takes no more cloth than the two above.
EFFORT_FULL = LayEffort(runs=1, seconds=0.8, orders=1200, beside=160)
