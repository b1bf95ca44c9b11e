"""The point of a segment or a path nearest to a given point."""

from __future__ import annotations

import numpy as np

from app.pattern.geometry.path import Path
from app.pattern.geometry.point import Point
from app.pattern.geometry.segments import Arc, Cubic, Line, Segment
from app.pattern.geometry.speed import even
from app.pattern.geometry.work import spend

__all__ = ["distance_to", "nearest", "nearest_on"]

_SAMPLES = 16
#: Below this share of evenness (see `even`) samples may miss the nearest place.
_EVEN = 0.1
#: A root of the fifth degree is this near to where it should be, and nearer where it matters.
_ABOUT = 1e-4
_PLACES = tuple(i / _SAMPLES for i in range(_SAMPLES + 1))
#: Two places whose distances differ by less than this (mm) are as near; the earlier one counts.
_TIE = 1e-10


def nearest(path: Path, point: Point) -> float:
    """Distance in mm along the path of its point nearest to `point` (the earliest, when several are as near)."""
    index, t, _ = _nearest_place(path, point)
    return path.along(index, t)


def distance_to(path: Path, point: Point) -> float:
    """Distance in mm from `point` to the path."""
    return _nearest_place(path, point)[2]


def _nearest_place(path: Path, point: Point) -> tuple[int, float, float]:
    """Index of the segment, parameter on it and distance in mm; the segments with the nearest boxes are tried first."""
    segments = path.segments
    spend(1 + len(segments) // 10)
    order = sorted((segment.bounds.distance(point), index) for index, segment in enumerate(segments))
    best = (0, 0.0, path.start.distance(point))
    for least, index in order:
        if least > best[2] + _TIE:
            break
        t = nearest_on(segments[index], point)
        away = segments[index].point(t).distance(point)
        if away < best[2] - _TIE or (away <= best[2] + _TIE and (index, t) < best[:2]):
            best = (index, t, away)
    return best


def nearest_on(segment: Segment, point: Point) -> float:
    """Parameter of the segment's point nearest to `point`."""
    if isinstance(segment, Line):
        return _nearest_on_line(segment, point)
    if isinstance(segment, Arc):
        return _nearest_on_arc(segment, point)
    if not even(segment.velocity, _EVEN):
        return _searched(segment, point)
    spend(2)
    squares = _squares(segment, point)
    best_t, best = 0.0, squares[0]
    for i, square in enumerate(squares):
        before, after = squares[max(i - 1, 0)], squares[min(i + 1, _SAMPLES)]
        if square <= before and square <= after:
            t = _refined(segment, point, max(i - 1, 0) / _SAMPLES, min(i + 1, _SAMPLES) / _SAMPLES, i / _SAMPLES)
            found = _square(segment.point(t), point)
            if found < best:
                best_t, best = t, found
    return best_t


def _nearest_on_line(line: Line, point: Point) -> float:
    dx, dy = line.end[0] - line.start[0], line.end[1] - line.start[1]
    square = dx * dx + dy * dy
    if square <= 0.0:
        return 0.0
    t = ((point[0] - line.start[0]) * dx + (point[1] - line.start[1]) * dy) / square
    return min(max(t, 0.0), 1.0)


def _nearest_on_arc(arc: Arc, point: Point) -> float:
    t = arc.t_of_angle(arc.centre.angle_to(point))
    if t is not None:
        return t
    return 0.0 if arc.start.distance(point) <= arc.end.distance(point) else 1.0


def _searched(cubic: Cubic, point: Point) -> float:
    """The nearest place of a curve that turns back or hurries: it is an end, or one where the way there is square on.

    (B - p) . B' is a polynomial of the fifth degree, so that there are five such places at most. All of its roots are
    tried, the complex ones too: where two real ones nearly meet, they come out as a pair beside the axis.
    """
    spend(30)
    ax, bx, cx, ay, by, cy = cubic.velocity
    px, py = cubic.start[0] - point[0], cubic.start[1] - point[1]
    x, y = (ax / 3.0, bx / 2.0, cx, px), (ay / 3.0, by / 2.0, cy, py)
    square_on = np.convolve(x, (ax, bx, cx)) + np.convolve(y, (ay, by, cy))
    best, best_t = min((cubic.start.distance(point), 0.0), (cubic.end.distance(point), 1.0))
    for middle in np.roots(square_on).real.tolist():
        if not 0.0 < middle < 1.0:
            continue
        low, high = max(middle - _ABOUT, 0.0), min(middle + _ABOUT, 1.0)
        for t in (middle, _refined(cubic, point, low, high, middle)):
            best, best_t = min((best, best_t), (cubic.point(t).distance(point), t))
    return best_t


def _squares(cubic: Cubic, point: Point) -> list[float]:
    """Squares of the distance from places evenly spread over the curve's parameter."""
    ax, bx, cx, ay, by, cy = cubic.velocity
    ax, bx, ay, by = ax / 3.0, bx / 2.0, ay / 3.0, by / 2.0
    px, py = cubic.start[0] - point[0], cubic.start[1] - point[1]
    found = []
    for t in _PLACES:
        dx, dy = ((ax * t + bx) * t + cx) * t + px, ((ay * t + by) * t + cy) * t + py
        found.append(dx * dx + dy * dy)
    return found


def _square(a: Point, b: Point) -> float:
    dx, dy = a[0] - b[0], a[1] - b[1]
    return dx * dx + dy * dy


def _refined(cubic: Cubic, point: Point, low: float, high: float, t: float) -> float:
    """Root of (B - p) . B' between low and high: Newton, falling back to halving."""
    ax, bx, cx, ay, by, cy = cubic.velocity
    for _ in range(40):
        x, y = cubic.point(t)
        dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        slope = (x - point[0]) * dx + (y - point[1]) * dy
        low, high = (low, t) if slope > 0.0 else (t, high)
        bend = dx * dx + dy * dy + (x - point[0]) * (2.0 * ax * t + bx) + (y - point[1]) * (2.0 * ay * t + by)
        after = t - slope / bend if bend > 0.0 else (low + high) / 2.0
        if not low <= after <= high:
            after = (low + high) / 2.0
        if abs(after - t) < 1e-13:
            return after
        t = after
    return t
