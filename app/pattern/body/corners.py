"""Bodies at the corners of what a draft meets: each is likely in all but what its name says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from app.pattern.body.complete import complete_body
from app.pattern.body.register import MEASURES
from app.pattern.body.survey import Group

__all__ = ["CORNERS", "CornerBody", "corner_bodies"]


@dataclass(frozen=True, slots=True)
class CornerBody:
    """A body by stature, bust, waist and hip, and by how much other measures differ from the likely; mm."""

    stature: float
    bust: float
    waist: float
    hip: float
    changes: Mapping[str, float] = field(default_factory=dict)
    group: Group = "women"

    def body(self) -> dict[str, float]:
        """Every measure of the register in mm."""
        basis = {
            "stature": self.stature,
            "bust_girth": self.bust,
            "waist_girth": self.waist,
            "hip_girth": self.hip,
        }
        likely = complete_body(basis, self.group)
        changed = {name: likely[name] + change for name, change in self.changes.items()}
        full = complete_body({**basis, **changed}, self.group)
        return {name: full[name] for name in MEASURES}


#: Figures are our own choice. "Very full bust", "small bust, full hip", "large waist", "small waist" and "full arms"
#: are meant to be so far out that a customer would be asked to confirm them.
CORNERS: Mapping[str, CornerBody] = MappingProxyType(
    {
        "tall and slight": CornerBody(1850, 800, 620, 880),
        "short and slight": CornerBody(1480, 760, 600, 840),
        "short and full": CornerBody(1500, 1180, 1060, 1220),
        "tall and full": CornerBody(1840, 1260, 1140, 1280),
        "very full bust": CornerBody(
            1630,
            1120,
            800,
            1020,
            {"under_bust_girth": -90.0, "neck_shoulder_point_to_bust_point": 45.0, "bust_point_width": 15.0},
        ),
        "small bust, full hip": CornerBody(1650, 860, 760, 1160),
        "full bust, slim hip": CornerBody(1680, 1060, 900, 940),
        "large waist": CornerBody(1620, 1040, 1120, 1080),
        "small waist": CornerBody(1660, 940, 650, 1010),
        "long back": CornerBody(1700, 920, 760, 990, {"back_waist_length": 55.0, "front_waist_length": 42.0}),
        "short back": CornerBody(1600, 920, 760, 990, {"back_waist_length": -45.0, "front_waist_length": -35.0}),
        "broad shoulders": CornerBody(
            1740, 980, 800, 980, {"shoulder_length": 22.0, "back_width": 45.0, "shoulder_width": 35.0}
        ),
        "narrow shoulders": CornerBody(
            1600, 900, 740, 980, {"shoulder_length": -22.0, "back_width": -35.0, "shoulder_width": -30.0}
        ),
        "full arms": CornerBody(
            1620, 1020, 880, 1060, {"upper_arm_girth": 70.0, "elbow_girth": 25.0, "armscye_girth": 35.0}
        ),
        "very large": CornerBody(1660, 1500, 1460, 1580),
    }
)


def corner_bodies() -> dict[str, dict[str, float]]:
    """The bodies of `CORNERS` by name, every measure of the register in mm."""
    return {name: corner.body() for name, corner in CORNERS.items()}
