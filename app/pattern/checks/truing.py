"""Truing: where a seam ends on an edge that runs across it (hem, neckline, armhole, waist), that edge runs on.

Why: two good pieces can still make a corner or a peak where they are joined. With the seam sewn, the angles between
seam and edge on both pieces make a straight line together; so do the angles on either side of a dart, and an edge
and its mirror image at a fold. It is a warning, since a corner may be meant; and only joints that are certainly
meant to run on are looked at, see `_meant`. A folded band, or a facing turned over, ends square to its fold so that
its layers lie on each other, and a facing's inner edge lies loose: neither is trued. Gathers and elastic change
their angles when drawn in, so they are left out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, pi, radians

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, run_words
from app.pattern.checks.turns import arriving, leaving, turn_between
from app.pattern.geometry import Point
from app.pattern.pieces.measure import edge_passes, run_length
from app.pattern.pieces.model import Edge, EdgeRun, MarkKind, Pattern, Piece, Seam
from app.pattern.problem import Place, Problem, Severity, Told
from app.pattern.units import angle_words

__all__ = ["CHECK"]

#: The joined edge may turn by this much (radians) where the seam meets it.
TOLERANCE = radians(15.0)
#: Where a piece is joined to its own mirror image, a bolder corner than this (radians) is a design: a V neck, a peak.
DESIGNED = radians(40.0)
#: Edges of these names run across the seams they meet (common practice).
CROSSWAYS = ("hem", "neck", "armhole", "scye", "waist", "cuff")
#: The short end of a folded band is no longer than this (mm), and square to its fold within this (cosine).
BAND, SQUARE = 80.0, 0.02
#: What pattern work calls the inner edge of a facing.
FACING_EDGE = "inner"
#: A joint in the middle of a seam faces another one when they lie this near (mm).
FACING = 5.0


_DART = Told(
    "checks.dart-truing",
    "With a dart closed, the edge it lies on may show a small corner. Cut it as one smooth line.",
    Severity.WARNING,
    maker=False,
)
_FOLD = Told(
    "checks.fold-truing",
    "Opened out, a piece may have a slight peak or hollow where it lay on the fold. Cut it as one smooth line.",
    Severity.WARNING,
    maker=False,
)
_SEAM = Told(
    "checks.truing",
    "Where a seam ends, a hem, neckline, armhole or waist may turn a small corner. Cut it as one smooth line.",
    Severity.WARNING,
    maker=False,
)


@dataclass(frozen=True, slots=True)
class _SeamEnd:
    """Where one side of a seam ends: the angle there between the seam and the edge that runs across it."""

    piece: Piece
    seam_edge: Edge
    across: Edge
    at: Point
    angle: float


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every joined edge that has a corner where a seam meets it."""
    for piece in table.pattern.pieces:
        yield from _at_darts(piece)
        yield from _at_fold(piece)
    yield from _at_seams(table)


def _at_darts(piece: Piece) -> Iterator[Problem]:
    """Darts whose seam has a corner once they are closed."""
    for dart, mouth in zip(piece.darts, piece.mouths, strict=True):
        before, after = piece.edges[mouth], piece.edges[(mouth + 1) % len(piece.edges)]
        into, out_of = arriving(before), leaving(after)
        angles = (_between(into.scaled(-1.0), dart.a, dart.tip), _between(out_of, dart.b, dart.tip))
        off = abs(sum(angles) - pi)
        if off > TOLERANCE:
            message = (
                f"{piece.name}.{before.name} meets dart {dart.name} at {angle_words(angles[0])} and {after.name} meets "
                f"it at {angle_words(angles[1])}: with the dart closed the seam turns by {angle_words(off)}."
            )
            fix = f"Fold the dart closed and redraw {before.name} and {after.name} as one smooth line across it."
            where = Place(piece.name, before.name, dart.name, dart.a)
            yield finding(_DART, message, fix, where, see=(("the dart", dart.span),))


