"""The nearest name, for messages that guess what was meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

__all__ = ["nearest", "perhaps"]


def nearest(word: str, names: Iterable[str]) -> str | None:
    """The name most like `word`, or None when none is like it."""
    found = get_close_matches(word[:60], list(names), n=1, cutoff=0.6)
    return found[0] if found else None


def perhaps(word: str, names: Iterable[str], otherwise: str) -> str:
    """A remedy: the nearest name when there is one, else `otherwise`."""
    near = nearest(word, names)
    return f"Did you mean “{near}”?" if near else otherwise
