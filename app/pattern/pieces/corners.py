"""How two cutting lines meet at a corner of the outline: run on, stepped, squared, or turned back.

Both sides are seen as arriving at the corner, so every rule is the same from either
side: `along` runs on past the corner, `out` points away from the piece.
"""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.geometry import Line, Path, Point, Transform, crossings
from app.pattern.pieces.model import CornerCut

__all__ = ["Arrival", "CornerJoint", "join_corner", "join_across"]

#: Cutting lines run on at a sharp corner as far as this many of the wider allowance, and are cut off square there.
LONGEST_REACH = 4.0
#: Turns smaller than this (radians) are no corner: the cutting lines pass straight into each other.
SMOOTH = 1e-5
#: The sine of the smallest turn (30 degrees) that is squared or turned back; at shallower ones such ends would run
#: far along the neighbour's allowance, and the corner is plain.
SHALLOW = 0.5
#: Hollow corners that trim less than this (mm) off both cutting lines are trimmed as if those were straight.
LITTLE = 1.0
#: Distances below this (mm) are nothing.
TINY = 1e-6
#: Points nearer than this (mm) are drawn as one, well within what a path takes for joined.
ONE_POINT = 3e-4


@dataclass(frozen=True, slots=True)
class Arrival:
    """One side of a corner, arriving there: its cutting line, and its stitching line's end, direction and outside."""

    corner_point: Point
    along: Point
    out: Point
    width: float
    corner: CornerCut
    fold: bool
    cut: Path

    @property
    def end(self) -> Point:
        """Where the cutting line ends, square across from the corner."""
        return self.cut.end

    def ahead(self, by: float) -> Point:
        """The point `by` mm further on along the straight run-on of the cutting line."""
        return self.end.plus(self.along.scaled(by))

    def run_on(self, reach: float) -> Path:
        """The cutting line with a straight run-on of `reach` mm."""
        return Path((*self.cut.segments, Line(self.end, self.ahead(reach))))

    def stitching_run_on(self, reach: float) -> Path:
        """The stitching line's straight run-on past the corner."""
        return Path.through(self.corner_point, self.corner_point.plus(self.along.scaled(reach)))


@dataclass(frozen=True, slots=True)
class CornerJoint:
    """How to go round a corner: stop `back` mm before the end of one cutting line, follow `way`, take up the other
    `forth` mm after its start. `way` is None when the lines meet in one point."""

    back: float
    way: Path | None
    forth: float

    def swapped(self) -> CornerJoint:
        """The same way walked from the other side."""
        return CornerJoint(self.forth, self.way.reversed() if self.way else None, self.back)


def join_corner(a: Arrival, b: Arrival) -> CornerJoint:
    """The cutting line's way from side `a` round the corner to side `b` (both arriving there), mm."""
    turn, ahead = _dot(a.along, b.out), -_dot(a.along, b.along)
    if abs(turn) < SMOOTH and ahead > 0.0:
        return CornerJoint(0.0, _lines(a.end, b.end), 0.0)
    sharp = turn > SHALLOW or (turn > 0.0 and ahead < 0.0)
    if sharp and not (a.fold or b.fold):
        shaped = _shaped(a, b)
        if shaped is not None:
            return shaped
    return _plain(a, b)


def join_across(a: Arrival, b: Arrival) -> CornerJoint:
    """The way between two cutting lines whose corner has been swallowed: where they cross, else straight across."""
    return _crossed(a, b, _reach(a, b)) or CornerJoint(0.0, _lines(a.end, b.end), 0.0)


def _shaped(a: Arrival, b: Arrival) -> CornerJoint | None:
    """The corner one of the sides asks for; None when neither does or both do, or when it cannot be had."""
    for wanted, shape in ((CornerCut.TURNED_BACK, _turned_back), (CornerCut.SQUARED, _squared)):
        asked = [side.corner is wanted and side.width > TINY for side in (a, b)]
        if asked == [True, False]:
            return shape(a, b)
        if asked == [False, True]:
            other = shape(b, a)
            return other.swapped() if other else None
        if all(asked):
            return None
    return None


def _plain(a: Arrival, b: Arrival) -> CornerJoint:
    """Both cutting lines run on until they cross; stepped or cut off where that would spoil an allowance."""
    reach = _reach(a, b)
    meeting = _mitre(a, b)
    if meeting is None:
        return _stepped(a, b)
    past_a = _dot(meeting.minus(a.end), a.along)
    past_b = _dot(meeting.minus(b.end), b.along)
    if past_a >= -TINY and past_b >= -TINY:
        if meeting.distance(a.corner_point) > reach:
            return _cut_off(a, b, meeting, reach)
        return CornerJoint(0.0, _lines(a.end, meeting, b.end), 0.0)
    folded = (a.fold or b.fold) and abs(_dot(a.along, b.out)) > SHALLOW
    if max(past_a, past_b) > TINY and not folded and -min(past_a, past_b) > max(a.width, b.width):
        return _stepped(a, b)
    if min(past_a, past_b) > -LITTLE and max(past_a, past_b) < TINY:
        # A slight hollow: over so short a way the cutting lines are straight, and cross where their run-ons do.
        # Sought on the true curves, a crossing at so small an angle is hard to find.
        backs = [min(max(-_dot(meeting.minus(s.end), s.along), 0.0), s.cut.length) for s in (a, b)]
        ends = [s.cut.point_at(s.cut.length - back) for s, back in zip((a, b), backs, strict=True)]
        return CornerJoint(backs[0], _lines(ends[0], meeting, ends[1]), backs[1])
    return _crossed(a, b, reach) or _stepped(a, b)


