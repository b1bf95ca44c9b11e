"""A chart of the bodies of a proof: two girths against each other, who held and who did not, and the proved region."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor
from urllib.parse import urlencode

import shapely

from app.pattern.body import MEASURES
from app.pattern.proof import CELL, Region, missed_axes
from app.pattern.svg import element, number, said, svg
from app.pattern.units import MM_PER, Unit, show_length
from app.shop.proofs.values import BodyResult

__all__ = ["Chart", "axes_of", "chart_svg"]

#: Pairs of measurements that tell bodies apart best, the first that a draft needs; across, then up.
_PAIRS = (("bust_girth", "hip_girth"), ("bust_girth", "waist_girth"), ("waist_girth", "hip_girth"))
_WIDE, _HIGH = 480.0, 380.0
_LEFT, _RIGHT, _TOP, _FOOT = 50.0, 14.0, 14.0, 46.0
#: About so many figures stand along an axis.
_FIGURES = 6


@dataclass(frozen=True, slots=True)
class Chart:
    """What a chart shows: bodies, the region they prove, in which unit; `here` is one more body (mm), marked `mark`.

    With `linked`, each body leads to `?body=ID#body` of the page; `chosen` is the id of the one shown there.
    """

    bodies: Sequence[BodyResult]
    region: Region
    unit: Unit = Unit.CM
    here: Mapping[str, float] | None = None
    mark: str = "You"
    linked: bool = False
    chosen: str = ""


@dataclass(frozen=True, slots=True)
class _Axis:
    """One measurement: its least and most in mm, where they stand in the picture, and the step between figures."""

    name: str
    least: float
    most: float
    start: float
    end: float
    step: float

    def at(self, mm: float) -> float:
        """Where a value stands; values beyond the ends stand at the end."""
        share = (min(max(mm, self.least), self.most) - self.least) / (self.most - self.least)
        return round(self.start + share * (self.end - self.start), 1)

    @property
    def figures(self) -> list[float]:
        """The values that are written, mm."""
        return [n * self.step for n in range(ceil(self.least / self.step), floor(self.most / self.step) + 1)]


def axes_of(needs: Sequence[str], missed: Sequence[str] = ()) -> tuple[str, str]:
    """The two measurements to show: those in which a body `missed` the region, so that it is seen to lie outside."""
    fit = next((pair for pair in _PAIRS if set(missed) <= set(pair) <= set(needs)), None)
    if fit is not None:
        return fit
    main = {name for pair in _PAIRS for name in pair}
    known = sorted(needs, key=lambda name: name not in main)
    shown = sorted(list(dict.fromkeys((*missed, *known)))[:2], key=known.index)
    return shown[0], shown[-1]


def chart_svg(chart: Chart) -> str:
    """The chart as SVG with class names only; "" without bodies."""
    if not chart.bodies:
        return ""
    missed = next(missed_axes(chart.region, chart.here), ()) if chart.here is not None else ()
    wide, high = axes_of(list(chart.bodies[0]["body"]), missed)
    across, up = _axis(wide, chart, _LEFT, _WIDE - _RIGHT), _axis(high, chart, _HIGH - _FOOT, _TOP)
    parts = [*_grid(across, up, chart.unit), *_region(chart.region, across, up)]
    # Those that did not hold are drawn last, so that none of them is hidden.
    for body in sorted(chart.bodies, key=lambda one: one["failed"] > 0):
        parts.append(_body(body, chart, across, up))
    if chart.here is not None:
        parts.append(_here(chart, across, up))
    failed = sum(body["failed"] > 0 for body in chart.bodies)
    told = f"{len(chart.bodies)} bodies by {_words(across)} and {_words(up)}; {failed} of them did not hold."
    box = f"0 0 {number(_WIDE)} {number(_HIGH)}"
    return svg(*parts, class_="bodies", role="group", viewBox=box, aria_label=told)


def _axis(name: str, chart: Chart, start: float, end: float) -> _Axis:
    values = [body["body"][name] for body in chart.bodies]
    values += [chart.here[name]] if chart.here is not None else []
    least, most = min(values), max(values)
    margin = max(10.0, 0.04 * (most - least))
    return _Axis(name, least - margin, most + margin, start, end, _step(most - least, chart.unit))


def _step(span: float, unit: Unit) -> float:
    """A round step in the reader's unit, mm: 5, 10, 20 or 50 cm; 2, 4, 8 or 16 in."""
    steps = (5, 10, 20, 50) if unit is Unit.CM else (2, 4, 8, 16)
    lengths = [step * MM_PER[str(unit)] for step in steps]
    return next((step for step in lengths if span / step <= _FIGURES), lengths[-1])


