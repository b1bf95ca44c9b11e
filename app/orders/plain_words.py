"""What the checks found, in words for the person who will sew: what would go wrong, not how to redraw it."""

from __future__ import annotations

from collections.abc import Iterable

__all__ = ["in_plain_words"]

_OUTLINE = "The outline of a piece would cross itself or come out crooked."
_SEAM = "Edges that are sewn together would not meet."
_DART = "A dart would not close flat, or would end too near the bust point."
_ROOM = "The finished garment would not have the room it needs."
_RUN_ON = "A hem, neckline, armhole or waist would not run on smoothly over a seam."
_FULLNESS = "Gathers or shirring would be too full or too scant to sew."
_TOO_SMALL = "A piece would come out too small for its seams, marks or grain line."
_CLOTH = "The pieces do not go on the cloth as you lay it."
_CHOICE = "A choice lies outside what the design allows."
_NOT_DRAWN = "The design cannot be drawn for these measurements and choices together."

#: The first beginning of a code that fits gives the words; the codes are those of the core's rooms.
_WORDS = (
    ("checks.seam", _SEAM),
    ("checks.notch", _SEAM),
    ("pieces.notch", _SEAM),
    ("checks.dart", _DART),
    ("pieces.dart", _DART),
    ("checks.finished-size", _ROOM),
    ("checks.ease", _ROOM),
    ("checks.truing", _RUN_ON),
    ("checks.fold-truing", _RUN_ON),
    ("checks.kink", _RUN_ON),
    ("checks.fullness", _FULLNESS),
    ("checks.grain", _TOO_SMALL),
    ("checks.mark", _TOO_SMALL),
    ("checks.allowance", _TOO_SMALL),
    ("checks.short-edge", _TOO_SMALL),
    ("checks.", _OUTLINE),
    ("pieces.", _OUTLINE),
    ("lay.", _CLOTH),
    ("choice.", _CHOICE),
)


def in_plain_words(codes: Iterable[str]) -> tuple[str, ...]:
    """A sentence for each kind of finding, each once, in the order in which they were found."""
    return tuple(dict.fromkeys(_words(code) for code in codes))


def _words(code: str) -> str:
    return next((words for beginning, words in _WORDS if code.startswith(beginning)), _NOT_DRAWN)
