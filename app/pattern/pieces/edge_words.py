"""What a sewer calls the edges of a piece: the one place where the names of edges become words.

Pattern work cuts a side in two and numbers the parts; a designer may name parts herself
(`side_upper`, `waist_in`). A sewer sees one side. So parts that follow one another round
the outline are one side wherever they are spoken of together, and each alone is told by
what it lies next to. Names such as `attach` say what an edge is for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import count
from typing import NamedTuple

from app.pattern.names import in_words
from app.pattern.pieces.model import Piece

__all__ = ["edge_words", "edges_words"]

#: Where a part lies, as a name ends with it; a number is given by pattern work.
_WHERE = "upper|lower|left|right|front|back|middle"
_PART = re.compile(rf"(?P<stem>.+)_(?P<part>{_WHERE}|inner|outer|near|far|in|out|\d+)")
#: Parts that stand before the noun when they are no parts of one side: the far end, the back seam.
_BEFORE_NOUN = re.compile(rf"{_WHERE}|inner|outer|near|far")
#: Words that say which edge, but not that it is one.
_LACKS_NOUN = re.compile(rf"{_WHERE}|inner|outer|near|far|top|bottom|under|short|long")
#: Terms of the trade that only look like a part of something.
_TERMS = ("centre_front", "centre_back", "center_front", "center_back", "side_front", "side_back")
_OWN_WORDS = {"attach": "joining edge", "around": "round edge", "fold line": "fold"}
_LONG_FOR = {"ext": "extension"}
_ORDINALS = ("first", "second", "third", "fourth")


class _Name(NamedTuple):
    """An edge's name taken apart; `part` is empty where the name is of one piece."""

    stem: str
    part: str


def edge_words(piece: Piece, name: str) -> str:
    """One edge of a piece as a sewer calls it: `side, upper part`, `waist, next to the centre front`, `far end`."""
    stem, part = _apart(name)
    side = _side(piece, name)
    if len(side) > 1:
        return f"{_plain(stem)}, {_which_part(piece, side, side.index(name), part)}"
    if part.isdigit() and any(_apart(edge.name).stem == stem for edge in piece.edges if edge.name != name):
        return f"{_plain(stem)} {part}" if int(part) > len(_ORDINALS) else f"{_ORDINALS[int(part) - 1]} {_plain(stem)}"
    if _BEFORE_NOUN.fullmatch(part):
        return f"{part} {_plain(stem)}"
    alone = all(edge.name == name or edge.name != stem for edge in piece.edges)
    return _plain(stem if alone else name)


def edges_words(piece: Piece, names: Iterable[str]) -> tuple[str, ...]:
    """Some edges of a piece, each once; all the parts of one side together are that side."""
    wanted = list(dict.fromkeys(names))
    said: dict[str, None] = {}
    for name in wanted:
        side = _side(piece, name)
        whole = len(side) > 1 and set(side) <= set(wanted)
        said[_plain(_apart(name).stem) if whole else edge_words(piece, name)] = None
    return tuple(said)


def _apart(name: str) -> _Name:
    found = None if name in _TERMS else _PART.fullmatch(name)
    return _Name(found["stem"], found["part"]) if found else _Name(name, "")


def _side(piece: Piece, name: str) -> tuple[str, ...]:
    """The parts of the edge's side in outline order: its neighbours round the outline that share its stem."""
    names = [edge.name for edge in piece.edges]
    stem, at = _apart(name).stem, names.index(name)
    before = next(n for n in count() if n == len(names) or _apart(names[at - n - 1]).stem != stem)
    if before >= len(names) - 1:
        return tuple(names)
    after = next(n for n in count() if _apart(names[(at + n + 1) % len(names)]).stem != stem)
    return tuple(names[(at + n) % len(names)] for n in range(-before, after + 1))


def _which_part(piece: Piece, side: tuple[str, ...], at: int, part: str) -> str:
    """Which part of a side an edge is: by the designer's word, else by what it lies next to."""
    if re.fullmatch(_WHERE, part):
        return f"{part} part"
    names = [edge.name for edge in piece.edges]
    first, last = (names.index(side[end]) for end in (0, -1))
    ends = [_plain(_apart(names[first - 1]).stem), _plain(_apart(names[(last + 1) % len(names)]).stem)]
    if ends[0] == ends[1]:
        return f"part {at + 1} of {len(side)}"
    if 0 < at < len(side) - 1:
        return "middle part" if len(side) == 3 else f"part {at + 1} of {len(side)} from the {ends[0]}"
    return f"next to the {ends[0 if at == 0 else 1]}"


def _plain(stem: str) -> str:
    words = " ".join(_LONG_FOR.get(word, word) for word in in_words(stem).split())
    words = _OWN_WORDS.get(words, words)
    return f"{words} edge" if _LACKS_NOUN.fullmatch(words) else words
