"""Names of pieces and edges as people read them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from app.pattern.pieces.model import EdgeRun, Pattern

__all__ = ["and_list", "plain_name", "side_in_words"]


def plain_name(name: str) -> str:
    """A draft's name as words: `side_upper` becomes `side upper`."""
    return name.replace("_", " ").strip()


def and_list(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`; the same words twice are said once."""
    said = list(dict.fromkeys(words))
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} and {said[-1]}"


def side_in_words(pattern: Pattern, side: Sequence[EdgeRun]) -> str:
    """One side of a seam in words, piece by piece: `Sleeve (cap back, cap front)`."""
    groups = groupby(side, key=lambda run: run.piece)
    return and_list(f"{pattern.piece(piece).title} ({_edges(runs)})" for piece, runs in groups)


def _edges(runs: Iterable[EdgeRun]) -> str:
    return ", ".join(dict.fromkeys(_edge(run) for run in runs))


def _edge(run: EdgeRun) -> str:
    both = ", both halves" if run.times == 2 else f", {run.times} times" if run.times > 2 else ""
    return plain_name(run.edge) + both
