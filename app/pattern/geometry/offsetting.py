"""Parallel paths: every segment set off by itself, its corners joined or trimmed, its loops dropped."""

from __future__ import annotations

from itertools import pairwise
from math import pi
from typing import NamedTuple

from app.pattern.geometry.crossing import crossings
from app.pattern.geometry.fitting import parallel_cubics
from app.pattern.geometry.path import Path
from app.pattern.geometry.point import SAME, GeometryError, Point, line_line
from app.pattern.geometry.segments import Arc, Cubic, Line, Segment
from app.pattern.geometry.trimming import without_loops
from app.pattern.units import mm

__all__ = ["offset"]

#: Corners that open by less than this (mm) are closed by moving ends, not by a mitre.
_SLIT = 0.02
#: A mitre runs on at most this many times the distance.
_MITRE = 4.0

#: Corners whose directions have a product below this turn straight back, within eight degrees.
_HAIRPIN = -0.99
#: Shorter pieces (mm) are not kept.
_LEAST = 1e-6

Run = list[Segment]


class _OffsetSegment(NamedTuple):
    """One segment set off, and the directions (unit vectors) in which the segment itself leaves and arrives.

    Where a bend is too tight the run travels backwards, so its own directions would mislead.
    """

    run: Run
    leaves: Point
    arrives: Point


def offset(path: Path, distance: float) -> Path:
    """The parallel path at `distance` mm, > 0 to the left of travel; error below 0.02 mm.

    Lines stay lines and arcs stay arcs. At an inner corner the two sides are trimmed
    where they cross, at an outer one they run on straight until they cross (at most
    four times the distance). Loops that a tight bend makes are dropped. Raises
    `GeometryError` when nothing is left.
    """
    if abs(distance) < SAME:
        return path
    runs, tight = _raw_runs(path, distance)
    if not runs:
        raise GeometryError(f"nothing is left of the path {mm(abs(distance))} to the side")
    whole, loops = _joined(runs, distance, path.closed)
    result = Path(tuple(whole))
    return without_loops(path, result, abs(distance)) if tight or loops else result


def raw_parallel(path: Path, distance: float) -> Path | None:
    """The parallel path at `distance` mm with its loops still in it; None when every part of it vanishes."""
    runs, _ = _raw_runs(path, distance)
    return Path(tuple(_joined(runs, distance, path.closed)[0])) if runs else None


def _raw_runs(path: Path, distance: float) -> tuple[list[_OffsetSegment], bool]:
    """Each segment set off by itself, and whether one bends too tightly for the distance."""
    sides: list[_OffsetSegment] = []
    tight = False
    for segment in path.segments:
        if segment.length < SAME:
            continue
        run, bent = _offset_run(segment, distance)
        tight = tight or bent
        if run:
            sides.append(_OffsetSegment(run, segment.tangent(0.0), segment.tangent(1.0)))
    return sides, tight


def _offset_run(segment: Segment, distance: float) -> tuple[Run, bool]:
    """One segment set off to the left, and whether it bends too tightly for that."""
    if isinstance(segment, Line):
        way = segment.tangent(0.0)
        dx, dy = -distance * way.y, distance * way.x
        return [Line(segment.start.moved(dx, dy), segment.end.moved(dx, dy))], False
    if isinstance(segment, Arc):
        radius = segment.radius - distance if segment.sweep > 0.0 else segment.radius + distance
        if abs(radius) < SAME:
            return [], True
        if radius > 0.0:
            return [Arc(segment.centre, radius, segment.start_angle, segment.sweep)], False
        return [Arc(segment.centre, -radius, segment.start_angle + pi, segment.sweep)], True
    pieces, bent = parallel_cubics(segment, distance)
    return [piece for piece in pieces if piece.length > SAME], bent


def _joined(sides: list[_OffsetSegment], distance: float, closed: bool) -> tuple[Run, bool]:
    """All runs as one, corners seen to; and whether a corner was left that may hold a loop."""
    whole, loops = sides[0].run, False
    for last, side in pairwise(sides):
        before, after, bridge, loop = _corner(whole, side.run, (last.arrives, side.leaves), distance)
        whole = before + bridge + after
        loops = loops or loop
    half = len(whole) // 2
    if closed and half:
        ways = (sides[-1].arrives, sides[0].leaves)
        before, after, bridge, loop = _corner(whole[half:], whole[:half], ways, distance)
        whole = after + before + bridge
        loops = loops or loop
    return whole, loops


