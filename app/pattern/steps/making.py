"""The order of making: the designer's steps, numbered, each with what its seams ask for."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.pieces.model import Pattern
from app.pattern.steps.clipping import ClipAdvice, clip_advice
from app.pattern.steps.seams import SeamNote, seam_notes

__all__ = ["MakingStep", "making_order", "seams_without_step"]


@dataclass(frozen=True, slots=True)
class MakingStep:
    """One step: Markdown with the customer's figures in it, and its seams with their notes and clips."""

    number: int
    title: str
    markdown: str
    seams: tuple[int, ...]
    notes: tuple[SeamNote, ...]
    clips: tuple[ClipAdvice, ...]


def making_order(pattern: Pattern) -> tuple[MakingStep, ...]:
    """The steps in the designer's order, counted from 1.

    A seam's clips are said at the last step that shows it: a seam is clipped when it is finished.
    """
    notes = seam_notes(pattern)
    last = {seam: rank for rank, step in enumerate(pattern.steps) for seam in step.seams}
    clips = clip_advice(pattern)
    return tuple(
        MakingStep(
            rank + 1,
            step.title,
            step.markdown,
            step.seams,
            tuple(notes[seam] for seam in step.seams),
            tuple(clip for clip in clips if last.get(clip.seam) == rank),
        )
        for rank, step in enumerate(pattern.steps)
    )


def seams_without_step(pattern: Pattern) -> tuple[int, ...]:
    """Indices of the seams that no step shows, in order."""
    shown = {seam for step in pattern.steps for seam in step.seams}
    return tuple(index for index in range(len(pattern.seams)) if index not in shown)
