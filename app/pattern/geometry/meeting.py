"""Where two segments meet: in closed form for lines and circles, by halving and Newton steps for curves.

Every function gives pairs (parameter on the first, parameter on the second).
Segments that run on one another give the two ends of the stretch they share.
"""

from __future__ import annotations

from math import cos, hypot, sqrt

from app.pattern.geometry.near import nearest_on
from app.pattern.geometry.point import Point, circle_circle, line_circle
from app.pattern.geometry.segments import Arc, Cubic, Line, Segment, roots_within

__all__ = ["Meeting", "hull", "itself", "meetings"]

Meeting = tuple[float, float]

#: Segments nearer than this (mm) touch.
TOUCH = 1e-6
_MANY = 12
_FEW = 4


def meetings(a: Segment, b: Segment) -> list[Meeting]:
    """All meetings of two segments, each once."""
    if not a.bounds.meets(b.bounds, TOUCH):
        return []
    if isinstance(a, Line):
        found = _line_any(a, b)
    elif isinstance(b, Line):
        found = [(s, t) for t, s in _line_any(b, a)]
    elif isinstance(a, Arc) and isinstance(b, Arc):
        found = _arc_arc(a, b)
    else:
        found = _halving(a, b)
    return _distinct(found, a, b)


def _line_any(a: Line, b: Segment) -> list[Meeting]:
    if isinstance(b, Line):
        return _line_line(a, b)
    return _line_arc(a, b) if isinstance(b, Arc) else _line_cubic(a, b)


def _distinct(found: list[Meeting], a: Segment, b: Segment) -> list[Meeting]:
    kept: list[Meeting] = []
    for s, t in sorted(found):
        here, there = a.point(s), b.point(t)
        if not any(a.point(u).distance(here) < 1e-5 and b.point(v).distance(there) < 1e-5 for u, v in kept):
            kept.append((s, t))
    return kept


def _line_line(a: Line, b: Line) -> list[Meeting]:
    ux, uy = a.end[0] - a.start[0], a.end[1] - a.start[1]
    vx, vy = b.end[0] - b.start[0], b.end[1] - b.start[1]
    la, lb = hypot(ux, uy), hypot(vx, vy)
    if la < TOUCH or lb < TOUCH:
        return _shared_ends(a, b)
    area = ux * vy - uy * vx
    if abs(area) <= 1e-10 * la * lb:
        return _shared_ends(a, b)
    wx, wy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    s, t = (wx * vy - wy * vx) / area, (wx * uy - wy * ux) / area
    ea, eb = TOUCH / la, TOUCH / lb
    if -ea <= s <= 1.0 + ea and -eb <= t <= 1.0 + eb:
        return [(min(max(s, 0.0), 1.0), min(max(t, 0.0), 1.0))]
    return []


def _shared_ends(a: Segment, b: Segment) -> list[Meeting]:
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


def _on_line(line: Line, point: Point) -> float | None:
    s = nearest_on(line, point)
    return s if line.point(s).distance(point) < TOUCH else None


def _line_arc(a: Line, b: Arc) -> list[Meeting]:
    if a.length < TOUCH or b.length < TOUCH:
        return _shared_ends(a, b)
    found: list[Meeting] = []
    for point in line_circle(a.start, a.end, b.centre, b.radius):
        s, t = _on_line(a, point), b.t_of_angle(b.centre.angle_to(point), TOUCH / b.radius)
        if s is not None and t is not None:
            found.append((s, t))
    return found + _shared_ends(a, b)


def _arc_arc(a: Arc, b: Arc) -> list[Meeting]:
    shared = _shared_ends(a, b)
    if a.centre.distance(b.centre) < TOUCH and abs(a.radius - b.radius) < TOUCH:
        return shared
    for point in circle_circle(a.centre, a.radius, b.centre, b.radius):
        s = a.t_of_angle(a.centre.angle_to(point), TOUCH / a.radius)
        t = b.t_of_angle(b.centre.angle_to(point), TOUCH / b.radius)
        if s is not None and t is not None:
            shared.append((s, t))
    return shared


