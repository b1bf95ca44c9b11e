"""Stretches of a side that pleats and tucks fold away: along the paper, and along the side as it is sewn."""

from __future__ import annotations

__all__ = ["Folds", "on_paper", "part_of", "sewn", "shifted", "taken_in", "turned"]

#: Stretches along a side's paper (mm from its start, in order, apart) that lie folded away when it is sewn.
Folds = tuple[tuple[float, float], ...]


def taken_in(folds: Folds) -> float:
    """How much all folds take away, mm."""
    return sum(end - start for start, end in folds)


def sewn(folds: Folds, along: float) -> float:
    """The place of a distance along the paper once the folds are folded, mm; inside a fold, that of the fold."""
    return along - sum(min(max(along - start, 0.0), end - start) for start, end in folds)


def on_paper(folds: Folds, place: float) -> float:
    """The distance along the paper that lies at a place of the folded side, mm; at a fold, where it ends."""
    along = place
    for start, end in folds:
        if along < start - 1e-9:
            break
        along += end - start
    return along


def part_of(folds: Folds, start: float, end: float) -> Folds:
    """The folds of a stretch of the side, counted from the stretch's start; one that is cut in two keeps its part."""
    cut = ((max(a, start) - start, min(b, end) - start) for a, b in folds)
    return tuple((a, b) for a, b in cut if b - a > 1e-9)


def shifted(folds: Folds, by: float) -> Folds:
    """The folds when the side begins `by` mm earlier."""
    return tuple((start + by, end + by) for start, end in folds)


def turned(folds: Folds, length: float) -> Folds:
    """The folds of the side walked the other way; `length` is that of its paper, mm."""
    return tuple((length - end, length - start) for start, end in reversed(folds))
