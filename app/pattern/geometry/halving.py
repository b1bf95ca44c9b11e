"""Where a curve meets a curve or an arc: halving while their boxes meet, then Newton steps."""

from __future__ import annotations

from math import cos, hypot
from typing import NamedTuple

from app.pattern.geometry.near import nearest_on
from app.pattern.geometry.point import Point
from app.pattern.geometry.segments import Arc, Cubic, Segment
from app.pattern.geometry.work import spend

__all__ = ["TOUCH", "Meeting", "distinct", "halving", "hull", "shared_ends"]

#: A pair of parameters, on the first segment and on the second.
Meeting = tuple[float, float]

#: Segments nearer than this (mm) touch.
TOUCH = 1e-6
#: So many small stretches side by side, or meetings found, and the two may run on one another.
_MANY, _FEW = 12, 4

#: A parameter and the least and most it may become.
_Span = tuple[float, float, float]


class _SegmentPart(NamedTuple):
    """Part of a segment between two of its parameters, with its box and whether Newton steps are safe on it."""

    segment: Segment
    low: float
    high: float
    box: tuple[float, float, float, float]
    straight: bool

    @property
    def size(self) -> float:
        """Half the way round its box, mm."""
        left, bottom, right, top = self.box
        return right - left + top - bottom


def halving(a: Segment, b: Segment) -> list[Meeting]:
    """Halve whichever is larger while the boxes meet, then Newton steps from what is left."""
    waiting = [(_stretch(a, 0.0, 1.0), _stretch(b, 0.0, 1.0))]
    small: list[tuple[_SegmentPart, _SegmentPart]] = []
    while waiting:
        spend(1)
        first, second = waiting.pop()
        if not _may_meet(first.box, second.box):
            continue
        if first.straight and second.straight:
            if not (_apart(first.segment, second.segment) or _apart(second.segment, first.segment)):
                small.append((first, second))
                if len(small) == _MANY and (shared := _overlap(a, b)):
                    return shared
        elif first.straight or (not second.straight and second.size > first.size):
            waiting += [(first, half) for half in _halves(second)]
        else:
            waiting += [(half, second) for half in _halves(first)]
    spend(10 * len(small))
    reached = [meeting for first, second in small for meeting in _polished(a, b, first, second)]
    found = distinct(_joined_ends(a, b) + reached, a, b)
    return (_overlap(a, b) or found) if len(found) > _FEW else found


def _joined_ends(a: Segment, b: Segment) -> list[Meeting]:
    """Ends that lie together: exact where a curve starts with no speed, on which Newton steps fail."""
    ends = ((s, t) for s in (0.0, 1.0) for t in (0.0, 1.0))
    return [(s, t) for s, t in ends if a.point(s).distance(b.point(t)) < TOUCH]


def _stretch(segment: Segment, low: float, high: float) -> _SegmentPart:
    return _SegmentPart(segment, low, high, _frame(segment), _straight(segment))


def _may_meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] <= b[2] + TOUCH and b[0] <= a[2] + TOUCH and a[1] <= b[3] + TOUCH and b[1] <= a[3] + TOUCH


def _apart(a: Segment, b: Segment) -> bool:
    """True when all of b lies to one side of the strip that holds a, along a's chord."""
    (x0, y0), (x1, y1) = a.start, a.end
    nx, ny = y0 - y1, x1 - x0
    length = hypot(nx, ny)
    if length < TOUCH:
        return False
    own = [nx * (x - x0) + ny * (y - y0) for x, y in hull(a)]
    other = [nx * (x - x0) + ny * (y - y0) for x, y in hull(b)]
    slack = TOUCH * length
    return min(other) > max(own) + slack or max(other) < min(own) - slack


def hull(segment: Segment) -> tuple[Point, ...]:
    """Points whose convex hull holds a segment (an arc of less than a half circle)."""
    if isinstance(segment, Cubic):
        return segment.start, segment.c1, segment.c2, segment.end
    if isinstance(segment, Arc):
        half = segment.sweep / 2.0
        return segment.start, segment.centre.polar(segment.radius / cos(half), segment.start_angle + half), segment.end
    return segment.start, segment.end


def _frame(segment: Segment) -> tuple[float, float, float, float]:
    if isinstance(segment, Cubic):
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = segment.start, segment.c1, segment.c2, segment.end
        return min(x0, x1, x2, x3), min(y0, y1, y2, y3), max(x0, x1, x2, x3), max(y0, y1, y2, y3)
    return segment.bounds


