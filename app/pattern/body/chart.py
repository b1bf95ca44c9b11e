"""Size charts to start from, named by bust girth in centimetres: steps after EN 13402-3, the rest from regressions."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from app.pattern.body.complete import complete_body
from app.pattern.body.survey import POOLED_FITS

__all__ = ["SIZES", "STATURE", "size_body"]

#: The stature in mm that a size stands for unless another is asked for: our own choice.
STATURE = 1650.0

#: Bust girths in mm by size name. The steps (4 cm, from 104 on 6 cm) and the limits between the sizes are those of
#: EN 13402-3:2004; the names are the whole centimetres nearest the middle of each class. Nothing else of a size is
#: the standard's: waist and hip come from the pooled fits, the other measures from the surveys of 2012 and 1988.
SIZES: Mapping[str, float] = MappingProxyType(
    {str(cm): cm * 10.0 for cm in (76, 80, 84, 88, 92, 96, 100, 104, 110, 116, 122, 128)}
)


def _waist_and_hip(bust: float) -> tuple[float, float]:
    """The likely waist and hip in mm for a bust girth: the pooled fits, each put into the other."""
    waist, hip = POOLED_FITS["waist_girth"], POOLED_FITS["hip_girth"]
    fixed = waist.intercept + waist.slopes[0] * bust
    through_hip = waist.slopes[1] * (hip.intercept + hip.slopes[0] * bust)
    likely = (fixed + through_hip) / (1.0 - waist.slopes[1] * hip.slopes[1])
    return likely, hip.predict({"bust_girth": bust, "waist_girth": likely})


def _to_half_cm(mm: float) -> float:
    return round(mm / 5.0) * 5.0


def size_body(name: str, stature: float = STATURE) -> dict[str, float]:
    """A woman's body of a size for a stature, every measure of the register in mm. An unknown size is a KeyError."""
    bust = SIZES[name]
    waist, hip = _waist_and_hip(bust)
    basis = {"stature": stature, "bust_girth": bust, "waist_girth": _to_half_cm(waist), "hip_girth": _to_half_cm(hip)}
    return {measure: float(round(value)) for measure, value in complete_body(basis).items()}
