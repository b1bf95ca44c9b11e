"""Closing outlines to the last digit, and taking out the little loops that a tight bend leaves in a parallel line."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

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
        loops = [_Loop(c.along_a, c.along_b, outline.length) for c in self_crossings(outline)]
        loop = min(loops, key=lambda loop: loop.size, default=None)
        if loop is None or loop.size > longest:
            break
        outline = loop.cut_off(outline)
    return outline


@dataclass(frozen=True, slots=True)
class _Loop:
    """Where an outline crosses itself, mm along it; the loop is the shorter way from there back to there."""

    first: float
    second: float
    length: float

    @property
    def over_start(self) -> bool:
        """True when the loop runs over the outline's start."""
        return self.length - (self.second - self.first) < self.second - self.first

    @property
    def size(self) -> float:
        """Length of the loop, mm."""
        inner = self.second - self.first
        return min(inner, self.length - inner)

    def cut_off(self, outline: Path) -> Path:
        """The outline without the loop."""
        if self.over_start:
            return welded(outline.part(self.first, self.second).segments)
        before = outline.part(0.0, self.first).segments if self.first > NOTHING else ()
        after = outline.part(self.second, self.length).segments if self.length - self.second > NOTHING else ()
        return welded((*before, *after))
