"""What a piece is called in the instructions: the noun of its title, and whether a step speaks of two layers of it."""

from __future__ import annotations

import re
from collections import defaultdict

from app.pattern.checks.step_words import steps_text
from app.pattern.names import in_words
from app.pattern.pieces.model import Pattern, Piece

__all__ = ["head_noun", "is_doubled", "is_plural", "nouns_of", "pieces_called", "singular"]

#: Words of a title that say where a piece lies or how it is cut, and not what it is.
_WHERE = re.compile(
    "front|back|left|right|upper|under|lower|side|centre|center|middle|main|outer|inner|half|top|bottom|pieces?|of|the"
    "|an?|and|for|with|in|on|to|whole|cut|long|short|patch|own|part"
)
_LAYERS = ("inner", "outer", "inside", "outside", "under", "upper", "second", "lining", "self", "layers? of")


def singular(word: str) -> str:
    """A word without the s of the plural, for comparing: `ties` and `tie`, `pockets` and `pocket`."""
    word = word.lower()
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def nouns_of(piece: Piece) -> tuple[str, ...]:
    """The words that say what a piece is, from title and name, in the singular."""
    words = re.findall(r"[^\W\d_]+", f"{piece.title} {in_words(piece.name)}".lower())
    return tuple(dict.fromkeys(singular(word) for word in words if not _WHERE.fullmatch(word)))


def head_noun(piece: Piece) -> str:
    """The noun of its title: `bag` of “Pocket bag, upper”, `tie` of “Tie of the front”; "" of a plain “Back”."""
    title = re.split(r",|\(|\b(?:of|for|with|in|on)\b", piece.title.lower())[0]
    words = [word for word in re.findall(r"[^\W\d_]+", title) if not _WHERE.fullmatch(word)]
    return singular(words[-1]) if words else ""


def pieces_called(pattern: Pattern) -> dict[str, list[Piece]]:
    """The pieces by the noun of their titles."""
    called: defaultdict[str, list[Piece]] = defaultdict(list)
    for piece in pattern.pieces:
        if noun := head_noun(piece):
            called[noun].append(piece)
    return dict(called)


def is_doubled(pattern: Pattern, piece: Piece) -> bool:
    """True when a step speaks of an inner and an outer one of a piece, or of both where each is whole, on the fold.

    Words that tell pieces apart by their titles, as an under bag from an upper one, speak of no layers.
    """
    noun = head_noun(piece)
    called = pieces_called(pattern).get(noun, [])
    titles = " ".join(each.title.lower() for each in called)
    words = [word for word in _LAYERS if word not in titles]
    words += ["two", "both"] if piece.fold_edge is not None and len(called) == 1 else []
    return bool(noun) and _speaks_of(pattern, rf"(?:{'|'.join(words)}) (?:the )?(?:\w+ )?{noun}s?")


def is_plural(pattern: Pattern, piece: Piece) -> bool:
    """True when a step speaks of several of a piece that has its noun for itself: each tie, both cuffs, the pockets."""
    noun = head_noun(piece)
    alone = len(pieces_called(pattern).get(noun, [])) == 1
    several = rf"{noun}s|(?:each|every) (?:\w+ )?{noun}|{noun} (?:to|on|at|in|for) (?:each|both|either)"
    return bool(noun) and alone and _speaks_of(pattern, several)


def _speaks_of(pattern: Pattern, words: str) -> bool:
    return re.search(rf"\b(?:{words})\b", steps_text(pattern), re.I) is not None
