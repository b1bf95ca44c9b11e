"""Cut list: every piece says what to cut it from and how often, and the fold agrees with the piece.

Why: a piece with no cloth is never cut; half a piece cut off the fold is half a garment.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.table import Table, finding
from app.pattern.pieces.model import Cut, Piece
from app.pattern.problem import Place, Problem

__all__ = ["check"]


def check(table: Table) -> Iterator[Problem]:
    """Every fault of every piece's list of cuts."""
    fabrics = [fabric.name for fabric in table.pattern.fabrics]
    for piece in table.pattern.pieces:
        if not piece.cuts:
            message = f"{piece.name} has no cloth to be cut from."
            yield _finding(piece, "checks.no-cuts", message, "Say how many to cut from which fabric.")
        yield from _fold_edges(piece)
        for cut in piece.cuts:
            yield from _cut(piece, cut, fabrics)


def _cut(piece: Piece, cut: Cut, fabrics: list[str]) -> Iterator[Problem]:
    if cut.fabric not in fabrics:
        message = f"{piece.name} is cut from {cut.fabric}, which is none of the pattern's fabrics."
        fix = f"Use one of {', '.join(fabrics)}, or add {cut.fabric} to the fabrics."
        yield _finding(piece, "checks.cut-fabric", message, fix)
    if cut.count < 1:
        message = f"{piece.name} is cut {cut.count} times from {cut.fabric}."
        yield _finding(piece, "checks.cut-count", message, "Cut it once or more, or leave that fabric out.")
    elif cut.pair and cut.count % 2:
        message = f"{piece.name} is cut {cut.count} times from {cut.fabric} in pairs, and {cut.count} is odd."
        yield _finding(piece, "checks.cut-pairs", message, f"Cut {cut.count + 1}, or do not cut it in pairs.")
    folds = [edge.name for edge in piece.edges if edge.fold]
    if cut.on_fold and not folds:
        message = f"{piece.name} is cut on the fold from {cut.fabric} and has no fold edge."
        yield _finding(
            piece, "checks.cut-fold", message, "Make the edge that lies on the fold its fold edge, or cut it open."
        )
    if folds and not cut.on_fold:
        message = f"{piece.name} has the fold edge {folds[0]}, and its cut from {cut.fabric} is not on the fold."
        yield _finding(
            piece, "checks.cut-fold", message, f"Cut it on the fold, or give {folds[0]} an allowance or a seam."
        )


def _fold_edges(piece: Piece) -> Iterator[Problem]:
    folds = [edge.name for edge in piece.edges if edge.fold]
    if len(folds) > 1:
        message = f"{piece.name} has {len(folds)} fold edges ({', '.join(folds)}); cloth folds along one."
        yield _finding(piece, "checks.fold-edges", message, f"Keep {folds[0]} and make the others ordinary edges.")


def _finding(piece: Piece, code: str, message: str, fix: str) -> Problem:
    return finding(code, message, fix, Place(piece.name), see=(("the piece", piece.span),))