def _line_cubic(a: Line, b: Cubic) -> list[Meeting]:
    """Zeros of the curve's signed distance from the line, one for each stretch on which it only grows or falls."""
    length = a.length
    if length < TOUCH:
        return _shared_ends(a, b)
    nx, ny = -(a.end[1] - a.start[1]) / length, (a.end[0] - a.start[0]) / length
    p0, p1, p2, p3 = (nx * (p[0] - a.start[0]) + ny * (p[1] - a.start[1]) for p in (b.start, b.c1, b.c2, b.end))
    if max(abs(p0), abs(p1), abs(p2), abs(p3)) < TOUCH:
        return _shared_ends(a, b)
    found: list[Meeting] = []
    for t in _zeros(p0, 3.0 * (p1 - p0), 3.0 * (p0 - 2.0 * p1 + p2), p3 - p0 + 3.0 * (p1 - p2)):
        point = b.point(t)
        s = nearest_on(a, point)
        if a.point(s).distance(point) < 2.0 * TOUCH:
            found.append((s, t))
    return found


def _zeros(k0: float, k1: float, k2: float, k3: float) -> list[float]:
    """Zeros on [0, 1] of k0 + k1 t + k2 t² + k3 t³, in mm; where it comes within TOUCH of zero counts."""
    turning = [0.0, *sorted(roots_within(3.0 * k3, 2.0 * k2, k1)), 1.0]
    values = [((k3 * t + k2) * t + k1) * t + k0 for t in turning]
    found = [t for t, v in zip(turning, values, strict=True) if abs(v) < TOUCH]
    for i in range(len(turning) - 1):
        low, high = turning[i], turning[i + 1]
        if values[i] * values[i + 1] < 0.0 and min(abs(values[i]), abs(values[i + 1])) >= TOUCH:
            found.append(_between(k0, k1, k2, k3, low, high))
    return found


def _between(k0: float, k1: float, k2: float, k3: float, low: float, high: float) -> float:
    """The zero between two parameters whose values have opposite signs: Newton, falling back to halving."""
    rising = ((k3 * high + k2) * high + k1) * high + k0 > 0.0
    t = (low + high) / 2.0
    for _ in range(60):
        value = ((k3 * t + k2) * t + k1) * t + k0
        low, high = (low, t) if (value > 0.0) == rising else (t, high)
        slope = (3.0 * k3 * t + 2.0 * k2) * t + k1
        after = t - value / slope if slope else low
        if not low < after < high:
            after = (low + high) / 2.0
        if abs(after - t) < 1e-15:
            break
        t = after
    return t


def itself(cubic: Cubic) -> Meeting | None:
    """The two parameters at which a cubic crosses itself, if it does.

    B(s) = B(t) divided by s - t is linear in s + t and in s² + s t + t².
    """
    ax, bx, cx, ay, by, cy = cubic.velocity
    ax, bx, ay, by = ax / 3.0, bx / 2.0, ay / 3.0, by / 2.0
    area = ax * by - ay * bx
    if abs(area) <= 1e-14 * (abs(ax) + abs(bx)) * (abs(ay) + abs(by)):
        return None
    square, both = (bx * cy - by * cx) / area, (cx * ay - cy * ax) / area
    under = both * both - 4.0 * (both * both - square)
    if under <= 1e-12:
        return None
    s, t = (both - sqrt(under)) / 2.0, (both + sqrt(under)) / 2.0
    return (s, t) if s >= -1e-12 and t <= 1.0 + 1e-12 else None


_Stretch = tuple[Segment, float, float]
#: A parameter and the least and most it may become.
_Span = tuple[float, float, float]


