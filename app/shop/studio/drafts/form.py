"""A draft's text as a designer types or brings it, and what keeps it from being read at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from unicodedata import category

from app.pattern.problem import Problem

__all__ = ["MOST_CHARACTERS", "DraftEntry", "read_entry"]

#: The longest text that is taken here; the largest draft of the catalogue has a fifth of it.
MOST_CHARACTERS = 100_000
#: Stand for nothing, and no drawing that is written as XML can hold them.
_NO_SIGN = "\ufffe\uffff"
_TOO_LONG = "Shorten it, or split it into several designs. Nothing of it is lost: it stands below as you sent it."
_NOT_TEXT = Problem(
    "studio.not-text",
    "The file you chose is not plain text, so it was not taken.",
    "Save it as plain text (UTF-8) and choose it again.",
)


@dataclass(frozen=True, slots=True)
class DraftEntry:
    """A text as sent: the size it is to be drawn for, what is wrong with it as a text, and the line that is asked for.

    `instead` is what stood in the editor when a file took its place, so that it can be copied back.
    """

    text: str
    size: str = ""
    line: int = 0
    instead: str = ""
    problems: tuple[Problem, ...] = ()


def read_entry(posted: Mapping[str, str], file: bytes, line: int) -> DraftEntry:
    """What was sent: a file that was chosen is taken in place of the editor's text."""
    typed, size = _plain(posted.get("text", "")), posted.get("size", "")
    if not file:
        return DraftEntry(typed, size, line, problems=_problems(typed))
    try:
        brought = _plain(file.decode("utf-8-sig"))
    except UnicodeDecodeError:
        return DraftEntry(typed, size, line, problems=(_NOT_TEXT,))
    if problems := _problems(brought):
        return DraftEntry(typed, size, line, problems=problems)
    return DraftEntry(brought, size, line, instead=typed if typed.strip() not in ("", brought.strip()) else "")


def _plain(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _problems(text: str) -> tuple[Problem, ...]:
    if len(text) > MOST_CHARACTERS:
        said = f"This text has {len(text):,} characters; {MOST_CHARACTERS:,} are the most."
        return (Problem("studio.draft-too-long", said, _TOO_LONG),)
    for number, row in enumerate(text.split("\n"), 1):
        if any((category(sign) == "Cc" and sign != "\t") or sign in _NO_SIGN for sign in row):
            said = f"Line {number} holds a sign that nobody can see."
            fix = "Type that line anew, or save the file as plain text."
            return (Problem("studio.unseen-sign", said, fix),)
    return ()
