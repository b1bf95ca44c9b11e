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
from app.pattern.problem import Problem
from app.shop.studio.drafts.check import Reading, Subject, drawn, read_text, tried
from app.shop.studio.drafts.parts import ChangeRow, Look, changes, lines_of, look_of

__all__ = ["Found", "changes_between", "choices_of", "found_in", "look_at", "reading_of", "set_out"]

_KEPT = 32


@dataclass(frozen=True, slots=True)
class Found:
    """All that is found in a text for one body: what it says, the lines that draw by sheet, and what it gives."""

    reading: Reading
    lines: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    look: Look | None = None


class _Ended(Exception):
    """A helper was ended over a text; what is told of it is not kept, since another try may go well."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem


def found_in(subject: Subject, size: str) -> Found:
    """Everything the draft page shows of a text for a size of its chart. Raises `Busy` when no helper is free."""
    try:
        return _found(subject, size)
    except _Ended as ended:
        return Found(Reading((ended.problem,), None, ()))


def reading_of(subject: Subject) -> Reading:
    """A text read: why it cannot be kept, or what it holds and leaves unsaid."""
    try:
        return _reading(subject)
    except _Ended as ended:
        return Reading((ended.problem,), None, ())


def choices_of(text: str, name: str) -> tuple[Choice, ...]:
    """The choices of a draft; none where it cannot be read."""
    try:
        return _choices(text, name)
    except _Ended:
        return ()


def changes_between(before: str, after: str) -> tuple[ChangeRow, ...]:
    """The rows that differ between two texts; none where that takes too long to find out."""
    try:
        return _changes(before, after)
    except _Ended:
        return ()


def set_out(text: str, name: str) -> str | tuple[Problem, ...]:
    """A text in the one canonical layout, or why it cannot be."""
    laid = aside.find(format_draft, text, name)
    return (laid,) if isinstance(laid, Problem) else laid


def look_at(subject: Subject, size: str) -> Found:
    """The work of `found_in`, as a helper does it."""
    reading = read_text(subject)
    if reading.outline is None:
        return Found(reading)
    drawing = drawn(subject, size)
    lines = lines_of(drawing) if isinstance(drawing, DrawnDraft) else {}
    return Found(reading, lines, look_of(tried(subject, size), subject.text.split("\n")))


def _choices_of(text: str, name: str) -> tuple[Choice, ...]:
    card = read_draft(text, name)
    return card.choices if isinstance(card, DraftCard) else ()


@lru_cache(maxsize=_KEPT)
def _found(subject: Subject, size: str) -> Found:
    found = aside.find(look_at, subject, size)
    if isinstance(found, Problem):
        raise _Ended(found)
    return found


@lru_cache(maxsize=_KEPT)
def _reading(subject: Subject) -> Reading:
    found = aside.find(read_text, subject)
    if isinstance(found, Problem):
        raise _Ended(found)
    return found


@lru_cache(maxsize=_KEPT)
def _choices(text: str, name: str) -> tuple[Choice, ...]:
    found = aside.find(_choices_of, text, name)
    if isinstance(found, Problem):
        raise _Ended(found)
    return found


@lru_cache(maxsize=_KEPT)
def _changes(before: str, after: str) -> tuple[ChangeRow, ...]:
    found = aside.find(changes, before, after)
    if isinstance(found, Problem):
        raise _Ended(found)
    return found
