"""How problems about pieces write lengths, angles and names: millimetres and degrees with one decimal."""

from __future__ import annotations

from math import degrees

__all__ = ["angle_words", "dotted", "mm"]


def mm(length: float) -> str:
    """A length in mm for a message: `12.5 mm`, and `0.04 mm` where one decimal would hide it."""
    words = f"{length:.2f}" if 0.0 < abs(length) < 0.95 else f"{length:.1f}".removesuffix(".0")
    return f"{words} mm"


def angle_words(radians: float) -> str:
    """An angle for a message, in degrees with one decimal: `92.5°`, `90°`."""
    words = f"{degrees(radians):.1f}".removesuffix(".0")
    return f"{words}°"


def dotted(piece: str, edge: str) -> str:
    """An edge or a dart as a draft names it from outside its piece: `front.side`."""
    return f"{piece}.{edge}" if piece else edge
