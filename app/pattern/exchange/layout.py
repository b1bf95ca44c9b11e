"""Where the pieces stand beside one another in a file with all of them: in rows, in the pattern's order."""

from __future__ import annotations

from collections.abc import Iterable

from app.pattern.geometry import Box, Transform

__all__ = ["in_rows", "joined", "moved"]

#: Rows are filled to about the width of a cloth, mm; pieces stand this far apart, mm.
_WIDE, _APART = 1400.0, 25.0


def in_rows(boxes: Iterable[Box]) -> tuple[Transform, ...]:
    """A move for each box, so that none overlap: rows from the left, the first row at the top (its top at y = 0)."""
    moves: list[Transform] = []
    x, top, deepest = 0.0, 0.0, 0.0
    for box in boxes:
        if x > 0.0 and x + box.width > _WIDE:
            x, top, deepest = 0.0, top - deepest - _APART, 0.0
        moves.append(Transform.move(x - box.left, top - box.top))
        x, deepest = x + box.width + _APART, max(deepest, box.height)
    return tuple(moves)


def joined(boxes: Iterable[Box]) -> Box:
    """The box round all boxes (at least one), mm."""
    first, *others = boxes
    for box in others:
        first = first.joined(box)
    return first


def moved(box: Box, move: Transform) -> Box:
    """The box after a move."""
    return Box(box.left + move.dx, box.bottom + move.dy, box.right + move.dx, box.top + move.dy)
