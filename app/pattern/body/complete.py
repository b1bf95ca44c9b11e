"""Filling in measurements that were not taken, from those that were: survey fits first, then plain sums."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from app.pattern.body.measures import Derived, Fitted
from app.pattern.body.register import MEASURES
from app.pattern.body.survey import Group, usual_fit

__all__ = ["BASIS", "DERIVED", "PREDICTORS", "complete_body", "derive"]

#: The measures that everything else can be predicted from.
BASIS: tuple[str, ...] = ("stature", "bust_girth", "waist_girth", "hip_girth")

#: Which of the basis each measure of the survey is predicted from.
PREDICTORS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {name: measure.likely.of for name, measure in MEASURES.items() if isinstance(measure.likely, Fitted)}
)

#: Measures the survey has not, from those it has, with how far they stray (mm).
DERIVED: Mapping[str, Derived] = MappingProxyType(
    {name: measure.likely for name, measure in MEASURES.items() if isinstance(measure.likely, Derived)}
)


def derive(body: Mapping[str, float]) -> dict[str, float]:
    """The body with the derived measures that it lacks; it must have every measure of the survey."""
    full = dict(body)
    for name, derived in DERIVED.items():
        if name not in full:
            full[name] = derived.rule(full)
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
