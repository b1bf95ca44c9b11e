"""Making paths: arcs, one curve between two directions, and a smooth curve through many points."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import cos, pi, sin, sqrt, tan

from app.pattern.geometry.path import Path
from app.pattern.geometry.point import SAME, GeometryError, Point
from app.pattern.geometry.segments import Arc, Cubic
from app.pattern.units import mm_unlike

__all__ = ["arc_between", "arc_centre", "curve", "smooth"]


def _wrapped(angle: float) -> float:
    return (angle + pi) % (2.0 * pi) - pi


def arc_between(a: Point, b: Point, centre: Point) -> Path:
    """The shorter arc about `centre` from a to b (anticlockwise when both ways are as long)."""
    radius = centre.distance(a)
    if abs(radius - centre.distance(b)) > 1e-3:
        raise GeometryError(
            "the two ends of the arc are not as far from its centre: {} and {}".format(
                *mm_unlike(radius, centre.distance(b))
            )
        )
    if radius < SAME or a.distance(b) < SAME:
        raise GeometryError("an arc needs two different ends, and a centre away from them")
    start = centre.angle_to(a)
    turn = _wrapped(centre.angle_to(b) - start)
    return Path((Arc(centre, radius, start, pi if turn == -pi else turn),))


def arc_centre(centre: Point, radius: float, from_angle: float, to_angle: float) -> Path:
    """The arc about `centre` between two angles (radians); anticlockwise when `to_angle` is the larger."""
    if radius <= SAME or from_angle == to_angle:
        raise GeometryError("an arc needs a radius and two different angles")
    return Path((Arc(centre, radius, from_angle, to_angle - from_angle),))


def curve(a: Point, b: Point, leaving: float, arriving: float, pull: float = 1.0) -> Path:
    """One cubic from a to b with the directions of travel (radians) at both ends.

    Shallow turns get handles of about a third of the chord (J. D. Hobby, "Smooth, easy
    to compute interpolating splines", Discrete & Computational Geometry 1, 1986);
    quarter turns get those of a quarter of an ellipse. `pull` lengthens both.
    """
    chord = a.distance(b)
    if chord < SAME:
        raise GeometryError("a curve needs two different ends")
    if pull <= 0.0:
        raise GeometryError("the pull of a curve must be more than nothing")
    along = a.angle_to(b)
    first, second = _handles(_wrapped(leaving - along), _wrapped(along - arriving))
    return Path((Cubic(a, a.polar(first * pull * chord, leaving), b.polar(-second * pull * chord, arriving), b),))


def _handles(out: float, back: float) -> tuple[float, float]:
    """Handle lengths for a chord of 1, from the angles between chord and tangents.

    `out` is from the chord to the tangent at the start, `back` from the tangent at the end to the chord:
    both have the same sign when the curve bends one way only.
    """
    first, second = _hobby(out, -back), _hobby(back, -out)
    if out * back <= 0.0:
        return first, second
    out, back = abs(out), abs(back)
    turn = out + back
    share = _eased(1.0 - abs(turn - pi / 2.0) / (pi / 4.0)) * _eased((min(out, back) / max(out, back) - 0.02) / 0.1)
    if share <= 0.0:
        return first, second
    reach = 4.0 / 3.0 * tan(turn / 4.0) / tan(turn / 2.0) / sin(turn)
    return (
        first + share * (reach * sin(back) - first),
        second + share * (reach * sin(out) - second),
    )


def _eased(x: float) -> float:
    x = min(max(x, 0.0), 1.0)
    return x * x * (3.0 - 2.0 * x)


def _hobby(near: float, far: float) -> float:
    far = -far
    sn, sf, cn, cf = sin(near), sin(far), cos(near), cos(far)
    over = 2.0 + sqrt(2.0) * (sn - sf / 16.0) * (sf - sn / 16.0) * (cn - cf)
    under = 1.0 + (sqrt(5.0) - 1.0) / 2.0 * cn + (3.0 - sqrt(5.0)) / 2.0 * cf
    return min(max(over / max(under, 0.25), 0.4), 4.0) / 3.0


def smooth(
    points: Sequence[Point],
    leaving: float | None = None,
    arriving: float | None = None,
    closed: bool = False,
) -> Path:
    """A cubic spline through the points with steady curvature (C2 in chord length).

    `leaving` and `arriving` are directions of travel in radians; without one the
    curve runs straight out at that end. `closed` comes back to the first point
    (given once) without a corner.
    """
    knots: list[Point] = []
    for point in points:
        if not knots or knots[-1].distance(point) > SAME:
            knots.append(point)
    if closed and len(knots) > 1 and knots[0].distance(knots[-1]) <= SAME:
        knots.pop()
    knots = knots
    if closed:
        if len(knots) < 3:
            raise GeometryError("a closed curve needs at least three different points")
        return _through([*knots, knots[0]], _periodic_slopes(knots))
    if len(knots) < 2:
        raise GeometryError("a curve needs at least two different points")
    if len(knots) == 2 and leaving is not None and arriving is not None:
        return curve(knots[0], knots[1], leaving, arriving)
    return _through(knots, _slopes(knots, leaving, arriving))


def _through(knots: Sequence[Point], slopes: Sequence[Point]) -> Path:
    pieces = []
    for i, (a, b) in enumerate(itertools.pairwise(knots)):
        third = a.distance(b) / 3.0
        pieces.append(Cubic(a, a.plus(slopes[i].scaled(third)), b.minus(slopes[i + 1].scaled(third)), b))
    return Path(tuple(pieces))


def _slopes(knots: Sequence[Point], leaving: float | None, arriving: float | None) -> list[Point]:
    """Derivatives by chord length at the knots, C2 inside; natural where no direction is given."""
    steps = [a.distance(b) for a, b in itertools.pairwise(knots)]
    rises = [b.minus(a).scaled(1.0 / h) for a, b, h in zip(knots, knots[1:], steps, strict=False)]
    below, on, above, right = [0.0], [2.0], [1.0], [rises[0].scaled(3.0)]
    if leaving is not None:
        on, above, right = [1.0], [0.0], [Point(cos(leaving), sin(leaving))]
    for i in range(1, len(knots) - 1):
        h, k = steps[i - 1], steps[i]
        below.append(k)
        on.append(2.0 * (h + k))
        above.append(h)
        right.append(rises[i - 1].scaled(3.0 * k).plus(rises[i].scaled(3.0 * h)))
    below.append(1.0 if arriving is None else 0.0)
    on.append(2.0 if arriving is None else 1.0)
    above.append(0.0)
    right.append(rises[-1].scaled(3.0) if arriving is None else Point(cos(arriving), sin(arriving)))
    return _solved(below, on, above, right)


def _solved(below: Sequence[float], on: Sequence[float], above: Sequence[float], right: list[Point]) -> list[Point]:
    """A three-banded system solved by elimination (its matrix is dominated by the diagonal)."""
    diagonal, values = list(on), list(right)
    for i in range(1, len(values)):
        k = below[i] / diagonal[i - 1]
        diagonal[i] -= k * above[i - 1]
        values[i] = values[i].minus(values[i - 1].scaled(k))
    values[-1] = values[-1].scaled(1.0 / diagonal[-1])
    for i in range(len(values) - 2, -1, -1):
        values[i] = values[i].minus(values[i + 1].scaled(above[i])).scaled(1.0 / diagonal[i])
    return values


def _periodic_slopes(knots: Sequence[Point]) -> list[Point]:
    """Derivatives of the closed spline: bordered system by Sherman-Morrison, one value per knot and the first again."""
    count = len(knots)
    ring = [*knots, knots[0]]
    steps = [a.distance(b) for a, b in itertools.pairwise(ring)]
    rises = [b.minus(a).scaled(1.0 / h) for a, b, h in zip(ring, ring[1:], steps, strict=False)]
    below = [steps[i] for i in range(count)]
    above = [steps[i - 1] for i in range(count)]
    on = [2.0 * (steps[i - 1] + steps[i]) for i in range(count)]
    right = [rises[i - 1].scaled(3.0 * steps[i]).plus(rises[i].scaled(3.0 * steps[i - 1])) for i in range(count)]
    corner_top, corner_end, gamma = below[0], above[-1], -on[0]
    on[0] -= gamma
    on[-1] -= corner_top * corner_end / gamma
    plain = _solved(below, on, above, right)
    border = [Point(0.0, 0.0)] * count
    border[0], border[-1] = Point(gamma, 0.0), Point(corner_end, 0.0)
    side = [p.x for p in _solved(below, on, above, border)]
    ratio = corner_top / gamma
    weight = 1.0 + side[0] + ratio * side[-1]
    top = plain[0].plus(plain[-1].scaled(ratio)).scaled(1.0 / weight)
    values = [p.minus(top.scaled(s)) for p, s in zip(plain, side, strict=True)]
    return [*values, values[0]]
