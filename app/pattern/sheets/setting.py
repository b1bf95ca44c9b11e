"""Setting running words on a page: lines broken at a width, one under another."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.drawing import Anchor, Face, Lettering, Pen
from app.pattern.drawing.fonts import width_of, wrapped
from app.pattern.geometry import Point

__all__ = ["Column", "fitted", "fitted_lines", "wrapped"]

#: The step in mm by which `fitted_lines` shrinks.
_STEP = 0.25


def fitted(words: str, size: float, width: float, face: Face = Face.REGULAR) -> float:
    """The em size, at most `size` mm, at which words fit on one line of `width` mm."""
    wide = width_of(words, size, face)
    return size if wide <= width else size * width / wide


def fitted_lines(words: str, size: float, width: float, face: Face = Face.REGULAR) -> tuple[float, tuple[str, ...]]:
    """The largest em size, at most `size` mm, at which words fit a room of `width` mm as high as one line of `size`.

    Returns it with the lines; words without a space to break at are made as small as one line needs.
    """
    high = size
    while size > _STEP:
        lines = wrapped(words, size, width, face)
        if len(lines) * size <= high and all(width_of(line, size, face) <= width for line in lines):
            return size, lines
        size -= _STEP
    return size, wrapped(words, size, width, face)


@dataclass(slots=True)
class Column:
    """A column of words being set from its top downwards; `y` is where the next line's top goes."""

    pen: Pen
    left: float
    y: float
    width: float

    def line(self, words: str, size: float, face: Face = Face.REGULAR) -> None:
        """One line, made smaller when it would not fit."""
        em = fitted(words, size, self.width, face)
        self.pen.text(Point(self.left, self.y - 0.78 * em), words, Lettering(em, 0.0, Anchor.START, face))
        self.y -= 1.28 * em

    def paragraph(self, words: str, size: float, face: Face = Face.REGULAR) -> None:
        """Words over as many lines as they need."""
        for line in wrapped(words, size, self.width, face):
            self.line(line, size, face)

    def item(self, sign: str, words: str, size: float) -> None:
        """A paragraph with a sign, such as a number, hanging to its left."""
        indent = 1.5 * size
        self.pen.text(Point(self.left, self.y - 0.78 * size), sign, Lettering(size, 0.0, Anchor.START, Face.STRONG))
        inner = Column(self.pen, self.left + indent, self.y, self.width - indent)
        inner.paragraph(words, size)
        self.y = inner.y

    def space(self, mm: float) -> None:
        """Leave some room."""
        self.y -= mm
