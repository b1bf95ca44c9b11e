"""Closing outlines to the last digit, and taking out the little loops that a tight bend leaves in a parallel line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from app.pattern.geometry import Arc, Path, Segment, is_simple, self_crossings

__all__ = ["welded", "without_small_loops"]

#: Segments shorter than this (mm) are left out.
NOTHING = 1e-9


def welded(segments: Iterable[Segment]) -> Path:
    """A closed path in which each segment starts exactly where the one before it ends, the first one included.

    Only what rounding has moved is moved back (lines and curves give way, arcs stay).
    """
    chain = [s for s in segments if s.length > NOTHING]
    for i in range(len(chain)):
        before, here = chain[i - 1], chain[i]
        if before.end == here.start or before is here:
            continue
        if not isinstance(here, Arc):
            chain[i] = replace(here, start=before.end)
        elif not isinstance(before, Arc):
            chain[i - 1] = replace(before, end=here.start)
    return Path(tuple(chain))


def without_small_loops(outline: Path, longest: float) -> Path:
    """The closed outline with every loop of up to `longest` mm cut off where it crosses; larger ones stay."""
    while not is_simple(outline):
        loop = _smallest_loop(outline)
        if loop is None or loop[1] - loop[0] > longest:
            break
        before, after = outline.part(0.0, loop[0]), outline.part(loop[1], outline.length)
        outline = welded((*before.segments, *after.segments))
    return outline


def _smallest_loop(outline: Path) -> tuple[float, float] | None:
    """Where along the outline its smallest loop starts and ends, mm; None when there is none."""
    loops = [(c.along_a, c.along_b) for c in self_crossings(outline)]
    return min(loops, key=lambda loop: loop[1] - loop[0], default=None)
