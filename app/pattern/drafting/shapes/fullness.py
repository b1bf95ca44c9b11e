"""Fullness: slashing a shape and spreading it in parallel or in a fan, by a length or to so many times a side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import asin

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.shapes.shape import Shape, Side
from app.pattern.drafting.shapes.slashes import Slash, across, met, opened
from app.pattern.geometry import Path, Transform
from app.pattern.units import mm

__all__ = ["fan", "fan_times", "spread", "spread_times"]

_MOST = 3_000.0  # mm: no shape is spread further

Move = Callable[[Slash, float], Transform]


def spread(shape: Shape, slashes: Sequence[Path], amount: float) -> Shape:
    """Open each slash in parallel by `amount` mm: the paper to its right moves away square to it."""
    return _each(shape, slashes, amount, Slash.aside)


def fan(shape: Shape, slashes: Sequence[Path], amount: float) -> Shape:
    """Open each slash by `amount` mm at its start, the paper hinged at its end."""
    return _each(shape, slashes, amount, _hinged)


def spread_times(shape: Shape, name: str, times: float, slashes: Sequence[Path]) -> Shape:
    """Open the slashes in parallel, all alike, so far that the side becomes `times` as long."""
    return spread(shape, slashes, _share(shape, name, times, slashes, both_ends=True))


def fan_times(shape: Shape, name: str, times: float, slashes: Sequence[Path]) -> Shape:
    """Open the slashes in a fan, all alike, so far that the side on which they start becomes `times` as long."""
    return fan(shape, slashes, _share(shape, name, times, slashes, both_ends=False))


def _hinged(slash: Slash, amount: float) -> Transform:
    if amount > 1.8 * slash.length:
        raise CannotDraw(
            "drafting.fan",
            f"A slash of {mm(slash.length)} cannot open by {mm(amount)}.",
            "Use more slashes, or less.",
        )
    return Transform.turn(2.0 * asin(amount / (2.0 * slash.length)), slash.end)


def _each(shape: Shape, slashes: Sequence[Path], amount: float, move: Move) -> Shape:
    if not 0.0 <= amount <= _MOST:
        raise CannotDraw("drafting.spread", f"A spread of {mm(amount)} is not possible.", "Spread by 0 to 3 m.")
    across(shape, slashes)
    waiting = list(slashes)
    while waiting:
        slash = met(shape, waiting.pop(0))
        shape, waiting = opened(shape, slash, move(slash, amount), waiting, (None, None))
    return shape


def _share(shape: Shape, name: str, times: float, slashes: Sequence[Path], *, both_ends: bool) -> float:
    """How far each slash opens: every one that meets the side adds just this length to it."""
    if not 1.0 <= times <= 20.0:
        raise CannotDraw(
            "drafting.times", f"{name} cannot be made {times:g} times as long.", "Ask for 1 to 20 times as long."
        )
    meeting = 0
    for slash in across(shape, slashes):
        meeting += (slash.start_side == name) + (both_ends and slash.end_side == name)
    if not meeting:
        raise CannotDraw(
            "drafting.times-side",
            f"No slash {'meets' if both_ends else 'starts on'} “{name}”, so that opening them makes it no longer.",
            "Name the side on which the slashes start.",
        )
    shape.side(name)
    whole = sum(item.path.length for item in shape.items if isinstance(item, Side) and item.name == name)
    return whole * (times - 1.0) / meeting
