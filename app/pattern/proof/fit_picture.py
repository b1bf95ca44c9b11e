"""The picture of a proof's fit places: at each the wanted room as a band, and over it what the bodies got, as SVG.

Everything is in presentation attributes, so that it may stand in a page with a strict content security policy.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import ceil, floor

from app.pattern.proof.fits import FitTallyValues
from app.pattern.svg import element, said, svg
from app.pattern.units import Unit, show_length

__all__ = ["fit_svg"]

_INK, _BAND, _LINE, _WRONG = "#1d2a2a", "#cfe4e1", "#0f5b5b", "#9b2c1f"
_FAMILY = "'Source Sans 3', sans-serif"
#: The picture's width in units (CSS pixels when shown at full width), where the scale lies in it, and a row's height.
_WIDTH, _LEFT, _RIGHT, _ROW, _TOP = 760.0, 190.0, 720.0, 40.0, 14.0
#: Steps of the scale in mm, by the reader's unit; the first that gives so few of them is taken.
_STEPS = {Unit.CM: (10.0, 20.0, 50.0, 100.0, 200.0, 500.0), Unit.INCH: (12.7, 25.4, 50.8, 127.0, 254.0, 508.0)}
_MOST_STEPS = 12


def fit_svg(tallies: Sequence[FitTallyValues], unit: Unit) -> str:
    """The fit places below one another on one scale of ease; "" where there is none.

    The band is the range that was declared, the thick line a standard deviation to either side of the mean, the thin
    one reaches from the least to the most, in red where some bodies lie outside.
    """
    if not tallies:
        return ""
    ends = [end for t in tallies for end in (t["least"], t["most"], *t["wanted"])]
    step = _step(min(*ends, 0.0), max(*ends, 0.0), unit)
    least, most = floor(min(*ends, 0.0) / step) * step, ceil(max(*ends, 0.0) / step) * step
    scale = (_RIGHT - _LEFT) / (most - least)

    def across(ease: float) -> float:
        return _LEFT + (ease - least) * scale

    foot = _TOP + _ROW * len(tallies)
    marks = [
        part for i in range(round((most - least) / step) + 1) for part in _mark(least + i * step, across, foot, unit)
    ]
    rows = [part for i, tally in enumerate(tallies) for part in _row(tally, _TOP + _ROW * (i + 0.5), across)]
    height = foot + 30.0
    words = "Ease at each place: the range declared, and what the bodies got"
    return svg(
        element("title", said(words)),
        *marks,
        *rows,
        viewBox=f"0 0 {_WIDTH:g} {height:g}",
        role="img",
        font_family=_FAMILY,
        font_size=13.0,
        fill=_INK,
    )


def _step(least: float, most: float, unit: Unit) -> float:
    steps = _STEPS[unit]
    return next((step for step in steps if (most - least) / step <= _MOST_STEPS), steps[-1] * 10.0)


def _mark(ease: float, across: Callable[[float], float], foot: float, unit: Unit) -> Iterator[str]:
    """A line of the scale with its figure; that of no ease at all is drawn strongly."""
    x, none = across(ease), abs(ease) < 1e-6
    yield element("line", x1=x, y1=_TOP, x2=x, y2=foot, stroke=_INK, stroke_width=1.0 if none else 0.3)
    words = show_length(ease, unit) if none else show_length(ease, unit, named=False)
    yield element("text", said(words), x=x, y=foot + 17.0, text_anchor="middle", font_size=11.0)


def _row(tally: FitTallyValues, y: float, across: Callable[[float], float]) -> Iterator[str]:
    """One place: its title, the band that is wanted, what the bodies got."""
    low, high = (across(end) for end in tally["wanted"])
    colour = _WRONG if tally["outside"] else _LINE
    mean, sd = tally["mean"], tally["sd"]
    yield element("text", said(tally["title"]), x=_LEFT - 14.0, y=y + 4.5, text_anchor="end")
    # A range that is one figure is still to be seen.
    yield element("rect", x=low - 1.0, y=y - 13.0, width=high - low + 2.0, height=26.0, fill=_BAND)
    for least, most, width in ((tally["least"], tally["most"], 1.5), (mean - sd, mean + sd, 7.0)):
        yield element("line", x1=across(least), y1=y, x2=across(most), y2=y, stroke=colour, stroke_width=width)
    yield element("circle", cx=across(mean), cy=y, r=5.0, fill="#ffffff", stroke=colour, stroke_width=2.0)
