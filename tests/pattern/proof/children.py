"""Children to try a draft on: figures of our own, for tests alone.

No survey of children was at hand. The two rows are our own estimate from memory of what
European size tables give for a child of 104 cm (about 4 years) and of 140 cm (about 10);
between them we go straight. They prove that a draft is drawn without a fault over the whole
of its range, and nothing about how it fits.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

#: Measure: its value in mm at a stature of 1040 and of 1400, and the spread (a standard deviation, as a share).
ESTIMATES: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {
        "bust_girth": (570.0, 700.0, 0.05),
        "waist_girth": (530.0, 620.0, 0.06),
        "hip_girth": (590.0, 755.0, 0.05),
        "head_girth": (512.0, 538.0, 0.02),
        "neck_base_girth": (285.0, 330.0, 0.04),
        "shoulder_length": (86.0, 112.0, 0.06),
        "back_width": (234.0, 290.0, 0.04),
        "back_waist_length": (256.0, 330.0, 0.035),
        "waist_to_hip": (126.0, 164.0, 0.05),
        "waist_to_knee": (350.0, 480.0, 0.03),
    }
)
LEAST, MOST = 1040.0, 1400.0


def child(stature: float, girth: float = 0.0) -> dict[str, float]:
    """The child of a stature in mm, by our estimate; `girth` is how much rounder than that, as a share."""
    share = (stature - LEAST) / (MOST - LEAST)
    body = {name: low + (high - low) * share for name, (low, high, _) in ESTIMATES.items()}
    for name in ("bust_girth", "waist_girth", "hip_girth"):
        body[name] *= 1.0 + girth
    return {"stature": stature, **body}


def draw_children(n: int, seed: int) -> list[dict[str, float]]:
    """`n` children of every stature in range, each measure off the estimate by chance; one seed, the same children."""
    source = np.random.Generator(np.random.PCG64(seed))
    bodies = []
    for stature in source.uniform(LEAST, MOST, n):
        body = child(float(stature), float(source.normal(0.02, 0.06)))
        for name, (_, _, spread) in ESTIMATES.items():
            body[name] = round(body[name] * float(1.0 + source.normal(0.0, spread * 0.6)), 1)
        bodies.append(body)
    return bodies


def children_at_the_corners() -> dict[str, dict[str, float]]:
    """The smallest and the tallest, each slight and sturdy."""
    return {
        f"{stature / 10:.0f} cm, {word}": child(stature, girth)
        for stature in (LEAST, MOST)
        for word, girth in (("slight", -0.1), ("sturdy", 0.2))
    }
