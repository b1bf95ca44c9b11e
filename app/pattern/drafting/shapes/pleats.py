"""Pleats and tucks: the paper opened for them, its edges shaped so that they lie true when folded, and their lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.shape import Inside, Item, Shape, ShapeDart, Side
from app.pattern.drafting.shapes.slashes import Halves, Slash, across, halved, met, opened
from app.pattern.geometry import Line, Path, Point, Transform, crossings, distance_to
from app.pattern.units import mm_unlike

__all__ = ["BOX", "INVERTED", "KNIFE", "TUCK", "Folding", "pleat", "tuck"]

_FLAT = 1e-6  # mm: an edge that leaves its chord by no more is straight
_REACH = 2_000.0  # mm: as far as an edge beside a pleat is looked along
_ARROWS = (0.12, 0.88)  # shares of a fold line at which an arrow tells where its edge is laid
_ON = 0.02  # mm: a fold line that ends so near to an edge ends on it


@dataclass(frozen=True, slots=True)
class Folding:
    """A way of folding: its lines by name, each so many depths right of the slash, and whether it folds both ways.

    Folded one way it takes twice its depth, both ways four times. The kind of a line is
    that of the mark which is printed: "fold" or "stitch". `laid` are the lines that an
    edge is folded at and laid on, told by arrows from the one to the other.
    """

    word: str
    lines: tuple[tuple[str, str, int], ...]
    laid: tuple[tuple[int, int], ...] = ()
    both: bool = False

    @property
    def takes(self) -> int:
        """How many depths of paper it folds away."""
        return 4 if self.both else 2


#: The slash is the edge that shows; the fold lies to its left, and comes to lie along the third line.
KNIFE = Folding("pleat", (("edge", "fold", 0), ("turn", "fold", 1), ("place", "fold", 2)), laid=((0, 2),))
#: Two knife pleats that face each other: their edges meet over the middle.
INVERTED = Folding(
    "pleat",
    (
        ("left_edge", "fold", 0),
        ("left_turn", "fold", 1),
        ("meet", "fold", 2),
        ("right_turn", "fold", 3),
        ("right_edge", "fold", 4),
    ),
    laid=((0, 2), (4, 2)),
    both=True,
)
#: Two knife pleats that face away from each other: a panel two depths wide stands over the slash.
BOX = Folding(
    "pleat",
    (
        ("left_place", "fold", -1),
        ("left_turn", "fold", 0),
        ("left_edge", "fold", 1),
        ("right_edge", "fold", 3),
        ("right_turn", "fold", 4),
        ("right_place", "fold", 5),
    ),
    laid=((1, -1), (3, 5)),
    both=True,
)
#: A fold stitched down along its foot and pressed to the left of the slash.
TUCK = Folding("tuck", (("left_stitch", "stitch", 0), ("fold", "fold", 1), ("right_stitch", "stitch", 2)))


@dataclass(frozen=True, slots=True)
class _Fold:
    """What is folded: how, how deep (mm), and how far it is stitched from the slash's start (mm; None: to its end)."""

    folding: Folding
    depth: float
    stitched: float | None = None

    @property
    def word(self) -> str:
        """What it is called."""
        return self.folding.word


@dataclass(frozen=True, slots=True)
class _Cap:
    """The edge across an opened fold, away from the slash's paper, and where each line of the fold meets the edge."""

    path: Path
    at: dict[int, Point]


def pleat(shape: Shape, slashes: Sequence[Path], depth: float, folding: Folding) -> Shape:
    """A pleat at each slash, `depth` mm deep, its lines kept inside the shape by name.

    Each side that a pleat meets is shaped so that, folded, its layers end along one
    edge; it counts as shorter by all that the fold takes.
    """
    return _each(shape, slashes, _Fold(folding, depth))


