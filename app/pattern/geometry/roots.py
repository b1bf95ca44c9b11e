"""Where a function of one number crosses zero: Brent's method, which needs no slope and cannot leave its bracket.

R. P. Brent, *Algorithms for Minimization without Derivatives* (1973), chapter 4. Written out here because the library
that has it takes a quarter of a second to import, longer than a garment takes to draft; the tests hold it against that
library to the last digit.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf
from typing import NamedTuple

__all__ = ["root_between"]

#: Steps after which the last value is returned as it is.
_MOST_STEPS = 100


class _Tried(NamedTuple):
    """A value, and how far off the function is there."""

    value: float
    off: float


def root_between(gap: Callable[[float], float], low: float, high: float, *, close: float, share: float) -> float:
    """A value between `low` and `high` where `gap` is zero, to within `close` plus a `share` of the value itself.

    Raises ValueError where `gap` has the same sign at both ends. Where it jumps over zero, the value lies at the jump.
    """
    before, here = _Tried(low, gap(low)), _Tried(high, gap(high))
    if before.off == 0.0 or here.off == 0.0:
        return low if before.off == 0.0 else high
    if (before.off < 0.0) == (here.off < 0.0):
        raise ValueError("the function has the same sign at both ends")
    other, step, last = before, high - low, high - low
    for _ in range(_MOST_STEPS):
        if here.off != 0.0 and (before.off < 0.0) != (here.off < 0.0):
            other = before  # always on the far side of zero
            last = step = here.value - before.value
        if abs(other.off) < abs(here.off):
            before, here, other = here, other, here
        least, half = (close + share * abs(here.value)) / 2.0, (other.value - here.value) / 2.0
        if here.off == 0.0 or abs(half) < least:
            return here.value
        guess = _guess(before, here, other) if abs(last) > least and abs(here.off) < abs(before.off) else None
        if guess is not None and 2.0 * abs(guess) < min(abs(last), 3.0 * abs(half) - least):
            last, step = step, guess
        else:
            last = step = half
        value = here.value + (step if abs(step) > least else least if half > 0.0 else -least)
        before, here = here, _Tried(value, gap(value))
    return here.value


def _guess(before: _Tried, here: _Tried, other: _Tried) -> float:
    """The step to where the line through the last two, or the inverse parabola through all three, meets zero."""
    if before.value == other.value:
        return -here.off * (here.value - before.value) / (here.off - before.off)
    to_before = (before.off - here.off) / (before.value - here.value)
    to_other = (other.off - here.off) / (other.value - here.value)
    slope = to_other * to_before * (other.off - before.off)
    if slope == 0.0:  # level from `before` to `other`: no guess at all
        return inf
    return -here.off * (other.off * to_other - before.off * to_before) / slope
