"""Arrow heads, and the angle at which words can be read."""

from __future__ import annotations

from math import atan2, pi

from app.pattern.drawing.curves import polygon
from app.pattern.drawing.pen import FillStyle, Pen
from app.pattern.geometry import Point

__all__ = ["arrow_head", "readable"]


def arrow_head(tip: Point, tail: Point, pen: Pen, long: float) -> None:
    """A slim filled head of `long` mm at `tip`, coming from `tail`."""
    angle = atan2(tail.y - tip.y, tail.x - tip.x)
    sides = (tip.polar(long, angle + turn) for turn in (0.26, -0.26))
    left, right = sides
    pen.fill(polygon(tip, left, tip.polar(long * 0.78, angle), right), FillStyle.INK)


def readable(angle: float, upright: float = 0.0) -> float:
    """The same line of writing, turned so that nobody reads it upside down: at most 90° off the reader's `upright`."""
    turned = (angle - upright + pi / 2.0) % pi - pi / 2.0
    return upright + (pi / 2.0 if turned <= -pi / 2.0 + 1e-6 else turned)
