"""Cubics fitted to the parallel of a cubic: exact ends and directions, handles solved for, halved if need be."""

from __future__ import annotations

from itertools import pairwise
from math import hypot, sqrt
from typing import NamedTuple

from app.pattern.geometry.point import Point
from app.pattern.geometry.segments import Cubic
from app.pattern.geometry.speed import Velocity

__all__ = ["parallel_cubics"]

#: Largest deviation of a fitted curve from its distance at the places looked at, mm; the promise is 0.02 mm.
_AIM = 0.01
_DEEPEST = 9
_STEPS = 20
_LOOKED_AT = (0.12, 0.3, 0.5, 0.7, 0.88)


class _Side(NamedTuple):
    """A place on the parallel curve: the point, the direction of the curve, and the parallel's signed speed by t."""

    x: float
    y: float
    wx: float
    wy: float
    speed: float


def parallel_cubics(cubic: Cubic, distance: float) -> tuple[list[Cubic], bool]:
    """Curves along the parallel at `distance` mm to the left, and whether it runs backwards somewhere."""
    velocity = cubic.velocity
    cuts, backwards = _turns_back(velocity, distance)
    run: list[Cubic] = []
    for low, high in pairwise((0.0, *cuts, 1.0)):
        run += _fitted(cubic, distance, (low, high), 0)
    return run, backwards


def _shrink(velocity: Velocity, distance: float, t: float) -> float:
    """How much the parallel curve's speed is of the curve's own; below 0 it runs backwards."""
    ax, bx, cx, ay, by, cy = velocity
    dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
    square = dx * dx + dy * dy
    cube = square * sqrt(square)
    if cube < 1e-18:
        return 1.0
    return 1.0 - distance * (dx * (2.0 * ay * t + by) - dy * (2.0 * ax * t + bx)) / cube


def _turns_back(velocity: Velocity, distance: float) -> tuple[list[float], bool]:
    """Parameters at which the radius of curvature equals the distance, so that the parallel has a cusp there."""
    values = [_shrink(velocity, distance, i / _STEPS) for i in range(_STEPS + 1)]
    if min(values) > 0.3:
        return [], False
    found = []
    for i, (before, after) in enumerate(pairwise(values)):
        if before * after < 0.0:
            low, high = i / _STEPS, (i + 1) / _STEPS
            for _ in range(40):
                middle = (low + high) / 2.0
                low, high = (middle, high) if _shrink(velocity, distance, middle) * before > 0.0 else (low, middle)
            found.append((low + high) / 2.0)
    return found, min(values) <= 0.0


def _side(cubic: Cubic, distance: float, t: float) -> _Side:
    x, y = cubic.point(t)
    ax, bx, cx, ay, by, cy = velocity = cubic.velocity
    dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
    speed = hypot(dx, dy)
    if speed > 1e-6:
        wx, wy = dx / speed, dy / speed
    else:
        wx, wy = cubic.tangent(t)
    return _Side(x - distance * wy, y + distance * wx, wx, wy, speed * _shrink(velocity, distance, t))


def _fitted(cubic: Cubic, distance: float, between: tuple[float, float], depth: int) -> list[Cubic]:
    """Cubics along the parallel between two parameters, halved until each is near enough."""
    low, high = between
    piece = _one_fit(cubic, distance, between)
    if depth >= _DEEPEST or piece.start.distance(piece.end) < 1e-3 or _near_enough(cubic, distance, between, piece):
        return [piece]
    middle = (low + high) / 2.0
    first = _fitted(cubic, distance, (low, middle), depth + 1)
    return first + _fitted(cubic, distance, (middle, high), depth + 1)


def _one_fit(cubic: Cubic, distance: float, between: tuple[float, float]) -> Cubic:
    """The cubic with the parallel's ends and directions whose handles bring it to its distance at two places inside."""
    low, high = between
    a, b = _side(cubic, distance, low), _side(cubic, distance, high)
    third = (high - low) / 3.0
    first, second = a.speed * third, b.speed * third
    for _ in range(3):
        more, also = _handle_change(cubic, distance, between, _with_handles(a, b, first, second))
        if abs(more) > 0.5 * abs(first) or abs(also) > 0.5 * abs(second):
            break
        first, second = first + more, second + also
    return _with_handles(a, b, first, second)


def _handle_change(cubic: Cubic, distance: float, between: tuple[float, float], piece: Cubic) -> tuple[float, float]:
    """What to add to both handles of a piece to bring it to its distance at two places inside (one Newton step)."""
    low, high = between
    (ox, oy), (bx, by) = piece.tangent(0.0), piece.tangent(1.0)
    rows = []
    for u in (0.3, 0.7):
        aside, _, wx, wy = _aside(cubic, low + u * (high - low), piece.point(u))
        k1, k2 = 3.0 * u * (1.0 - u) ** 2, 3.0 * u * u * (1.0 - u)
        rows.append((k1 * (oy * wx - ox * wy), -k2 * (by * wx - bx * wy), distance - aside))
    (m, n, r), (o, p, q) = rows
    area = m * p - n * o
    if abs(area) < 1e-7:
        return 0.0, 0.0
    return (r * p - n * q) / area, (m * q - r * o) / area


def _with_handles(a: _Side, b: _Side, first: float, second: float) -> Cubic:
    return Cubic(
        Point(a.x, a.y),
        Point(a.x + first * a.wx, a.y + first * a.wy),
        Point(b.x - second * b.wx, b.y - second * b.wy),
        Point(b.x, b.y),
    )


def _aside(cubic: Cubic, t: float, point: Point) -> tuple[float, float, float, float]:
    """Of a point: mm to the left of the curve, mm astray along it, and the curve's direction; t is where to look."""
    px, py = point
    ax, bx, cx, ay, by, cy = cubic.velocity
    x, y = cubic.point(t)
    for _ in range(2):
        dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        ex, ey = px - x, py - y
        square = dx * dx + dy * dy - ex * (2.0 * ax * t + bx) - ey * (2.0 * ay * t + by)
        if square <= 0.05 * (dx * dx + dy * dy):
            break
        t = min(max(t + (ex * dx + ey * dy) / square, 0.0), 1.0)
        x, y = cubic.point(t)
    wx, wy = cubic.tangent(t)
    ex, ey = px - x, py - y
    return ey * wx - ex * wy, abs(ex * wx + ey * wy), wx, wy


def _near_enough(cubic: Cubic, distance: float, between: tuple[float, float], piece: Cubic) -> bool:
    low, high = between
    for u in _LOOKED_AT:
        aside, astray, _, _ = _aside(cubic, low + u * (high - low), piece.point(u))
        if abs(aside - distance) > _AIM or astray > 0.05:
            return False
    return True
