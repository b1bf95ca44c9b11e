"""Arc length of cubics: Gauss-Legendre quadrature of the speed, halved until it agrees with itself."""

from __future__ import annotations

from math import sqrt

__all__ = ["Velocity", "even", "speed_integral"]

#: dx/dt = ax t² + bx t + cx and the same for y, as (ax, bx, cx, ay, by, cy).
Velocity = tuple[float, float, float, float, float, float]

#: Gauss-Legendre nodes and weights on [-1, 1], 8 points (Abramowitz & Stegun, Handbook of Mathematical
#: Functions, table 25.4), as the positive half; each stands for +x and -x.
_NODES = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)
_AGREE = 1e-6
_DEEPEST = 30
#: A velocity corner that goes less than this share of the sum's own way is near to turning back.
_UNEVEN = 0.02
#: Stretches with such a turn are halved until they are shorter than this, mm.
_SHORT = 1e-4


def speed_integral(velocity: Velocity, low: float, high: float) -> float:
    """Length in mm of a cubic between parameters low <= high, error well below 0.001 mm."""
    if high <= low:
        return 0.0
    if even(velocity, _UNEVEN):
        return _halved(velocity, low, high, _gauss(velocity, low, high), 0)
    return _watched(velocity, low, high, _gauss(velocity, low, high), 0)


def even(velocity: Velocity, share: float) -> bool:
    """True when the velocity keeps to one side all along, going at least `share` of its sum's way everywhere.

    Looked at on the three corners of the velocity's own Bézier polygon.
    """
    ax, bx, cx, ay, by, cy = velocity
    mx, my, ex, ey = cx + bx / 2.0, cy + by / 2.0, ax + bx + cx, ay + by + cy
    wx, wy = cx + mx + ex, cy + my + ey
    least = share * (wx * wx + wy * wy)
    return cx * wx + cy * wy > least and mx * wx + my * wy > least and ex * wx + ey * wy > least


def _gauss(velocity: Velocity, low: float, high: float) -> float:
    ax, bx, cx, ay, by, cy = velocity
    half, middle = (high - low) / 2.0, (high + low) / 2.0
    total = 0.0
    for x, weight in _NODES:
        t = middle + half * x
        dx, dy = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        t = middle - half * x
        ex, ey = (ax * t + bx) * t + cx, (ay * t + by) * t + cy
        total += weight * (sqrt(dx * dx + dy * dy) + sqrt(ex * ex + ey * ey))
    return total * half


def _halved(velocity: Velocity, low: float, high: float, whole: float, depth: int) -> float:
    middle = (low + high) / 2.0
    first, second = _gauss(velocity, low, middle), _gauss(velocity, middle, high)
    if abs(first + second - whole) < _AGREE or depth >= _DEEPEST:
        return first + second
    return _halved(velocity, low, middle, first, depth + 1) + _halved(velocity, middle, high, second, depth + 1)


def _watched(velocity: Velocity, low: float, high: float, whole: float, depth: int) -> float:
    """As `_halved`, but a stretch with a turn in it is halved until short: both estimates can be wrong alike there."""
    middle = (low + high) / 2.0
    first, second = _gauss(velocity, low, middle), _gauss(velocity, middle, high)
    trusted = whole < _SHORT or _steady(velocity, low, high)
    if (trusted and abs(first + second - whole) < _AGREE) or depth >= _DEEPEST:
        return first + second
    return _watched(velocity, low, middle, first, depth + 1) + _watched(velocity, middle, high, second, depth + 1)


def _steady(velocity: Velocity, low: float, high: float) -> bool:
    ax, bx, cx, ay, by, cy = velocity
    wide = high - low
    return even(
        (
            ax * wide * wide,
            (2.0 * ax * low + bx) * wide,
            (ax * low + bx) * low + cx,
            ay * wide * wide,
            (2.0 * ay * low + by) * wide,
            (ay * low + by) * low + cy,
        ),
        _UNEVEN,
    )
