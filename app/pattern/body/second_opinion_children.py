"""What children are weighed by: their stature, and how round they are by the waist (see `children`).

Each measure is doubted at 3.5 deviations from what stature and waist suggest. Room is given for measuring a child that
will not stand still, and for children rounder than those of 1977. Without a stature nothing is known of a child's age,
so only the ratio rule and plain anatomy speak.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, hypot, log

from app.pattern.body.children import child, roundness, stray_of, waist
from app.pattern.body.rules import CHILD_ORDERS, CHILD_RATIOS
from app.pattern.body.weighing import Doubt, Yardstick

__all__ = ["CHILDREN"]

#: Standard deviations at which an entry is doubted.
_AT = 3.5
#: A waist is doubted as too large only above this much of the middling one: young children of today are rounder.
_ROUNDEST_UNDOUBTED = 1.35
#: What tape and a lively child add, as a share (our own estimate), and what the powers of roundness may be off by.
_TAPE, _POWER_OFF = 0.02, 0.25
_TRIO = ("bust_girth", "waist_girth", "hip_girth")


def _usual(name: str, body: Mapping[str, float]) -> float | None:
    """The likely chest, waist or hip in mm by stature, and by the waist where that is not what is asked."""
    if "stature" not in body:
        return None
    return _likely(name, {other: mm for other, mm in body.items() if other != name})[0]


def _likely(name: str, body: Mapping[str, float]) -> tuple[float, float, tuple[str, ...]]:
    """The likely value in mm, its deviation as a share, and what it is held beside."""
    stature = body["stature"]
    power, stray = stray_of(name) if name != "waist_girth" else (1.0, 0.0)
    middling = child(stature)[name]
    if power and "waist_girth" in body and name != "waist_girth":
        round_ = roundness(stature, body["waist_girth"])
        off = hypot(stray, _TAPE, _POWER_OFF * round_ * (name in _TRIO or power > 0.3))
        return middling * exp(power * round_), off, ("stature", "waist_girth")
    # How round the child is is not known: it may be as round as any.
    width = log(waist(stature, 2.0) / waist(stature)) / 2.0
    return middling, hypot(stray, _TAPE, power * width), ("stature",)


def _doubt(name: str, body: Mapping[str, float]) -> Doubt:
    likely, off, beside = _likely(name, body)
    return Doubt(name, likely, log(body[name] / likely) / off, beside, likely / body["stature"])


def _girth_doubts(body: Mapping[str, float]) -> list[Doubt]:
    """At most one of chest, waist and hip, the worst."""
    if "stature" not in body:
        return []
    found = [_doubt(name, body) for name in _TRIO if name in body]
    return sorted((each for each in found if _is_doubtful(each, body)), key=lambda each: -abs(each.off))[:1]


def _is_doubtful(found: Doubt, body: Mapping[str, float]) -> bool:
    if found.name == "waist_girth" and found.off > 0:
        return body["waist_girth"] > max(waist(body["stature"], _AT), found.likely * _ROUNDEST_UNDOUBTED)
    return abs(found.off) > _AT


def _other_doubts(body: Mapping[str, float]) -> list[Doubt]:
    if "stature" not in body:
        return []
    found = [_doubt(name, body) for name in body if name not in ("stature", *_TRIO)]
    return [each for each in found if abs(each.off) > _AT]


CHILDREN = Yardstick("children", CHILD_RATIOS, CHILD_ORDERS, _usual, _girth_doubts, _other_doubts)
