"""Parallel paths: every segment set off by itself, its corners joined or trimmed, its loops dropped."""

from __future__ import annotations

import itertools
from math import hypot, pi

from app.pattern.geometry.crossing import crossings, self_crossings
from app.pattern.geometry.near import distance_to
from app.pattern.geometry.path import Path
from app.pattern.geometry.point import SAME, GeometryError, Point, line_line
from app.pattern.geometry.segments import Arc, Cubic, Line, Segment

__all__ = ["offset", "offset_run", "raw_runs"]

#: Aim of each fitted curve, mm; the promise is 0.02 mm.
_AIM = 0.006
#: Corners that open by less than this (mm) are closed by moving ends, not by a mitre.
_SLIT = 0.02
#: A mitre runs on at most this many times the distance.
_MITRE = 4.0

Run = list[Segment]


def offset(path: Path, distance: float) -> Path:
    """The parallel path at `distance` mm, > 0 to the left of travel; error below 0.02 mm.

    Lines stay lines and arcs stay arcs. At an inner corner the two sides are trimmed
    where they cross, at an outer one they run on straight until they cross (at most
    four times the distance). Loops that a tight bend makes are dropped. Raises
    `GeometryError` when nothing is left.
    """
    if abs(distance) < SAME:
        return path
    runs, tight = raw_runs(path, distance)
    if not runs:
        raise GeometryError(f"nothing is left of the path {abs(distance):.1f} mm to the side")
    whole, loops = _joined(runs, distance, path.closed)
    result = Path(tuple(whole))
    return _without_loops(path, result, abs(distance)) if tight or loops else result


def raw_runs(path: Path, distance: float) -> tuple[list[Run], bool]:
    """Each segment set off by itself, and whether one bends too tightly for the distance."""
    runs: list[Run] = []
    tight = False
    for segment in path.segments:
        if segment.length < SAME:
            continue
        run, bent = offset_run(segment, distance)
        tight = tight or bent
        if run:
            runs.append(run)
    return runs, tight


def offset_run(segment: Segment, distance: float) -> tuple[Run, bool]:
    """One segment set off to the left, and whether it bends too tightly for that."""
    if isinstance(segment, Line):
        return [_line_off(segment, distance)], False
    if isinstance(segment, Arc):
        return _arc_off(segment, distance)
    return _cubic_off(segment, distance)


def _line_off(line: Line, distance: float) -> Line:
    way = line.tangent(0.0)
    dx, dy = -distance * way.y, distance * way.x
    return Line(line.start.moved(dx, dy), line.end.moved(dx, dy))


def _arc_off(arc: Arc, distance: float) -> tuple[Run, bool]:
    radius = arc.radius - distance if arc.sweep > 0.0 else arc.radius + distance
    if abs(radius) < SAME:
        return [], True
    if radius > 0.0:
        return [Arc(arc.centre, radius, arc.start_angle, arc.sweep)], False
    return [Arc(arc.centre, -radius, arc.start_angle + pi, arc.sweep)], True


def _cubic_off(cubic: Cubic, distance: float) -> tuple[Run, bool]:
    cuts = _turns_back(cubic, distance)
    stops = [0.0, *cuts, 1.0]
    run: Run = []
    for low, high in itertools.pairwise(stops):
        run += _fitted(cubic, distance, low, high, 0)
    return [piece for piece in run if piece.length > SAME], len(stops) > 2 or _shrink(cubic, distance, 0.5) < 0.0


def _shrink(cubic: Cubic, distance: float, t: float) -> float:
    """How much the parallel curve's speed is of the curve's own; below 0 it runs backwards."""
    return 1.0 - cubic.curvature(t) * distance


