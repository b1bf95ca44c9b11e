"""The width of a piece at a level, as it measures when its darts are sewn."""

from __future__ import annotations

from app.pattern.geometry import Path, spans_at
from app.pattern.pieces.model import Dart, Piece

__all__ = ["width_at"]


def width_at(piece: Piece, y: float) -> float:
    """Width in mm of the piece inside its stitching line at height y, darts closed that have both legs there."""
    width = sum(right - left for left, right in spans_at(piece.stitching, y))
    return width - sum(_taken_in(dart, y) for dart in piece.darts)


def _taken_in(dart: Dart, y: float) -> float:
    """What a dart takes in at height y, between its legs or, past their feet, under its cap; mm."""
    low, high = dart.cap.bounds.bottom, dart.cap.bounds.top
    feet = (dart.a.y, dart.b.y)
    upright = dart.tip.y <= min(feet) or dart.tip.y >= max(feet)
    if not upright or not min(low, dart.tip.y) <= y <= max(high, dart.tip.y):
        return 0.0
    flap = Path.through(dart.b, dart.tip, dart.a).joined(dart.cap)
    return sum(right - left for left, right in spans_at(flap, y))
