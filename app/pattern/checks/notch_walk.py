"""Notch walk: notches that match across a seam lie at the same distance along both sides, after ease.

Why: the maker pins notch to notch; if one is off, the seam is sewn twisted. In a plain
seam each pair lies at the same distance from either end; gathers and elastic keep the
share of the length; in an eased seam ease begins and ends at notches, and every stretch
between two of them has its even share of it or none. A notch that meets the joint of two edges is
marked by that joint. Seams whose lengths do not fit are left to the seam walk.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, run_words, seam_words
from app.pattern.pieces.matching import SEAM_END
from app.pattern.pieces.measure import edge_passes, run_length, seam_lengths
from app.pattern.pieces.model import Edge, EdgeRun, Notch, Pattern, Seam
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm, mm_unlike

__all__ = ["CHECK", "TOLERANCE"]

#: Matched notches may lie this far (mm) from each other when the seam is pinned.
TOLERANCE = 0.5


@dataclass(frozen=True, slots=True)
class _At:
    """A notch as it is met on the walk along one side of a seam, `position` mm from its start."""

    position: float
    piece: str
    notch: Notch
    edge: Edge

    @property
    def place(self) -> Place:
        """Where the notch is, for people and pictures."""
        along = min(max(self.notch.along, 0.0), self.edge.path.length)
        return Place(self.piece, self.edge.name, at=self.edge.path.point_at(along))


_OFF_EDGE = Told(
    "checks.notch-off-edge",
    "A notch would lie beyond the end of its edge, where there is no cloth to snip.",
)
_MISSING = Told(
    "checks.notch-missing",
    "One side of a seam would have notches that find no partner on the other side.",
)
_UNLIKE = Told(
    "checks.notch-unlike",
    "A double notch would meet a single one, so that you could not tell which belong together.",
)
_WALK = Told(
    "checks.notch-walk",
    "Notches that belong together would miss each other, and the seam would be sewn twisted.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every notch off its edge, and every matched notch without its partner where it should be."""
    for piece in table.pattern.pieces:
        lengths = {edge.name: edge.path.length for edge in piece.edges}
        for notch in piece.notches:
            yield from _off_edge(piece.name, notch, lengths.get(notch.edge, -1.0))
    for index, seam in enumerate(table.pattern.seams):
        yield from _seam(table.pattern, index, seam)


def _off_edge(piece: str, notch: Notch, length: float) -> Iterator[Problem]:
    if -SEAM_END <= notch.along <= length + SEAM_END:
        return
    along, long = mm_unlike(notch.along, max(length, 0.0))
    message = f"A notch lies {along} along {piece}.{notch.edge}, which is {long} long."
    fix = "Place it between the ends of the edge."
    measured = Measured(notch.along, 0.0, max(length, 0.0))
    see = (("the notch", notch.span),)
    yield finding(_OFF_EDGE, message, fix, Place(piece, notch.edge), see=see, measured=measured)


def _seam(pattern: Pattern, index: int, seam: Seam) -> Iterator[Problem]:
    a, b = _met(pattern, index, seam.a), _met(pattern, index, seam.b)
    if not a and not b:
        return
    a, b = _without_joints(pattern, seam, a, b)
    if len(a) != len(b):
        fewer, more = (seam.a, b) if len(a) < len(b) else (seam.b, a)
        message = f"{run_words(fewer)} has {min(len(a), len(b))} of the {len(more)} notches matched in this seam."
        fix = "Give both sides the same notches: match them again."
        yield _finding(seam, _MISSING, message, fix, (more[0],))
        return
    lengths = seam_lengths(pattern, seam)
    for one, two in zip(a, b, strict=True):
        if one.notch.double != two.notch.double:
            double, single = (one, two) if one.notch.double else (two, one)
            message = f"A double notch on {_words(double)} meets a single one on {_words(single)}."
            yield _finding(seam, _UNLIKE, message, "Make both single or both double.", (one, two))
    if seam.kind == "ease":
        yield from _eased(seam, a, b, lengths)
    else:
        yield from _paired(seam, a, b, lengths)


def _met(pattern: Pattern, index: int, runs: Sequence[EdgeRun]) -> list[_At]:
    """The seam's notches in the order in which they are met along one side."""
    met = [
        _At(walked.position(notch.along), walked.piece, notch, walked.edge)
        for walked in edge_passes(pattern, runs)
        for notch in pattern.piece(walked.piece).notches
        if notch.seam == index and notch.edge == walked.edge.name
    ]
    return sorted(met, key=lambda at: at.position)


