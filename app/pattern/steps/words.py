"""Names of pieces and edges as people read them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from app.pattern.pieces.edge_words import edges_words
from app.pattern.pieces.model import EdgeRun, Pattern, Piece

__all__ = ["and_list", "side_in_words"]


def and_list(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`; the same words twice are said once."""
    said = list(dict.fromkeys(words))
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} and {said[-1]}"


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