def _turns_back(cubic: Cubic, distance: float) -> list[float]:
    """Parameters at which the parallel curve has a cusp: the radius of curvature equals the distance."""
    steps = 24
    values = [_shrink(cubic, distance, i / steps) for i in range(steps + 1)]
    found = []
    for i in range(steps):
        if values[i] * values[i + 1] < 0.0:
            low, high = i / steps, (i + 1) / steps
            for _ in range(40):
                middle = (low + high) / 2.0
                low, high = (middle, high) if _shrink(cubic, distance, middle) * values[i] > 0.0 else (low, middle)
            found.append((low + high) / 2.0)
    return found


def _side(cubic: Cubic, distance: float, t: float) -> tuple[Point, Point, float]:
    """Point of the parallel curve, direction of the curve there, and the parallel curve's speed by t (signed)."""
    p, way, v = cubic.point(t), cubic.tangent(t), cubic.derivative(t)
    speed = hypot(v.x, v.y)
    return Point(p.x - distance * way.y, p.y + distance * way.x), way, speed * _shrink(cubic, distance, t)


def _fitted(cubic: Cubic, distance: float, low: float, high: float, depth: int) -> Run:
    """Cubics along the parallel curve between two parameters, halved until each is near enough."""
    piece = _one_fit(cubic, distance, low, high)
    if depth >= 10 or _misses(cubic, distance, (low, high), piece) < _AIM:
        return [piece]
    middle = (low + high) / 2.0
    return _fitted(cubic, distance, low, middle, depth + 1) + _fitted(cubic, distance, middle, high, depth + 1)


def _one_fit(cubic: Cubic, distance: float, low: float, high: float) -> Cubic:
    """The cubic with the parallel curve's ends, directions and, by scaling its handles, its middle."""
    third = (high - low) / 3.0
    a, out, speed = _side(cubic, distance, low)
    b, back, arriving = _side(cubic, distance, high)
    first, second = speed * third, arriving * third
    middle, way, _ = _side(cubic, distance, (low + high) / 2.0)
    nx, ny = -way.y, way.x
    pull = 0.375 * ((first * out.x - second * back.x) * nx + (first * out.y - second * back.y) * ny)
    missing = (middle.x - (a.x + b.x) / 2.0) * nx + (middle.y - (a.y + b.y) / 2.0) * ny
    if abs(pull) > 1e-3 and 0.5 < missing / pull < 2.0:
        first, second = first * missing / pull, second * missing / pull
    return Cubic(a, a.plus(out.scaled(first)), b.minus(back.scaled(second)), b)


def _misses(cubic: Cubic, distance: float, between: tuple[float, float], piece: Cubic) -> float:
    """Largest deviation in mm of a fitted piece from its distance, at five places on it."""
    low, high = between
    worst = 0.0
    for u in (0.15, 0.3, 0.5, 0.7, 0.85):
        point, t = piece.point(u), low + u * (high - low)
        for _ in range(2):
            at, v = cubic.point(t), cubic.derivative(t)
            square = (v.x * v.x + v.y * v.y) * max(abs(_shrink(cubic, distance, t)), 0.1)
            if square > 1e-12:
                t += ((point.x - at.x) * v.x + (point.y - at.y) * v.y) / square
        at, way = cubic.point(t), cubic.tangent(t)
        aside = (point.y - at.y) * way.x - (point.x - at.x) * way.y
        astray = abs((point.x - at.x) * way.x + (point.y - at.y) * way.y)
        worst = max(worst, abs(aside - distance), astray - 0.05)
    return worst


def _joined(runs: list[Run], distance: float, closed: bool) -> tuple[Run, bool]:
    """All runs as one, corners seen to; and whether a corner was left that may hold a loop."""
    whole, loops = list(runs[0]), False
    for run in runs[1:]:
        before, after, bridge, loop = _corner(whole, run, distance)
        whole = before + bridge + after
        loops = loops or loop
    if closed and whole:
        half = len(whole) // 2
        if half == 0:
            return whole, loops
        before, after, bridge, loop = _corner(whole[half:], whole[:half], distance)
        whole = after + before + bridge
        loops = loops or loop
    return whole, loops


