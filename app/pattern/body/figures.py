"""Draws the figure of every measurement: our croquis with the tape on it, one SVG each.

Run `python -m app.pattern.body.figures static/figures` after a change. The
files stand alone (they are shown as pictures), so their colours are explicit.
Frame: that of `croquis`, y down.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Sequence
from itertools import pairwise
from math import cos, hypot, radians, sin
from pathlib import Path

from app.pattern.body.croquis import VIEWS, CroquisShape
from app.pattern.body.register import MEASURES
from app.pattern.body.tapes import CROPS, Drop, Mark, Ring, Run, TapeFigure
from app.pattern.svg import element, number, said, svg

__all__ = ["draw_figure", "main", "smooth_path"]

XY = tuple[float, float]

LINE, FAINT, SKIN, CLOTH, SEAT = "#4a4642", "#a89f95", "#faf6f0", "#ebe4da", "#d9d1c6"
TAPE = "#0f5b5b"


def draw_figure(name: str) -> str:
    """The SVG of one measure's figure."""
    measure = MEASURES[name]
    figure = measure.tape
    left, top, width, height = CROPS[figure.crop]
    unit = width / 160.0
    drawn = [*_floor(figure, unit), *(_shape(shape, unit) for shape in VIEWS[figure.view])]
    drawn += [_mark(mark, unit) for mark in figure.marks]
    parts = (
        element("title", said(measure.title), id="t"),
        element("desc", said(measure.definition), id="d"),
        element("g", "\n", "\n".join(drawn), "\n", fill="none", stroke_linecap="round", stroke_linejoin="round"),
    )
    box = f"{left:g} {top:g} {width:g} {height:g}"
    inside = "\n".join(("", *parts, ""))
    return svg(inside, viewBox=box, width="320", height="480", role="img", aria_labelledby="t d") + "\n"


def _floor(figure: TapeFigure, unit: float) -> list[str]:
    if figure.crop not in {"full", "legs"}:
        return []
    left, _, width, _ = CROPS[figure.crop]
    start, end = left + width * 0.12, left + width * 0.88
    return [element("line", x1=start, x2=end, y1="752", y2="752", stroke=FAINT, stroke_width=unit)]


def _shape(shape: CroquisShape, unit: float) -> str:
    path = " ".join(smooth_path(part, closed=shape.closed) for part in shape.points.split(";"))
    looks: dict[str, dict[str, str | float]] = {
        "body": {"fill": SKIN, "fill_rule": "evenodd", "stroke": LINE, "stroke_width": 1.25 * unit},
        "cloth": {"fill": CLOTH, "stroke": LINE, "stroke_width": 0.9 * unit},
        "shoulder": {"fill": SKIN, "stroke": FAINT, "stroke_width": unit},
        "faint": {"stroke": FAINT, "stroke_width": unit},
        "seat": {"fill": SEAT, "stroke": FAINT, "stroke_width": unit},
    }
    return element("path", d=path, **looks[shape.paint])


# --- the tape ------------------------------------------------------------------------------------------------------


def _mark(mark: Mark, unit: float) -> str:
    if isinstance(mark, Ring):
        # A girth: the near half of an ellipse drawn full, the far half dashed
        ring = mark
        turn = radians(ring.tilt)
        reach = (ring.rx * cos(turn), ring.rx * sin(turn))
        start = (ring.x - reach[0], ring.y - reach[1])
        end = (ring.x + reach[0], ring.y + reach[1])

        def arc(sweep: int) -> str:
            return f"M{_xy(start)} A{number(ring.rx)} {number(ring.ry)} {number(ring.tilt)} 0 {sweep} {_xy(end)}"

        return f"{_behind(arc(1), unit)}\n{_tape(arc(0), unit)}"
    if isinstance(mark, Run):
        return _run(mark, unit)
    return _drop(mark, unit)


def _tape(path: str, unit: float, **more: str) -> str:
    return element("path", class_="tape", d=path, stroke=TAPE, stroke_width=2.6 * unit, **more)


def _behind(path: str, unit: float) -> str:
    return _tape(path, 0.62 * unit, stroke_dasharray=f"{number(2.2 * unit)} {number(3.6 * unit)}", opacity="0.75")


