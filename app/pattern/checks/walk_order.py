"""Walk order: what is sewn together starts together, and edges that follow one another in a seam meet.

Why: an edge is walked from its start as it was drawn, or backwards. One that is walked
from the wrong end is as long, so that no tape finds it; but its notches come to lie at
the wrong end, and the picture of the seam is false. Three things tell it. Where back
and front are joined at the shoulder, a neckline that goes from the one to the other
must leave the back and enter the front there. The fold of one piece does not meet the
open end of another whose own fold lies at the far end. And edges that lie beside the
seam on both pieces under one name, neck by neck and hem by hem, lie at one end of it;
that is only likely, and so a warning.
"""

from __future__ import annotations

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, run_words, seam_words
from app.pattern.names import in_words
from app.pattern.pieces.measure import edges_beside
from app.pattern.pieces.model import Edge, EdgeRun, Pattern, Seam
from app.pattern.problem import Place, Problem, Severity, Told

__all__ = ["CHECK"]


_WRONG = Told(
    "checks.walk-order",
    "A seam would be pinned from the wrong end: its notches and its picture in the instructions would mislead you.",
)
_LIKELY = Told(
    "checks.walk-order-likely",
    "A seam may be described from the wrong end. Lay its edges together by their notches before you pin it.",
    Severity.WARNING,
    maker=False,
)


@dataclass(frozen=True, slots=True)
class _Corner:
    """Where two neighbouring edges of a piece meet, or a dart lies between them: before which edge of the outline."""

    piece: str
    index: int


@dataclass(frozen=True, slots=True)
class _Ends:
    """The corner at which the walk along an edge begins, and the one at which it ends."""

    start: _Corner
    end: _Corner


@dataclass(frozen=True, slots=True)
class _Joined:
    """Two corners that a seam brings together, one on either side."""

    seam: int
    one: _Corner
    other: _Corner


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every pair of edges in a seam of which one is walked from the wrong end."""
    pattern = table.pattern
    turned = {index: found for index, seam in enumerate(pattern.seams) if (found := list(_ends_meet(pattern, seam)))}
    for found in turned.values():
        yield from found
    joined = tuple(_joined(pattern, turned))
    for index, seam in enumerate(pattern.seams):
        others = tuple(pair for pair in joined if pair.seam != index)
        for side in (seam.a, seam.b):
            for one, two in pairwise(side):
                if (one.piece, one.edge) != (two.piece, two.edge):
                    yield from _follow(pattern, seam, (one, two), others)


def _ends_meet(pattern: Pattern, seam: Seam) -> Iterator[Problem]:
    """A seam whose sides agree only when one of them is turned round: by their folds, or by the edges beside them."""
    ends = [(_beside(pattern, side, True), _beside(pattern, side, False)) for side in (seam.a, seam.b)]
    folds = [tuple(edge.fold for edge in pair) for pair in ends]
    if folds in ([(True, False), (False, True)], [(False, True), (True, False)]):
        yield _turned_seam(seam, "the fold", _WRONG)
        return
    (a, y), (b, z) = ([edge.name.rstrip("0123456789").rstrip("_") for edge in pair] for pair in ends)
    crossed = [name for name, other in ((a, z), (y, b)) if name == other]
    if crossed and a != b and y != z and a != y and b != z:
        yield _turned_seam(seam, in_words(crossed[0]), _LIKELY)


def _beside(pattern: Pattern, runs: Sequence[EdgeRun], at_start: bool) -> Edge:
    """The edge of the outline that lies beside one end of a side of a seam."""
    run = runs[0] if at_start else runs[-1]
    start, end = edges_beside(pattern.piece(run.piece), run.edge, run.backwards)
    return start if at_start or run.times % 2 == 0 else end  # there and back ends where it began


def _joined(pattern: Pattern, turned: Container[int]) -> Iterator[_Joined]:
    """The corners at both ends of every seam; those of a seam that is turned as they meet once it is mended."""
    for index, seam in enumerate(pattern.seams):
        first, last = _walked(pattern, seam.a[0]).start, _walked(pattern, seam.a[-1]).end
        ends = _walked(pattern, seam.b[0]).start, _walked(pattern, seam.b[-1]).end
        start, end = reversed(ends) if index in turned else ends
        yield _Joined(index, first, start)
        yield _Joined(index, last, end)


def _walked(pattern: Pattern, run: EdgeRun) -> _Ends:
    """The corners of a run; one that is walked there and back ends where it began."""
    piece = pattern.piece(run.piece)
    index = piece.place_of(run.edge)
    opens, closes = _Corner(piece.name, index), _Corner(piece.name, (index + 1) % len(piece.edges))
    forward = piece.edges[index].with_outline != run.backwards
    start, end = (opens, closes) if forward else (closes, opens)
    return _Ends(start, end if run.times % 2 else start)


def _far(pattern: Pattern, run: EdgeRun) -> _Ends:
    """The corners of a run when it is walked from its other end."""
    return _walked(pattern, EdgeRun(run.piece, run.edge, not run.backwards, run.times))


def _follow(
    pattern: Pattern, seam: Seam, runs: tuple[EdgeRun, EdgeRun], joined: tuple[_Joined, ...]
) -> Iterator[Problem]:
    one, two = runs
    leave, enter = _walked(pattern, one).end, _walked(pattern, two).start
    if _together(leave, enter, joined):
        return
    turned_leave, turned_enter = _far(pattern, one).end, _far(pattern, two).start
    either = [
        run for run, ends in ((one, (turned_leave, enter)), (two, (leave, turned_enter))) if _together(*ends, joined)
    ]
    odd = _at_odds(leave, enter, joined)
    if either:
        yield _wrong_end(seam, either, "or")
    elif odd is not None:
        yield _odd_seam(seam, runs, pattern.seams[odd])
    elif _together(turned_leave, turned_enter, joined):
        yield _wrong_end(seam, runs, "and")


def _together(one: _Corner, other: _Corner, joined: tuple[_Joined, ...]) -> bool:
    return one == other or any({pair.one, pair.other} == {one, other} for pair in joined)


def _at_odds(leave: _Corner, enter: _Corner, joined: tuple[_Joined, ...]) -> int | None:
    """A seam of the edges beside both corners that brings each to the far end of the other's edge; its number."""
    if leave.piece == enter.piece:
        return None
    for seam in dict.fromkeys(pair.seam for pair in joined):
        partners = {
            own: other
            for pair in joined
            if pair.seam == seam
            for own, other in ((pair.one, pair.other), (pair.other, pair.one))
        }
        onto, back = partners.get(leave), partners.get(enter)
        if onto and back and (onto.piece, back.piece) == (enter.piece, leave.piece):
            return seam
    return None