def _between(way: Point, at: Point, toward: Point) -> float:
    """Angle between a direction and the way from `at` to another point, radians."""
    x, y = toward.x - at.x, toward.y - at.y
    return abs(atan2(way.x * y - way.y * x, way.x * x + way.y * y))


def _at_fold(piece: Piece) -> Iterator[Problem]:
    """Edges that would make a slight peak or hollow at the fold when the piece is opened."""
    index = next((i for i, edge in enumerate(piece.edges) if edge.fold), None)
    if index is None:
        return
    count = len(piece.edges)
    for opens in (True, False):
        other = (index - 1) % count if opens else (index + 1) % count
        if (other if opens else index) in piece.mouths or other == index:
            continue
        fold, across = piece.edges[index], piece.edges[other]
        turn = turn_between(across, fold) if opens else turn_between(fold, across)
        off = abs(pi - 2.0 * turn)
        if TOLERANCE < off <= DESIGNED:
            yield _peak(piece, across, _end_at(fold, opens), (pi - turn, off))


def _peak(piece: Piece, across: Edge, at: Point, angles: tuple[float, float]) -> Problem:
    message = (
        f"{piece.name}.{across.name} meets the fold at {angle_words(angles[0])}, so that the opened piece has a corner "
        f"of {angle_words(angles[1])} there; 90° would run on."
    )
    fix = f"Let {across.name} meet the fold square."
    where = Place(piece.name, across.name, at=at)
    return finding(_FOLD, message, fix, where, see=(("the edge", across.span),))


def _at_seams(table: CuttingTable) -> Iterator[Problem]:
    pattern = table.pattern
    sides = [side for seam in pattern.seams for side in (seam.a, seam.b)]
    sewn = frozenset((run.piece, run.edge) for side in sides for run in side)
    pairs = [
        frozenset(((one.piece, one.edge), (two.piece, two.edge)))
        for seam in pattern.seams
        for one in seam.a
        for two in seam.b
    ]
    known = _Known(frozenset(_joined_pairs(pattern)), sewn, frozenset(pairs))
    for seam in table.pattern.seams:
        if seam.kind not in ("plain", "ease", "short"):
            continue
        # Where one side ends short, nothing runs on from it.
        for at_start in (True, False)[: 1 if seam.kind == "short" else 2]:
            a, b = (_corner(table.pattern, side, at_start) for side in (seam.a, seam.b))
            if a and b and _meant(a, b, known) and not any(map(_square_to_fold, (a, b))):
                yield from _runs_on(seam, a, b)


def _runs_on(seam: Seam, a: _SeamEnd, b: _SeamEnd) -> Iterator[Problem]:
    off = abs(a.angle + b.angle - pi)
    mirrored = a.piece is b.piece and a.seam_edge is b.seam_edge
    if off <= TOLERANCE or (mirrored and off > DESIGNED):
        return
    sides = [
        f"{c.piece.name}.{c.across.name} meets {c.piece.name}.{c.seam_edge.name} at {angle_words(c.angle)}"
        for c in (a, b)
    ]
    message = (
        f"{sides[0]} and {sides[1]}: {angle_words(a.angle + b.angle)} together, so the joined edge turns by "
        f"{angle_words(off)} where 180° would run on."
    )
    fix = f"Lay {run_words(seam.a)} and {run_words(seam.b)} seam to seam and redraw both edges as one smooth line."
    where = Place(a.piece.name, a.across.name, at=a.at)
    spans = (("the first edge", a.across.span), ("the second edge", b.across.span), ("the seam", seam.span))
    yield finding(_SEAM, message, fix, where, see=spans)


