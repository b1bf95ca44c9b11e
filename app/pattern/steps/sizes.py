"""Finished sizes: body, ease and garment at each girth that the designer declared."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.names import titled
from app.pattern.pieces.model import Girth, Pattern
from app.pattern.units import Unit, show_difference, show_length

__all__ = ["FinishedSize", "SizeWords", "finished_sizes", "sizes_in_words"]


@dataclass(frozen=True, slots=True)
class FinishedSize:
    """A girth of the finished garment in mm; `body` and `ease` are None where no body girth lies under it."""

    name: str
    title: str
    garment: float
    body: float | None
    ease: float | None


@dataclass(frozen=True, slots=True)
class SizeWords:
    """A finished girth as figures without their unit; `body` and `ease` are empty where no body girth lies under it."""

    title: str
    body: str
    ease: str
    garment: str


def sizes_in_words(pattern: Pattern, unit: Unit) -> tuple[SizeWords, ...]:
    """The finished sizes for people: the ease is what is printed between body and garment, so that they add up."""
    return tuple(_in_words(size, unit) for size in finished_sizes(pattern))


def finished_sizes(pattern: Pattern) -> tuple[FinishedSize, ...]:
    """The declared girths, in the designer's order, as read off the pieces.

    The ease is what the garment really has over the body, not what was asked for.
    """
    return tuple(_size(girth) for girth in pattern.girths)


def _in_words(size: FinishedSize, unit: Unit) -> SizeWords:
    garment = show_length(size.garment, unit, named=False)
    if size.body is None:
        return SizeWords(size.title, "", "", garment)
    ease = show_difference(size.garment, size.body, unit, named=False)
    return SizeWords(size.title, show_length(size.body, unit, named=False), ease, garment)


def _size(girth: Girth) -> FinishedSize:
    title = titled(girth.title, girth.name)
    if not girth.measure and girth.body == 0:
        return FinishedSize(girth.name, title, girth.measured, None, None)
    return FinishedSize(girth.name, title, girth.measured, girth.body, girth.measured - girth.body)
