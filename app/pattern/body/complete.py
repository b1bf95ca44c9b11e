"""Filling in measurements that were not taken, from those that were: survey fits first, then plain sums."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from app.pattern.body.survey import Group, usual_fit

__all__ = ["BASIS", "DERIVED", "DERIVED_SD", "PREDICTORS", "complete_body", "derive"]

#: The measures that everything else can be predicted from.
BASIS: tuple[str, ...] = ("stature", "bust_girth", "waist_girth", "hip_girth")

_UP = ("bust_girth", "stature")
_LOW = ("hip_girth", "stature")

#: Which of the basis each measure of the survey is predicted from: few, so that large bodies extrapolate well.
PREDICTORS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "under_bust_girth": ("bust_girth", "waist_girth"),
        "upper_chest_girth": ("bust_girth",),
        "neck_base_girth": _UP,
        "neck_girth": _UP,
        "shoulder_girth": _UP,
        "shoulder_length": _UP,
        "shoulder_width": _UP,
        "back_width": _UP,
        "bust_point_width": ("bust_girth",),
        "back_waist_length": _UP,
        "front_waist_length": _UP,
        "neck_shoulder_point_to_bust_point": _UP,
        "scye_depth": _UP,
        "armscye_girth": _UP,
        "trunk_circumference": _UP,
        "upper_arm_girth": ("bust_girth", "hip_girth"),
        "elbow_girth": _UP,
        "wrist_girth": _UP,
        "hand_girth": _UP,
        "head_girth": _UP,
        "arm_length": ("stature",),
        "cervical_height": ("stature",),
        "waist_height": ("stature",),
        "hip_height": ("stature",),
        "knee_height": ("stature",),
        "inside_leg_height": ("stature",),
        "total_crotch_length": _LOW,
        "thigh_girth": ("hip_girth",),
        "knee_girth": _LOW,
        "calf_girth": _LOW,
        "ankle_girth": _LOW,
    }
)


def _over_bust(body: Mapping[str, float]) -> float:
    # The front neck point lies about a fifth of the neck below the neck-shoulder point (a drafting rule, common
    # practice), and the way over the bust is longer by some 15 % of the bust's fullness (our own estimate).
    fullness = max(0.0, body["bust_girth"] - body["under_bust_girth"])
    return body["front_waist_length"] + body["neck_base_girth"] / 5 + 0.15 * fullness


#: Measures the survey has not, from those it has. Each is our own derivation, in mm.
DERIVED: Mapping[str, Callable[[Mapping[str, float]], float]] = MappingProxyType(
    {
        "waist_to_hip": lambda body: body["waist_height"] - body["hip_height"],
        "waist_to_knee": lambda body: body["waist_height"] - body["knee_height"],
        "body_rise": lambda body: body["waist_height"] - body["inside_leg_height"],
        # The tape over the hip's curve is about a centimetre longer than the drop (from memory).
        "outside_leg_length": lambda body: body["waist_height"] + 10.0,
        "neck_shoulder_point_to_waist": _over_bust,
        # Across the chest is about two centimetres less than across the back (common practice).
        "front_width": lambda body: body["back_width"] - 20.0,
        # Shoulder to elbow is 51 % of shoulder to wrist: medians of the men of 1988, 60.1 - (88.5 - 59.2) cm.
        "upper_arm_length": lambda body: 0.51 * body["arm_length"],
        # Heel and instep is about one and a half times the ankle (from memory).
        "heel_girth": lambda body: 1.5 * body["ankle_girth"],
    }
)

#: How far (standard deviation, mm) a derived measure strays from what stature, bust, waist and hip suggest: for the
#: differences of two heights from the survey of 1988, for the others our own careful guess.
DERIVED_SD: Mapping[str, float] = MappingProxyType(
    {
        "waist_to_hip": 24.0,
        "waist_to_knee": 27.0,
        "body_rise": 24.0,
        "outside_leg_length": 25.0,
        "neck_shoulder_point_to_waist": 25.0,
        "front_width": 26.0,
        "upper_arm_length": 20.0,
        "heel_girth": 22.0,
    }
)


def derive(body: Mapping[str, float]) -> dict[str, float]:
    """The body with the derived measures that it lacks; it must have every measure of the survey."""
    full = dict(body)
    for name, rule in DERIVED.items():
        if name not in full:
            full[name] = rule(full)
    return full


def complete_body(body: Mapping[str, float], group: Group = "women") -> dict[str, float]:
    """The body (mm) with every measure of the register; what is given stays, the rest is predicted from `BASIS`."""
    missing = [name for name in BASIS if name not in body]
    if missing:
        raise ValueError(f"a body is completed from its {', '.join(BASIS)}: {', '.join(missing)} not given")
    full = dict(body)
    for name, predictors in PREDICTORS.items():
        if name not in full:
            full[name] = usual_fit(group, name, predictors).predict(full)
    return {name: round(value, 1) for name, value in derive(full).items()}
