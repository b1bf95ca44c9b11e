"""Points of the plane, boxes round them, and the straight-edge-and-compass constructions between them."""

from __future__ import annotations

from math import atan2, cos, hypot, sin, sqrt
from typing import NamedTuple

__all__ = ["Box", "GeometryError", "Point", "circle_circle", "foot", "line_circle", "line_line"]

#: Two points nearer than this (mm) are one point.
SAME = 1e-9


class GeometryError(ValueError):
    """A construction that has no answer; its message says why in plain words, fit for a `Problem`."""


class Point(NamedTuple):
    """A point, or a vector, in mm; x to the right, y up."""

    x: float
    y: float

    def moved(self, dx: float, dy: float) -> Point:
        """The point moved by dx and dy mm."""
        return Point(self.x + dx, self.y + dy)

    def plus(self, other: Point) -> Point:
        """The sum of two vectors."""
        return Point(self.x + other.x, self.y + other.y)

    def minus(self, other: Point) -> Point:
        """The vector from `other` to this point."""
        return Point(self.x - other.x, self.y - other.y)

    def scaled(self, k: float) -> Point:
        """The vector times k."""
        return Point(self.x * k, self.y * k)

    def distance(self, other: Point) -> float:
        """Distance to another point, mm."""
        return hypot(other.x - self.x, other.y - self.y)

    def toward(self, other: Point, by: float) -> Point:
        """The point `by` mm from here on the way to `other` (beyond it when `by` is larger than the way)."""
        way = hypot(other.x - self.x, other.y - self.y)
        if way < SAME:
            raise GeometryError("two points in the same place have no direction between them")
        k = by / way
        return Point(self.x + k * (other.x - self.x), self.y + k * (other.y - self.y))

    def between(self, other: Point, ratio: float) -> Point:
        """The point at `ratio` of the way to `other`: 0 here, 1 there."""
        return Point(self.x + ratio * (other.x - self.x), self.y + ratio * (other.y - self.y))

    def turned(self, angle: float, about: Point) -> Point:
        """The point turned anticlockwise by `angle` radians about another."""
        c, s = cos(angle), sin(angle)
        dx, dy = self.x - about.x, self.y - about.y
        return Point(about.x + c * dx - s * dy, about.y + s * dx + c * dy)

    def mirrored(self, a: Point, b: Point) -> Point:
        """The mirror image in the endless line through a and b."""
        on = foot(self, a, b)
        return Point(2.0 * on.x - self.x, 2.0 * on.y - self.y)

    def angle_to(self, other: Point) -> float:
        """Direction from here to `other`, radians anticlockwise from +x, in (-pi, pi]."""
        return atan2(other.y - self.y, other.x - self.x)

    def turn_to(self, other: Point) -> float:
        """How far this direction turns to the left to become another, radians, -pi to pi."""
        return atan2(self.x * other.y - self.y * other.x, self.x * other.x + self.y * other.y)

    def polar(self, distance: float, angle: float) -> Point:
        """The point `distance` mm away in the direction `angle` (radians)."""
        return Point(self.x + distance * cos(angle), self.y + distance * sin(angle))


class Box(NamedTuple):
    """An upright rectangle, mm."""

    left: float
    bottom: float
    right: float
    top: float

    @property
    def width(self) -> float:
        """Width in mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Height in mm."""
        return self.top - self.bottom

    def joined(self, other: Box) -> Box:
        """The smallest box round both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )

    def meets(self, other: Box, gap: float = 0.0) -> bool:
        """True when the boxes touch, or lie no more than `gap` mm apart."""
        return (
            self.left <= other.right + gap
            and other.left <= self.right + gap
            and self.bottom <= other.top + gap
            and other.bottom <= self.top + gap
        )

    def distance(self, point: Point) -> float:
        """Distance in mm from a point to the box; 0 inside."""
        dx = max(self.left - point.x, 0.0, point.x - self.right)
        dy = max(self.bottom - point.y, 0.0, point.y - self.top)
        return hypot(dx, dy)


def foot(point: Point, a: Point, b: Point) -> Point:
    """Foot of the perpendicular from `point` on the endless line through a and b."""
    dx, dy = b.x - a.x, b.y - a.y
    square = dx * dx + dy * dy
    if square < SAME * SAME:
        raise GeometryError("a line needs two different points, and these two are in the same place")
    k = ((point.x - a.x) * dx + (point.y - a.y) * dy) / square
    return Point(a.x + k * dx, a.y + k * dy)


def line_line(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the endless lines a b and c d cross; None when they are parallel."""
    ux, uy = b.x - a.x, b.y - a.y
    vx, vy = d.x - c.x, d.y - c.y
    area = ux * vy - uy * vx
    if abs(area) <= 1e-12 * hypot(ux, uy) * hypot(vx, vy):
        return None
    k = ((c.x - a.x) * vy - (c.y - a.y) * vx) / area
    return Point(a.x + k * ux, a.y + k * uy)


def line_circle(a: Point, b: Point, centre: Point, radius: float) -> tuple[Point, ...]:
    """Where the endless line a b meets a circle (mm), in order from a to b; one point where it only touches."""
    on = foot(centre, a, b)
    away = centre.distance(on)
    if away > radius + SAME:
        return ()
    half = sqrt(max(radius * radius - away * away, 0.0))
    if half < SAME:
        return (on,)
    way = a.distance(b)
    ux, uy = (b.x - a.x) / way * half, (b.y - a.y) / way * half
    return (Point(on.x - ux, on.y - uy), Point(on.x + ux, on.y + uy))


def circle_circle(centre: Point, radius: float, other: Point, other_radius: float) -> tuple[Point, ...]:
    """Where two circles (mm) meet, first the point on the left looking from `centre` to `other`."""
    way = centre.distance(other)
    if way < SAME:
        if abs(radius - other_radius) < SAME:
            raise GeometryError("the two circles are the same, so they meet everywhere")
        return ()
    if way > radius + other_radius + SAME or way < abs(radius - other_radius) - SAME:
        return ()
    along = (way * way + radius * radius - other_radius * other_radius) / (2.0 * way)
    half = sqrt(max(radius * radius - along * along, 0.0))
    ux, uy = (other.x - centre.x) / way, (other.y - centre.y) / way
    on = Point(centre.x + along * ux, centre.y + along * uy)
    if half < SAME:
        return (on,)
    return (Point(on.x - half * uy, on.y + half * ux), Point(on.x + half * uy, on.y - half * ux))
