"""Crossings of whole paths, of one path with itself, and whether a path is free of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from app.pattern.geometry.halving import hull
from app.pattern.geometry.meeting import itself, meetings
from app.pattern.geometry.path import Path
from app.pattern.geometry.point import Point
from app.pattern.geometry.segments import Arc, Cubic, Segment
from app.pattern.geometry.work import spend

__all__ = ["Crossing", "crossings", "self_crossings"]

#: Crossings nearer than this along both paths (mm) are one.
_ONE = 1e-4


class Crossing(NamedTuple):
    """A point where two paths meet, and its distance in mm along each."""

    point: Point
    along_a: float
    along_b: float


def crossings(path_a: Path, path_b: Path) -> tuple[Crossing, ...]:
    """All points where two paths cross or touch, in order along the first.

    Where they run on one another, the ends of each segment's shared stretch are given.
    """
    found: list[Crossing] = []
    boxes = [segment.bounds for segment in path_b.segments]
    for i, a in enumerate(path_a.segments):
        spend(1 + len(boxes) // 20)
        box = a.bounds
        for j, b in enumerate(path_b.segments):
            if box.meets(boxes[j], 1e-6):
                found += [Crossing(a.point(s), path_a.along(i, s), path_b.along(j, t)) for s, t in meetings(a, b)]
    return _once(found, path_a.length if path_a.closed else 0.0, path_b.length if path_b.closed else 0.0)


def _once(found: Sequence[Crossing], round_a: float, round_b: float) -> tuple[Crossing, ...]:
    """Each crossing once; `round_a` and `round_b` are the lengths of closed paths, 0 for open ones."""
    kept: list[Crossing] = []
    spend(len(found) * len(found) // 40)
    for one in sorted(found, key=lambda c: (c.along_a, c.along_b)):
        if not any(_near(one.along_a, k.along_a, round_a) and _near(one.along_b, k.along_b, round_b) for k in kept):
            kept.append(one)
    return tuple(kept)


def _near(a: float, b: float, around: float) -> bool:
    gap = abs(a - b)
    return gap < _ONE or (around > 0.0 and around - gap < _ONE)


def self_crossings(path: Path) -> tuple[Crossing, ...]:
    """Points where a path meets itself, joints of neighbours apart; `along_a` < `along_b`."""
    found: list[Crossing] = []
    segments, length = path.segments, path.length
    boxes = [segment.bounds for segment in segments]
    around = length if path.closed else 0.0
    for i, a in enumerate(segments):
        spend(5 + (len(segments) - i) // 20)
        pair = itself(a) if isinstance(a, Cubic) else None
        if pair is not None:
            s, t = max(pair[0], 0.0), min(pair[1], 1.0)
            found.append(Crossing(a.point(s), path.along(i, s), path.along(i, t)))
        for j in range(i + 1, len(segments)):
            if boxes[i].meets(boxes[j], 1e-6) and not _only_joined(a, segments[j]):
                pairs = meetings(a, segments[j])
                found += [Crossing(a.point(s), path.along(i, s), path.along(j, t)) for s, t in pairs]
    apart = [c for c in found if not _near(c.along_a, c.along_b, around)]
    return _once(apart, around, around)


def _only_joined(a: Segment, b: Segment) -> bool:
    """True when b follows a and a line across their joint parts them: then they meet nowhere else."""
    joint = a.end
    if joint.distance(b.start) > _ONE:
        return False
    out, back = a.tangent(1.0), b.tangent(0.0)
    wx, wy = out.x + back.x, out.y + back.y
    if wx * wx + wy * wy < 0.01:
        return False
    before, after = _hull(a), _hull(b)
    return all((x - joint.x) * wx + (y - joint.y) * wy <= _ONE for x, y in before) and all(
        (x - joint.x) * wx + (y - joint.y) * wy >= -_ONE for x, y in after
    )


def _hull(segment: Segment) -> tuple[Point, ...]:
    if isinstance(segment, Arc) and abs(segment.sweep) > 2.0:
        left, bottom, right, top = segment.bounds
        return Point(left, bottom), Point(right, bottom), Point(right, top), Point(left, top)
    return hull(segment)
