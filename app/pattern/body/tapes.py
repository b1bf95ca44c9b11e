"""How a tape lies on the croquis, in the frame of `croquis` (y down); where, each measurement says itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

__all__ = [
    "BUST",
    "CORD",
    "CROPS",
    "HIP",
    "KNEE",
    "SIDE_LINE",
    "TO_ELBOW",
    "WAIST",
    "Drop",
    "TapeFigure",
    "Mark",
    "Ring",
    "Run",
    "back",
    "front",
]


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

BUST, WAIST, HIP, KNEE = 207.0, 264.0, 366.0, 545.0
TO_ELBOW = "84,140 97,150 109,168 121,194 135,222 150,247 157,259 159,270"
#: The cord tied round the waist, where a length ends on it.
CORD = Run("-62,264 -30,270 0,271 30,270 62,264", hidden=True)
SIDE_LINE = "62,264 66,284 76,316 86,348 89,366"


def front(crop: str, *marks: Mark) -> TapeFigure:
    """A part of the croquis seen from the front, with the tape on it."""
    return TapeFigure("front", crop, marks)


def back(crop: str, *marks: Mark) -> TapeFigure:
    """A part of the croquis seen from the back, with the tape on it."""
    return TapeFigure("back", crop, marks)
