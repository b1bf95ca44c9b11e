"""Notch pairs: a notch that a piece has by itself on a sewn edge finds its partner, and none asked for is lost.

Why: a notch on one side of a seam only says to pin it to something, and there is nothing; two at unlike places twist
the seam. `notch_walk` looks at those that a seam matched; here are those that stand on a piece. A joint of two edges,
or a fold, is a partner too; and the middle of an edge of two like halves is found by folding it. What
lands on the very end of both sides is marked by the seam's end, so that no notch is cut there: that is told, for
whoever asked for it meant another place.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, run_words, seam_words
from app.pattern.names import dotted
from app.pattern.pieces.matching import SEAM_END
from app.pattern.pieces.measure import edge_passes, run_length
from app.pattern.pieces.model import Edge, EdgeRun, Notch, Pattern, Piece, Seam
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "TOLERANCE"]

#: Partners lie at the same distance along both sides within this (mm).
TOLERANCE = 1.0
#: In a gathered seam, within this share of its length as well; in an eased one, within its ease.
_SHARE = 0.03
#: Halves are alike when their outlines lie this near (mm) once folded.
_LIKE = 1.0


_LONE = Told(
    "checks.notch-lone",
    "A notch has no partner on the edge that it is sewn to. Pin that seam from its ends and let the notch be.",
    Severity.WARNING,
)
_APART = Told(
    "checks.notch-apart",
    "Two notches of one seam do not lie opposite each other. Pin that seam from its ends, not by them.",
    Severity.WARNING,
)
_SINGLE = Told(
    "checks.notch-odd",
    "A double notch of one piece would meet a single one of another. Trust the place, not the number.",
    Severity.WARNING,
)
_LOST = Told(
    "checks.notch-lost",
    "A notch is meant just where a seam ends, or where another is, so that it is not drawn: what lies there marks it.",
    Severity.WARNING,
    maker=False,
)


@dataclass(frozen=True, slots=True)
class _Own:
    """A notch of a piece's own, met `position` mm along a side of a seam that is `length` mm long."""

    piece: Piece
    edge: Edge
    notch: Notch
    position: float
    length: float


