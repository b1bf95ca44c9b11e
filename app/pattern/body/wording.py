"""The register as men and children read it: a chest where a woman's has a bust, and how theirs is taken."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from types import MappingProxyType
from typing import Any

from app.pattern.body.measures import Measure
from app.pattern.body.register import MEASURES

__all__ = ["measures_for"]

_CHEST: Mapping[str, Mapping[str, Any]] = MappingProxyType(
    {
        "bust_girth": {
            "title": "Chest girth",
            "definition": "The level girth under the arms over the fullest part of the chest.",
            "how": (
                "Lay the tape round the body over the fullest part of the chest, level all the way: ask a helper, "
                "or check in a mirror.",
                "Let the arms hang, breathe quietly and let the tape touch without pressing.",
            ),
        },
        "under_bust_girth": {
            "title": "Lower chest girth",
            "definition": "The level girth round the ribs, just below the chest muscles.",
            "how": (
                "Lay the tape round the ribs at the lower end of the breastbone.",
                "Keep it level and snug, and read it at the end of a quiet breath out.",
            ),
        },
        "upper_chest_girth": {
            "definition": "The girth high under the arms and above the fullness of the chest.",
            "how": (
                "Lay the tape high under both armpits; at the back it lies over the shoulder blades.",
                "Keep it close without pressing, arms down, and read it at the end of a quiet breath.",
            ),
        },
        "neck_shoulder_point_to_bust_point": {
            "title": "Neck-shoulder point to chest point",
            "definition": "From the neck-shoulder point down to the nipple, on the same side.",
            "how": (
                "Hold the end of the tape where the side of the neck meets the shoulder.",
                "Lead it down to the nipple of the same side and read it there.",
            ),
        },
        "neck_shoulder_point_to_waist": {
            "title": "Neck-shoulder point to waist, over the chest",
            "definition": "From the neck-shoulder point over the fullest part of the chest and on down to the waist.",
            "how": (
                "Tie a cord round the waist first.",
                "Start where the side of the neck meets the shoulder and lead the tape over the chest.",
                "From the fullest point let it drop straight to the lower edge of the cord.",
            ),
        },
        "bust_point_width": {
            "title": "Chest point width",
            "definition": "From one nipple straight across to the other.",
            "how": ("Measure straight across from one nipple to the other, without pressing.",),
        },
        "front_waist_length": {
            "how": (
                "Tie a cord round the waist first.",
                "Measure from the hollow at the base of the throat straight down to the lower edge of the cord.",
            ),
        },
        "trunk_circumference": {
            "how": (
                "Start at the middle of one shoulder and lead the tape down the front, over the chest and between the "
                "legs.",
                "Bring it up the back to the start. Ask a helper to hold it, and stand upright.",
                "Let it touch everywhere without pulling.",
            ),
        },
        "front_width": {
            "definition": "Across the chest between the creases that the arms make, above its fullest part.",
            "how": (
                "Let the arms hang.",
                "Measure straight across the chest, from the end of one armpit crease to the other.",
            ),
        },
    }
)


@cache
def measures_for(group: str | None) -> Mapping[str, Measure]:
    """The register in the words for a group (women, men or children), or for anybody."""
    if group in (None, "women"):
        return MEASURES
    return MappingProxyType({name: replace(measure, **_CHEST.get(name, {})) for name, measure in MEASURES.items()})
