"""What the draft room shows of a text, worked out by a helper (`app.base.aside`) and kept for a while.

A text is whatever a designer sent: it may be slow, or take all the memory there is. So no page reads or draws one
itself; it asks here, and where a helper had to be ended it gets that as the one thing to mend.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache

from app.base import aside
from app.pattern.guide.drawing import DrawnDraft
from app.pattern.language.format import format_draft
from app.pattern.make import Choice, DraftCard, read_draft
from app.pattern.problem import Refused
from app.shop.studio.drafts.check import DraftReading, DraftSource, draw_source, read_text, try_draft
from app.shop.studio.drafts.parts import ChangeRow, DraftResult, change_rows, draft_result, lines_of

__all__ = [
    "DraftFindings",
    "changes_between",
    "choices_of",
    "draft_findings",
    "work_out_findings",
    "reading_of",
    "format_text",
]

_CACHED = 32


@dataclass(frozen=True, slots=True)
class DraftFindings:
    """All that is found in a text for one body: what it says, the lines that draw by sheet, and what it gives."""

    reading: DraftReading
    lines: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    look: DraftResult | None = None


class _HelperStopped(Exception):
    """A helper was ended over a text; what is told of it is not kept, since another try may go well."""

    def __init__(self, refused: Refused) -> None:
        super().__init__(refused)
        self.problems = refused.problems


def draft_findings(source: DraftSource, size: str) -> DraftFindings:
    """Everything the draft page shows of a text for a size of its chart. Raises `Busy` when no helper is free."""
    try:
        return _cached_findings(source, size)
    except _HelperStopped as ended:
        return DraftFindings(DraftReading(ended.problems, None, ()))


def reading_of(source: DraftSource) -> DraftReading:
    """A text read: why it cannot be kept, or what it holds and leaves unsaid."""
    try:
        return _cached_reading(source)
    except _HelperStopped as ended:
        return DraftReading(ended.problems, None, ())


def choices_of(text: str, name: str) -> tuple[Choice, ...]:
    """The choices of a draft; none where it cannot be read."""
    try:
        return _cached_choices(text, name)
    except _HelperStopped:
        return ()


def changes_between(before: str, after: str) -> tuple[ChangeRow, ...]:
    """The rows that differ between two texts; none where that takes too long to find out."""
    try:
        return _cached_changes(before, after)
    except _HelperStopped:
        return ()


def format_text(text: str, name: str) -> str | Refused:
    """A text in the one canonical layout, or why it cannot be."""
    return aside.run(format_draft, text, name)


def work_out_findings(source: DraftSource, size: str) -> DraftFindings:
    """The work of `draft_findings`, as a helper does it."""
    reading = read_text(source)
    if reading.outline is None:
        return DraftFindings(reading)
    drawing = draw_source(source, size)
    lines = lines_of(drawing) if isinstance(drawing, DrawnDraft) else {}
    return DraftFindings(reading, lines, draft_result(try_draft(source, size), source.text.split("\n")))


def _choices_of(text: str, name: str) -> tuple[Choice, ...]:
    card = read_draft(text, name)
    return card.choices if isinstance(card, DraftCard) else ()


@lru_cache(maxsize=_CACHED)
def _cached_findings(source: DraftSource, size: str) -> DraftFindings:
    found = aside.run(work_out_findings, source, size)
    if isinstance(found, Refused):
        raise _HelperStopped(found)
    return found


@lru_cache(maxsize=_CACHED)
def _cached_reading(source: DraftSource) -> DraftReading:
    found = aside.run(read_text, source)
    if isinstance(found, Refused):
        raise _HelperStopped(found)
    return found


@lru_cache(maxsize=_CACHED)
def _cached_choices(text: str, name: str) -> tuple[Choice, ...]:
    found = aside.run(_choices_of, text, name)
    if isinstance(found, Refused):
        raise _HelperStopped(found)
    return found


@lru_cache(maxsize=_CACHED)
def _cached_changes(before: str, after: str) -> tuple[ChangeRow, ...]:
    found = aside.run(change_rows, before, after)
    if isinstance(found, Refused):
        raise _HelperStopped(found)
    return found
