"""A path as the path data of SVG 1.1: lines, true arcs and cubics, to a thousandth of a millimetre."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, pi

from app.pattern.geometry import Arc, Line, Path, Point, Segment
from app.pattern.svg import number, pair

__all__ = ["fine", "path_data", "place"]


def fine(value: float) -> str:
    """A number to a thousandth of a millimetre, for what is cut from."""
    return number(value, 3)


def place(point: Point) -> str:
    """A point as `x,y`, to a thousandth of a millimetre."""
    return pair(point.x, point.y, 3)


def path_data(path: Path) -> str:
    """Path data of a path that is already in the drawing's frame (mm, y down)."""
    words = [f"M{place(path.start)}", *(word for segment in path.segments for word in _words(segment))]
    return " ".join([*words, "Z"] if path.closed else words)


def _words(segment: Segment) -> Iterator[str]:
    if isinstance(segment, Line):
        yield f"L{place(segment.end)}"
    elif isinstance(segment, Arc):
        for part in _quarters(segment):
            radius = fine(part.radius)
            yield f"A{radius},{radius} 0 0 {int(part.sweep > 0.0)} {place(part.end)}"
    else:
        yield f"C{place(segment.c1)} {place(segment.c2)} {place(segment.end)}"


def _quarters(arc: Arc) -> Iterator[Arc]:
    """Parts of at most a quarter turn: near half a turn, rounding the ends would move an arc's middle."""
    count = max(1, ceil(abs(arc.sweep) / (pi / 2.0) - 1e-9))
    step = arc.sweep / count
    for turn in range(count):
        yield Arc(arc.centre, arc.radius, arc.start_angle + turn * step, step)
