"""What holds for every body of a group: the ratio rule between bust, waist and hip, and which measure exceeds which."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

__all__ = [
    "CHILD_ORDERS",
    "CHILD_RATIOS",
    "MEN_RATIOS",
    "ORDER_RULES",
    "RATIO_RULES",
    "RatioRule",
    "broken_orders",
    "broken_ratios",
]


@dataclass(frozen=True, slots=True)
class RatioRule:
    """`over / under` lies from `least` to `most`."""

    over: str
    under: str
    least: float
    most: float

    def ratio(self, body: Mapping[str, float]) -> float:
        """The ratio on a body that has both."""
        return body[self.over] / body[self.under]

    def holds(self, body: Mapping[str, float]) -> bool:
        """True when the ratio lies within its bounds, or when the body lacks one of the two."""
        if self.over not in body or self.under not in body:
            return True
        return self.least <= self.ratio(body) <= self.most


#: Bounds computed over two US Army surveys (1988, 2012) and a civilian apparel survey of Spanish women:
#: broken by 0 to 0.1 % of honest bodies in each of the three.
RATIO_RULES: tuple[RatioRule, ...] = (
    RatioRule("waist_girth", "bust_girth", 0.68, 1.15),
    RatioRule("hip_girth", "waist_girth", 0.92, 1.60),
    RatioRule("hip_girth", "bust_girth", 0.84, 1.42),
)

#: Men's waists outgrow chest and hips where a woman's hip grows along: our own judgement, wider than the surveyed men.
MEN_RATIOS: tuple[RatioRule, ...] = (
    RatioRule("waist_girth", "bust_girth", 0.68, 1.18),
    RatioRule("hip_girth", "waist_girth", 0.84, 1.60),
    RatioRule("hip_girth", "bust_girth", 0.80, 1.42),
)

#: Some four standard deviations round the middling children of `children`, small and tall.
CHILD_RATIOS: tuple[RatioRule, ...] = (
    RatioRule("waist_girth", "bust_girth", 0.74, 1.14),
    RatioRule("hip_girth", "waist_girth", 0.94, 1.48),
    RatioRule("hip_girth", "bust_girth", 0.88, 1.28),
)

#: (larger, smaller): anatomy, not statistics.
ORDER_RULES: tuple[tuple[str, str], ...] = (
    ("bust_girth", "under_bust_girth"),
    ("neck_base_girth", "neck_girth"),
    ("shoulder_width", "shoulder_length"),
    ("bust_girth", "back_width"),
    ("back_width", "bust_point_width"),
    ("neck_shoulder_point_to_waist", "neck_shoulder_point_to_bust_point"),
    ("back_waist_length", "scye_depth"),
    ("armscye_girth", "upper_arm_girth"),
    ("upper_arm_girth", "wrist_girth"),
    ("elbow_girth", "wrist_girth"),
    ("hand_girth", "wrist_girth"),
    ("arm_length", "upper_arm_length"),
    ("hip_girth", "thigh_girth"),
    ("thigh_girth", "knee_girth"),
    ("thigh_girth", "calf_girth"),
    ("knee_girth", "ankle_girth"),
    ("calf_girth", "ankle_girth"),
    ("heel_girth", "ankle_girth"),
    ("stature", "cervical_height"),
    ("cervical_height", "waist_height"),
    ("waist_height", "hip_height"),
    ("hip_height", "inside_leg_height"),
    ("waist_height", "inside_leg_height"),
    ("inside_leg_height", "knee_height"),
)


#: A child has no bust yet: the ribs may be as wide as the chest.
CHILD_ORDERS = tuple(pair for pair in ORDER_RULES if pair != ("bust_girth", "under_bust_girth"))


def broken_ratios(body: Mapping[str, float], rules: tuple[RatioRule, ...] = RATIO_RULES) -> Iterator[RatioRule]:
    """The ratio rules that a body breaks."""
    return (rule for rule in rules if not rule.holds(body))


def broken_orders(
    body: Mapping[str, float], rules: tuple[tuple[str, str], ...] = ORDER_RULES
) -> Iterator[tuple[str, str]]:
    """The pairs (larger, smaller) that stand the wrong way round on a body that has both."""
    for larger, smaller in rules:
        if larger in body and smaller in body and body[larger] <= body[smaller]:
            yield larger, smaller
