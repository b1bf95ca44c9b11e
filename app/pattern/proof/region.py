"""The region of measurements inside which a draft held on every body it was tried on.

A range for each measurement the draft needs, and for the ratios between its main girths.
It begins as the least and most of the bodies that held; while a body that did not hold
lies inside, that range is drawn in past it which loses fewest of the bodies that held.
So every body of the proof inside the region held. That is no promise for others, which
is why each order is checked on its own body as well; a body outside has no like among those proved.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import TypedDict

from app.pattern.body.register import MEASURES
from app.pattern.problem import Place, Problem, Severity
from app.pattern.units import Unit, show_length

__all__ = ["Range", "Region", "RegionValues", "inside", "outside", "read_region", "region_of", "region_values"]

#: Girths whose ratios are watched besides the measurements themselves: they make the shape of a body.
_MAIN = ("bust_girth", "waist_girth", "hip_girth")
#: Measurements are compared to a tenth of a millimetre, ratios to a ten-thousandth.
_FINE = {"length": 1, "ratio": 4}


@dataclass(frozen=True, slots=True)
class Range:
    """Least and most of one measurement in mm, or of one ratio named like `waist_girth/hip_girth`."""

    axis: str
    least: float
    most: float

    @property
    def ratio(self) -> bool:
        """True when it is a ratio of two measurements."""
        return "/" in self.axis

    def holds(self, value: float) -> bool:
        """True when the value lies within."""
        return self.least <= value <= self.most


@dataclass(frozen=True, slots=True)
class Region:
    """Ranges that must all hold; without any, nothing lies inside."""

    ranges: tuple[Range, ...]

    def range_of(self, axis: str) -> Range | None:
        """The range of a measurement or a ratio, if it has one."""
        return next((found for found in self.ranges if found.axis == axis), None)


class RegionValues(TypedDict):
    """A region as JSON: (axis, least, most) each."""

    ranges: list[tuple[str, float, float]]


_Figures = dict[str, float]


def region_of(
    needs: Sequence[str], held: Sequence[Mapping[str, float]], failed: Sequence[Mapping[str, float]]
) -> Region:
    """The region in which all held: `held` and `failed` are bodies in mm with every measurement of `needs`."""
    good = [_figures(body, needs) for body in held]
    bad = [_figures(body, needs) for body in failed]
    while good:
        hull = tuple(Range(axis, min(f[axis] for f in good), max(f[axis] for f in good)) for axis in good[0])
        intruder = next((figures for figures in bad if all(side.holds(figures[side.axis]) for side in hull)), None)
        if intruder is None:
            return Region(hull)
        good = max(_without(good, intruder), key=len)
    return Region(())


def _figures(body: Mapping[str, float], needs: Sequence[str]) -> _Figures:
    figures = {need: round(body[need], _FINE["length"]) for need in needs}
    main = [name for name in _MAIN if name in needs]
    ratios = {f"{one}/{other}": round(body[one] / body[other], _FINE["ratio"]) for one, other in combinations(main, 2)}
    return figures | ratios


def _without(good: Sequence[_Figures], intruder: _Figures) -> Iterator[list[_Figures]]:
    """The bodies that held beyond the intruder, for either side of every axis."""
    for axis, value in intruder.items():
        yield [figures for figures in good if figures[axis] < value]
        yield [figures for figures in good if figures[axis] > value]


def inside(region: Region, body: Mapping[str, float]) -> bool:
    """True when every measurement and ratio of the body (mm) lies in its range."""
    return bool(region.ranges) and not any(True for _ in _misses(region, body))


def outside(region: Region, body: Mapping[str, float], unit: Unit = Unit.CM) -> tuple[Problem, ...]:
    """Why a body (mm) does not lie inside: one warning for each range it misses, empty when it lies inside."""
    if not region.ranges:
        said = "This draft held on no body that it was tried on."
        return (Problem("proof.outside", said, "Prove it anew.", Place(), Severity.WARNING),)
    return tuple(_told(found, value, unit) for found, value in _misses(region, body))


def _misses(region: Region, body: Mapping[str, float]) -> Iterator[tuple[Range, float]]:
    for found in region.ranges:
        one, _, other = found.axis.partition("/")
        value = round(body[one] / body[other], _FINE["ratio"]) if other else round(body[one], _FINE["length"])
        if not found.holds(value):
            yield found, value


def _told(found: Range, value: float, unit: Unit) -> Problem:
    one, _, other = found.axis.partition("/")
    name = MEASURES[one].title.lower()
    if other:
        name = f"{name} as a share of {MEASURES[other].title.lower()}"
        mine, least, most = (f"{figure:.0%}" for figure in (value, found.least, found.most))
    else:
        mine, least, most = (show_length(figure, unit) for figure in (value, found.least, found.most))
    # Rounded alike, a figure just outside would read as if it were inside.
    if mine in (least, most):
        mine = f"a little {'under' if value < found.least else 'over'} {mine}"
    said = f"The {name} is {mine}; this design was proved from {least} to {most}."
    fix = "Measure again. If it is right, ask the designer: the pattern is checked on its own, but on no like body."
    return Problem("proof.outside", said, fix, Place(point=one), Severity.WARNING)


def region_values(region: Region) -> RegionValues:
    """The region as JSON."""
    return RegionValues(ranges=[(found.axis, found.least, found.most) for found in region.ranges])


def read_region(values: RegionValues) -> Region:
    """The region that `region_values` wrote."""
    return Region(tuple(Range(axis, least, most) for axis, least, most in values["ranges"]))
