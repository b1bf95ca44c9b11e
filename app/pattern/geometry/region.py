"""What lies inside a closed path, its width at a height, and whether it is free of crossings."""

from __future__ import annotations

import itertools
from math import atan2, pi

import shapely

from app.pattern.geometry.crossing import self_crossings
from app.pattern.geometry.meeting import meetings
from app.pattern.geometry.near import distance_to
from app.pattern.geometry.path import Path
from app.pattern.geometry.point import SAME, GeometryError, Point
from app.pattern.geometry.segments import Line

__all__ = ["contains", "is_simple", "spans_at"]

_FLAT = 0.02


def contains(path: Path, point: Point) -> bool:
    """True when a point lies inside a closed path or on it (flattened to 0.02 mm)."""
    _closed(path)
    if not path.bounds.distance(point) <= SAME:
        return False
    return distance_to(path, point) < 1e-6 or abs(_turns(path.flatten(_FLAT), point)) > 0.5


def _closed(path: Path) -> None:
    if not path.closed:
        raise GeometryError("an open path has no inside")


def _turns(points: tuple[Point, ...], point: Point) -> float:
    """How many times the polygon goes round a point that is not on it."""
    px, py = point
    total = 0.0
    ux, uy = points[-1][0] - px, points[-1][1] - py
    for x, y in points:
        vx, vy = x - px, y - py
        total += atan2(ux * vy - uy * vx, ux * vx + uy * vy)
        ux, uy = vx, vy
    return total / (2.0 * pi)


def spans_at(path: Path, y: float) -> list[tuple[float, float]]:
    """The stretches of x (mm) that lie inside a closed path, or on its edge, at height y; from left to right."""
    _closed(path)
    left, bottom, right, top = path.bounds
    if not bottom - SAME <= y <= top + SAME:
        return []
    level = Line(Point(left - 1.0, y), Point(right + 1.0, y))
    found = sorted(level.point(s).x for segment in path.segments for s, _ in meetings(level, segment))
    places = [x for i, x in enumerate(found) if i == 0 or x - found[i - 1] > 1e-5]
    spans: list[tuple[float, float]] = []
    for low, high in itertools.pairwise(places):
        if contains(path, Point((low + high) / 2.0, y)):
            if spans and spans[-1][1] == low:
                low = spans.pop()[0]
            spans.append((low, high))
    return spans


def is_simple(path: Path) -> bool:
    """True when a path neither crosses nor touches itself.

    Looked at on a flattening of 0.02 mm first; where that shows a touch, on the true curves.
    """
    if shapely.is_simple(shapely.linestrings(path.flatten(_FLAT))):
        return True
    return not self_crossings(path)
