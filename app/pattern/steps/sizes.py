"""Finished sizes: body, ease and garment at each girth that the designer declared."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.pieces.model import Girth, Pattern

__all__ = ["FinishedSize", "finished_sizes"]


@dataclass(frozen=True, slots=True)
class FinishedSize:
    """A girth of the finished garment in mm; `body` and `ease` are None where no body girth lies under it."""

    name: str
    title: str
    garment: float
    body: float | None
    ease: float | None


def finished_sizes(pattern: Pattern) -> tuple[FinishedSize, ...]:
    """The declared girths, in the designer's order, as read off the pieces.

    The ease is what the garment really has over the body, not what was asked for.
    """
    return tuple(_size(girth) for girth in pattern.girths)


def _size(girth: Girth) -> FinishedSize:
    title = girth.title or girth.name.replace("_", " ").capitalize()
    if not girth.measure and girth.body == 0:
        return FinishedSize(girth.name, title, girth.measured, None, None)
    return FinishedSize(girth.name, title, girth.measured, girth.body, girth.measured - girth.body)
