"""Similarities of the plane: moving, turning, mirroring and scaling, one after another."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, hypot, sin

from app.pattern.geometry.point import SAME, GeometryError, Point

__all__ = ["Transform"]


@dataclass(frozen=True, slots=True)
class Transform:
    """A similarity: with z = x + iy and m = re + i im, z goes to m z + (dx + i dy), or m conj(z) + ... when `flips`.

    `move`, `turn`, `mirror` and `scale` each make a fresh transform; chain them with `then`.
    """

    re: float = 1.0
    im: float = 0.0
    dx: float = 0.0
    dy: float = 0.0
    flips: bool = False

    @staticmethod
    def move(dx: float, dy: float) -> Transform:
        """Move by dx, dy mm."""
        return Transform(dx=dx, dy=dy)

    @staticmethod
    def turn(angle: float, about: Point) -> Transform:
        """Turn anticlockwise by `angle` radians about a point."""
        c, s = cos(angle), sin(angle)
        return Transform(c, s, about.x - c * about.x + s * about.y, about.y - s * about.x - c * about.y)

    @staticmethod
    def mirror(a: Point, b: Point) -> Transform:
        """Mirror in the endless line through a and b."""
        way = a.distance(b)
        if way < SAME:
            raise GeometryError("a mirror line needs two different points, and these two are in the same place")
        c, s = (b.x - a.x) / way, (b.y - a.y) / way
        re, im = c * c - s * s, 2.0 * c * s
        return Transform(re, im, a.x - re * a.x - im * a.y, a.y - im * a.x + re * a.y, True)

    @staticmethod
    def scale(k: float) -> Transform:
        """Scale by k (not 0) about the origin."""
        if k == 0.0:
            raise GeometryError("scaling by nothing would leave a single point")
        return Transform(k)

    @property
    def factor(self) -> float:
        """How many times longer every length becomes."""
        return hypot(self.re, self.im)

    @property
    def angle(self) -> float:
        """The turn in radians; for a flip, the direction the x axis is sent to."""
        return atan2(self.im, self.re)

    def apply(self, point: Point) -> Point:
        """Where a point goes."""
        x, y = point
        if self.flips:
            y = -y
        return Point(self.re * x - self.im * y + self.dx, self.im * x + self.re * y + self.dy)

    def then(self, other: Transform) -> Transform:
        """This transform first, `other` after it."""
        sign = -1.0 if other.flips else 1.0
        re, im = self.re, sign * self.im
        moved = other.apply(Point(self.dx, self.dy))
        return Transform(
            other.re * re - other.im * im,
            other.im * re + other.re * im,
            moved.x,
            moved.y,
            self.flips != other.flips,
        )
