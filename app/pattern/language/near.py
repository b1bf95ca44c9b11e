"""The nearest name, for messages that guess what was meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from itertools import islice

__all__ = ["nearest", "suggest"]

_UNEQUAL = 8  # letters by which a slip may lengthen or shorten a name
_MOST = 500  # names that are looked at: comparing letters takes time


def nearest(word: str, names: Iterable[str]) -> str | None:
    """The name most like `word`, or None when none is like it."""
    alike = (name for name in names if abs(len(name) - len(word)) <= _UNEQUAL)
    found = get_close_matches(word[:60], list(islice(alike, _MOST)), n=1, cutoff=0.6)
    return found[0] if found else None


def suggest(word: str, names: Iterable[str], otherwise: str) -> str:
    """A remedy: the nearest name when there is one, else `otherwise`."""
    near = nearest(word, names)
    return f"Did you mean “{near}”?" if near else otherwise
