"""Outlines as polygons: reading them, halves and wholes, mirror images, and the grown shapes that are packed."""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, hypot, isfinite, pi, remainder

from shapely import Polygon, affinity, maximum_inscribed_circle, unary_union

from app.pattern.geometry import Point
from app.pattern.lay.model import GAP

__all__ = [
    "REACH",
    "SLACK",
    "grown",
    "half_above_fold",
    "label_spot",
    "polygon_of",
    "reversible",
    "settled",
    "unfolded",
]

#: How far simplifying may move a grown outline, mm.
SLACK = 0.3
#: What corners cut across a rounding, the nester's single precision and the edges of its strip may take, mm.
ROUNDING = 0.1
#: Every shape is packed grown by this much, mm: half the gap, and what the two above may take back.
REACH = GAP / 2.0 + SLACK + ROUNDING
#: A point this near to the fold line is on it, mm.
ON_FOLD = 0.1
#: A fold edge shorter than this is a slip, mm.
SHORTEST_FOLD = 1.0
#: A fold edge may lean this much from the length of the cloth, radians (half a degree), and still lie on the fold.
LEAN = pi / 360.0


def polygon_of(outline: Sequence[tuple[float, float]]) -> Polygon | None:
    """The outline as an anticlockwise polygon, or None when it crosses itself, is empty or is not finite."""
    if len(outline) < 3 or not all(isfinite(x) and isfinite(y) for x, y in outline):
        return None
    polygon = Polygon(outline)
    if not polygon.is_valid or polygon.area < 1.0:
        return None
    return polygon if polygon.exterior.is_ccw else Polygon(polygon.exterior.coords[::-1])


def settled(polygon: Polygon) -> Polygon:
    """The polygon moved so that its left and lower bounds are at zero."""
    left, bottom, _, _ = polygon.bounds
    return affinity.translate(polygon, -left, -bottom)


def half_above_fold(half: Polygon, fold: tuple[Point, Point]) -> Polygon | None:
    """The half turned, or turned over, to lie above y = 0 with its fold on it and its left bound at zero.

    None when the fold does not run along the cloth, or is not an outer edge of the half.
    """
    a, b = fold
    lean = atan2(b.y - a.y, b.x - a.x)
    lean = remainder(lean, pi)
    return _above(half, fold, -lean) if abs(lean) <= LEAN else None


def unfolded(half: Polygon, fold: tuple[Point, Point]) -> Polygon | None:
    """The whole piece opened out over its fold, its grain as in the half; None when the fold is not an outer edge."""
    a, b = fold
    angle = atan2(b.y - a.y, b.x - a.x)
    above = _above(half, fold, -angle)
    if above is None:
        return None
    whole = unary_union([above, affinity.scale(above, 1.0, -1.0, origin=(0.0, 0.0))])
    if not isinstance(whole, Polygon) or len(whole.interiors) > 0:
        return None
    return affinity.rotate(whole, angle, origin=(0.0, 0.0), use_radians=True)


def _above(half: Polygon, fold: tuple[Point, Point], turn: float) -> Polygon | None:
    """The half turned by `turn` radians, which levels its fold, then laid above y = 0 with the fold on it."""
    a, b = fold
    if hypot(b.x - a.x, b.y - a.y) < SHORTEST_FOLD:
        return None
    level = affinity.rotate(half, turn, origin=(a.x, a.y), use_radians=True)
    level = affinity.translate(level, 0.0, -a.y)
    if level.centroid.y < 0.0:
        level = affinity.scale(level, 1.0, -1.0, origin=(0.0, 0.0))
    ring = [(x, 0.0 if abs(y) <= ON_FOLD else y) for x, y in level.exterior.coords[:-1]]
    above = polygon_of(ring)
    if above is None or above.bounds[1] != 0.0:
        return None
    return affinity.translate(above, -above.bounds[0], 0.0)


def reversible(polygon: Polygon, *, turns: Sequence[int]) -> bool:
    """True when the piece, turned over and turned by one of `turns` degrees, is the same again within its cutting."""
    over = affinity.scale(polygon, 1.0, -1.0)
    allowed = 0.1 * polygon.length
    images = (settled(affinity.rotate(over, turn)) for turn in turns)
    return any(image.symmetric_difference(settled(polygon)).area < allowed for image in images)


def grown(polygon: Polygon) -> Polygon:
    """A plainer shape that holds everything within half a gap of the polygon and reaches at most `REACH` beyond it."""
    wide = polygon.buffer(REACH, quad_segs=6)
    plain = Polygon(wide.exterior).simplify(SLACK)
    return plain if isinstance(plain, Polygon) else wide


def label_spot(polygon: Polygon) -> tuple[float, float]:
    """The point deepest inside the polygon, where a label has most room; the centroid when that is nearly as deep."""
    radius = maximum_inscribed_circle(polygon, tolerance=max(1.0, polygon.length / 500.0))
    middle = polygon.centroid
    if polygon.contains(middle) and polygon.exterior.distance(middle) >= 0.9 * radius.length:
        return float(middle.x), float(middle.y)  # along a band every point is as deep: its middle reads best
    x, y = radius.coords[0]
    return float(x), float(y)
