"""Children to try a draft on: sizes by stature, and seeded draws round them.

No survey of children is at hand that we may draw from. The two rows below are our own estimate, from memory, of
what European size tables give for a child of 104 cm (about 4 years) and of 152 cm (about 12); between and
beyond them we go straight, which is fair from 92 to 164 cm. The steps of 6 cm are those of EN 13402-3 (from memory).
They show that a draft is drawn, cut and sewn without a fault over the statures it is offered for, and nothing about how
it fits: for that a designer brings bodies that she measured.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from app.pattern.body.register import MEASURES

__all__ = ["STATURES", "child", "child_corners", "child_sizes", "child_spread", "draw_children"]

#: Statures in mm that a child's garment is proved for unless the draft says otherwise; the register begins at 100 cm.
STATURES = (1040.0, 1520.0)
#: Statures in mm that sizes stand for.
_SIZES = tuple(800.0 + 60.0 * step for step in range(16))
_LOW, _HIGH = 1040.0, 1520.0
#: Measure: mm at a stature of 1040 and of 1520, and how much children of one stature differ (sd as a share).
_ROWS: Mapping[str, tuple[float, float, float]] = MappingProxyType(
    {
        "head_girth": (512.0, 545.0, 0.02),
        "neck_girth": (262.0, 310.0, 0.03),
        "neck_base_girth": (285.0, 345.0, 0.03),
        "shoulder_length": (86.0, 121.0, 0.04),
        "shoulder_width": (268.0, 370.0, 0.03),
        "shoulder_girth": (660.0, 890.0, 0.04),
        "bust_girth": (570.0, 750.0, 0.045),
        "under_bust_girth": (560.0, 690.0, 0.045),
        "upper_chest_girth": (565.0, 740.0, 0.045),
        "waist_girth": (530.0, 635.0, 0.055),
        "hip_girth": (590.0, 810.0, 0.045),
        "back_waist_length": (256.0, 362.0, 0.03),
        "front_waist_length": (222.0, 318.0, 0.03),
        "neck_shoulder_point_to_bust_point": (160.0, 240.0, 0.04),
        "neck_shoulder_point_to_waist": (285.0, 395.0, 0.03),
        "bust_point_width": (125.0, 165.0, 0.04),
        "back_width": (234.0, 310.0, 0.035),
        "front_width": (220.0, 292.0, 0.035),
        "scye_depth": (133.0, 176.0, 0.04),
        "armscye_girth": (265.0, 355.0, 0.05),
        "upper_arm_girth": (172.0, 228.0, 0.06),
        "elbow_girth": (165.0, 215.0, 0.05),
        "wrist_girth": (122.0, 146.0, 0.035),
        "hand_girth": (142.0, 180.0, 0.035),
        "arm_length": (350.0, 520.0, 0.03),
        "upper_arm_length": (190.0, 285.0, 0.03),
        "cervical_height": (850.0, 1295.0, 0.01),
        "waist_height": (610.0, 955.0, 0.02),
        "hip_height": (490.0, 770.0, 0.02),
        "knee_height": (262.0, 425.0, 0.025),
        "inside_leg_height": (430.0, 705.0, 0.025),
        "outside_leg_length": (620.0, 965.0, 0.02),
        "waist_to_hip": (126.0, 178.0, 0.04),
        "waist_to_knee": (348.0, 530.0, 0.025),
        "body_rise": (182.0, 248.0, 0.035),
        "total_crotch_length": (470.0, 620.0, 0.04),
        "trunk_circumference": (1010.0, 1400.0, 0.03),
        "thigh_girth": (330.0, 460.0, 0.06),
        "knee_girth": (235.0, 325.0, 0.05),
        "calf_girth": (222.0, 305.0, 0.05),
        "ankle_girth": (160.0, 208.0, 0.045),
        "heel_girth": (220.0, 305.0, 0.035),
    }
)
#: Measures that a rounder child has more of.
_ROUND = ("bust_girth", "under_bust_girth", "upper_chest_girth", "waist_girth", "hip_girth", "upper_arm_girth")


def child(stature: float, rounder: float = 0.0) -> dict[str, float]:
    """The child of a stature in mm by our estimate; `rounder` is by how much its girths are larger, as a share."""
    share = (stature - _LOW) / (_HIGH - _LOW)
    body = {name: low + (high - low) * share for name, (low, high, _) in _ROWS.items()}
    for name in (*_ROUND, "thigh_girth"):
        body[name] *= 1.0 + rounder
    return {"stature": stature, **{name: round(value, 1) for name, value in body.items()}}


def child_spread(measure: str, stature: float) -> float:
    """How much a measure differs between children of one stature in mm (standard deviation, mm)."""
    return 0.0 if measure == "stature" else _ROWS[measure][2] * child(stature)[measure]


def child_sizes(statures: tuple[float, float] = STATURES) -> dict[str, dict[str, float]]:
    """A child for each size of 6 cm within the statures (least, most, mm), named by stature in cm."""
    return {f"{stature / 10:.0f}": child(stature) for stature in _SIZES if statures[0] <= stature <= statures[1]}


def child_corners(statures: tuple[float, float] = STATURES) -> dict[str, dict[str, float]]:
    """The smallest and the tallest child, each slight and sturdy."""
    return {
        f"{stature / 10:.0f} cm, {word}": child(stature, rounder)
        for stature in statures
        for word, rounder in (("slight", -0.1), ("sturdy", 0.2))
    }


def draw_children(n: int, seed: int, statures: tuple[float, float] = STATURES) -> list[dict[str, float]]:
    """`n` children of every stature in range, each measure off the estimate by chance; one seed, the same children.

    No measure leaves the hard range that the register takes.
    """
    source = np.random.Generator(np.random.PCG64(seed))
    bodies = []
    for stature in source.uniform(*statures, n):
        body = child(round(float(stature), 1), float(np.clip(source.normal(0.02, 0.06), -0.12, 0.22)))
        for name, (_, _, spread) in _ROWS.items():
            drawn = body[name] * (1.0 + spread * float(np.clip(source.normal(), -2.5, 2.5)))
            body[name] = round(float(np.clip(drawn, *MEASURES[name].hard)), 1)
        bodies.append(body)
    return bodies
