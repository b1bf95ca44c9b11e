"""The register of body measurements: names after ISO 8559-1, what each is, how to take it and how far it may range."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from app.pattern.body.tapes import TapeFigure

__all__ = [
    "ALSO_CALLED",
    "LANDMARKS",
    "LOW",
    "OWN_NAME",
    "SURVEYED",
    "UP",
    "WORKED_OUT",
    "Derived",
    "Fitted",
    "MeasureKind",
    "Measure",
    "by_name",
]


class MeasureKind(StrEnum):
    """What sort of measurement it is: a girth can be taken as half by mistake, a height never is."""

    GIRTH = "girth"
    LENGTH = "length"
    WIDTH = "width"
    HEIGHT = "height"


#: What people call some measurements besides; only to help someone who uses the other word.
ALSO_CALLED: Mapping[str, str] = MappingProxyType(
    {
        "height": "stature",
        "chest": "bust_girth",
        "chest_girth": "bust_girth",
        "seat": "hip_girth",
        "seat_girth": "hip_girth",
        "nape_to_waist": "back_waist_length",
        "inside_leg": "inside_leg_height",
        "inseam": "inside_leg_height",
        "crotch_height": "inside_leg_height",
        "outseam": "outside_leg_length",
        "sleeve_length": "arm_length",
        "biceps": "upper_arm_girth",
        "armhole": "armscye_girth",
        "armhole_depth": "scye_depth",
        "crotch_depth": "body_rise",
        "hip_depth": "waist_to_hip",
        "across_back": "back_width",
        "across_front": "front_width",
        "crotch_length": "total_crotch_length",
    }
)

# Where a measure's name and ranges come from. Names: the term list of ISO 8559:1989 and, from memory, ISO 8559-1:2017;
# the wording of every definition is our own.
SURVEYED = "Name after ISO 8559-1. Ranges: US Army surveys of 1988 and 2012, widened for customers at large."
OWN_NAME = "A name of our own in the manner of ISO 8559-1. Ranges: US Army survey of 1988, widened for customers."
WORKED_OUT = "Name after ISO 8559-1. Ranges: worked out from neighbouring measurements; no survey figure at hand."

#: The places on the body that measurements run between, in our own words.
LANDMARKS: Mapping[str, str] = MappingProxyType(
    {
        "nape": "the knobbly bone at the base of the back of the neck, easiest to feel with the head bent forward",
        "neck-shoulder point": "where the side of the neck meets the top of the shoulder",
        "front neck point": "the hollow at the base of the throat, between the collarbones",
        "shoulder point": "the outer end of the shoulder bone, where the arm begins to turn down",
        "bust point": "the fullest point of the breast, in the bra you will wear",
        "underarm": "the highest point of the armpit with the arm hanging down",
        "back armpit fold": "the end of the crease that the arm makes with the back",
        "front armpit fold": "the end of the crease that the arm makes with the chest",
        "elbow": "the bony point of the bent elbow",
        "wrist bone": "the bony bump on the little-finger side of the wrist",
        "knuckles": "the line of the four knuckles at the base of the fingers",
        "waist": "where a cord tied round the middle settles by itself: the natural waist, often above the navel",
        "hip": "the level at which the seat is fullest, seen from the side",
        "crotch": "the lowest point of the trunk, between the legs",
        "knee": "the middle of the kneecap",
        "ankle": "the narrowest part of the leg, just above the ankle bones",
        "heel": "the back of the heel, where the foot meets the floor",
        "crown": "the highest point of the head",
        "floor": "the floor, in bare feet",
    }
)


#: What most measures of the upper body are predicted from, and of the lower: few, so that large bodies come out well.
UP, LOW = ("bust_girth", "stature"), ("hip_girth", "stature")


@dataclass(frozen=True, slots=True)
class Fitted:
    """A measure of the survey: it is predicted by a fit on these measures."""

    of: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Derived:
    """A measure that the survey has not, worked out from those that it has by a rule of our own, in mm.

    `sd` is how far (standard deviation, mm) it strays from what stature, bust, waist and hip suggest: for differences
    of two heights from the survey of 1988, for the others our own careful guess.
    """

    rule: Callable[[Mapping[str, float]], float]
    sd: float


@dataclass(frozen=True, slots=True)
class Measure:
    """One measurement of the body; every length in mm.

    `hard` is the range outside which an entry is refused as a slip, `typical` the
    range in which most adults lie (for help texts only). `source` says where name and ranges come from. `tape` is
    where the tape lies, which is drawn as `figure`, a file name in `static/figures`. `likely` says what the measure
    is when it was not taken; None for those that everything else is predicted from.
    """

    name: str
    title: str
    kind: MeasureKind
    definition: str
    how: tuple[str, ...]
    landmarks: tuple[str, ...]
    hard: tuple[float, float]
    typical: tuple[float, float]
    source: str
    tape: TapeFigure
    likely: Fitted | Derived | None = None

    @property
    def figure(self) -> str:
        """The file name of its line figure in `static/figures`."""
        return f"{self.name}.svg"

    @property
    def how_text(self) -> str:
        """How to take it, as one paragraph."""
        return " ".join(self.how)


def by_name(measures: Iterable[Measure]) -> Mapping[str, Measure]:
    """The measures in the order given, by name, read only. A name given twice is our own bug."""
    found: dict[str, Measure] = {}
    for measure in measures:
        if measure.name in found:
            raise ValueError(f"{measure.name} is registered twice")
        found[measure.name] = measure
    return MappingProxyType(found)