def _halving(a: Segment, b: Segment) -> list[Meeting]:
    """Halve whichever is larger while the boxes meet, then Newton steps from what is left."""
    waiting: list[tuple[_Stretch, _Stretch]] = [((a, 0.0, 1.0), (b, 0.0, 1.0))]
    small: list[tuple[_Stretch, _Stretch]] = []
    while waiting:
        first, second = waiting.pop()
        if not _may_meet(first[0], second[0]):
            continue
        straight, other = _straight(first[0]), _straight(second[0])
        if straight and other:
            if _apart(first[0], second[0]) or _apart(second[0], first[0]):
                continue
            small.append((first, second))
            if len(small) == _MANY and (shared := _overlap(a, b)):
                return shared
        elif straight or (not other and _size(second[0]) > _size(first[0])):
            waiting += [(first, half) for half in _halves(second)]
        else:
            waiting += [(half, second) for half in _halves(first)]
    found = _distinct([m for first, second in small for m in _polished(a, b, first, second)], a, b)
    return (_overlap(a, b) or found) if len(found) > _FEW else found


def _may_meet(a: Segment, b: Segment) -> bool:
    la, ba, ra, ta = _frame(a)
    lb, bb, rb, tb = _frame(b)
    return la <= rb + TOUCH and lb <= ra + TOUCH and ba <= tb + TOUCH and bb <= ta + TOUCH


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


def _size(segment: Segment) -> float:
    left, bottom, right, top = _frame(segment)
    return right - left + top - bottom


def _straight(segment: Segment) -> bool:
    """Short and nearly straight, evenly walked: Newton steps are safe on it."""
    if isinstance(segment, Arc):
        return abs(segment.sweep) < 0.05
    assert isinstance(segment, Cubic)
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = segment.start, segment.c1, segment.c2, segment.end
    bend = abs(x0 - 2.0 * x1 + x2) + abs(y0 - 2.0 * y1 + y2) + abs(x1 - 2.0 * x2 + x3) + abs(y1 - 2.0 * y2 + y3)
    way = abs(x3 - x0) + abs(y3 - y0)
    return bend < 0.05 * way or way < 1e-4


def _halves(stretch: _Stretch) -> list[_Stretch]:
    segment, low, high = stretch
    middle = (low + high) / 2.0
    before, after = segment.split(0.5)
    return [(before, low, middle), (after, middle, high)]


def _overlap(a: Segment, b: Segment) -> list[Meeting]:
    """Ends of the stretch that both share; empty when they do not run on one another."""
    ends = sorted(_shared_ends(a, b))
    if len(ends) < 2 or a.point(ends[0][0]).distance(a.point(ends[-1][0])) < 1e-3:
        return []
    low, high = ends[0][0], ends[-1][0]
    for k in (0.31, 0.5, 0.77):
        point = a.point(low + k * (high - low))
        if b.point(nearest_on(b, point)).distance(point) > TOUCH:
            return []
    return [ends[0], ends[-1]]


def _polished(a: Segment, b: Segment, first: _Stretch, second: _Stretch) -> list[Meeting]:
    """Meetings reached by Newton steps from the stretches' middles, and from their ends too where they run alike."""
    _, s0, s1 = first
    _, t0, t1 = second
    starts = [((s0 + s1) / 2.0, (t0 + t1) / 2.0)]
    u, v = first[0].tangent(0.5), second[0].tangent(0.5)
    if abs(u.x * v.y - u.y * v.x) < 0.2:
        starts += [(s0, t0), (s1, t1)] if u.x * v.x + u.y * v.y > 0.0 else [(s0, t1), (s1, t0)]
    low, high, least, most = *_wider(s0, s1), *_wider(t0, t1)
    found = (_newton(a, b, (s, low, high), (t, least, most)) for s, t in starts)
    return [meeting for meeting in found if meeting is not None]


def _wider(low: float, high: float) -> tuple[float, float]:
    half = (high - low) / 2.0
    return max(low - half, 0.0), min(high + half, 1.0)


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
        if abs(area) < 1e-14 * (abs(u[0]) + abs(u[1])) * (abs(v[0]) + abs(v[1])):
            break
        before = (s, t)
        s = min(max(s + (wy * v[0] - wx * v[1]) / area, s0), s1)
        t = min(max(t + (wy * u[0] - wx * u[1]) / area, t0), t1)
        if abs(s - before[0]) + abs(t - before[1]) < 1e-14:
            break
    return (s, t) if a.point(s).distance(b.point(t)) < TOUCH else None