def tuck(shape: Shape, slashes: Sequence[Path], depth: float, stitched: float | None = None) -> Shape:
    """A tuck at each slash, its fold `depth` mm deep, stitched from the slash's start for `stitched` mm or all along.

    One that is stitched part of the way lets its fullness out from there on: the side at its end keeps it.
    """
    return _each(shape, slashes, _Fold(TUCK, depth, stitched))


def _each(shape: Shape, slashes: Sequence[Path], fold: _Fold) -> Shape:
    if fold.depth <= 0.0:
        raise CannotDraw("drafting.pleat", f"A {fold.word} needs a depth above nothing.", "Write: deep 3cm.")
    across(shape, slashes)
    first = _count(shape, fold.word) + 1
    # From the right to the left, so that what lies to the left of a fold is still flat.
    order = sorted(range(len(slashes)), key=lambda i: -_right_of(slashes[0], slashes[i]))
    waiting, numbers = [slashes[i] for i in order], [first + i for i in order]
    while waiting:
        slash = met(shape, waiting.pop(0))
        shape, waiting = _one(shape, slash, waiting, fold, numbers.pop(0))
    return shape


def _right_of(first: Path, other: Path) -> float:
    way, to = first.end.minus(first.start), other.start.minus(first.start)
    return (way.y * to.x - way.x * to.y) / max(first.start.distance(first.end), _FLAT)


def _count(shape: Shape, word: str) -> int:
    names = [thing.name.split("_") for thing in shape.inside if thing.kind]
    return max((int(parts[1]) for parts in names if parts[0] == word), default=0)


def _one(shape: Shape, slash: Slash, waiting: Sequence[Path], fold: _Fold, number: int) -> tuple[Shape, list[Path]]:
    """The shape with one fold made, its lines named by its number; the waiting slashes where the paper took them."""
    folding, stitched = fold.folding, fold.stitched
    if stitched is not None and not 0.0 < stitched < slash.length:
        raise CannotDraw(
            "drafting.tuck-stitched",
            "A tuck of {} cannot be stitched for {} of them.".format(*mm_unlike(slash.length, stitched)),
            "Stitch it for less, or leave “stitched” out to stitch all of it.",
        )
    halves = halved(shape, slash)
    begin = _cap(shape, slash, halves, fold, at_start=True)
    finish = _cap(shape, slash, halves, fold, at_start=False) if stitched is None else None
    fills = (
        _filled(slash.start_side, begin.path),
        _filled(slash.end_side, finish.path.reversed()) if finish else None,
    )
    shape, waiting = opened(shape, slash, slash.aside(folding.takes * fold.depth), waiting, fills)
    name = f"{fold.word}_{number}"
    way = slash.end.minus(slash.start).scaled((stitched or 0.0) / slash.length)
    ends = finish.at if finish else {at: start.plus(way) for at, start in begin.at.items()}
    runs = {at: Path.through(start, ends[at]) for at, start in begin.at.items()}
    lines = [Inside(f"{name}_{word}", runs[at], kind) for word, kind, at in folding.lines]
    arrows = [
        Inside(f"{name}_arrow", Path.through(*(runs[at].point_at(runs[at].length * share) for at in pair)), "lay")
        for pair in folding.laid
        for share in _ARROWS
    ]
    _clear(shape, name, [line.what for line in lines if isinstance(line.what, Path)])
    return Shape(shape.items, (*shape.inside, *lines, *arrows), shape.log), waiting


def _clear(shape: Shape, name: str, lines: Sequence[Path]) -> None:
    """Refuse a fold that runs over a dart or across another fold: it could not be folded, or the dart not be sewn."""
    darts = [
        (item.name, Path.through(item.dart.a, item.dart.tip, item.dart.b))
        for item in shape.items
        if isinstance(item, ShapeDart)
    ]
    folds = [(t.name, t.what) for t in shape.inside if t.kind not in ("", "lay") and isinstance(t.what, Path)]
    for other, path in (*darts, *folds):
        for line in lines:
            met = crossings(line, path)
            if any(min(c.along_a, line.length - c.along_a) > _ON for c in met):
                raise CannotDraw(
                    "drafting.fold-crosses",
                    f"“{name}” runs across “{other}”, so that one of them cannot be folded.",
                    "Let it end before, or move one of them.",
                )