def _straight(segment: Segment) -> bool:
    """Short and nearly straight, evenly walked: Newton steps are safe on it."""
    if isinstance(segment, Arc):
        return abs(segment.sweep) < 0.05
    assert isinstance(segment, Cubic)
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = segment.start, segment.c1, segment.c2, segment.end
    bend = abs(x0 - 2.0 * x1 + x2) + abs(y0 - 2.0 * y1 + y2) + abs(x1 - 2.0 * x2 + x3) + abs(y1 - 2.0 * y2 + y3)
    way = abs(x3 - x0) + abs(y3 - y0)
    return bend < 0.05 * way or bend + way < 1e-4


def _halves(stretch: _SegmentPart) -> list[_SegmentPart]:
    middle = (stretch.low + stretch.high) / 2.0
    before, after = stretch.segment.split(0.5)
    return [_stretch(before, stretch.low, middle), _stretch(after, middle, stretch.high)]


def shared_ends(a: Segment, b: Segment) -> list[Meeting]:
    """Ends of either that lie on the other: all there is to say of segments that run on one another."""
    found: list[Meeting] = []
    for t in (0.0, 1.0):
        s = nearest_on(a, b.point(t))
        if a.point(s).distance(b.point(t)) < TOUCH:
            found.append((s, t))
        u = nearest_on(b, a.point(t))
        if b.point(u).distance(a.point(t)) < TOUCH:
            found.append((t, u))
    return found


def distinct(found: list[Meeting], a: Segment, b: Segment) -> list[Meeting]:
    """Meetings in order along the first segment, those in the same place on both (to 0.00001 mm) once."""
    kept: list[Meeting] = []
    for s, t in sorted(found):
        here, there = a.point(s), b.point(t)
        if not any(a.point(u).distance(here) < 1e-5 and b.point(v).distance(there) < 1e-5 for u, v in kept):
            kept.append((s, t))
    return kept


def _overlap(a: Segment, b: Segment) -> list[Meeting]:
    """Ends of the stretch that both share; empty when they do not run on one another."""
    ends = sorted(shared_ends(a, b))
    if len(ends) < 2 or a.point(ends[0][0]).distance(a.point(ends[-1][0])) < 1e-3:
        return []
    low, high = ends[0][0], ends[-1][0]
    for k in (0.31, 0.5, 0.77):
        point = a.point(low + k * (high - low))
        if b.point(nearest_on(b, point)).distance(point) > TOUCH:
            return []
    return [ends[0], ends[-1]]


def _polished(a: Segment, b: Segment, first: _SegmentPart, second: _SegmentPart) -> list[Meeting]:
    """Meetings reached by Newton steps from the stretches' middles, and from their ends too where they run alike."""
    s0, s1, t0, t1 = first.low, first.high, second.low, second.high
    starts = [((s0 + s1) / 2.0, (t0 + t1) / 2.0)]
    u, v = first.segment.tangent(0.5), second.segment.tangent(0.5)
    if abs(u.x * v.y - u.y * v.x) < 0.2:
        starts += [(s0, t0), (s1, t1)] if u.x * v.x + u.y * v.y > 0.0 else [(s0, t1), (s1, t0)]
    low, high, least, most = *_wider(s0, s1), *_wider(t0, t1)
    found = (_newton(a, b, (s, low, high), (t, least, most)) for s, t in starts)
    return [meeting for meeting in found if meeting is not None]


def _wider(low: float, high: float) -> tuple[float, float]:
    """A stretch and as much again on either side, even off the segment: steps held at its end would stick there."""
    return 2.0 * low - high, 2.0 * high - low


def _velocity(segment: Segment, t: float) -> Point:
    if isinstance(segment, Cubic):
        return segment.derivative(t)
    return segment.tangent(t).scaled(segment.length)


def _newton(a: Segment, b: Segment, first: _Span, second: _Span) -> Meeting | None:
    """Newton steps from the starts of two spans, kept near to the spans."""
    s, s0, s1 = first
    t, t0, t1 = second
    for _ in range(40):
        p, q = a.point(s), b.point(t)
        u, v = _velocity(a, s), _velocity(b, t)
        wx, wy = q[0] - p[0], q[1] - p[1]
        area = u[1] * v[0] - u[0] * v[1]
        if abs(area) <= 1e-14 * (abs(u[0]) + abs(u[1])) * (abs(v[0]) + abs(v[1])):
            break
        before = (s, t)
        s = min(max(s + (wy * v[0] - wx * v[1]) / area, s0), s1)
        t = min(max(t + (wy * u[0] - wx * u[1]) / area, t0), t1)
        if abs(s - before[0]) + abs(t - before[1]) < 1e-14:
            break
    s, t = min(max(s, 0.0), 1.0), min(max(t, 0.0), 1.0)
    return (s, t) if a.point(s).distance(b.point(t)) < TOUCH else None
