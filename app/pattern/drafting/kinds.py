"""The kinds of thing a name may stand for, and the values that have them."""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, cos, pi

from app.pattern.geometry import Path, Point

__all__ = ["DartShape", "Direction", "Given", "Kind", "Value", "say_kind"]

#: What a customer may choose, and what a measurement is.
Given = float | str | bool


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind by name. "unknown" fits everything and silences followers.

    An option kind knows its options; a shape what it holds, as `name:path`, `name:dart`
    or `name:point`.
    """

    name: str
    options: tuple[str, ...] = ()

    def fits(self, wanted: str) -> bool:
        """True when a value of this kind may stand where `wanted` ("point|path") is asked for."""
        return self.name == "unknown" or wanted == "any" or self.name in wanted.split("|")

    def alike(self, other: Kind) -> bool:
        """True when both are of one kind, as far as is known."""
        return self.name == other.name or "unknown" in (self.name, other.name)


_SAY = {
    "number": "a plain number",
    "length": "a length",
    "area": "an area (length times length)",
    "angle": "an angle",
    "point": "a point",
    "path": "a path",
    "direction": "a direction",
    "dart": "a dart",
    "yesno": "a yes or no",
    "option": "an option",
    "text": "a text",
    "shape": "a traced shape",
}


def say_kind(wanted: str) -> str:
    """The kind or kinds in words for people."""
    return " or ".join(_SAY.get(name, name) for name in wanted.split("|"))


@dataclass(frozen=True, slots=True)
class Direction:
    """A direction of travel that may depend on where it is taken.

    `sort` is "angle" (radians, anticlockwise from right), "toward" or "away" (of `point`) or
    "square" (to the direction `angle`, on the side of the chord).
    """

    sort: str
    angle: float = 0.0
    point: Point | None = None

    def resolve(self, at: Point, chord: float) -> float:
        """The angle at the point `at`, where the path as a whole runs in direction `chord`."""
        if self.sort == "square":
            side = self.angle + pi / 2.0
            return side if cos(side - chord) >= 0.0 else self.angle - pi / 2.0
        if self.point is None:
            return self.angle
        angle = atan2(self.point.y - at.y, self.point.x - at.x)
        return angle if self.sort == "toward" else angle + pi


@dataclass(frozen=True, slots=True)
class DartShape:
    """A dart as drawn: from the seam to the tip and back, the side it is pressed to, and what it must stay clear of."""

    a: Point
    tip: Point
    b: Point
    pressed: Direction
    clear_of: Point | None = None
    clear_by: float = 0.0


Value = float | bool | str | Point | Path | Direction | DartShape
