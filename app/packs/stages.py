"""The stages of a build, in words for whoever waits, and the share of the work done when each begins."""

from __future__ import annotations

from enum import StrEnum

from app.packs.request import Progress

__all__ = ["Stage", "begin"]


class Stage(StrEnum):
    """The stages of a build, in order, in words for the customer who waits."""

    DRAFT = "Drafting and checking"
    LAY = "Laying the pieces on the cloth"
    SHEETS = "Planning the sheets"
    PRINT = "Printing the pattern"
    INSTRUCTIONS = "Writing the instructions"
    REPORT = "Writing down every figure"


#: Share of the work done when a stage begins, from builds that were timed.
_BEGUN = {
    Stage.DRAFT: 0.0,
    Stage.LAY: 0.05,
    Stage.SHEETS: 0.5,
    Stage.PRINT: 0.6,
    Stage.INSTRUCTIONS: 0.7,
    Stage.REPORT: 0.95,
}


def begin(progress: Progress, stage: Stage) -> None:
    """Tell who waits that a stage begins."""
    progress(stage, _BEGUN[stage])
