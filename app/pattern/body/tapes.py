"""Where the tape lies on the croquis for each measurement, in the frame of `croquis` (y down)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

__all__ = ["CROPS", "FIGURES", "Drop", "TapeFigure", "Mark", "Ring", "Run"]


@dataclass(frozen=True, slots=True)
class Ring:
    """A girth: an ellipse seen a little from above, tilted by degrees clockwise."""

    x: float
    y: float
    rx: float
    ry: float
    tilt: float = 0.0


@dataclass(frozen=True, slots=True)
class Run:
    """A length along the body through points (`|` a corner); `hidden` runs behind the body."""

    points: str
    hidden: bool = False
    dots: bool = True


@dataclass(frozen=True, slots=True)
class Drop:
    """A height: straight down at `x` from `top`; a leader comes from the body at `start`."""

    x: float
    top: float
    start: float
    bottom: float = 750.0


Mark = Ring | Run | Drop


@dataclass(frozen=True, slots=True)
class TapeFigure:
    """Which view, which part of it, and the tape on it."""

    view: str
    crop: str
    marks: tuple[Mark, ...]


def _crop(middle: float, top: float, height: float) -> tuple[float, float, float, float]:
    width = height * 2 / 3
    return (middle - width / 2, top, width, height)


#: Parts of the croquis as (left, top, width, height): all two to three, so that the figures line up on a page.
CROPS: Mapping[str, tuple[float, float, float, float]] = MappingProxyType(
    {
        "full": _crop(0, -20, 795),
        "head": _crop(0, -18, 218),
        "skull": _crop(0, -14, 160),
        "trunk": _crop(0, 62, 372),
        "upper": _crop(0, 80, 294),
        "legs": _crop(0, 236, 532),
        "thigh": _crop(0, 340, 425),
        "arm": _crop(98, 105, 375),
        "profile": _crop(0, 62, 372),
        "lower": _crop(0, 500, 262),
        "forearm": _crop(118, 232, 258),
        "foot": _crop(6, 572, 190),
        "seated": _crop(60, -20, 615),
        "hand": _crop(12, 30, 285),
    }
)

_BUST, _WAIST, _HIP, _KNEE = 207.0, 264.0, 366.0, 545.0
_TO_ELBOW = "84,140 97,150 109,168 121,194 135,222 150,247 157,259 159,270"
#: The cord tied round the waist, where a length ends on it.
_CORD = Run("-62,264 -30,270 0,271 30,270 62,264", hidden=True)
_SIDE_LINE = "62,264 66,284 76,316 86,348 89,366"


def _front(crop: str, *marks: Mark) -> TapeFigure:
    return TapeFigure("front", crop, marks)


def _back(crop: str, *marks: Mark) -> TapeFigure:
    return TapeFigure("back", crop, marks)


FIGURES: Mapping[str, TapeFigure] = MappingProxyType(
    {
        "head_girth": TapeFigure("side", "skull", (Ring(1, 38, 44.5, 9, 3),)),
        "neck_girth": _front("head", Ring(0, 111, 20.5, 5)),
        "neck_base_girth": _front("head", Ring(0, 122, 28, 10)),
        "shoulder_length": _front("upper", Run("28,122 48,129 70,134 84,140")),
        "shoulder_width": _back("upper", Run("-84,140 -40,137 0,136 40,137 84,140")),
        "shoulder_girth": _front("trunk", Ring(0, 184, 106, 15)),
        "upper_chest_girth": _front("upper", Ring(0, 188, 70, 8)),
        "bust_girth": _front("upper", Ring(0, _BUST, 73.5, 9)),
        "under_bust_girth": _front("upper", Ring(0, 234, 68.5, 8.5)),
        "waist_girth": _front("trunk", Ring(0, _WAIST, 62, 8)),
        "hip_girth": _front("trunk", Ring(0, _HIP, 88, 11)),
        "back_waist_length": _back("upper", _CORD, Run("0,104 0,270")),
        "front_waist_length": _front("upper", _CORD, Run("0,128 0,270")),
        "neck_shoulder_point_to_bust_point": _front("upper", Run("28,122 34,160 42,207")),
        "neck_shoulder_point_to_waist": _front("upper", _CORD, Run("28,122 34,160 42,207 | 42,268")),
        "bust_point_width": _front("upper", Run("-42,207 42,207")),
        "back_width": _back("upper", Run("-72,182 0,185 72,182")),
        "front_width": _front("upper", Run("-70,174 0,177 70,174")),
        "scye_depth": _back("upper", Run("-72,192 72,192", hidden=True), Run("0,104 0,192")),
        "trunk_circumference": TapeFigure(
            "side",
            "profile",
            (
                Run(
                    "-8,128 22,130 43,164 56,187 62,199 63,210 57,225 47,242 42,264 46,292 50,322 46,352 36,384"
                    " 10,402 -22,404"
                    " -50,402 -64,382 -66,362 -61,336 -51,306 -43,276 -42,260 -47,232 -57,198 -60,172 -53,142"
                    " -34,128 -8,128",
                    dots=False,
                ),
            ),
        ),
        "stature": _front("full", Drop(-205, 0, -4)),
        "cervical_height": _back("full", Drop(-205, 104, -2)),
        "waist_height": _front("full", Drop(-205, _WAIST, -62)),
        "hip_height": _front("full", Drop(-205, _HIP, -88)),
        "knee_height": _front("full", Drop(-205, _KNEE, -41)),
        "inside_leg_height": _front("legs", Drop(0, 402, 0)),
        "outside_leg_length": _front("legs", Run(f"{_SIDE_LINE} 91,390 91,430 | 91,750")),
        "waist_to_hip": _front("trunk", _CORD, Run("-88,366 0,377 88,366", hidden=True), Run(_SIDE_LINE)),
        "waist_to_knee": _front("legs", Run("38,271 41,330 41,545")),
        "body_rise": TapeFigure("seated", "seated", (Run("-8,264 -8,405"),)),
        "total_crotch_length": TapeFigure(
            "side",
            "profile",
            (
                Run(
                    "42,264 46,292 50,322 47,350 38,382 12,402 -22,405 -50,402 -64,382 -66,362 -61,336 -51,306"
                    " -42,272 -41,264"
                ),
            ),
        ),
        "thigh_girth": _front("thigh", Ring(45, 415, 42.5, 7)),
        "knee_girth": _front("lower", Ring(41, _KNEE, 21.5, 4.5)),
        "calf_girth": _front("lower", Ring(41, 598, 25.5, 5)),
        "ankle_girth": _front("lower", Ring(35.5, 702, 11.5, 3)),
        "heel_girth": TapeFigure("foot", "foot", (Ring(-9, 728, 30, 6, -33),)),
        "arm_length": TapeFigure("bent", "arm", (Run(f"{_TO_ELBOW} 155,281 138,302 120,324 107,342"),)),
        "upper_arm_length": TapeFigure("bent", "arm", (Run(_TO_ELBOW),)),
        "armscye_girth": _front("arm", Ring(78, 166, 28, 9, 103)),
        "upper_arm_girth": _front("arm", Ring(93.5, 203, 17, 4, -14)),
        "elbow_girth": _front("forearm", Ring(110.5, 279, 16, 4, -14)),
        "wrist_girth": _front("forearm", Ring(141.5, 383, 13, 3.5, -13)),
        "hand_girth": TapeFigure("hand", "hand", (Ring(-4.5, 160, 40.5, 7.5, 3),)),
    }
)