def _corner(pattern: Pattern, runs: tuple[EdgeRun, ...], at_start: bool) -> _SeamEnd | None:
    """The corner at one end of a side; None where no edge runs across (a dart, a fold, a side walked twice)."""
    run = runs[0] if at_start else runs[-1]
    if run.times > 1 and not at_start:
        return None
    piece = pattern.piece(run.piece)
    index = piece.place_of(run.edge)
    edge = piece.edges[index]
    opens = (edge.with_outline != run.backwards) == at_start
    beside = (index - 1) % len(piece.edges) if opens else (index + 1) % len(piece.edges)
    across = piece.edges[beside]
    if (beside if opens else index) in piece.mouths or across.fold or across is edge:
        return None
    turn = turn_between(across, edge) if opens else turn_between(edge, across)
    return _SeamEnd(piece, edge, across, _end_at(edge, opens), pi - turn)


def _end_at(edge: Edge, opens: bool) -> Point:
    """Where an edge opens, or closes, in the direction of travel round the outline."""
    return edge.path.start if edge.with_outline == opens else edge.path.end


_Name = tuple[str, str]


@dataclass(frozen=True, slots=True)
class _Known:
    """What the seams say of edges: which follow one another, which are sewn at all, and which to each other."""

    joined: frozenset[frozenset[_Name]]
    sewn: frozenset[_Name]
    facing: frozenset[frozenset[_Name]]


def _meant(a: _SeamEnd, b: _SeamEnd, known: _Known) -> bool:
    """Whether the edges across this seam are meant to run on into each other.

    They are when both have the same crossways name; when they have one name and
    neither is sewn to anything; and when they are sewn one after the other to an edge that has no
    joint there itself (an armhole to a sleeve). Side seams that go on over a waist seam are
    none of these: a fitted waist has a corner there. Nor are edges that are sewn to each other,
    as a garment's neck to its facing's: those lie on each other.
    """
    one, two = (a.piece.name, a.across.name), (b.piece.name, b.across.name)
    if frozenset((one, two)) in known.facing or a.across.name == b.across.name == FACING_EDGE:
        return False
    if _crossways(a.across.name) and _crossways(a.across.name) == _crossways(b.across.name):
        return True
    if a.across.name == b.across.name and one not in known.sewn and two not in known.sewn:
        return True
    return frozenset((one, two)) in known.joined


def _square_to_fold(end: _SeamEnd) -> bool:
    """Whether the edge across the seam is a band's short end: straight, and square to a fold where it ends."""
    path = end.across.path
    if path.length > BAND or path.start.distance(path.end) < path.length - 0.01:
        return False
    far = path.end if path.start.distance(end.at) < path.end.distance(end.at) else path.start
    lines = [edge.path for edge in end.piece.edges if edge.fold]
    lines += [mark.path for mark in end.piece.marks if mark.kind is MarkKind.FOLD and mark.path is not None]
    way = path.tangent_at(0.0)
    for line in lines:
        along = line.tangent_at(0.0)
        if (
            min(line.start.distance(far), line.end.distance(far)) < 1.0
            and abs(way.x * along.x + way.y * along.y) < SQUARE
        ):
            return True
    return False


def _crossways(name: str) -> str:
    return next((word for word in CROSSWAYS if name.startswith(word)), "")


def _joined_pairs(pattern: Pattern) -> Iterator[frozenset[_Name]]:
    """Edges that follow one another along a side of a seam, where the other side has no joint."""
    for seam in pattern.seams:
        for own, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if len(own) > 1:
                yield from _free_joints(pattern, own, other)


def _free_joints(pattern: Pattern, own: tuple[EdgeRun, ...], other: tuple[EdgeRun, ...]) -> Iterator[frozenset[_Name]]:
    length, faced = run_length(pattern, own), run_length(pattern, other)
    joints = [walked.before / faced * length for walked in list(edge_passes(pattern, other))[1:]]
    passes = list(edge_passes(pattern, own))
    for one, two in pairwise(passes):
        if all(abs(two.before - joint) > FACING for joint in joints):
            yield frozenset(((one.piece, one.edge.name), (two.piece, two.edge.name)))


#: The check as every room knows it.
CHECK = Check("truing", "Truing", _run, (_DART, _FOLD, _SEAM))