def _wrong_end(seam: Seam, wrong: Sequence[EdgeRun], joint: str) -> Problem:
    """One edge that is walked from its wrong end; two by "or" when either may be it, by "and" when both are."""
    words = f" {joint} ".join(f"{run.piece}.{run.edge}" for run in wrong)
    are = "are" if len(wrong) > 1 and joint == "and" else "is"
    message = (
        f"In the seam {seam_words(seam.a, seam.b)}, {words} {are} walked from the wrong end: the garment's other seams "
        "bring together the ends that lie apart here."
    )
    fix = f", {joint} ".join(_turned(run) for run in wrong)
    return _found(message, f"{fix[0].upper()}{fix[1:]}.", (wrong[0], seam))


def _turned(run: EdgeRun) -> str:
    name = f"{run.piece}.{run.edge}"
    return f"take “backwards” away after {name}" if run.backwards else f"write “backwards” after {name}"


def _turned_seam(seam: Seam, what: str, told: Told) -> Problem:
    words = seam_words(seam.a, seam.b)
    message = (
        f"The seam {words} begins beside {what} on one side and ends beside it on the other: one side is walked from "
        "the wrong end."
    )
    fix = f"Write “backwards” after {run_words(seam.b)}, or take it away there."
    return _found(message, fix, (seam.a[0], seam), told=told)


def _odd_seam(seam: Seam, runs: tuple[EdgeRun, EdgeRun], other: Seam) -> Problem:
    one, two = (f"{run.piece}.{run.edge}" for run in runs)
    between = seam_words(other.a, other.b)
    message = (
        f"The seam {between} does not bring the ends of {one} and {two} together, though they follow one another in "
        f"{seam_words(seam.a, seam.b)}: one of its sides is walked from the wrong end."
    )
    fix = f"Write “backwards” after one side of {between}, or take it away there."
    return _found(message, fix, (runs[0], seam), other)


def _found(
    message: str, fix: str, at: tuple[EdgeRun, Seam], other: Seam | None = None, *, told: Told = _WRONG
) -> Problem:
    run, seam = at
    see = (("the seam", seam.span), ("the seam between them", other.span if other else None))
    return finding(told, message, fix, Place(run.piece, run.edge), see=see)


#: The check as every room knows it.
CHECK = Check("walk_order", "Walk order", _run, (_WRONG, _LIKELY))
