"""Whether a piece lies double in the garment: two layers of it sewn to one another, as a collar or a lined yoke."""

from __future__ import annotations

from app.pattern.checks.cloths import cloth_cuts
from app.pattern.checks.piece_words import is_doubled
from app.pattern.pieces.model import MarkKind, Pattern, Piece

__all__ = ["is_folded", "lies_double", "may_lie_double"]


def is_folded(piece: Piece) -> bool:
    """True for a piece with a line to fold it along, as a cuff or a waistband: its two halves are its layers."""
    return any(mark.kind is MarkKind.FOLD for mark in piece.marks)


def lies_double(piece: Piece) -> bool:
    """True where a piece must be there in two layers: sewn to itself along edges that run on, or up to its fold.

    Two edges apart from each other may be the ends of one strip, joined in a ring.
    """
    if is_folded(piece):
        return False
    closed = [edge.finish == "closed" for edge in piece.edges]
    at_fold = [edge.fold for edge in piece.edges]
    return any(
        (one and (closed[i - 1] or at_fold[i - 1])) or (at_fold[i] and closed[i - 1]) for i, one in enumerate(closed)
    )


def may_lie_double(pattern: Pattern, piece: Piece) -> bool:
    """True where two layers of a piece may be meant: by how its edges are finished, or by what the steps say of it."""
    own = len(cloth_cuts(pattern, piece)) == 1
    finished = own and any(edge.finish in ("closed", "lined") for edge in piece.edges)
    return not is_folded(piece) and (finished or is_doubled(pattern, piece))
