"""Forms that find points: by offset, along paths, at crossings, mirrored, turned, level with another."""

from __future__ import annotations

from math import cos, pi, remainder, sin

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.forms.form import Form
from app.pattern.drafting.shapes.shape import Shape
from app.pattern.geometry import (
    Line,
    Path,
    Point,
    Transform,
    arc_centre,
    crossings,
    foot,
    line_circle,
    line_line,
    nearest,
)
from app.pattern.units import mm, mm_unlike

__all__ = ["POINTS"]

Movable = Point | Path | Shape


def _go(dx: float, dy: float, what: Movable, distance: float) -> Movable:
    return _laid(what, Transform.move(dx * distance, dy * distance))


def _laid(what: Movable, transform: Transform) -> Movable:
    if isinstance(what, Path):
        return what.transformed(transform)
    return what.moved(transform) if isinstance(what, Shape) else transform.apply(what)


def _toward(start: Point, goal: Point, distance: float) -> Point:
    if start.distance(goal) < 1e-9:
        raise CannotDraw(
            "drafting.no-direction", "Both points are the same, so there is no direction.", "Go toward another point."
        )
    return start.toward(goal, distance)


def _going(start: Point, angle: float, distance: float) -> Point:
    return start.moved(distance * cos(angle), distance * sin(angle))


def _along(path: Path, distance: float, end: Point | None = None) -> Point:
    if not -1e-6 <= distance <= path.length + 1e-6:
        raise CannotDraw(
            "drafting.beyond-path",
            "The path is {} long; {} along it is beyond its ends.".format(*mm_unlike(path.length, distance)),
            "Ask for less, or make the path longer.",
        )
    distance = min(max(distance, 0.0), path.length)
    return path.point_at(distance if end is None or _is_start(path, end) else path.length - distance)


def _is_start(path: Path, end: Point) -> bool:
    if end.distance(path.start) < 0.01:
        return True
    if end.distance(path.end) < 0.01:
        return False
    raise CannotDraw("drafting.not-an-end", "That point is no end of the path.", "Measure from its start or its end.")


def _crossing(a: Path, b: Path, near: Point | None = None) -> Point:
    found = crossings(a, b)
    if not found:
        raise CannotDraw(
            "drafting.no-crossing", "The two paths do not cross.", "Make one of them longer, or use “meeting of”."
        )
    return found[0].point if near is None else min((c.point for c in found), key=near.distance)


def _meeting(a: Path, b: Path) -> Point:
    point = line_line(a.start, a.end, b.start, b.end)
    if point is None:
        raise CannotDraw("drafting.parallel", "The two lines run side by side and never meet.", "Turn one of them.")
    return point


def _reach(path: Path, centre: Point, radius: float) -> Point:
    """The point of the straight `path` that lies `radius` from `centre`: the later one along the path."""
    found = line_circle(path.start, path.end, centre, radius)
    if not found:
        gap = centre.distance(foot(centre, path.start, path.end))
        raise CannotDraw(
            "drafting.out-of-reach",
            "{} from the point does not reach the line, which is {} away.".format(*mm_unlike(radius, gap)),
            "Ask for a longer reach, or bring the line nearer.",
        )
    way = path.end.minus(path.start)
    return max(found, key=lambda p: (p.x - path.start.x) * way.x + (p.y - path.start.y) * way.y)


def _mirrored(what: Movable, line: Path) -> Movable:
    return _laid(what, Transform.mirror(line.start, line.end))


def _turned(what: Movable, angle: float, about: Point) -> Movable:
    return _laid(what, Transform.turn(angle, about))


