"""Step order: what a seam runs over is sewn before it.

Why: a collar cannot go round a neck whose shoulders are still open, and a waistband is sewn to darts that are closed.
Only what the steps themselves show is judged: a seam shown (`{seam ...}`) in an earlier step than the seam that it
runs over, or than the step in which the darts are closed. Every other order is the maker's (a sleeve set in flat, a hem
before the side).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, seam_words, side_place
from app.pattern.pieces.measure import edges_beside
from app.pattern.pieces.model import EdgeRun, Pattern
from app.pattern.problem import Problem, Severity, Told

__all__ = ["CHECK"]

_DARTS = re.compile(r"\bdarts?\b", re.I)

_ORDER = Told(
    "checks.step-order",
    "The instructions sew a seam before another that it runs over. Sew the other one first.",
    Severity.WARNING,
    maker=False,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every seam that a step shows too early."""
    pattern = table.pattern
    first: dict[int, int] = {}
    for place, step in enumerate(pattern.steps):
        for index in step.seams:
            first.setdefault(index, place)
    for index, at in first.items():
        seam = pattern.seams[index]
        # Each later step once, by the first thing in it that the seam runs over
        found: dict[int, str] = {}
        for pair in (pair for side in (seam.a, seam.b) for pair in pairwise(side)):
            for under, later in (*_over_seam(pattern, first, at, pair), *_over_dart(pattern, at, pair)):
                found.setdefault(later, under)
        for later, under in found.items():
            yield _told(pattern, index, at, under, later)


def _over_seam(
    pattern: Pattern, first: dict[int, int], at: int, pair: tuple[EdgeRun, EdgeRun]
) -> Iterator[tuple[str, int]]:
    """The seam that joins two edges walked one after the other, where it is shown only later."""
    one, other = pair
    if one.piece == other.piece:
        return
    # An edge that is walked to the fold and back ends where it began
    last = 0 if one.times % 2 == 0 else 1
    ends = (one.piece, edges_beside(pattern.piece(one.piece), one.edge, one.backwards)[last].name)
    starts = (other.piece, edges_beside(pattern.piece(other.piece), other.edge, other.backwards)[0].name)
    for under, later in first.items():
        seam = pattern.seams[under]
        a, b = ({(run.piece, run.edge) for run in side} for side in (seam.a, seam.b))
        if later > at and ((ends in a and starts in b) or (ends in b and starts in a)):
            yield f"the seam {seam_words(seam.a, seam.b)}", later


def _over_dart(pattern: Pattern, at: int, pair: tuple[EdgeRun, EdgeRun]) -> Iterator[tuple[str, int]]:
    """The dart between two edges walked one after the other, where the steps close it only later."""
    one, other = pair
    if one.piece != other.piece or not pattern.piece(one.piece).darts:
        return
    piece = pattern.piece(one.piece)
    low, high = sorted((piece.place_of(one.edge), piece.place_of(other.edge)))
    between = low if high == low + 1 else high if (low, high) == (0, len(piece.edges) - 1) else None
    dart = next((d for d, mouth in zip(piece.darts, piece.mouths, strict=True) if mouth == between), None)
    spoken = [i for i, step in enumerate(pattern.steps) if _DARTS.search(f"{step.title} {step.markdown}")]
    if dart is not None and spoken and spoken[0] > at:
        yield f"the dart {piece.name}.{dart.name}", spoken[0]


def _told(pattern: Pattern, index: int, at: int, under: str, later: int) -> Problem:
    seam, step, after = pattern.seams[index], pattern.steps[at], pattern.steps[later]
    message = (
        f"The step “{step.title}” sews {seam_words(seam.a, seam.b)} over {under}, which comes only in the later step "
        f"“{after.title}”."
    )
    fix = f"Move the step “{after.title}” before “{step.title}”."
    see = (("the step", step.span), ("the seam", seam.span))
    return finding(_ORDER, message, fix, side_place(pattern, seam.a), see=see)


#: The check as every room knows it.
CHECK = Check("step_order", "Step order", _run, (_ORDER,))
