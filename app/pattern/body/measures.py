"""The register of body measurements: names after ISO 8559-1, what each is, how to take it and how far it may range."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

__all__ = ["LANDMARKS", "Kind", "Measure", "by_name"]


class Kind(StrEnum):
    """What sort of measurement it is: a girth can be taken as half by mistake, a height never is."""

    GIRTH = "girth"
    LENGTH = "length"
    WIDTH = "width"
    HEIGHT = "height"


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


@dataclass(frozen=True, slots=True)
class Measure:
    """One measurement of the body; every length in mm.

    `hard` is the range outside which an entry is refused as a slip, `typical` the
    range in which most adults lie (for help texts only). `figure` is a file name
    in `static/figures`. `source` says where name and ranges come from.
    """

    name: str
    title: str
    kind: Kind
    definition: str
    how: tuple[str, ...]
    landmarks: tuple[str, ...]
    hard: tuple[float, float]
    typical: tuple[float, float]
    source: str

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
