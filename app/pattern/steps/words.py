"""Names of pieces and edges as people read them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from app.pattern.names import and_list
from app.pattern.pieces.edge_words import edges_words
from app.pattern.pieces.model import EdgeRun, Pattern, Piece

__all__ = ["side_in_words"]


def side_in_words(pattern: Pattern, side: Sequence[EdgeRun]) -> str:
    """One side of a seam in words, piece by piece: `Front (side) and Back (waist, both halves)`."""
    groups = groupby(side, key=lambda run: run.piece)
    return and_list(_of_piece(pattern.piece(name), tuple(runs)) for name, runs in groups)


def _of_piece(piece: Piece, runs: Sequence[EdgeRun]) -> str:
    times = {run.times for run in runs}
    if len(times) > 1:
        return and_list(_of_piece(piece, (run,)) for run in runs)
    often = times.pop()
    both = ", both halves" if often == 2 else f", {often} times" if often > 2 else ""
    return f"{piece.title} ({'; '.join(edges_words(piece, (run.edge for run in runs)))}{both})"