@dataclass(frozen=True, slots=True)
class _Stop:
    """What a notch may be pinned to on the other side: a notch, or (`notch` None) a joint or a fold."""

    position: float
    notch: Notch | None
    where: Place


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every notch without a partner, and every one that is not drawn."""
    pattern = table.pattern
    answers: dict[int, list[tuple[Problem, ...]]] = {}
    for seam in pattern.seams:
        for own, other in ((seam.a, seam.b), (seam.b, seam.a)):
            for met in _own(pattern, own):
                answers.setdefault(id(met.notch), []).append(tuple(_partner(pattern, seam, met, (own, other))))
    apart: set[float] = set()
    for found in answers.values():
        # An edge may be sewn into two seams; a notch serves one of them
        if not all(found):
            continue
        problem = found[0][0]
        # Two that miss each other are one slip
        if problem.code == _APART.code and problem.measured is not None:
            if problem.measured.is_mm in apart:
                continue
            apart.add(problem.measured.is_mm)
        yield problem
    for piece in pattern.pieces:
        for notch in piece.notches:
            yield from _at_end(piece, notch)
    for seam in pattern.seams:
        for span in seam.unmarked:
            sides = seam_words(seam.a, seam.b)
            message = (
                f"A notch of the seam {sides} falls on ends of edges, or on another notch, so that it is not drawn."
            )
            fix = "Place it apart from both, or leave it out: the end of a seam marks itself."
            where = Place(seam.a[0].piece, seam.a[0].edge)
            yield finding(_LOST, message, fix, where, see=(("the notch", span), ("the seam", seam.span)))


def _at_end(piece: Piece, notch: Notch) -> Iterator[Problem]:
    edge = next((edge for edge in piece.edges if edge.name == notch.edge), None)
    if notch.seam is not None or edge is None or min(abs(notch.along), abs(notch.along - edge.path.length)) > SEAM_END:
        return
    message = f"A notch lies on the very end of {dotted(piece.name, edge.name)}, where the corner marks the place."
    fix = "Place it between the ends of the edge, or leave it out."
    yield finding(_LOST, message, fix, Place(piece.name, edge.name), see=(("the notch", notch.span),))


def _own(pattern: Pattern, runs: Sequence[EdgeRun]) -> Iterator[_Own]:
    """The notches that stand on the pieces of a side by themselves, clear of the ends of their edges."""
    length = run_length(pattern, runs)
    for walked in edge_passes(pattern, runs):
        piece = pattern.piece(walked.piece)
        for notch in piece.notches:
            inside = SEAM_END < notch.along < walked.edge.path.length - SEAM_END
            if notch.seam is None and notch.edge == walked.edge.name and inside:
                yield _Own(piece, walked.edge, notch, walked.position(notch.along), length)


def _stops(pattern: Pattern, runs: Sequence[EdgeRun]) -> list[_Stop]:
    found = []
    for walked in edge_passes(pattern, runs):
        piece = pattern.piece(walked.piece)
        if walked.before > 0.0:
            found.append(_Stop(walked.before, None, Place(piece.name, walked.edge.name)))
        for notch in piece.notches:
            if notch.edge == walked.edge.name:
                at = walked.edge.path.point_at(min(max(notch.along, 0.0), walked.edge.path.length))
                found.append(_Stop(walked.position(notch.along), notch, Place(piece.name, walked.edge.name, at=at)))
    return found


def _partner(
    pattern: Pattern, seam: Seam, met: _Own, sides: tuple[Sequence[EdgeRun], Sequence[EdgeRun]]
) -> Iterator[Problem]:
    """What is wrong with a notch in this seam; nothing when it has its partner."""
    own, other = sides
    stops, faced = _stops(pattern, other), run_length(pattern, other)
    scale = faced / met.length if met.length > 0.0 else 1.0
    loose = TOLERANCE + (0.0 if seam.kind in ("plain", "short") else abs(faced - met.length))
    if seam.kind in ("gather", "elastic"):
        loose = TOLERANCE + _SHARE * faced

    def off(stop: _Stop) -> float:
        """How far the notch is from a stop, pinned from whichever end brings them nearer, mm."""
        if seam.kind in ("gather", "elastic"):
            return abs(met.position * scale - stop.position)
        from_end = (met.length - met.position) - (faced - stop.position)
        return min(abs(met.position - stop.position), abs(from_end))

    near = [stop for stop in stops if off(stop) <= loose]
    if any(stop.notch is None or stop.notch.double == met.notch.double for stop in near) or _middle(met):
        return
    where = Place(met.piece.name, met.edge.name, at=met.edge.path.point_at(met.notch.along))
    see = [("the notch", met.notch.span), (f"the seam {seam_words(seam.a, seam.b)}", seam.span)]
    name = dotted(met.piece.name, met.edge.name)
    line = f"sew {seam_words(own, other)}  notch at {mm(met.position).replace(' ', '')}"
    if near:
        words = ("double", "single") if met.notch.double else ("single", "double")
        message = f"The {words[0]} notch on {name} meets a {words[1]} one on {run_words(other)}."
        yield finding(_SINGLE, message, "Make both single or both double.", where, see=see)
        return
    notched = [stop for stop in stops if stop.notch is not None and stop.notch.seam is None]
    if len(notched) == len([1 for one in _own(pattern, own)]) and notched:
        stop = min(notched, key=off)
        message = (
            f"The notch on {name} lies {mm(met.position)} along the seam and the one on {run_words(other)} "
            f"{mm(stop.position)}: {mm(off(stop))} apart."
        )
        fix = f"Move one of them by {mm(off(stop))}, or take both out and match one in the seam: {line}"
        yield finding(_APART, message, fix, where, see=see, measured=Measured(off(stop), None, TOLERANCE))
        return
    message = f"The notch on {name}, {mm(met.position)} along the seam, finds no partner on {run_words(other)}."
    fix = f"Take it out of {met.piece.name} and match one in the seam: {line}"
    yield finding(_LONE, message, fix, where, see=see)


def _middle(met: _Own) -> bool:
    """Whether the notch only marks the middle of an edge whose halves are alike: folding it finds the place."""
    path = met.edge.path
    if abs(met.position - met.length / 2.0) > TOLERANCE or abs(met.notch.along - path.length / 2.0) > TOLERANCE:
        return False
    middle, start, end = path.point_at(path.length / 2.0), path.start, path.end
    for share in (0.125, 0.25, 0.375):
        one, other = path.point_at(path.length * share), path.point_at(path.length * (1.0 - share))
        pairs = ((start, end), (middle, middle))
        if any(abs(one.distance(a) - other.distance(b)) > _LIKE for a, b in pairs):
            return False
    return True


#: The check as every room knows it.
CHECK = Check("notch_pairs", "Notch pairs", _run, (_LONE, _APART, _SINGLE, _LOST))
