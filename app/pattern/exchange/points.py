"""A path as the points of a polyline: few, close to the curve, with its corners told apart from the rest."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from shapely.geometry import LineString

from app.pattern.geometry import Line, Path, Point, Segment

__all__ = ["CHORD_ERROR", "Polyline", "polyline"]

#: No chord of a polyline leaves its curve by more than this, mm: first cut finely, then thinned out.
CHORD_ERROR = 0.019
_FINE, _THIN = 0.004, 0.015
#: A bend at a joint of less than this counts as running on, radians (half a degree).
_RUNS_ON = pi / 360.0


@dataclass(frozen=True, slots=True)
class Polyline:
    """A path's points in order (a closed path's first point is not repeated), and which of them are turn points.

    Turn points are corners, the two ends of an open path, and both ends of every
    straight line, so that a program that draws a smooth curve through the points keeps
    straight lines straight. All others are curve points.
    """

    points: tuple[Point, ...]
    turns: tuple[bool, ...]
    closed: bool


def polyline(path: Path) -> Polyline:
    """The polyline of a path within `CHORD_ERROR`."""
    points: list[Point] = []
    turns: list[bool] = []
    before = path.segments[-1] if path.closed else None
    for segment in path.segments:
        inner = _thinned(segment)[:-1]
        points += inner
        turns += [_turns(before, segment), *(False for _ in inner[1:])]
        before = segment
    if not path.closed:
        points.append(path.end)
        turns.append(True)
    return Polyline(tuple(points), tuple(turns), path.closed)


def _thinned(segment: Segment) -> list[Point]:
    """Both ends of the segment and as few points between them as the error allows."""
    fine = segment.flatten(_FINE)
    if len(fine) <= 2:
        return list(fine)
    kept = LineString(fine).simplify(_THIN, preserve_topology=False)
    return [Point(x, y) for x, y in kept.coords]


def _turns(before: Segment | None, after: Segment) -> bool:
    """True at an open end, at an end of a straight line and at a corner."""
    if before is None or isinstance(before, Line) or isinstance(after, Line):
        return True
    one, two = before.tangent(1.0), after.tangent(0.0)
    bend = one.turn_to(two)
    return abs(bend) > _RUNS_ON
