"""How far a measure may range in a group, and what most of the group have."""

from __future__ import annotations

from math import exp, hypot, log

from app.pattern.body.children import KNOWN_STATURES, child, child_hard, stray_of, waist
from app.pattern.body.register import MEASURES

__all__ = ["hard_range", "usual_range"]


def hard_range(name: str, group: str | None) -> tuple[float, float]:
    """The range in mm outside which an entry is refused as a slip; where no group is told, that of anybody."""
    adults = MEASURES[name].hard
    if group == "children":
        return child_hard(name)
    if group is not None:
        return adults
    children = child_hard(name)
    return min(adults[0], children[0]), max(adults[1], children[1])


def usual_range(name: str, group: str | None, stature: float | None = None) -> tuple[float, float]:
    """What most of a group have, mm, to the centimetre: of children those of this stature, or of every one we know."""
    if group != "children":
        return MEASURES[name].typical
    if name == "stature":
        return KNOWN_STATURES
    small, tall = (stature, stature) if stature is not None else KNOWN_STATURES
    power, stray = stray_of(name) if name != "waist_girth" else (1.0, 0.0)
    ends = []
    for at, score in ((small, -2.0), (tall, 2.0)):
        rounder = power * log(waist(at, score) / waist(at))
        ends.append(child(at)[name] * exp(hypot(rounder, 2.0 * stray) * (1.0 if score > 0 else -1.0)))
    return round(ends[0], -1), round(ends[1], -1)
