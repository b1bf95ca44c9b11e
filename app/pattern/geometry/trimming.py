"""Taking from a raw parallel path what keeps its distance from the source, and dropping the loops."""

from __future__ import annotations

from itertools import pairwise
from typing import NamedTuple

from app.pattern.geometry.crossing import self_crossings
from app.pattern.geometry.near import distance_to
from app.pattern.geometry.path import JOINT, Path
from app.pattern.geometry.point import GeometryError
from app.pattern.geometry.segments import Segment
from app.pattern.units import mm

__all__ = ["without_loops"]

#: A place this much nearer than the distance (mm) is too near: below it are only errors of fitting.
_TOO_NEAR = 0.012
#: Where along a stretch it is looked at; close to its ends too, where what is too near can be short.
_LOOKS = (0.0, 0.0005, 0.005, 0.03, 0.12, 0.3, 0.5, 0.7, 0.88, 0.97, 0.995, 0.9995, 1.0)

Stretch = tuple[float, float]


class _Trial(NamedTuple):
    """A raw parallel path, the path it belongs to, and the distance in mm it should keep from it."""

    source: Path
    raw: Path
    distance: float

    def keeps(self, along: float) -> bool:
        """True where the raw path is not too near, `along` mm from its start."""
        return distance_to(self.source, self.raw.point_at(along)) >= self.distance - _TOO_NEAR

    def edge(self, bad: float, good: float) -> float:
        """Where the raw path stops being too near, between a bad and a good place along it (mm)."""
        while abs(good - bad) > 1e-4:
            middle = (bad + good) / 2.0
            bad, good = (bad, middle) if self.keeps(middle) else (middle, good)
        return good


def without_loops(source: Path, raw: Path, distance: float) -> Path:
    """The raw parallel path without the loops that come nearer to the source than `distance` mm."""
    if raw.closed:
        raw = _from_a_good_place(_Trial(source, raw, distance))
    kept: list[Segment] = []
    for low, high in good_stretches(source, raw, distance):
        part = raw.part(low, high)
        gap = kept[-1].end.distance(part.start) if kept else 0.0
        if gap > JOINT:
            raise GeometryError(f"the path turns too sharply to run parallel to it at {mm(distance)}")
        kept += part.segments
    if not kept:
        raise _nothing(distance)
    return Path(tuple(kept))


def _nothing(distance: float) -> GeometryError:
    return GeometryError(f"nothing is left of the path {mm(distance)} to the side")


def _from_a_good_place(trial: _Trial) -> Path:
    """The closed path started at a place that keeps its distance, so that no loop holds the start."""
    raw, steps = trial.raw, 60
    for i in range(steps):
        along = raw.length * i / steps
        if trial.keeps(along):
            return raw if i == 0 else raw.part(along, raw.length).joined(raw.part(0.0, along))
    raise _nothing(trial.distance)


def good_stretches(source: Path, raw: Path, distance: float) -> list[Stretch]:
    """Stretches of the raw path, between its meetings with itself, that keep the distance all along.

    Only the open ends of a path may lie too near for a part of a stretch: they are cut back.
    """
    trial, length, closed = _Trial(source, raw, distance), raw.length, raw.closed
    stops = {0.0, length}
    for crossing in self_crossings(raw):
        stops |= {crossing.along_a, crossing.along_b}
    good = []
    for low, high in pairwise(sorted(stops)):
        if high - low > 1e-6:
            stretch = _good_part(trial, (low, high), (not closed and low == 0.0, not closed and high == length))
            if stretch is not None:
                good.append(stretch)
    return good


def _good_part(trial: _Trial, between: Stretch, ends: tuple[bool, bool]) -> Stretch | None:
    """The stretch if it keeps the distance, or what is left of it where `ends` says that its ends are open."""
    low, high = between
    places = [low + (high - low) * ratio for ratio in _LOOKS]
    good = [trial.keeps(at) for at in places]
    if not any(good):
        return None
    first, last = good.index(True), len(good) - 1 - good[::-1].index(True)
    if not all(good[first : last + 1]) or (first > 0 and not ends[0]) or (last < len(good) - 1 and not ends[1]):
        return None
    if first > 0:
        low = trial.edge(places[first - 1], places[first])
    if last < len(good) - 1:
        high = trial.edge(places[last + 1], places[last])
    return (low, high)
