"""Paths as the move, line and cubic strokes that PDF and SVG understand; arcs become cubics within 0.001 mm."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, cos, pi, sin, tan

from app.pattern.geometry import Arc, Cubic, Line, Path, Point, Segment

__all__ = ["arc_as_cubics", "drawable", "polygon", "rectangle", "ring"]

_WITHIN = 0.0005


def _arc_error(radius: float, turn: float) -> float:
    """Largest distance in mm between an arc and its cubic with the usual tangent handles (4/27 sin⁶/cos² rule)."""
    quarter = turn / 4.0
    return radius * 4.0 / 27.0 * sin(quarter) ** 6 / cos(quarter) ** 2


def arc_as_cubics(arc: Arc) -> tuple[Cubic, ...]:
    """The arc as cubics that stay within 0.001 mm of it."""
    count = max(1, ceil(abs(arc.sweep) / (pi / 2.0)))
    while _arc_error(arc.radius, abs(arc.sweep) / count) > _WITHIN:
        count += 1
    step = arc.sweep / count
    handle = arc.radius * 4.0 / 3.0 * tan(step / 4.0)
    return tuple(_one_cubic(arc, arc.start_angle + i * step, step, handle) for i in range(count))


def _one_cubic(arc: Arc, angle: float, step: float, handle: float) -> Cubic:
    start, end = arc.centre.polar(arc.radius, angle), arc.centre.polar(arc.radius, angle + step)
    c1 = Point(start.x - handle * sin(angle), start.y + handle * cos(angle))
    c2 = Point(end.x + handle * sin(angle + step), end.y - handle * cos(angle + step))
    return Cubic(start, c1, c2, end)


def drawable(segments: tuple[Segment, ...]) -> Iterator[Line | Cubic]:
    """The segments with every arc turned into cubics."""
    for segment in segments:
        if isinstance(segment, Arc):
            yield from arc_as_cubics(segment)
        else:
            yield segment


def polygon(*points: Point) -> Path:
    """A closed path of straight lines."""
    return Path.through(*points, points[0])


def rectangle(left: float, bottom: float, right: float, top: float) -> Path:
    """A closed rectangle, anticlockwise, mm."""
    return polygon(Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top))


def ring(centre: Point, radius: float) -> Path:
    """A full circle, anticlockwise, mm."""
    return Path((Arc(centre, radius, 0.0, 2.0 * pi),))
