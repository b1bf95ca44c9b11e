"""The region of measurements within which a draft is proved: where many bodies were tried, and all of them held.

It has a range of each measurement that the draft needs, and an area of cells of its main girths, two by two. Each
reaches as far as bodies were tried densely (`density`): one large body far from all others proves nothing for the gap.
Where some bodies did not hold, the ranges are drawn in past them as far as costs the fewest of those that held, and a
cell in which one of them lies is no part of the area. So every body of the proof inside the region held. That is no
promise for others, which is why each order is checked on its own body as well; a body outside has too few like it
among those proved. Forms, pages, pictures and orders all go by `outside`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import NotRequired, TypedDict

from app.pattern.body.wording import measures_for
from app.pattern.problem import Place, Problem, Severity
from app.pattern.proof.density import CELL, Area, AreaValues, area_values, dense_area, dense_stretch, read_area
from app.pattern.units import Unit, show_length

__all__ = [
    "Range",
    "Region",
    "RegionValues",
    "inside",
    "missed_axes",
    "outside",
    "read_region",
    "region_of",
    "region_values",
]

#: Girths that make the shape of a body: two by two they are watched besides the measurements themselves.
_MAIN = ("bust_girth", "waist_girth", "hip_girth")
#: Measurements are compared to a tenth of a millimetre, ratios to a ten-thousandth.
_FINE = {"length": 1, "ratio": 4}


@dataclass(frozen=True, slots=True)
class Range:
    """Least and most of one measurement in mm."""

    axis: str
    least: float
    most: float

    def holds(self, value: float) -> bool:
        """True when the value lies within."""
        return self.least <= value <= self.most


@dataclass(frozen=True, slots=True)
class Region:
    """Ranges that must all hold, and areas in which a body must lie; without any range, nothing lies inside."""

    ranges: tuple[Range, ...]
    areas: tuple[Area, ...] = ()

    def range_of(self, axis: str) -> Range | None:
        """The range of a measurement, if it has one."""
        return next((found for found in self.ranges if found.axis == axis), None)

    def area_of(self, across: str, up: str) -> Area | None:
        """The area of two measurements, if it has one."""
        return next((found for found in self.areas if (found.across, found.up) == (across, up)), None)


class RegionValues(TypedDict):
    """A region as JSON: (axis, least, most) each; and the areas."""

    ranges: list[tuple[str, float, float]]
    areas: NotRequired[list[AreaValues]]


_Figures = dict[str, float]


def region_of(
    needs: Sequence[str], held: Sequence[Mapping[str, float]], failed: Sequence[Mapping[str, float]]
) -> Region:
    """The region that bodies prove: `held` and `failed` are bodies in mm with every measurement of `needs`."""
    bad = [_figures(body, needs) for body in failed]
    good, hull = _clear_of([_figures(body, needs) for body in held], bad)
    stretches = {need: dense_stretch([figures[need] for figures in good]) for need in needs}
    if not good or any(stretch is None for stretch in stretches.values()):
        return Region(())
    ranges = tuple(Range(need, *stretch) for need, stretch in stretches.items() if stretch is not None)
    areas = tuple(_area(one, other, good, hull) for one, other in _pairs(needs))
    region = Region(ranges, areas)
    # What a ratio alone kept out lies in a cell that is now taken out.
    for figures in (figures for figures in bad if inside(region, figures)):
        areas = tuple(area.without(frozenset({_cell(area, figures)})) for area in areas)
    region = Region(ranges, areas)
    return region if any(inside(region, figures) for figures in good) else Region(())


def _pairs(needs: Sequence[str]) -> Iterator[tuple[str, str]]:
    return combinations([name for name in _MAIN if name in needs], 2)


def _clear_of(good: list[_Figures], bad: Sequence[_Figures]) -> tuple[list[_Figures], dict[str, Range]]:
    """Those bodies that held whose ranges no failed body lies within, and their ranges; ratios are axes as well."""
    while good:
        hull = {axis: Range(axis, min(f[axis] for f in good), max(f[axis] for f in good)) for axis in good[0]}
        intruder = next((f for f in bad if all(side.holds(f[axis]) for axis, side in hull.items())), None)
        if intruder is None:
            return good, hull
        good = max(_without(good, intruder), key=len)
    return [], {}


def _figures(body: Mapping[str, float], needs: Sequence[str]) -> _Figures:
    figures = {need: round(body[need], _FINE["length"]) for need in needs}
    return figures | {_ratio(*pair): round(body[pair[0]] / body[pair[1]], _FINE["ratio"]) for pair in _pairs(needs)}


def _ratio(one: str, other: str) -> str:
    return f"{one}/{other}"


def _without(good: Sequence[_Figures], intruder: _Figures) -> Iterator[list[_Figures]]:
    """The bodies that held beyond the intruder, for either side of every axis."""
    for axis, value in intruder.items():
        yield [figures for figures in good if figures[axis] < value]
        yield [figures for figures in good if figures[axis] > value]


def _area(one: str, other: str, good: Sequence[_Figures], hull: Mapping[str, Range]) -> Area:
    """Where two girths lie densely, within the ratios of the bodies that held."""
    area = dense_area(one, other, [(figures[one], figures[other]) for figures in good])
    ratio = hull[_ratio(one, other)]
    beyond = (cell for cell in area.cells if not ratio.holds((cell[0] + 0.5) * CELL / ((cell[1] + 0.5) * CELL)))
    return area.without(frozenset(beyond))


def _cell(area: Area, body: Mapping[str, float]) -> tuple[int, int]:
    return area.cell_of(*_pair_of(area, body))


def _pair_of(area: Area, body: Mapping[str, float]) -> tuple[float, float]:
    return round(body[area.across], _FINE["length"]), round(body[area.up], _FINE["length"])


def inside(region: Region, body: Mapping[str, float]) -> bool:
    """True when every measurement of the body (mm) lies in its range, and its main girths where bodies were tried."""
    return bool(region.ranges) and not any(True for _ in missed_axes(region, body))


def outside(
    region: Region, body: Mapping[str, float], unit: Unit = Unit.CM, group: str = "women"
) -> tuple[Problem, ...]:
    """Why a body (mm) of a group does not lie inside: a warning for each range or area it misses, empty inside."""
    if not region.ranges:
        said = "This draft held nowhere on enough bodies alike."
        return (Problem("proof.outside", said, "Prove it anew.", Place(), Severity.WARNING),)
    return tuple(_told(region, axes, body, unit, group) for axes in missed_axes(region, body))


def missed_axes(region: Region, body: Mapping[str, float]) -> Iterator[tuple[str, ...]]:
    """What puts a body (mm) outside: measurements beyond their range, and girths that are, each alone, within it."""
    misses = {found.axis for found in region.ranges if not found.holds(round(body[found.axis], _FINE["length"]))}
    yield from ((found.axis,) for found in region.ranges if found.axis in misses)
    for area in region.areas:
        if not misses & {area.across, area.up} and not area.holds(*_pair_of(area, body)):
            yield area.across, area.up


def _told(region: Region, axes: tuple[str, ...], body: Mapping[str, float], unit: Unit, group: str) -> Problem:
    found = region.range_of(axes[0])
    assert found is not None  # every measurement of an area has its range
    titles = [measures_for(group)[axis].title.lower() for axis in axes]
    if len(axes) == 1:
        said = _range_words(titles[0], found, body[found.axis], unit)
    else:
        said = _pair_words(titles, [body[axis] for axis in axes], unit)
    fix = "Measure again. If it is right, ask the designer: the pattern is checked on its own, but on no like body."
    return Problem("proof.outside", said, fix, Place(point=axes[0]), Severity.WARNING)


def _range_words(title: str, found: Range, value: float, unit: Unit) -> str:
    mine, least, most = (show_length(figure, unit) for figure in (value, found.least, found.most))
    # Rounded alike, a figure just outside would read as if it were inside.
    if mine in (least, most):
        mine = f"a little {'under' if value < found.least else 'over'} {mine}"
    return f"The {title} is {mine}; this design was proved from {least} to {most}."


def _pair_words(titles: Sequence[str], girths: Sequence[float], unit: Unit) -> str:
    one, other = (f"{title} of {show_length(mm, unit)}" for title, mm in zip(titles, girths, strict=True))
    return f"A {one} beside a {other} is rare: this design was tried on too few such bodies."


def region_values(region: Region) -> RegionValues:
    """The region as JSON."""
    ranges = [(found.axis, found.least, found.most) for found in region.ranges]
    return RegionValues(ranges=ranges, areas=[area_values(area) for area in region.areas])


def read_region(values: RegionValues) -> Region:
    """The region that `region_values` wrote; of a proof from before there were areas, the ranges of measurements."""
    ranges = (Range(axis, least, most) for axis, least, most in values["ranges"] if "/" not in axis)
    return Region(tuple(ranges), tuple(map(read_area, values.get("areas", ()))))