def _corner(before: Run, after: Run, distance: float) -> tuple[Run, Run, Run, bool]:
    """Both sides of a joint trimmed or moved, what goes between them, and whether a loop may be left."""
    end, start = before[-1].end, after[0].start
    gap = end.distance(start)
    if gap < 1e-7:
        return before, after, [], False
    if gap < _SLIT:
        return *_closed_slit(before, after), False
    out, back = before[-1].tangent(1.0), after[0].tangent(0.0)
    turn = out.x * back.y - out.y * back.x
    if turn * distance < 0.0 or (abs(turn) < 1e-9 and out.x * back.x + out.y * back.y < 0.0):
        return *_mitred(before, after, (out, back), abs(distance)), False
    trimmed = _trimmed(before, after)
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
    return before, after, [Line(end, start)] if _gap_shows(end, start) else []


def _gap_shows(a: Point, b: Point) -> bool:
    """True when two ends lie too far apart to be left as they are."""
    return a.distance(b) > 5e-4


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
    if meet is not None and meet.distance(end) <= most:
        corner = [meet]
    else:
        corner = [end.plus(out.scaled(most)), start.minus(back.scaled(most))]
    bridge: Run = [Line(p, q) for p, q in itertools.pairwise(corner)]
    if isinstance(before[-1], Line):
        before = [*before[:-1], Line(before[-1].start, corner[0])]
    else:
        bridge.insert(0, Line(end, corner[0]))
    if isinstance(after[0], Line):
        return before, [Line(corner[-1], after[0].end), *after[1:]], bridge
    return before, after, [*bridge, Line(corner[-1], start)]


def _trimmed(before: Run, after: Run) -> tuple[Run, Run] | None:
    """Both sides cut where they cross, nearest to the corner; None when they do not."""
    first, second = Path(tuple(before)), Path(tuple(after))
    found = [c for c in crossings(first, second) if c.along_a > SAME and c.along_b < second.length - SAME]
    if not found:
        return None
    best = min(found, key=lambda c: first.length - c.along_a + c.along_b)
    return _kept(first, 0.0, best.along_a), _kept(second, best.along_b, second.length)


def _kept(path: Path, low: float, high: float) -> Run:
    return list(path.part(low, high).segments) if high - low > 1e-7 else []


def _without_loops(source: Path, raw: Path, distance: float) -> Path:
    """Drop every loop of the raw parallel path that comes nearer to the source than its distance."""
    if raw.closed:
        raw = _from_a_good_place(source, raw, distance)
    kept: list[Segment] = []
    at = 0.0
    for crossing in sorted(self_crossings(raw), key=lambda c: (c.along_a, -c.along_b)):
        low, high = crossing.along_a, crossing.along_b
        if low >= at - SAME and _is_loop(source, raw, (low, high), distance):
            kept += _kept(raw, at, low)
            at = high
    kept += _kept(raw, at, raw.length)
    if not kept:
        raise GeometryError(f"nothing is left of the path {distance:.1f} mm to the side")
    return Path(tuple(kept))


def _from_a_good_place(source: Path, raw: Path, distance: float) -> Path:
    """The closed path started at a place that keeps its distance, so that no loop holds the start."""
    steps = 48
    for i in range(steps):
        along = raw.length * i / steps
        if distance_to(source, raw.point_at(along)) >= distance - _SLIT:
            return raw if i == 0 else raw.part(along, raw.length).joined(raw.part(0.0, along))
    raise GeometryError(f"nothing is left of the path {distance:.1f} mm to the side")


def _is_loop(source: Path, raw: Path, between: tuple[float, float], distance: float) -> bool:
    """True when the path between two meetings comes too near the source just inside both of them."""
    low, high = between
    if high - low < 0.5:
        return True
    step = min((high - low) / 4.0, 1.0)
    return all(distance_to(source, raw.point_at(d)) < distance - 0.01 for d in (low + step, high - step))
