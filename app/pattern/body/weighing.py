"""What a second opinion weighs measurements by: one yardstick for each group of bodies."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.pattern.body.rules import RatioRule

__all__ = ["Doubt", "Yardstick"]


@dataclass(frozen=True, slots=True)
class Doubt:
    """A measure that lies `off` standard deviations (signed) from its `likely` value in mm.

    `slope` is how many mm the likely value moves for one mm of the first measure it is held beside.
    """

    name: str
    likely: float
    off: float
    beside: tuple[str, ...]
    slope: float


@dataclass(frozen=True, slots=True)
class Yardstick:
    """What one group's measurements are held against.

    `usual` is the likely bust, waist or hip (mm) beside the rest of a body, None where nothing tells it; `girth_doubts`
    are doubts on these three, `other_doubts` on all the others.
    """

    group: str
    ratios: tuple[RatioRule, ...]
    orders: tuple[tuple[str, str], ...]
    usual: Callable[[str, Mapping[str, float]], float | None]
    girth_doubts: Callable[[Mapping[str, float]], list[Doubt]]
    other_doubts: Callable[[Mapping[str, float]], list[Doubt]]
