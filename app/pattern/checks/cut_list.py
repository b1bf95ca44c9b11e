"""Cut list: every piece says what to cut it from and how often, and the fold agrees with the piece.

Why: a piece with no cloth is never cut; half a piece cut off the fold is half a garment.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.pieces.model import Cut, Piece
from app.pattern.problem import Place, Problem, Told

__all__ = ["CHECK"]


_NO_CLOTH = Told(
    "checks.no-cuts",
    "A piece would not say from which cloth to cut it. That is a fault of the design.",
)
_WHICH_CLOTH = Told(
    "checks.cut-fabric",
    "A piece would be cut from a cloth that the design does not list. That is a fault of the design.",
)
_COUNT = Told(
    "checks.cut-count",
    "A piece would be cut no times at all. That is a fault of the design.",
)
_PAIRS = Told(
    "checks.cut-pairs",
    "A piece is to be cut in mirrored pairs, and an odd number of them: one would be without its partner.",
)
_FOLD = Told(
    "checks.cut-fold",
    "A piece would be cut on the fold where it is whole already, or flat where it is only half: you would cut "
    "twice the garment or half of it.",
)
_FOLDS = Told(
    "checks.fold-edges",
    "A piece would lie on two folds of the cloth at once, and cloth folds along one line.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every fault of every piece's list of cuts."""
    fabrics = [fabric.name for fabric in table.pattern.fabrics]
    for piece in table.pattern.pieces:
        if not piece.cuts:
            message = f"{piece.name} has no cloth to be cut from."
            yield _finding(piece, _NO_CLOTH, message, "Say how many to cut from which fabric.")
        folds = [edge.name for edge in piece.edges if edge.fold]
        if len(folds) > 1:
            message = f"{piece.name} has {len(folds)} fold edges ({', '.join(folds)}); cloth folds along one."
            yield _finding(piece, _FOLDS, message, f"Keep {folds[0]} and make the others ordinary edges.")
        for cut in piece.cuts:
            yield from _cut(piece, cut, fabrics)


def _cut(piece: Piece, cut: Cut, fabrics: list[str]) -> Iterator[Problem]:
    if cut.fabric not in fabrics:
        message = f"{piece.name} is cut from {cut.fabric}, which is none of the pattern's fabrics."
        fix = f"Use one of {', '.join(fabrics)}, or add {cut.fabric} to the fabrics."
        yield _finding(piece, _WHICH_CLOTH, message, fix)
    if cut.count < 1:
        message = f"{piece.name} is cut {cut.count} times from {cut.fabric}."
        yield _finding(piece, _COUNT, message, "Cut it once or more, or leave that fabric out.")
    elif cut.pair and cut.count % 2:
        message = f"{piece.name} is cut {cut.count} times from {cut.fabric} in pairs, and {cut.count} is odd."
        yield _finding(piece, _PAIRS, message, f"Cut {cut.count + 1}, or do not cut it in pairs.")
    folds = [edge.name for edge in piece.edges if edge.fold]
    if cut.on_fold and not folds:
        message = f"{piece.name} is cut on the fold from {cut.fabric} and has no fold edge."
        yield _finding(piece, _FOLD, message, "Make the edge that lies on the fold its fold edge, or cut it open.")
    if folds and not cut.on_fold:
        message = f"{piece.name} has the fold edge {folds[0]}, and its cut from {cut.fabric} is not on the fold."
        yield _finding(piece, _FOLD, message, f"Cut it on the fold, or give {folds[0]} an allowance or a seam.")


def _finding(piece: Piece, told: Told, message: str, fix: str) -> Problem:
    return finding(told, message, fix, Place(piece.name), see=(("the piece", piece.span),))


#: The check as every room knows it.
CHECK = Check("cut_list", "Cut list", _run, (_NO_CLOTH, _WHICH_CLOTH, _COUNT, _PAIRS, _FOLD, _FOLDS))