def _filled(name: str, path: Path) -> Side:
    return Side(name, path, ((0.0, path.length),))


def _cap(shape: Shape, slash: Slash, halves: Halves, fold: _Fold, *, at_start: bool) -> _Cap:
    """The edge across the fold at one end of the slash, from the slash's paper on its left to that on its right.

    Folded, the layers under or over the flat paper must end where its edge does, so each
    layer's edge is the flat edge beside the slash, laid over at the folds.
    """
    depth, word = fold.depth, fold.word
    left = _beside(shape, slash, _outward(halves.left, at_start, left=True), -depth, word)
    here = slash.start if at_start else slash.end
    over = Transform.mirror(slash.start, slash.end)
    parts = [left.transformed(over), left.reversed().transformed(slash.aside(2.0 * depth))]
    at = {-1: left.end, 0: here}
    if fold.folding.both:
        right = _beside(shape, slash, _outward(halves.right, at_start, left=False), depth, word)
        parts.append(right.transformed(slash.aside(2.0 * depth)))
        parts.append(right.reversed().transformed(over.then(slash.aside(4.0 * depth))))
        at[5] = slash.aside(4.0 * depth).apply(right.end)
    for number, part in enumerate(parts, start=1):
        at[number] = part.end
    path = parts[0]
    for part in parts[1:]:
        path = path.joined(part)
    return _Cap(_straightened(path), at)


def _outward(items: Sequence[Item], at_start: bool, *, left: bool) -> Path:
    """The side that a slash meets, on one side of it, from the slash outward."""
    item = items[-1] if at_start == left else items[0]
    assert isinstance(item, Side)  # a slash meets the outline on a side
    return item.path.reversed() if at_start == left else item.path


def _beside(shape: Shape, slash: Slash, side: Path, aside: float, word: str) -> Path:
    """The stretch of a side from the slash to where it is `aside` mm right of it, run on straight where it is shorter.

    A pleat near a seam lies partly under the next panel, whose edge goes on as this one does.
    """
    border = Path.through(slash.start, slash.end).transformed(slash.aside(aside))
    border = _run_on(_run_on(border).reversed())
    longer = _run_on(side)
    found = [crossing.along_a for crossing in crossings(longer, border)]
    if not found:
        raise CannotDraw(
            "drafting.pleat-edge",
            f"The edge beside a {word} runs along it, so that it cannot be folded.",
            "Lay the slash across the side, not along it.",
        )
    stretch = longer.part(0.0, min(found))
    _flat(shape, stretch, word)
    return stretch


def _flat(shape: Shape, stretch: Path, word: str) -> None:
    """Refuse a fold that would lie over one made before."""
    for thing in shape.inside:
        if thing.kind in ("", "lay") or not isinstance(thing.what, Path):
            continue
        for end in (thing.what.start, thing.what.end):
            inner = min(end.distance(stretch.start), end.distance(stretch.end)) > _ON
            if inner and distance_to(stretch, end) < _ON:
                raise CannotDraw(
                    "drafting.pleat-crowded",
                    f"This {word} would fold over “{thing.name}”, which is there already.",
                    "Make them shallower or lay them further apart; several made one by one go from the right of "
                    "their slashes to the left.",
                )


def _run_on(path: Path) -> Path:
    way = path.tangent_at(path.length)
    return path.joined(Path.through(path.end, path.end.plus(way.scaled(_REACH))))


def _straightened(path: Path) -> Path:
    """One line in place of several that run on straight, as across a fold that is square to its edge."""
    if not all(isinstance(segment, Line) for segment in path.segments):
        return path
    ways = [segment.end.minus(segment.start).scaled(1.0 / segment.length) for segment in path.segments]
    straight = all(a.distance(b) < _FLAT for a, b in pairwise(ways))
    return Path.through(path.start, path.end) if straight else path
