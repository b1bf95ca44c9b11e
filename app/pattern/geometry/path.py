"""A path: straight lines, arcs and cubics joined end to end, measured along its length in mm."""

from __future__ import annotations

import itertools
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, field

from app.pattern.geometry.point import SAME, Box, GeometryError, Point
from app.pattern.geometry.segments import Line, Segment
from app.pattern.geometry.transform import Transform
from app.pattern.units import mm, mm_unlike

__all__ = ["JOINT", "Path"]

#: Ends of neighbouring segments may lie this far apart (mm) and still count as joined.
JOINT = 1e-3


@dataclass(frozen=True, slots=True)
class Path:
    """Segments that follow one another without a gap. Distances along it count in mm from its start."""

    segments: tuple[Segment, ...]
    _stops: tuple[float, ...] = field(default=(), init=False, repr=False, compare=False)
    _bounds: Box | None = field(default=None, init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Refuse a path of nothing, or with a gap in it."""
        if not self.segments:
            raise GeometryError("a path needs at least one segment")
        before = self.segments[0]
        for after in self.segments[1:]:
            if before.end.distance(after.start) > JOINT:
                raise GeometryError(f"a path has a gap of {before.end.distance(after.start):.3f} mm in it")
            before = after

    @staticmethod
    def through(*points: Point) -> Path:
        """Straight lines through the points in order; a point repeated straight away counts once."""
        lines = tuple(Line(Point(*a), Point(*b)) for a, b in itertools.pairwise(points) if Point(*a).distance(b) > SAME)
        if not lines:
            raise GeometryError("a line needs two different points")
        return Path(lines)

    @staticmethod
    def of(segments: Iterable[Segment]) -> Path:
        """A path of the given segments, those of no length left out."""
        return Path(tuple(s for s in segments if s.length > SAME))

    @property
    def start(self) -> Point:
        """Where it starts."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """Where it ends."""
        return self.segments[-1].end

    @property
    def stops(self) -> tuple[float, ...]:
        """Distance in mm at which each segment starts, and last the whole length."""
        if not self._stops:
            total, stops = 0.0, [0.0]
            for segment in self.segments:
                total += segment.length
                stops.append(total)
            object.__setattr__(self, "_stops", tuple(stops))
        return self._stops

    @property
    def length(self) -> float:
        """Length in mm (error below 0.001 mm)."""
        return self.stops[-1]

    @property
    def closed(self) -> bool:
        """True when it ends where it starts."""
        return self.start.distance(self.end) <= JOINT

    @property
    def bounds(self) -> Box:
        """The box round the path, mm."""
        if self._bounds is None:
            box = self.segments[0].bounds
            for segment in self.segments[1:]:
                box = box.joined(segment.bounds)
            object.__setattr__(self, "_bounds", box)
            return box
        return self._bounds

    @property
    def signed_area(self) -> float:
        """Area in mm² inside a closed path, > 0 when it runs anticlockwise."""
        if not self.closed:
            raise GeometryError("an open path has no area")
        return sum(s.swept() for s in self.segments)

    def reversed(self) -> Path:
        """The same path walked the other way."""
        return Path(tuple(s.reversed() for s in reversed(self.segments)))

    def transformed(self, transform: Transform) -> Path:
        """The path after a transform."""
        return Path(tuple(s.transformed(transform) for s in self.segments))

    def joined(self, other: Path) -> Path:
        """This path and then `other`, which must start where this ends."""
        gap = self.end.distance(other.start)
        if gap > JOINT:
            raise GeometryError(f"the second path starts {mm(gap)} away from the end of the first")
        return Path(self.segments + other.segments)

    def place(self, distance: float) -> tuple[int, float]:
        """Index of the segment and parameter on it at `distance` mm; at a joint, the start of the later segment."""
        stops = self.stops
        if not -JOINT <= distance <= stops[-1] + JOINT:
            raise GeometryError("{} along is off a path that is {} long".format(*mm_unlike(distance, stops[-1])))
        index = min(max(bisect_right(stops, distance) - 1, 0), len(self.segments) - 1)
        segment = self.segments[index]
        return index, min(max(segment.t_at(distance - stops[index]), 0.0), 1.0)

    def along(self, index: int, t: float) -> float:
        """Distance in mm along the path of parameter t of the segment with that index."""
        return self.stops[index] + self.segments[index].length_to(t)

    def point_at(self, distance: float) -> Point:
        """The point `distance` mm along."""
        index, t = self.place(distance)
        return self.segments[index].point(t)

    def tangent_at(self, distance: float) -> Point:
        """Direction of travel at `distance` mm, a unit vector; at a corner, the direction it leaves in."""
        index, t = self.place(distance)
        return self.segments[index].tangent(t)

    def part(self, from_distance: float, to_distance: float) -> Path:
        """The stretch between two distances (mm); on a closed path it may run over the start."""
        if from_distance > to_distance and self.closed:
            if self.length - from_distance < SAME:
                return self.part(0.0, to_distance)
            if to_distance < SAME:
                return self.part(from_distance, self.length)
            return self.part(from_distance, self.length).joined(self.part(0.0, to_distance))
        if to_distance - from_distance < SAME:
            raise GeometryError("a part of a path must end further along than it starts")
        first, low = self.place(from_distance)
        last, high = self.place(to_distance)
        if high <= 0.0 and last > first:
            last, high = last - 1, 1.0
        return Path(tuple(self._stretches(first, low, last, high)))

    def _stretches(self, first: int, low: float, last: int, high: float) -> list[Segment]:
        if first == last:
            return [cut(self.segments[first], low, high)]
        ends = [cut(self.segments[first], low, 1.0), *self.segments[first + 1 : last]]
        return [s for s in [*ends, cut(self.segments[last], 0.0, high)] if s.length > SAME]

    def flatten(self, tolerance: float = 0.02) -> tuple[Point, ...]:
        """Points on the path whose chords stay within `tolerance` mm of it, both ends included."""
        points: list[Point] = [self.start]
        for segment in self.segments:
            points.extend(segment.flatten(tolerance)[1:])
        return tuple(points)


def cut(segment: Segment, low: float, high: float) -> Segment:
    """The part of a segment between two parameters."""
    if high < 1.0:
        segment, low = segment.split(high)[0], min(low / high, 1.0) if high > 0.0 else 0.0
    return segment.split(low)[1] if low > 0.0 else segment
