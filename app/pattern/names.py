"""How a name in a draft is said to people: the one place where underscores become words."""

from __future__ import annotations

from collections.abc import Collection, Iterable

__all__ = ["and_list", "dotted", "in_words", "part_named", "titled"]


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


def part_named(wanted: str, names: Collection[str]) -> str | None:
    """The name among `names` that is meant: the same one, or else the only part of a side that pattern work cut in two.

    Parts are numbered (`side_1`, `side_2`). Where one alone is left it is the whole side again, and may be called by
    either name: `side` finds a lone `side_2`, and `side_2` finds `side`.
    """
    if wanted in names:
        return wanted
    stem, _, number = wanted.rpartition("_")
    if number.isdigit() and stem:
        return stem if stem in names and not _parts(stem, names) else None
    parts = _parts(wanted, names)
    return parts[0] if len(parts) == 1 else None


def _parts(stem: str, names: Collection[str]) -> list[str]:
    return [name for name in names if name.rpartition("_")[0] == stem and name.rpartition("_")[2].isdigit()]
