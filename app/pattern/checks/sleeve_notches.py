"""Sleeve notches: a left and a right sleeve can be told apart, and so can the front and the back of each.

Why: a sleeve turned about hangs back to front, and on the paper both halves look alike. By custom a double notch says
back and a single one front (common practice, in every handbook of pattern cutting).
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.pairs import off_mirror
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.names import and_list
from app.pattern.pieces.model import EdgeRun, Pattern, Piece
from app.pattern.problem import Place, Problem, Severity, Told

__all__ = ["CHECK"]

#: A notch nearer than this (mm) to the end of an edge marks the seam there, and tells no half from the other.
NEAR_END = 15.0
#: A sleeve that lies on its own mirror image to within this (mm) has no front and back.
ALIKE = 3.0
#: Edges round the arm by their names: of the body, and of the sleeve.
_BODY = re.compile(r"(?:^|_)(?:armhole|armscye|scye|raglan|arm)(?:_|$)")
_SLEEVE = re.compile(r"(?:^|_)(?:cap|head|crown|sleevehead)(?:_|$)")

_NONE = Told(
    "checks.sleeve-unmarked",
    "Nothing on a sleeve tells its front from its back. Mark the back yourself before you lift the paper.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every sleeve that may be set in the wrong way round."""
    pattern = table.pattern
    for laid in table.pieces:
        piece = laid.piece
        # A sleeve that is its own mirror image hangs alike both ways
        if not any(cut.pair for cut in piece.cuts) or not laid.sound or off_mirror(laid) <= ALIKE:
            continue
        halves = _halves(pattern, piece)
        kinds = {tuple(sorted(notches)) for notches in halves.values()}
        if len(halves) < 2 or len(kinds) > 1:
            continue
        where = and_list(f"{name}" for name in halves)
        has = "no notch" if not next(iter(kinds)) else "the same notches"
        message = f"{piece.name} has {has} towards {where}: front and back cannot be told apart when it is sewn in."
        fix = "Give its seam a single notch towards the front and a double one towards the back: double notch at 9cm"
        yield finding(_NONE, message, fix, Place(piece.name), see=(("the piece", piece.span),))


def _halves(pattern: Pattern, piece: Piece) -> dict[str, list[bool]]:
    """The pieces to which a sleeve is sewn round the arm, each with the notches that lie towards it; True is double."""
    found: defaultdict[str, list[bool]] = defaultdict(list)
    for index, seam in enumerate(pattern.seams):
        for mine, its in ((seam.a, seam.b), (seam.b, seam.a)):
            if {run.piece for run in mine} != {piece.name} or not _is_armhole(mine, its):
                continue
            for run in its:
                found[run.piece].extend(_towards(pattern.piece(run.piece), run.edge, index))
    return dict(found)


def _is_armhole(sleeve: tuple[EdgeRun, ...], body: tuple[EdgeRun, ...]) -> bool:
    """A seam of a sleeve: its own edge is a cap, or a raglan line on both sides. An armhole's facing has none."""
    if any(run.piece == body[0].piece for run in sleeve):
        return False
    if all(_SLEEVE.search(run.edge) for run in sleeve):
        return True
    return all("raglan" in run.edge for run in (*sleeve, *body)) and all(_BODY.search(run.edge) for run in body)


def _towards(piece: Piece, edge: str, seam: int) -> Iterator[bool]:
    long = piece.edge(edge).path.length
    for notch in piece.notches:
        if notch.edge == edge and notch.seam in (seam, None) and NEAR_END < notch.along < long - NEAR_END:
            yield notch.double


#: The check as every room knows it.
CHECK = Check("sleeve_notches", "Sleeve notches", _run, (_NONE,))
