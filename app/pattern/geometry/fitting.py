"""Cubics fitted to the parallel of a cubic: exact ends and directions, handles solved for, halved if need be."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, sqrt
from typing import NamedTuple

from app.pattern.geometry.point import Point
from app.pattern.geometry.segments import Cubic
from app.pattern.geometry.speed import Velocity
from app.pattern.geometry.work import spend

__all__ = ["parallel_cubics"]

#: Largest deviation of a fitted curve from its distance at the places looked at, mm; the promise is 0.02 mm.
_AIM = 0.008
#: A correction of the handles that moves the curve by less than this (mm) is the last.
_SETTLED = 0.001
_DEEPEST = 9
_STEPS = 20
#: Where a fitted curve is looked at; the middle, where a poor fit shows first, comes first.
_LOOKED_AT = (0.5, 0.1, 0.9, 0.2, 0.8, 0.35, 0.65)

_Span = tuple[float, float]


class _Source(NamedTuple):
    """The curve a parallel is wanted of, its derivative (which its points are worked out from) and the distance."""

    cubic: Cubic
    velocity: Velocity
    distance: float


class _ParallelPoint(NamedTuple):
    """A place on the parallel curve: the point, the direction of the curve, and the parallel's signed speed by t."""

    x: float
    y: float
    wx: float
    wy: float
    speed: float


def parallel_cubics(cubic: Cubic, distance: float) -> tuple[list[Cubic], bool]:
    """Curves along the parallel at `distance` mm to the left, and whether it runs backwards somewhere."""
    source = _Source(cubic, cubic.velocity, distance)
    cuts, backwards = _turns_back(source)
    run: list[Cubic] = []
    for span in pairwise((0.0, *cuts, 1.0)):
        run += _fitted(source, span, 0)
    return run, backwards


def _shrink(source: _Source, t: float) -> float:
    """How much the parallel curve's speed is of the curve's own; below 0 it runs backwards."""
    ax, bx, cx, ay, by, cy = source.velocity
    dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
    square = dx * dx + dy * dy
    cube = square * sqrt(square)
    if cube < 1e-18:
        return 1.0
    return 1.0 - source.distance * (dx * (2.0 * ay * t + by) - dy * (2.0 * ax * t + bx)) / cube


def _turns_back(source: _Source) -> tuple[list[float], bool]:
    """Parameters at which the radius of curvature equals the distance, so that the parallel has a cusp there."""
    steps = _STEPS
    values = [_shrink(source, i / steps) for i in range(steps + 1)]
    if min(values) > 0.5:
        return [], False
    # A short bend can hide between the samples.
    steps *= 6
    values = [_shrink(source, i / steps) for i in range(steps + 1)]
    found = []
    for i, (before, after) in enumerate(pairwise(values)):
        if before * after < 0.0:
            found.append(_crossing_zero(source, i / steps, (i + 1) / steps, before))
    return found, min(values) <= 0.0


def _crossing_zero(source: _Source, low: float, high: float, before: float) -> float:
    """Where between two parameters the parallel's speed changes its sign from that of `before`."""
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (middle, high) if _shrink(source, middle) * before > 0.0 else (low, middle)
    return (low + high) / 2.0


def _side(source: _Source, t: float) -> _ParallelPoint:
    cubic, (ax, bx, cx, ay, by, cy), distance = source
    x, y = cubic.point(t)
    dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
    speed = hypot(dx, dy)
    if speed > 1e-6:
        wx, wy = dx / speed, dy / speed
    else:
        wx, wy = cubic.tangent(t)
    return _ParallelPoint(x - distance * wy, y + distance * wx, wx, wy, speed * _shrink(source, t))


def _fitted(source: _Source, span: _Span, depth: int) -> list[Cubic]:
    """Cubics along the parallel between two parameters, halved until each is near enough."""
    spend(10)
    low, high = span
    piece = _one_fit(source, span)
    if depth >= _DEEPEST or piece.start.distance(piece.end) < 1e-3 or _near_enough(source, span, piece):
        return [piece]
    middle = (low + high) / 2.0
    return _fitted(source, (low, middle), depth + 1) + _fitted(source, (middle, high), depth + 1)