def _without_joints(pattern: Pattern, seam: Seam, a: list[_At], b: list[_At]) -> tuple[list[_At], list[_At]]:
    """Leave out notches whose partner is a joint of two edges on the other side, as many as one side has too many."""
    if len(a) == len(b):
        return a, b
    longer, other = (a, seam.b) if len(a) > len(b) else (b, seam.a)
    own = seam.a if longer is a else seam.b
    joints = _joint_shares(pattern, other)
    length = run_length(pattern, own)
    spare = abs(len(a) - len(b))
    beside = sorted(longer, key=lambda at: min((abs(at.position - j * length) for j in joints), default=length))
    dropped = beside[:spare] if joints else []
    kept = [at for at in longer if at not in dropped]
    return (kept, b) if longer is a else (a, kept)


def _joint_shares(pattern: Pattern, runs: Sequence[EdgeRun]) -> list[float]:
    """Where two edges of one side join, as shares of its length."""
    passes = list(edge_passes(pattern, runs))
    length = sum(walked.length for walked in passes)
    return [walked.before / length for walked in passes[1:]] if length > 0.0 else []


def _paired(seam: Seam, a: Sequence[_At], b: Sequence[_At], lengths: tuple[float, float]) -> Iterator[Problem]:
    scale = lengths[0] / lengths[1] if seam.kind not in ("plain", "short") and lengths[1] > 0.0 else 1.0
    for one, two in zip(a, b, strict=True):
        from_start = one.position - two.position * scale
        from_end = (lengths[0] - one.position) - (lengths[1] - two.position) * scale
        if min(abs(from_start), abs(from_end)) > TOLERANCE * max(scale, 1.0):
            yield _off(seam, one, two, from_start)


def _eased(seam: Seam, a: Sequence[_At], b: Sequence[_At], lengths: tuple[float, float]) -> Iterator[Problem]:
    """Ease taken up by each stretch from notch to notch: nothing, or its even share of the whole."""
    if not a or lengths[0] < lengths[1] - TOLERANCE:
        return
    ends_b = [0.0, *(at.position for at in b), lengths[1]]
    taken = [one - two for one, two in zip([0.0, *(at.position for at in a), lengths[0]], ends_b, strict=True)]
    eased = [after - before for before, after in pairwise(taken)]
    spans = [after - before for before, after in pairwise(ends_b)]
    share = _share(eased, spans, taken[-1])
    for i, (ease, span) in enumerate(zip(eased, spans, strict=True)):
        if abs(ease) > TOLERANCE and abs(ease - share * span) > 2.0 * TOLERANCE:
            yield _uneven(seam, a, b, (i, ease, share * span))
            return


def _share(eased: Sequence[float], spans: Sequence[float], whole: float) -> float:
    """Ease for each mm of the stretches that carry some."""
    carrying = sum(span for ease, span in zip(eased, spans, strict=True) if ease > TOLERANCE)
    return max(whole, 0.0) / carrying if carrying > 0.0 else 0.0


def _uneven(seam: Seam, a: Sequence[_At], b: Sequence[_At], found: tuple[int, float, float]) -> Problem:
    i, ease, wanted = found
    k = min(i, len(a) - 1)
    where = "up to" if i < len(a) else "after"
    message = (
        f"The stretch {where} the notch on {_words(a[k])} at {mm(a[k].position)} along the seam "
        f"(on {_words(b[k])} at {mm(b[k].position)}) takes up an ease of {mm(ease)}, where {mm(wanted)} is its share."
    )
    fix = f"Move the notch on {_words(b[k])} by {mm(abs(ease - wanted))}, or match the notches of this seam again."
    return _finding(seam, _WALK, message, fix, (a[k], b[k]), Measured(ease, wanted, wanted))


def _off(seam: Seam, one: _At, two: _At, off: float) -> Problem:
    message = (
        f"The notch on {_words(one)} lies {mm(one.position)} along the seam and its partner on {_words(two)} "
        f"{mm(two.position)}: they miss each other by {mm(abs(off))} when the seam is pinned."
    )
    fix = f"Move the notch on {_words(two)} by {mm(abs(off))}, or match the two again."
    return _finding(seam, _WALK, message, fix, (one, two), Measured(abs(off), None, 0.0))


def _words(at: _At) -> str:
    return f"{at.piece}.{at.notch.edge}"


def _finding(
    seam: Seam, told: Told, message: str, fix: str, notches: Sequence[_At], measured: Measured | None = None
) -> Problem:
    """A problem at the first of the notches; the second, where there is one, is its partner."""
    at, partner = notches[0], notches[1] if len(notches) > 1 else None
    see = (
        ("the notch", at.notch.span),
        (f"the seam {seam_words(seam.a, seam.b)}", seam.span),
        ("its partner", partner.place if partner else None),
    )
    return finding(told, message, fix, at.place, see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("notch_walk", "Notch walk", _run, (_OFF_EDGE, _MISSING, _UNLIKE, _WALK))
