"""The three kinds of segment a path is made of: straight lines, circular arcs and cubic curves.

Each runs over a parameter t from 0 at its start to 1 at its end. Lengths are in
mm, angles in radians.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import acos, ceil, cos, hypot, pi, sin, sqrt

from app.pattern.geometry.point import SAME, Box, GeometryError, Point
from app.pattern.geometry.speed import Velocity, speed_integral
from app.pattern.geometry.transform import Transform

__all__ = ["Arc", "Cubic", "Line", "Segment"]

_TURN = 2.0 * pi


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from start to end, mm."""

    start: Point
    end: Point

    @property
    def length(self) -> float:
        """Length in mm."""
        return hypot(self.end[0] - self.start[0], self.end[1] - self.start[1])

    @property
    def bounds(self) -> Box:
        """The box round the line, mm."""
        (x0, y0), (x1, y1) = self.start, self.end
        return Box(min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))

    def point(self, t: float) -> Point:
        """The point at parameter t."""
        (x0, y0), (x1, y1) = self.start, self.end
        return Point(x0 + t * (x1 - x0), y0 + t * (y1 - y0))

    def tangent(self, t: float) -> Point:
        """Direction of travel, a unit vector (the same all along)."""
        dx, dy = self.end[0] - self.start[0], self.end[1] - self.start[1]
        way = hypot(dx, dy)
        if way < SAME:
            raise GeometryError("a line of no length has no direction")
        return Point(dx / way, dy / way)

    def length_to(self, t: float) -> float:
        """Length in mm from the start to parameter t."""
        return self.length * t

    def t_at(self, distance: float) -> float:
        """Parameter at `distance` mm from the start."""
        length = self.length
        return distance / length if length > 0.0 else 0.0

    def reversed(self) -> Line:
        """The same line walked the other way."""
        return Line(self.end, self.start)

    def transformed(self, transform: Transform) -> Line:
        """The line after a transform."""
        return Line(transform.apply(self.start), transform.apply(self.end))

    def split(self, t: float) -> tuple[Line, Line]:
        """The parts before and after parameter t."""
        middle = self.point(t)
        return Line(self.start, middle), Line(middle, self.end)

    def flatten(self, tolerance: float) -> tuple[Point, ...]:
        """Both ends: a line needs nothing more."""
        return (self.start, self.end)

    def swept(self) -> float:
        """Signed area in mm² swept by the ray from the origin, anticlockwise positive."""
        return (self.start[0] * self.end[1] - self.start[1] * self.end[0]) / 2.0


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc: `radius` mm about `centre`, from `start_angle` through `sweep` radians (> 0 anticlockwise)."""

    centre: Point
    radius: float
    start_angle: float
    sweep: float

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.point(0.0)

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.point(1.0)

    @property
    def length(self) -> float:
        """Length in mm."""
        return abs(self.radius * self.sweep)

    @property
    def bounds(self) -> Box:
        """The box round the arc, mm."""
        ends = [self.point(0.0), self.point(1.0)]
        low = min(self.start_angle, self.start_angle + self.sweep)
        high = max(self.start_angle, self.start_angle + self.sweep)
        quarter = ceil(low / (pi / 2.0))
        while quarter * pi / 2.0 < high and len(ends) < 7:
            ends.append(self.centre.polar(self.radius, quarter * pi / 2.0))
            quarter += 1
        xs, ys = [p.x for p in ends], [p.y for p in ends]
        return Box(min(xs), min(ys), max(xs), max(ys))

    def point(self, t: float) -> Point:
        """The point at parameter t."""
        angle = self.start_angle + t * self.sweep
        return Point(self.centre[0] + self.radius * cos(angle), self.centre[1] + self.radius * sin(angle))

    def tangent(self, t: float) -> Point:
        """Direction of travel at parameter t, a unit vector."""
        angle = self.start_angle + t * self.sweep
        sign = 1.0 if self.sweep >= 0.0 else -1.0
        return Point(-sign * sin(angle), sign * cos(angle))

    def length_to(self, t: float) -> float:
        """Length in mm from the start to parameter t."""
        return self.length * t

    def t_at(self, distance: float) -> float:
        """Parameter at `distance` mm from the start."""
        length = self.length
        return distance / length if length > 0.0 else 0.0

    def t_of_angle(self, angle: float, slack: float = 0.0) -> float | None:
        """Parameter at which the arc passes a direction from its centre; None when it does not.

        `slack` radians beyond either end still count, and are drawn back to the end.
        """
        turn = (angle - self.start_angle) % _TURN
        turn, sweep = (turn, self.sweep) if self.sweep >= 0.0 else ((_TURN - turn) % _TURN, -self.sweep)
        if turn > sweep + slack:
            turn -= _TURN
        if turn < -slack or sweep == 0.0:
            return None
        return min(max(turn / sweep, 0.0), 1.0)

    def reversed(self) -> Arc:
        """The same arc walked the other way."""
        return Arc(self.centre, self.radius, self.start_angle + self.sweep, -self.sweep)

    def transformed(self, transform: Transform) -> Arc:
        """The arc after a transform."""
        sign = -1.0 if transform.flips else 1.0
        angle = transform.angle + sign * self.start_angle
        return Arc(transform.apply(self.centre), self.radius * transform.factor, angle, sign * self.sweep)

    def split(self, t: float) -> tuple[Arc, Arc]:
        """The parts before and after parameter t."""
        turn = t * self.sweep
        before = Arc(self.centre, self.radius, self.start_angle, turn)
        return before, Arc(self.centre, self.radius, self.start_angle + turn, self.sweep - turn)

    def flatten(self, tolerance: float) -> tuple[Point, ...]:
        """Points on the arc whose chords stay within `tolerance` mm of it, both ends included."""
        if self.radius <= tolerance:
            steps = max(2, ceil(abs(self.sweep) / (pi / 2.0)))
        else:
            steps = max(1, ceil(abs(self.sweep) / (2.0 * acos(1.0 - tolerance / self.radius))))
        return tuple(self.point(i / steps) for i in range(steps + 1))

    def swept(self) -> float:
        """Signed area in mm² swept by the ray from the origin, anticlockwise positive."""
        start, end, centre = self.start, self.end, self.centre
        chord = centre.x * (end.y - start.y) - centre.y * (end.x - start.x)
        return (self.radius * self.radius * self.sweep + chord) / 2.0


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bézier curve from start to end, leaving towards c1 and arriving from c2; mm."""

    start: Point
    c1: Point
    c2: Point
    end: Point
    _length: float = field(default=-1.0, init=False, repr=False, compare=False)
    _bounds: Box | None = field(default=None, init=False, repr=False, compare=False)

    @property
    def velocity(self) -> Velocity:
        """The derivative by t as (ax, bx, cx, ay, by, cy): dx/dt = ax t² + bx t + cx, and so for y."""
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = self.start, self.c1, self.c2, self.end
        return (
            3.0 * (x3 - x0 + 3.0 * (x1 - x2)),
            6.0 * (x0 - 2.0 * x1 + x2),
            3.0 * (x1 - x0),
            3.0 * (y3 - y0 + 3.0 * (y1 - y2)),
            6.0 * (y0 - 2.0 * y1 + y2),
            3.0 * (y1 - y0),
        )

    @property
    def length(self) -> float:
        """Length in mm (error below 0.001 mm)."""
        if self._length < 0.0:
            object.__setattr__(self, "_length", speed_integral(self.velocity, 0.0, 1.0))
        return self._length

    @property
    def bounds(self) -> Box:
        """The box round the curve itself (not its handles), mm."""
        if self._bounds is None:
            ax, bx, cx, ay, by, cy = self.velocity
            xs = [self.start[0], self.end[0], *(self.point(t)[0] for t in roots_within(ax, bx, cx))]
            ys = [self.start[1], self.end[1], *(self.point(t)[1] for t in roots_within(ay, by, cy))]
            box = Box(min(xs), min(ys), max(xs), max(ys))
            object.__setattr__(self, "_bounds", box)
            return box
        return self._bounds

    def point(self, t: float) -> Point:
        """The point at parameter t."""
        s = 1.0 - t
        k0, k1, k2, k3 = s * s * s, 3.0 * s * s * t, 3.0 * s * t * t, t * t * t
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = self.start, self.c1, self.c2, self.end
        return Point(k0 * x0 + k1 * x1 + k2 * x2 + k3 * x3, k0 * y0 + k1 * y1 + k2 * y2 + k3 * y3)

    def derivative(self, t: float) -> Point:
        """The first derivative by t, mm."""
        ax, bx, cx, ay, by, cy = self.velocity
        return Point((ax * t + bx) * t + cx, (ay * t + by) * t + cy)

    def second(self, t: float) -> Point:
        """The second derivative by t, mm."""
        ax, bx, _, ay, by, _ = self.velocity
        return Point(2.0 * ax * t + bx, 2.0 * ay * t + by)

    def tangent(self, t: float) -> Point:
        """Direction of travel at parameter t, a unit vector; at a cusp or folded handle the direction just after it
        (just before it at the end)."""
        ax, bx, cx, ay, by, cy = self.velocity
        dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        speed = hypot(dx, dy)
        if speed > 1e-9 * (abs(ax) + abs(bx) + abs(cx) + abs(ay) + abs(by) + abs(cy)):
            return Point(dx / speed, dy / speed)
        return self._tangent_at_cusp(t)

    def _tangent_at_cusp(self, t: float) -> Point:
        step = 1e-5 if t < 1.0 - 1e-5 else -1e-5
        here, there = self.point(t), self.point(t + step)
        dx, dy = there.x - here.x, there.y - here.y
        way = hypot(dx, dy)
        if way < 1e-15:
            raise GeometryError("a curve of no length has no direction")
        sign = 1.0 if step > 0.0 else -1.0
        return Point(sign * dx / way, sign * dy / way)

    def curvature(self, t: float) -> float:
        """Curvature at t in 1/mm, > 0 where it bends to the left; 0 at a cusp."""
        ax, bx, cx, ay, by, cy = self.velocity
        dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        speed = hypot(dx, dy)
        if speed < 1e-12:
            return 0.0
        return (dx * (2.0 * ay * t + by) - dy * (2.0 * ax * t + bx)) / (speed * speed * speed)

    def length_to(self, t: float) -> float:
        """Length in mm from the start to parameter t."""
        return speed_integral(self.velocity, 0.0, t)

    def t_at(self, distance: float) -> float:
        """Parameter at `distance` mm from the start (found by safeguarded Newton steps)."""
        length = self.length
        if distance <= 0.0 or length <= 0.0:
            return 0.0
        if distance >= length:
            return 1.0
        ax, bx, cx, ay, by, cy = velocity = self.velocity
        low, high, t, reached = 0.0, 1.0, distance / length, 0.0
        at = 0.0
        for _ in range(60):
            reached += speed_integral(velocity, at, t) if t >= at else -speed_integral(velocity, t, at)
            at, miss = t, reached - distance
            if abs(miss) < 1e-9:
                break
            low, high = (low, t) if miss > 0.0 else (t, high)
            speed = hypot((ax * t + bx) * t + cx, (ay * t + by) * t + cy)
            t = t - miss / speed if speed > 1e-9 else low
            if not low < t < high:
                t = (low + high) / 2.0
            if high - low < 1e-15:
                break
        return t

    def reversed(self) -> Cubic:
        """The same curve walked the other way."""
        other = Cubic(self.end, self.c2, self.c1, self.start)
        object.__setattr__(other, "_length", self._length)
        return other

    def transformed(self, transform: Transform) -> Cubic:
        """The curve after a transform."""
        go = transform.apply
        other = Cubic(go(self.start), go(self.c1), go(self.c2), go(self.end))
        if self._length >= 0.0:
            object.__setattr__(other, "_length", self._length * transform.factor)
        return other

    def split(self, t: float) -> tuple[Cubic, Cubic]:
        """The parts before and after parameter t (de Casteljau)."""
        a, b, c = self.start.between(self.c1, t), self.c1.between(self.c2, t), self.c2.between(self.end, t)
        d, e = a.between(b, t), b.between(c, t)
        middle = d.between(e, t)
        return Cubic(self.start, a, d, middle), Cubic(middle, e, c, self.end)

    def flatten(self, tolerance: float) -> tuple[Point, ...]:
        """Points on the curve whose chords stay within `tolerance` mm of it, both ends included.

        With n equal steps of t the error is at most max|B''| / (8 n²).
        """
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = self.start, self.c1, self.c2, self.end
        bend = 6.0 * max(hypot(x0 - 2.0 * x1 + x2, y0 - 2.0 * y1 + y2), hypot(x1 - 2.0 * x2 + x3, y1 - 2.0 * y2 + y3))
        steps = max(1, ceil(sqrt(bend / (8.0 * tolerance))))
        inner = tuple(self.point(i / steps) for i in range(1, steps))
        return (self.start, *inner, self.end)

    def swept(self) -> float:
        """Signed area in mm² swept by the ray from the origin, anticlockwise positive (exact)."""
        (x0, y0), (x1, y1), (x2, y2), (x3, y3) = self.start, self.c1, self.c2, self.end
        return (
            6.0 * (x0 * y1 - y0 * x1)
            + 3.0 * (x0 * y2 - y0 * x2)
            + (x0 * y3 - y0 * x3)
            + 3.0 * (x1 * y2 - y1 * x2)
            + 3.0 * (x1 * y3 - y1 * x3)
            + 6.0 * (x2 * y3 - y2 * x3)
        ) / 20.0


Segment = Line | Arc | Cubic


def roots_within(a: float, b: float, c: float) -> tuple[float, ...]:
    """Roots of a t² + b t + c inside (0, 1)."""
    if abs(a) < 1e-12 * (abs(b) + abs(c)):
        roots: tuple[float, ...] = (-c / b,) if b else ()
    else:
        under = b * b - 4.0 * a * c
        if under < 0.0:
            return ()
        q = -0.5 * (b + (sqrt(under) if b >= 0.0 else -sqrt(under)))
        roots = (q / a, c / q) if q else (0.0,) if a else ()
    return tuple(t for t in roots if 0.0 < t < 1.0)