def _one_fit(source: _Source, span: _Span) -> Cubic:
    """The cubic with the parallel's ends and directions whose handles bring it to its distance at two places inside."""
    low, high = span
    a, b = _side(source, low), _side(source, high)
    third = (high - low) / 3.0
    first, second = a.speed * third, b.speed * third
    for _ in range(4):
        more, also, missing = _handle_change(source, span, (a, b), _with_handles(a, b, first, second))
        if missing < _SETTLED:
            break
        hold = min(1.0, 0.4 * abs(first) / max(abs(more), 1e-12), 0.4 * abs(second) / max(abs(also), 1e-12))
        more, also = more * hold, also * hold
        first, second = first + more, second + also
    return _with_handles(a, b, first, second)


def _with_handles(a: _ParallelPoint, b: _ParallelPoint, first: float, second: float) -> Cubic:
    return Cubic(
        Point(a.x, a.y),
        Point(a.x + first * a.wx, a.y + first * a.wy),
        Point(b.x - second * b.wx, b.y - second * b.wy),
        Point(b.x, b.y),
    )


def _handle_change(
    source: _Source, span: _Span, ends: tuple[_ParallelPoint, _ParallelPoint], piece: Cubic
) -> tuple[float, float, float]:
    """What to add to both handles to bring a piece to its distance at two places inside, and how far off it is (mm)."""
    low, high = span
    m, n, r = _row(source, low + 0.3 * (high - low), piece.point(0.3), ends, (0.441, 0.189))
    o, p, q = _row(source, low + 0.7 * (high - low), piece.point(0.7), ends, (0.189, 0.441))
    area = m * p - n * o
    if abs(area) < 1e-7:
        return 0.0, 0.0, 0.0
    return (r * p - n * q) / area, (m * q - r * o) / area, max(abs(r), abs(q))


def _row(
    source: _Source, t: float, point: Point, ends: tuple[_ParallelPoint, _ParallelPoint], weights: tuple[float, float]
) -> tuple[float, float, float]:
    """How the distance at a place grows with each handle (`weights`: the cubic's middle terms), and what it lacks."""
    a, b = ends
    aside, _, wx, wy = _aside(source, t, point)
    return (
        weights[0] * (a.wy * wx - a.wx * wy),
        -weights[1] * (b.wy * wx - b.wx * wy),
        source.distance - aside,
    )


def _aside(source: _Source, t: float, point: Point) -> tuple[float, float, float, float]:
    """Of a point: mm to the left of the curve, mm astray along it, and the curve's direction; t is where to look."""
    cubic, (ax, bx, cx, ay, by, cy), _ = source
    x0, y0 = cubic.start
    px, py = point[0] - x0, point[1] - y0
    dx = dy = ex = ey = 0.0
    for step in (0, 1, 2):
        dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        ex = px - ((ax * t / 3.0 + bx / 2.0) * t + cx) * t
        ey = py - ((ay * t / 3.0 + by / 2.0) * t + cy) * t
        square = dx * dx + dy * dy - ex * (2.0 * ax * t + bx) - ey * (2.0 * ay * t + by)
        if step == 2 or square <= 0.05 * (dx * dx + dy * dy):
            break
        t = min(max(t + (ex * dx + ey * dy) / square, 0.0), 1.0)
    speed = hypot(dx, dy)
    wx, wy = (dx / speed, dy / speed) if speed > 1e-6 else cubic.tangent(t)
    return ey * wx - ex * wy, abs(ex * wx + ey * wy), wx, wy


def _near_enough(source: _Source, span: _Span, piece: Cubic) -> bool:
    """True when a piece keeps its distance where it is looked at; by a cusp that tells less, so more is asked."""
    low, high = span
    by_a_cusp = min(abs(_shrink(source, low)), abs(_shrink(source, high))) < 0.1
    aim = _AIM / 4.0 if by_a_cusp else _AIM
    for u in _LOOKED_AT:
        aside, astray, _, _ = _aside(source, low + u * (high - low), piece.point(u))
        if abs(aside - source.distance) > aim or astray > 0.05:
            return False
    return True