def _reach(a: Arrival, b: Arrival) -> float:
    return LONGEST_REACH * max(a.width, b.width, TINY)


def _mitre(a: Arrival, b: Arrival) -> Point | None:
    """Where the straight run-ons of the cutting lines cross; None when they hardly do."""
    p = a.corner_point
    if abs(a.width - b.width) < TINY and _dot(a.out, b.out) > -0.5:
        return p.plus(a.out.plus(b.out).scaled(a.width / (1.0 + _dot(a.out, b.out))))
    cross = a.out.x * b.out.y - a.out.y * b.out.x
    if abs(cross) < SMOOTH:
        return None
    x = (a.width * b.out.y - b.width * a.out.y) / cross
    y = (b.width * a.out.x - a.width * b.out.x) / cross
    return p.moved(x, y)


def _cut_off(a: Arrival, b: Arrival, meeting: Point, reach: float) -> CornerJoint:
    """A sharp corner cut off square across its own direction, `reach` mm from the stitching."""
    p = a.corner_point
    tip = Point(*meeting.minus(p).scaled(1.0 / meeting.distance(p)))
    stops = [s.ahead((reach - _dot(s.end.minus(p), tip)) / _dot(s.along, tip)) for s in (a, b)]
    return CornerJoint(0.0, _lines(a.end, stops[0], stops[1], b.end), 0.0)


def _crossed(a: Arrival, b: Arrival, reach: float) -> CornerJoint | None:
    """Where the true cutting lines, run on at their ends, cross nearest to the corner."""
    line_a, line_b = a.run_on(reach), b.run_on(reach)
    found = crossings(line_a, line_b)
    if not found:
        return None
    length_a, length_b = a.cut.length, b.cut.length
    best = min(found, key=lambda c: abs(c.along_a - length_a) + abs(c.along_b - length_b))
    way = _lines(
        *([a.end] if best.along_a > length_a else []), best.point, *([b.end] if best.along_b > length_b else [])
    )
    return CornerJoint(max(length_a - best.along_a, 0.0), way, max(length_b - best.along_b, 0.0))


def _stepped(a: Arrival, b: Arrival) -> CornerJoint:
    """The wider allowance ends square at the corner, and the narrower one runs on into its end."""
    wide, narrow = (a, b) if a.width >= b.width else (b, a)
    end_line = Path.through(wide.corner_point, wide.end) if wide.width > TINY else None
    found = crossings(narrow.run_on(LONGEST_REACH * wide.width), end_line) if end_line else ()
    length = narrow.cut.length
    if not found:
        way, back = _lines(narrow.end, wide.end), 0.0
    else:
        best = min(found, key=lambda c: abs(c.along_a - length))
        back = max(length - best.along_a, 0.0)
        way = _lines(*([narrow.end] if best.along_a > length else []), best.point, wide.end)
    joint = CornerJoint(back, way, 0.0)
    return joint if narrow is a else joint.swapped()


def _squared(a: Arrival, b: Arrival) -> CornerJoint | None:
    """The allowance of `a` ends square where `b`'s cutting line crosses `a`'s stitching line run on."""
    found = _on_stitching(a, b)
    if found is None:
        return None
    at, along_b = found
    length = b.cut.length
    corner = at.plus(a.out.scaled(a.width))
    way = _lines(a.end, corner, at, *([b.end] if along_b > length else []))
    return CornerJoint(0.0, way, max(length - along_b, 0.0))


def _on_stitching(a: Arrival, b: Arrival) -> tuple[Point, float] | None:
    """Where `b`'s cutting line crosses `a`'s stitching line run on, and how far along `b`'s; None when too far off."""
    reach = _reach(a, b)
    if b.width < TINY:
        return a.corner_point, b.cut.length
    found = crossings(a.stitching_run_on(reach), b.run_on(reach))
    if not found:
        return None
    best = min(found, key=lambda c: abs(c.along_b - b.cut.length))
    return best.point, best.along_b


def _turned_back(hem: Arrival, side: Arrival) -> CornerJoint | None:
    """Beyond the hem the side's cutting line is mirrored in the hem's stitching line, so the turned hem lies flat."""
    found = _on_stitching(hem, side)
    if found is None:
        return None
    at, along = found
    reach = _reach(hem, side)
    inside = _inside(side, along, reach)
    fold = Transform.mirror(hem.corner_point, hem.corner_point.plus(hem.along))
    mirrored = inside.transformed(fold)
    ends = crossings(mirrored, hem.run_on(reach))
    if not ends:
        return None
    end = min(ends, key=lambda c: c.along_a)
    length = hem.cut.length
    way = mirrored.part(0.0, end.along_a).reversed()
    way = Path.through(hem.end, end.point).joined(way) if end.along_b > length + TINY else way
    way = way.joined(Path.through(at, side.end)) if along > side.cut.length + TINY else way
    return CornerJoint(max(length - end.along_b, 0.0), way, max(side.cut.length - along, 0.0))


def _inside(side: Arrival, along: float, reach: float) -> Path:
    """The side's cutting line walked from `along` back into the piece, run straight on if it is shorter than needed."""
    line = side.run_on(reach).part(0.0, along).reversed()
    run = line.segments[-1].tangent(1.0)
    return Path((*line.segments, Line(line.end, line.end.plus(run.scaled(reach)))))


def _dot(a: Point, b: Point) -> float:
    return a.x * b.x + a.y * b.y


def _lines(*points: Point) -> Path | None:
    """Straight lines through the points, or None when they are all one point."""
    kept = [points[0]]
    for point in points[1:]:
        if point.distance(kept[-1]) > ONE_POINT:
            kept.append(point)
    return Path.through(*kept) if len(kept) > 1 else None
