"""Where two segments meet: in closed form for lines and circles, by halving and Newton steps for curves.

Every function gives pairs (parameter on the first, parameter on the second).
Segments that run on one another give the two ends of the stretch they share.
"""

from __future__ import annotations

from math import hypot, sqrt

from app.pattern.geometry.halving import TOUCH, Meeting, distinct, halving, shared_ends
from app.pattern.geometry.near import nearest_on
from app.pattern.geometry.point import Point, circle_circle, line_circle
from app.pattern.geometry.segments import Arc, Cubic, Line, Segment, roots_within
from app.pattern.geometry.work import spend

__all__ = ["Meeting", "itself", "meetings"]


def meetings(a: Segment, b: Segment) -> list[Meeting]:
    """All meetings of two segments, each once."""
    if not a.bounds.meets(b.bounds, TOUCH):
        return []
    spend(5)
    if a.length < TOUCH or b.length < TOUCH:
        return distinct(shared_ends(a, b), a, b)
    if isinstance(a, Line):
        found = _line_any(a, b)
    elif isinstance(b, Line):
        found = [(s, t) for t, s in _line_any(b, a)]
    elif isinstance(a, Arc) and isinstance(b, Arc):
        found = _arc_arc(a, b)
    else:
        found = halving(a, b)
    return distinct(found, a, b)


def _line_any(a: Line, b: Segment) -> list[Meeting]:
    if isinstance(b, Line):
        return _line_line(a, b)
    return _line_arc(a, b) if isinstance(b, Arc) else _line_cubic(a, b)


def _line_line(a: Line, b: Line) -> list[Meeting]:
    ux, uy = a.end[0] - a.start[0], a.end[1] - a.start[1]
    vx, vy = b.end[0] - b.start[0], b.end[1] - b.start[1]
    la, lb = hypot(ux, uy), hypot(vx, vy)
    area = ux * vy - uy * vx
    if abs(area) <= 1e-10 * la * lb:
        return shared_ends(a, b)
    wx, wy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    s, t = (wx * vy - wy * vx) / area, (wx * uy - wy * ux) / area
    ea, eb = TOUCH / la, TOUCH / lb
    if -ea <= s <= 1.0 + ea and -eb <= t <= 1.0 + eb:
        return [(min(max(s, 0.0), 1.0), min(max(t, 0.0), 1.0))]
    return []


def _on_line(line: Line, point: Point) -> float | None:
    s = nearest_on(line, point)
    return s if line.point(s).distance(point) < TOUCH else None


def _line_arc(a: Line, b: Arc) -> list[Meeting]:
    found: list[Meeting] = []
    for point in line_circle(a.start, a.end, b.centre, b.radius):
        s, t = _on_line(a, point), b.t_of_angle(b.centre.angle_to(point), TOUCH / b.radius)
        if s is not None and t is not None:
            found.append((s, t))
    return found + shared_ends(a, b)


def _arc_arc(a: Arc, b: Arc) -> list[Meeting]:
    shared = shared_ends(a, b)
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
    nx, ny = -(a.end[1] - a.start[1]) / length, (a.end[0] - a.start[0]) / length
    p0, p1, p2, p3 = (nx * (p[0] - a.start[0]) + ny * (p[1] - a.start[1]) for p in (b.start, b.c1, b.c2, b.end))
    if max(abs(p0), abs(p1), abs(p2), abs(p3)) < TOUCH:
        return shared_ends(a, b)
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
