"""Drafts laid over each other as text: a shared garment, then the lines that an example adds or puts in their place."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from app.pattern.language.format import format_draft
from app.pattern.language.parse import SECTIONS
from app.pattern.problem import Refused

__all__ = ["Section", "laid_over", "sections_of", "whole_text", "written"]

#: Sections that stand once in a draft: lines of two layers come under one head.
_ONCE = ("needs", "choices", "fabrics", "notions", "figures", "steps")
#: Those whose lines give a name, which a later layer may give anew.
_NAMED = ("choices", "fabrics", "notions", "figures")


@dataclass(frozen=True, slots=True)
class Section:
    """A section of a draft as it is written: its first line, the rows under it, and comments above it."""

    head: str
    rows: tuple[str, ...] = ()
    comments: tuple[str, ...] = ()

    @property
    def word(self) -> str:
        """The word it begins with."""
        return self.head.split()[0]

    @property
    def key(self) -> str:
        """What a later layer begins with to take its place: `sheet band`, `sew cuff.attach`, or `needs` alone."""
        return self.word if self.word in (*_ONCE, "draft") else " ".join(self.head.split()[:2])

    @property
    def rows_under(self) -> bool:
        """True when lines stand under its first."""
        return any(row.strip() for row in self.rows)

    @property
    def text(self) -> str:
        """All its rows as written, without empty ones at its end."""
        return "\n".join((*self.comments, self.head, *self.rows)).rstrip("\n")


def sections_of(text: str) -> tuple[Section, ...]:
    """The sections of a draft in canonical layout, in order."""
    return tuple(_sections(text.strip("\n").split("\n")))


def _sections(rows: Sequence[str]) -> Iterator[Section]:
    heads = [i for i, row in enumerate(rows) if row and not row.startswith((" ", "#"))]
    starts = [_start(rows, head) for head in heads]
    for start, head, end in zip(starts, heads, (*starts[1:], len(rows)), strict=True):
        yield Section(rows[head], tuple(rows[head + 1 : end]), tuple(rows[start:head]))


def _start(rows: Sequence[str], head: int) -> int:
    """The row of the first comment that stands right above a section, else the section's own."""
    while head and rows[head - 1].startswith("#"):
        head -= 1
    return head


def laid_over(under: Sequence[Section], over: Sequence[Section]) -> tuple[Section, ...]:
    """Both layers as one: what the upper begins alike takes the place of the lower's; lists grow."""
    held = {section.key: section for section in under}
    fresh = {section.key for section in over}
    kept = [section for section in under if section.key not in fresh]
    return (*kept, *(_grown(held.get(section.key), section) for section in over))


def _grown(old: Section | None, new: Section) -> Section:
    """A list of the lower layer with the upper's rows; anything else is the upper's alone."""
    if old is None or new.word not in _ONCE:
        return new
    if new.word == "steps":
        return replace(new, rows=(*old.text.split("\n")[1:], "", *new.rows))
    names = {row.split()[0] for row in new.rows if row.strip()} if new.word in _NAMED else set()
    kept = [row for row in old.rows if row.strip() and row.split()[0] not in names]
    return replace(new, rows=(*kept, *new.rows))


def written(sections: Sequence[Section]) -> str:
    """Sections one under the other with an empty row between, but for lines of one word that stand alone."""
    text = ""
    for before, section in zip((None, *sections), sections, strict=False):
        alike = before is not None and before.word == section.word and not section.rows_under
        text += ("" if before is None else "\n" if alike else "\n\n") + section.text
    return text


def whole_text(sections: Sequence[Section]) -> str:
    """The draft that the sections make, in canonical layout; layers that make none are our own mistake."""
    order = {word: rank for rank, word in enumerate(SECTIONS)}
    laid = sorted(sections, key=lambda section: order[section.word])
    text = format_draft(written(laid) + "\n", "part.draft")
    if isinstance(text, Refused):
        raise ValueError("the layers make no draft: " + "; ".join(map(str, text.problems)))
    return text