def _grid(across: _Axis, up: _Axis, unit: Unit) -> list[str]:
    foot, left = _HIGH - _FOOT, _LEFT
    ends = [across.at(mm) for mm in across.figures], [up.at(mm) for mm in up.figures]
    lines = [element("line", x1=x, x2=x, y1=_TOP, y2=foot) for x in ends[0]]
    lines += [element("line", x1=left, x2=_WIDE - _RIGHT, y1=y, y2=y) for y in ends[1]]
    words = [_text(_figure(mm, unit), "middle", x=across.at(mm), y=foot + 16) for mm in across.figures]
    words += [_text(_figure(mm, unit), "end", x=left - 6, y=up.at(mm) + 4) for mm in up.figures]
    centre, middle = (left + _WIDE - _RIGHT) / 2, (_TOP + foot) / 2
    words.append(_text(f"{_words(across)}, {unit}", "middle", x=centre, y=_HIGH - 8))
    turned = f"translate(12 {number(middle)}) rotate(-90)"
    words.append(_text(f"{_words(up)}, {unit}", "middle", transform=turned))
    return [element("g", *lines, class_="grid"), element("g", *words, class_="figures")]


def _text(words: str, anchor: str, **place: str | float) -> str:
    return element("text", said(words), **place, text_anchor=anchor)


def _figure(mm: float, unit: Unit) -> str:
    return show_length(mm, unit, named=False)


def _words(axis: _Axis) -> str:
    return MEASURES[axis.name].title.lower() if axis.name in MEASURES else axis.name


def _region(region: Region, across: _Axis, up: _Axis) -> list[str]:
    """The tinted field: the cells of the two girths where they have an area, else their ranges."""
    wide, high = region.range_of(across.name), region.range_of(up.name)
    if wide is None or high is None:
        return []
    field: shapely.Geometry = shapely.box(wide.least, high.least, wide.most, high.most)
    area = region.area_of(across.name, up.name)
    if area is not None:
        cells = (shapely.box(x * CELL, y * CELL, (x + 1) * CELL, (y + 1) * CELL) for x, y in area.cells)
        field = shapely.intersection(field, shapely.union_all(list(cells)))
    parts = [part for part in shapely.get_parts(field) if isinstance(part, shapely.Polygon)]
    rings = [ring for part in parts for ring in (part.exterior, *part.interiors)]
    return [element("path", class_="region", d="".join(_ring(ring, across, up) for ring in rings))]


def _ring(ring: shapely.LinearRing, across: _Axis, up: _Axis) -> str:
    corners = [f"{number(across.at(x))} {number(up.at(y))}" for x, y in ring.coords[:-1]]
    return f"M{'L'.join(corners)}Z"


def _body(body: BodyResult, chart: Chart, across: _Axis, up: _Axis) -> str:
    x, y = across.at(body["body"][across.name]), up.at(body["body"][up.name])
    held = not body["failed"]
    cross = f"M{number(x - 4)} {number(y - 4)}l8 8m0 -8l-8 8"
    shape = element("circle", cx=x, cy=y, r=2.8) if held else element("path", d=cross)
    girths = ", ".join(f"{_words(axis)} {show_length(body['body'][axis.name], chart.unit)}" for axis in (across, up))
    title = element("title", said(f"{body['id']}: {girths}; {'holds' if held else 'did not hold'}"))
    kind = "held" if held else "failed"
    if not chart.linked:
        return element("g", title, shape, class_=kind)
    ring = [element("circle", class_="ring", cx=x, cy=y, r=8.0)] if body["id"] == chart.chosen else []
    # Hundreds of stops would bar the way of the keyboard: it goes to those that did not hold.
    stop = "-1" if held else None
    address = f"?{urlencode({'body': body['id']})}#body"
    return element("a", title, shape, *ring, class_=kind, href=address, tabindex=stop)


def _here(chart: Chart, across: _Axis, up: _Axis) -> str:
    assert chart.here is not None
    x, y = across.at(chart.here[across.name]), up.at(chart.here[up.name])
    # Near the right edge the words stand at the left of their place.
    shift, anchor = (-12, "end") if x > _WIDE - 90 else (12, "start")
    cross = f"M{number(x - 11)} {number(y)}h22M{number(x)} {number(y - 11)}v22"
    return element(
        "g",
        element("circle", cx=x, cy=y, r=7.0),
        element("path", d=cross),
        _text(chart.mark, anchor, x=x + shift, y=y - 8),
        class_="here",
    )
