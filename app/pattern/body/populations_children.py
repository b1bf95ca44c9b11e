"""Children to try a draft on: sizes by stature, corners, and seeded draws, from what `children` knows of them.

The steps of 6 cm are those of EN 13402-3 (from memory). What girths a survey tells and what is our own estimate says
`children.py`. So a proof shows that a draft is drawn, cut and sewn without a fault on children as a survey of 1977
found them; of lengths only that it holds on likely ones. For the rest a designer brings bodies that she measured.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from app.pattern.body.children import SEXES, child, child_hard, filled_child, roundness, waist
from app.pattern.body.rules import CHILD_ORDERS, CHILD_RATIOS, broken_orders, broken_ratios

__all__ = ["STATURES", "child_corners", "child_sizes", "draw_children"]

#: Statures in mm that a child's garment is proved for unless the draft says otherwise.
STATURES = (1040.0, 1520.0)
#: Statures in mm that sizes stand for.
_SIZES = tuple(800.0 + 60.0 * step for step in range(16))
#: Corners: so many standard deviations slighter and sturdier than the middle; the sturdy more, as children today are.
_SLIGHT, _STURDY = -2.3, 2.6
#: Chance draws are cut off here, in standard deviations: two children in a thousand lie beyond.
_MOST_OFF = 3.0
#: Draws for each child that is wanted before a spread is given up as senseless.
_MOST_TRIES = 400


def child_sizes(statures: tuple[float, float] = STATURES) -> dict[str, dict[str, float]]:
    """A child for each size of 6 cm within the statures (least, most, mm), named by stature in cm."""
    return {f"{stature / 10:.0f}": child(stature) for stature in _SIZES if statures[0] <= stature <= statures[1]}


def child_corners(statures: tuple[float, float] = STATURES) -> dict[str, dict[str, float]]:
    """The smallest and the tallest child, each slight and sturdy."""
    return {
        f"{stature / 10:.0f} cm, {word}": child(stature, waist(stature, score) / waist(stature) - 1.0)
        for stature in statures
        for word, score in (("slight", _SLIGHT), ("sturdy", _STURDY))
    }


def draw_children(
    n: int, seed: int, statures: tuple[float, float] = STATURES, spread: float = 1.0
) -> list[dict[str, float]]:
    """`n` children of every stature in range, boys and girls alike; one seed, the same children.

    `spread` widens roundness and shape: 1 is the survey of 1977. Whoever would be refused, or whose measures stand the
    wrong way round, is drawn again, so the tails are a little thin.
    """
    source = np.random.Generator(np.random.PCG64(seed))
    bodies: list[dict[str, float]] = []
    for _ in range(_MOST_TRIES * n):
        body = _drawn(source, round(float(source.uniform(*statures)), 1), spread)
        bodies += [body] if _is_plausible(body) else []
        if len(bodies) == n:
            return bodies
    if n:
        raise ValueError(f"a spread of {spread} gives hardly any plausible child")
    return bodies


def _drawn(source: np.random.Generator, stature: float, spread: float) -> dict[str, float]:
    def score() -> float:
        return float(np.clip(source.standard_normal(), -_MOST_OFF, _MOST_OFF))

    sex = SEXES[int(source.integers(2))]
    round_ = spread * roundness(stature, waist(stature, score(), sex), sex)
    return filled_child(stature, sex, round_, lambda _name, sd: spread * sd * score())


def _is_plausible(body: Mapping[str, float]) -> bool:
    """True when a child keeps the ratio rule, the order of its measures and every hard range."""
    inside = all(child_hard(name)[0] <= value <= child_hard(name)[1] for name, value in body.items())
    return inside and not any(broken_ratios(body, CHILD_RATIOS)) and not any(broken_orders(body, CHILD_ORDERS))
