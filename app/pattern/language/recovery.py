"""What a line that could not be read may have stood for: its names, so that nothing else is blamed for its slip."""

from __future__ import annotations

import re

from app.pattern.language.lines import LogicalLine
from app.pattern.language.near import nearest

__all__ = [
    "BLOCKS",
    "CLAUSES",
    "assigned",
    "assigned_here",
    "clause_word",
    "dotted_in",
    "first_token",
    "first_name",
    "heads_block",
    "possible_names",
    "names_in",
    "second_name",
    "sheet_name",
    "step_names",
]

#: The words with which the lines of a piece begin.
CLAUSES = ("outline", "grain", "allowance", "finish", "notch", "double", "mark", "note")
#: The words with which a block of steps begins.
BLOCKS = ("solve", "repeat", "when")
_ASSIGNED = re.compile(r"\s*([A-Za-z_]\w*)\s*=")
_WORD = re.compile(r"[A-Za-z_]\w*")


def _words_of(text: str) -> list[str]:
    """Every word that could be a name, quoted texts left out."""
    return _WORD.findall(re.sub(r'"[^"\n]*"?', " ", text).lower())


def names_in(text: str) -> list[str]:
    """Every word that could be a name, and every one that would be without odd signs in it."""
    return [*_words_of(text), *(_name(token) for token in re.split(r"[\s,()+*/=-]+", text))]


def dotted_in(text: str) -> list[str]:
    """Every name with a dot in it, as the edges that a seam names, and every one that would be without odd signs."""
    return [name for said in (text, re.sub(r"[^\w\s.,]", "", text)) for name in re.findall(r"[a-z]\w*\.[a-z]\w*", said)]


def _name(text: str) -> str:
    """A text as the name it was meant to be, odd signs in it left out; "" when it is none."""
    name = re.sub(r"\W", "", text.lower())
    return name if _WORD.fullmatch(name) and '"' not in text else ""


def _token(line: LogicalLine, index: int) -> str:
    tokens = line.text.split()
    return _name(tokens[index]) if index < len(tokens) else ""


def first_name(line: LogicalLine) -> str:
    """The name a line begins with, as one of a choice or a cloth does; "" when there is none."""
    before, equals, _ = line.text.partition("=")
    return (_name(before) if equals else "") or _token(line, 0)


def possible_names(line: LogicalLine) -> list[str]:
    """What a choice or a notion may be called: the words before its =, or else its first."""
    before, equals, _ = line.text.partition("=")
    return _possible_names(before if equals else line.text.split()[0])


def _possible_names(text: str) -> list[str]:
    """The words of what should be one name, and that name: odd signs left out, words joined."""
    return [*_words_of(text), _name(re.sub(r"[\s-]+", "_", text.strip()))]


def first_token(line: LogicalLine) -> tuple[str, str]:
    """The line's first word as it stands, up to a space, and as the word that was meant, odd signs left out."""
    token = line.text.split()[0]
    return token, line.first_word if _name(token) == "" else _name(token)


def second_name(line: LogicalLine) -> str:
    """The word after the first: the name of a sheet or a piece; "" when there is none."""
    return _token(line, 1)


def sheet_name(line: LogicalLine) -> str:
    """The sheet that a piece's line names after `from`; "" when it names none."""
    words = _words_of(line.text)
    return words[words.index("from") + 1] if "from" in words[:-1] else ""


def step_names(line: LogicalLine) -> list[str]:
    """What a step may have drawn: the name before its =, that of a solve or a repeat, or else its first word.

    One is "" when any name may have been meant.
    """
    before, equals, _ = line.text.partition("=")
    block = _words_of(line.text)[1:2] if heads_block(line) else []
    block = [""] if block == ["from"] else block
    return [*block, *_possible_names(before)] if equals else block or _words_of(line.text)[:1]


def heads_block(line: LogicalLine) -> bool:
    """True for a line that was meant to begin a block of steps."""
    return not assigned_here(line) and nearest(line.first_word, BLOCKS) is not None


def clause_word(line: LogicalLine) -> str:
    """The word with which a piece's line was meant to begin; "" when it might be any."""
    return nearest(line.first_word, CLAUSES) or ""


def assigned_here(line: LogicalLine) -> list[str]:
    """The name before an = in the line itself."""
    match = _ASSIGNED.match(line.text)
    return [match[1].lower()] if match is not None else []


def assigned(line: LogicalLine) -> list[str]:
    """The names before an = in a line and in all that stands under it."""
    return assigned_here(line) + [name for child in line.children for name in assigned(child)]
