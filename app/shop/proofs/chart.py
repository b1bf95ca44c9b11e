"""A chart of the bodies of a proof: two girths against each other, who held and who did not, and the proved region."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil, floor
from urllib.parse import urlencode
from xml.sax.saxutils import escape, quoteattr

from app.pattern.body import MEASURES
from app.pattern.proof import Region
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


def axes_of(needs: Sequence[str]) -> tuple[str, str]:
    """The two measurements to show against each other."""
    fit = next((pair for pair in _PAIRS if set(pair) <= set(needs)), None)
    return fit or (needs[0], needs[1 if len(needs) > 1 else 0])


def chart_svg(chart: Chart) -> str:
    """The chart as SVG with class names only; "" without bodies."""
    if not chart.bodies:
        return ""
    across, up = _axes(chart)
    parts = [*_grid(across, up, chart.unit), *_region(chart.region, across, up)]
    # Those that did not hold are drawn last, so that none of them is hidden.
    for body in sorted(chart.bodies, key=lambda one: one["failed"] > 0):
        parts.append(_body(body, chart, across, up))
    if chart.here is not None:
        parts.append(_here(chart, across, up))
    failed = sum(body["failed"] > 0 for body in chart.bodies)
    said = f"{len(chart.bodies)} bodies by {_words(across)} and {_words(up)}; {failed} of them did not hold."
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="bodies" role="group" viewBox="0 0 {_WIDE:g} {_HIGH:g}" '
        f"aria-label={quoteattr(said)}>{''.join(parts)}</svg>"
    )


def _axes(chart: Chart) -> tuple[_Axis, _Axis]:
    across, up = axes_of(list(chart.bodies[0]["body"]))
    return (
        _axis(across, chart, _LEFT, _WIDE - _RIGHT),
        _axis(up, chart, _HIGH - _FOOT, _TOP),
    )


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
    lines = [
        f'<line x1="{across.at(mm):g}" x2="{across.at(mm):g}" y1="{_TOP:g}" y2="{foot:g}"/>' for mm in across.figures
    ]
    lines += [
        f'<line x1="{left:g}" x2="{_WIDE - _RIGHT:g}" y1="{up.at(mm):g}" y2="{up.at(mm):g}"/>' for mm in up.figures
    ]
    words = [
        f'<text x="{across.at(mm):g}" y="{foot + 16:g}" text-anchor="middle">{_figure(mm, unit)}</text>'
        for mm in across.figures
    ]
    words += [
        f'<text x="{left - 6:g}" y="{up.at(mm) + 4:g}" text-anchor="end">{_figure(mm, unit)}</text>'
        for mm in up.figures
    ]
    centre, middle = (left + _WIDE - _RIGHT) / 2, (_TOP + foot) / 2
    title = f'<text x="{centre:g}" y="{_HIGH - 8:g}" text-anchor="middle">{_words(across)}, {unit}</text>'
    side = f'<text text-anchor="middle" transform="translate(12 {middle:g}) rotate(-90)">{_words(up)}, {unit}</text>'
    return ['<g class="grid">', *lines, "</g>", '<g class="figures">', *words, title, side, "</g>"]


def _figure(mm: float, unit: Unit) -> str:
    return show_length(mm, unit, named=False)


def _words(axis: _Axis) -> str:
    return escape(MEASURES[axis.name].title.lower() if axis.name in MEASURES else axis.name)


def _region(region: Region, across: _Axis, up: _Axis) -> list[str]:
    wide, high = region.range_of(across.name), region.range_of(up.name)
    if wide is None or high is None:
        return []
    left, right, foot, top = across.at(wide.least), across.at(wide.most), up.at(high.least), up.at(high.most)
    return [f'<rect class="region" x="{left:g}" y="{top:g}" width="{right - left:g}" height="{foot - top:g}"/>']


def _body(body: BodyResult, chart: Chart, across: _Axis, up: _Axis) -> str:
    x, y = across.at(body["body"][across.name]), up.at(body["body"][up.name])
    held = not body["failed"]
    shape = f'<circle cx="{x:g}" cy="{y:g}" r="2.8"/>' if held else f'<path d="M{x - 4:g} {y - 4:g}l8 8m0 -8l-8 8"/>'
    ring = f'<circle class="ring" cx="{x:g}" cy="{y:g}" r="8"/>' if body["id"] == chart.chosen else ""
    said = f"<title>{escape(_said(body, across, up, chart.unit))}</title>"
    kind = "held" if held else "failed"
    if not chart.linked:
        return f'<g class="{kind}">{said}{shape}</g>'
    # Hundreds of stops would bar the way of the keyboard: it goes to those that did not hold.
    stop = ' tabindex="-1"' if held else ""
    return f'<a class="{kind}" href={quoteattr(_address(body["id"]))}{stop}>{said}{shape}{ring}</a>'


def _address(body: str) -> str:
    return f"?{urlencode({'body': body})}#body"


def _said(body: BodyResult, across: _Axis, up: _Axis, unit: Unit) -> str:
    girths = ", ".join(f"{_words(axis)} {show_length(body['body'][axis.name], unit)}" for axis in (across, up))
    return f"{body['id']}: {girths}; {'did not hold' if body['failed'] else 'holds'}"


def _here(chart: Chart, across: _Axis, up: _Axis) -> str:
    assert chart.here is not None
    x, y = across.at(chart.here[across.name]), up.at(chart.here[up.name])
    # Near the right edge the words stand at the left of their place.
    shift, anchor = (-12, "end") if x > _WIDE - 90 else (12, "start")
    label = f'<text x="{x + shift:g}" y="{y - 8:g}" text-anchor="{anchor}">'
    return (
        f'<g class="here"><circle cx="{x:g}" cy="{y:g}" r="7"/><path d="M{x - 11:g} {y:g}h22M{x:g} {y - 11:g}v22"/>'
        f"{label}{escape(chart.mark)}</text></g>"
    )
