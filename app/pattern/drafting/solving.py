"""Solving: the value between two limits at which a condition of the draft holds."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from app.pattern.drafting.env import RunEnded, StepFailed
from app.pattern.drafting.errors import CannotDraw
from app.pattern.geometry.roots import root_between
from app.pattern.units import mm

__all__ = ["solved"]

Gap = Callable[[float], float]
_TRIES = 24  # bracket search
_CLOSE = 1e-4  # mm: a solved condition holds this closely


def solved(gap: Gap, low: float, high: float, name: str) -> float:
    """The value between `low` and `high` where `gap` is nothing; the first such from below.

    A trial value at which the inside cannot be drawn is passed over; when none can be
    drawn, the first failure is told. Raises CannotDraw when there is no such value.
    """
    if not low < high:
        raise CannotDraw("drafting.solve-limits", "The lower limit is not below the upper.", "Swap or widen them.")
    tried: list[tuple[float, float]] = []
    failures: list[StepFailed] = []
    for value in _trials(low, high):
        try:
            tried.append((value, gap(value)))
        except RunEnded:
            raise
        except StepFailed as failed:
            failures.append(failed)
            continue
        bracket = _bracket(tried)
        if bracket is not None:
            return _settle(gap, *bracket, name)
    if not tried:
        raise failures[0]
    raise _unsolved(name, low, high, tried)


def _trials(low: float, high: float) -> Iterator[float]:
    """Both limits first, since most conditions change sign between them; then even steps from below."""
    yield low
    yield high
    for index in range(1, _TRIES):
        yield low + (high - low) * index / _TRIES


def _bracket(tried: list[tuple[float, float]]) -> tuple[float, float] | None:
    """The lowest two neighbouring trials between which the sign changes."""
    for (a, at_a), (b, at_b) in pairwise(sorted(tried)):
        if at_a * at_b <= 0.0:
            return a, b
    return None


def _unsolved(name: str, low: float, high: float, tried: list[tuple[float, float]]) -> CannotDraw:
    value, off = min(tried, key=lambda pair: abs(pair[1]))
    return CannotDraw(
        "drafting.no-solution",
        f"No “{name}” between {mm(low)} and {mm(high)} fits: at best, at {mm(value)}, "
        f"the sides differ by {mm(abs(off))}.",
        "Widen the limits, or change what is drawn inside.",
    )


def _settle(gap: Gap, low: float, high: float, name: str) -> float:
    # Where it does not settle, the check below says so.
    value = root_between(gap, low, high, close=1e-9, share=1e-12)
    if abs(off := gap(value)) > _CLOSE:
        raise CannotDraw(
            "drafting.solve-jumps",
            f"The sides of the condition jump at {name} = {mm(value)} and differ by {mm(abs(off))} there.",
            "Draw the inside so that it changes without a break.",
        )
    return value