def _run(run: Run, unit: float) -> str:
    """A length along the body: a line with a dot at each end."""
    path = smooth_path(run.points, closed=False)
    if run.hidden:
        return _behind(path, unit)
    ends = _corners(run.points)
    dots = [_dot(point, unit) for point in (ends[0][0], ends[-1][-1])] if run.dots else []
    return "\n".join([_tape(path, unit), *dots])


def _dot(point: XY, unit: float) -> str:
    return element("circle", class_="tape-end", cx=point[0], cy=point[1], r=3.1 * unit, fill=TAPE)


def _drop(drop: Drop, unit: float) -> str:
    """A height: a straight line with bars at its ends, and leaders from the body."""
    bar = 6.0 * unit
    line = f"M{number(drop.x)} {number(drop.top)} V{number(drop.bottom)}"
    bars = "".join(f" M{number(drop.x - bar)} {number(y)} H{number(drop.x + bar)}" for y in (drop.top, drop.bottom))
    tape = _tape(line + bars, unit)
    if drop.start == drop.x:
        return tape
    leader = f"M{number(drop.start)} {number(drop.top)} H{number(drop.x)}"
    return f"{_behind(leader, unit)}\n{tape}"


# --- smooth lines --------------------------------------------------------------------------------------------------


def smooth_path(points: str, *, closed: bool) -> str:
    """SVG path data of cubic curves through points such as `0,0 10,5 | 20,0`; `|` marks a corner.

    Centripetal Catmull-Rom splines: they pass through every point without loops or overshoot.
    """
    runs = _corners(points)
    first = runs[0][0]
    if closed and len(runs) == 1 and "|" not in points:
        return f"M{_xy(first)} {' '.join(_round(_distinct(runs[0])))} Z"
    parts = [f"M{_xy(first)}"]
    for index, run in enumerate(runs):
        joined = run if index == 0 else [runs[index - 1][-1], *run]
        parts += _curves(_distinct(joined))
    return " ".join([*parts, "Z"]) if closed else " ".join(parts)


def _corners(points: str) -> list[list[XY]]:
    runs = [re.findall(r"(-?[\d.]+),(-?[\d.]+)", run) for run in points.split("|")]
    return [[(float(x), float(y)) for x, y in run] for run in runs if run]


def _distinct(run: Sequence[XY]) -> list[XY]:
    return [point for index, point in enumerate(run) if index == 0 or point != run[index - 1]]


def _curves(run: Sequence[XY]) -> list[str]:
    if len(run) < 2:
        return []
    if len(run) == 2:
        return [f"L{_xy(run[1])}"]
    padded = [_beyond(run[0], run[1]), *run, _beyond(run[-1], run[-2])]
    return [_cubic(padded[i : i + 4]) for i in range(len(run) - 1)]


def _round(run: Sequence[XY]) -> list[str]:
    """The curves of an outline without any corner; its last point may repeat the first."""
    ring = list(run[:-1]) if run[0] == run[-1] else list(run)
    count = len(ring)
    return [_cubic([ring[(i + k - 1) % count] for k in range(4)]) for i in range(count)]


def _beyond(end: XY, inner: XY) -> XY:
    return (2 * end[0] - inner[0], 2 * end[1] - inner[1])


def _cubic(four: Sequence[XY]) -> str:
    before, start, end, after = four
    steps = [max(hypot(b[0] - a[0], b[1] - a[1]), 1e-9) ** 0.5 for a, b in pairwise(four)]
    one = _handle(before, start, end, (steps[0], steps[1]))
    two = _handle(after, end, start, (steps[2], steps[1]))
    return f"C{_xy(one)} {_xy(two)} {_xy(end)}"


def _handle(before: XY, at: XY, after: XY, steps: tuple[float, float]) -> XY:
    """The control point beside `at` toward `after`, for a centripetal spline with these parameter steps."""
    a, b = steps
    low = 3 * a * (a + b)

    def along(i: int) -> float:
        return (a * a * after[i] - b * b * before[i] + (2 * a * a + 3 * a * b + b * b) * at[i]) / low

    return (along(0), along(1))


def _xy(point: XY) -> str:
    return f"{number(point[0])} {number(point[1])}"


def main(arguments: Sequence[str]) -> int:
    """Write every figure into the folder named by the one argument."""
    folder = Path(arguments[0])
    folder.mkdir(parents=True, exist_ok=True)
    for name, measure in MEASURES.items():
        folder.joinpath(measure.figure).write_text(draw_figure(name), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