def _swung(what: Movable, about: Point, point: Point, path: Path) -> Movable:
    """`what` turned about a point by the smaller turn that brings `point` onto the path; a straight one has no ends.

    On paper: the piece is pinned at one point and swung until another lies on a line.
    """
    radius = about.distance(point)
    if radius < 1e-6:
        raise CannotDraw(
            "drafting.out-of-reach",
            "The point that is to meet the line is the one it is swung about, so it stays where it is.",
            "Name another point of what is swung.",
        )
    met = _met(path, about, radius)
    if not met:
        raise CannotDraw(
            "drafting.out-of-reach",
            f"Swung about, the point stays {mm(radius)} from the point it is swung about; nothing of the line lies so.",
            "Bring the line nearer, make it longer, or swing about another point.",
        )
    begin = about.angle_to(point)
    turns = (remainder(about.angle_to(goal) - begin, 2.0 * pi) for goal in met)
    # Anticlockwise where both turns are as large.
    return _turned(what, min(turns, key=lambda turn: (round(abs(turn), 9), -turn)), about)


def _met(path: Path, centre: Point, radius: float) -> tuple[Point, ...]:
    """Where a path lies at a distance from a centre; a straight one is taken to go on beyond its ends."""
    if len(path.segments) == 1 and isinstance(path.segments[0], Line):
        return line_circle(path.start, path.end, centre, radius)
    halves = (arc_centre(centre, radius, 0.0, pi), arc_centre(centre, radius, pi, 2.0 * pi))
    return tuple(each.point for half in halves for each in crossings(half, path))


def _on(path: Path, point: Point) -> Point:
    return path.point_at(nearest(path, point))


POINTS = (
    Form("at", ("length", "length"), "point", Point, "nape = at 0, 0"),
    Form(
        "go down", ("point|path|shape", "length"), "same", lambda p, d: _go(0.0, -1.0, p, d), "waist = nape down 41cm"
    ),
    Form("go up", ("point|path|shape", "length"), "same", lambda p, d: _go(0.0, 1.0, p, d), "tip = waist up 12cm"),
    Form(
        "go left", ("point|path|shape", "length"), "same", lambda p, d: _go(-1.0, 0.0, p, d), "side = waist left 23cm"
    ),
    Form(
        "go right", ("point|path|shape", "length"), "same", lambda p, d: _go(1.0, 0.0, p, d), "side = waist right 23cm"
    ),
    Form("toward", ("point", "point", "length"), "point", _toward, "tip = side toward bust_point by 10cm"),
    Form("going", ("point", "angle", "length"), "point", _going, "tip = neck going 340deg by 12cm"),
    Form("between", ("point", "point", "number"), "point", Point.between, "mid = between neck and tip at 1/3"),
    Form("middle", ("point", "point"), "point", lambda a, b: a.between(b, 0.5), "mid = middle of neck and tip"),
    Form("along", ("path", "length", "point?"), "point", _along, "p = along armhole by 8cm from scye_side"),
    Form("crossing", ("path", "path", "point?"), "point", _crossing, "p = crossing of hem and side"),
    Form("meeting", ("path", "path"), "point", _meeting, "p = meeting of shoulder and centre"),
    Form("foot", ("point", "path"), "point", lambda p, q: foot(p, q.start, q.end), "p = foot of bust_point on side"),
    Form("reach", ("path", "point", "length"), "point", _reach, "tip = reach drop_line from neck by shoulder_length"),
    Form("start", ("path",), "point", lambda p: p.start, "p = start of hem"),
    Form("end", ("path",), "point", lambda p: p.end, "p = end of hem"),
    Form("mirrored", ("point|path|shape", "path"), "same", _mirrored, "q = p mirrored over centre"),
    Form("turned", ("point|path|shape", "angle", "point"), "same", _turned, "q = p turned 12deg about tip"),
    Form(
        "swung",
        ("point|path|shape", "point", "point", "path"),
        "same",
        _swung,
        "q = side swung about waist until hip meets centre",
    ),
    Form("level", ("point", "point"), "point", lambda p, q: Point(p.x, q.y), "q = p level with waist_side"),
    Form("plumb", ("point", "point"), "point", lambda p, q: Point(q.x, p.y), "q = p plumb with bust_point"),
    Form("nearest()", ("path", "point"), "point", _on, "q = nearest(side, bust_point)"),
)
