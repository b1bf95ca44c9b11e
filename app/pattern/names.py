"""How a name in a draft is said to people: the one place where underscores become words."""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["and_list", "dotted", "in_words", "titled"]


def in_words(name: str) -> str:
    """A draft's name as words: `side_upper` becomes `side upper`."""
    return " ".join(name.replace("_", " ").split())


def titled(title: str, name: str) -> str:
    """The designer's title, else the name as words with a capital."""
    return title or in_words(name).capitalize()


def dotted(piece: str, edge: str) -> str:
    """An edge or a dart as a draft names it from outside its piece: `front.side`."""
    return f"{piece}.{edge}" if piece else edge


def and_list(words: Iterable[str]) -> str:
    """`a`, `a and b`, `a, b and c`; the same words twice are said once."""
    said = list(dict.fromkeys(words))
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} and {said[-1]}"