def _corner(before: Run, after: Run, ways: tuple[Point, Point], distance: float) -> tuple[Run, Run, Run, bool]:
    """Both sides of a joint trimmed or moved, what goes between them, and whether a loop may be left.

    `ways` are the directions of the source's travel into the joint and out of it.
    """
    end, start = before[-1].end, after[0].start
    gap = end.distance(start)
    if gap < 1e-7:
        return before, after, [], False
    if gap < _SLIT:
        return *_closed_slit(before, after), False
    out, back = ways
    turn = out.x * back.y - out.y * back.x
    inner = turn * distance > 0.0
    # Straight back, or nearly: which side is the outer one depends on the bends beyond, so the loops will tell.
    hairpin = out.x * back.x + out.y * back.y < _HAIRPIN
    if hairpin or not inner:
        return *_mitred(before, after, ways, abs(distance)), hairpin
    trimmed = _trimmed(before, after, _MITRE * abs(distance))
    if trimmed is not None:
        return *trimmed, [], False
    return before, after, [Line(end, start)], True


def _closed_slit(before: Run, after: Run) -> tuple[Run, Run, Run]:
    """Close a joint that hardly opens by moving the end of a line or curve; arcs stay as they are."""
    end, start = before[-1].end, after[0].start
    if not isinstance(before[-1], Arc) and not isinstance(after[0], Arc):
        middle = end.between(start, 0.5)
        return [*before[:-1], _ending(before[-1], middle)], [_starting(after[0], middle), *after[1:]], []
    if not isinstance(before[-1], Arc):
        return [*before[:-1], _ending(before[-1], start)], after, []
    if not isinstance(after[0], Arc):
        return before, [_starting(after[0], end), *after[1:]], []
    gap_shows = end.distance(start) > 5e-4
    return before, after, [Line(end, start)] if gap_shows else []


def _ending(segment: Line | Cubic, point: Point) -> Segment:
    if isinstance(segment, Line):
        return Line(segment.start, point)
    return Cubic(segment.start, segment.c1, segment.c2.plus(point.minus(segment.end)), point)


def _starting(segment: Line | Cubic, point: Point) -> Segment:
    if isinstance(segment, Line):
        return Line(point, segment.end)
    return Cubic(point, segment.c1.plus(point.minus(segment.start)), segment.c2, segment.end)


def _mitred(before: Run, after: Run, ways: tuple[Point, Point], distance: float) -> tuple[Run, Run, Run]:
    """Both sides run on straight until they cross, or as far as a mitre may go."""
    end, start = before[-1].end, after[0].start
    out, back = ways
    most = _MITRE * distance
    meet = line_line(end, end.plus(out), start, start.plus(back))
    if meet is not None and meet.distance(end) <= most and (meet.x - end.x) * out.x + (meet.y - end.y) * out.y > 0.0:
        corner = [meet]
    else:
        corner = [end.plus(out.scaled(most)), start.minus(back.scaled(most))]
    bridge: Run = [Line(p, q) for p, q in pairwise(corner)]
    if isinstance(before[-1], Line):
        before = [*before[:-1], Line(before[-1].start, corner[0])]
    else:
        bridge.insert(0, Line(end, corner[0]))
    if isinstance(after[0], Line):
        return before, [Line(corner[-1], after[0].end), *after[1:]], bridge
    return before, after, [*bridge, Line(corner[-1], start)]


def _trimmed(before: Run, after: Run, most: float) -> tuple[Run, Run] | None:
    """Both sides cut where they cross, nearest to the corner; None when they do not within `most` mm of it."""
    left, right = len(before) - _reach(before[::-1], most), _reach(after, most)
    first, second = Path(tuple(before[left:])), Path(tuple(after[:right]))
    length = first.length
    last = second.length - _LEAST if right == len(after) else most
    least = _LEAST if left == 0 else length - most
    found = [c for c in crossings(first, second) if c.along_a > least and c.along_b < last]
    if not found:
        return None
    best = min(found, key=lambda c: length - c.along_a + c.along_b)
    if max(length - best.along_a, best.along_b) > most:
        return None
    start, end = _kept(first, 0.0, best.along_a), _kept(second, best.along_b, second.length)
    return before[:left] + start, end + after[right:]


def _reach(run: Run, most: float) -> int:
    """How many segments of a run lie within `most` mm of its start."""
    total = 0.0
    for count, segment in enumerate(run, 1):
        total += segment.length
        if total > most:
            return count
    return len(run)


def _kept(path: Path, low: float, high: float) -> Run:
    return list(path.part(low, high).segments) if high - low > _LEAST / 2.0 else []
