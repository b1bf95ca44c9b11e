"""Forms that draw paths: lines, curves, arcs, parts, joined and parallel paths, and darts."""

from __future__ import annotations

from itertools import pairwise

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.forms.form import Form
from app.pattern.drafting.kinds import DartShape, Direction
from app.pattern.geometry import Path, Point, arc_between, arc_centre, curve, nearest, offset, smooth
from app.pattern.units import mm, mm_unlike

__all__ = ["PATHS"]

_TOUCH = 0.01  # mm: two ends nearer than this are one point


def _line(*points: Point) -> Path:
    for a, b in pairwise(points):
        if a.distance(b) < 1e-6:
            raise CannotDraw(
                "drafting.no-length", "Two neighbouring points of the line are the same.", "Leave one of them out."
            )
    return Path.through(*points)


def _curve(a: Point, b: Point, leaving: Direction, arriving: Direction, pull: float = 1.0) -> Path:
    if a.distance(b) < 1e-6:
        raise CannotDraw("drafting.no-length", "The curve begins where it ends.", "Give it two points.")
    if not 0.05 <= pull <= 4.0:
        raise CannotDraw("drafting.pull", f"A pull of {pull:g} makes no fair curve.", "Keep it between 0.05 and 4.")
    chord = a.angle_to(b)
    return curve(a, b, _way(leaving, a, chord), _way(arriving, b, chord), pull)


def _way(direction: Direction, at: Point, chord: float) -> float:
    """The angle of a direction taken at a point; a point lies in no direction from itself."""
    if direction.point is not None and direction.point.distance(at) < 1e-6:
        raise CannotDraw(
            "drafting.no-direction",
            "A curve cannot leave or arrive “toward” the point where it stands: that is no direction.",
            "Name another point, or an angle such as angle(neck, tip).",
        )
    return direction.resolve(at, chord)


def _smooth(points: tuple[Point, ...], leaving: Direction | None, arriving: Direction | None) -> Path:
    out = _way(leaving, points[0], points[0].angle_to(points[1])) if leaving else None
    into = _way(arriving, points[-1], points[-2].angle_to(points[-1])) if arriving else None
    return smooth(points, out, into)


def _arc(a: Point, b: Point, centre: Point) -> Path:
    if abs(a.distance(centre) - b.distance(centre)) > 0.1:
        raise CannotDraw(
            "drafting.arc",
            "The ends are {} and {} from the centre.".format(*mm_unlike(a.distance(centre), b.distance(centre))),
            "Move the centre, or one end, until both ends are equally far from it.",
        )
    return arc_between(a, b, centre)


def _arc_turn(centre: Point, radius: float, start: float, end: float) -> Path:
    if radius < 1e-6 or abs(end - start) < 1e-9:
        raise CannotDraw("drafting.no-length", "This arc has no length.", "Give it a radius and two different angles.")
    return arc_centre(centre, radius, start, end)


def _part(path: Path, start: Point, end: Point) -> Path:
    first, last = nearest(path, start), nearest(path, end)
    for along, point in ((first, start), (last, end)):
        if path.point_at(along).distance(point) > 0.1:
            raise CannotDraw(
                "drafting.off-path",
                f"A point is {mm(path.point_at(along).distance(point))} off the path.",
                "Take the part between two points that lie on it.",
            )
    if abs(first - last) < 1e-6:
        raise CannotDraw("drafting.no-length", "The part has no length.", "Give two different points.")
    return path.part(first, last) if first < last else path.part(last, first).reversed()


def _join(*paths: Path) -> Path:
    whole = paths[0]
    for path in paths[1:]:
        if whole.end.distance(path.start) > _TOUCH and whole.end.distance(path.end) <= _TOUCH:
            path = path.reversed()
        if whole.end.distance(path.start) > _TOUCH:
            raise CannotDraw(
                "drafting.join-gap",
                f"The paths leave a gap of {mm(whole.end.distance(path.start))}.",
                "Join paths that touch, in order.",
            )
        whole = whole.joined(path)
    return whole


PATHS = (
    Form("line", ("point", "point", "point*"), "path", _line, "hem = line hem_centre to hem_side"),
    Form(
        "curve",
        ("point", "point", "direction", "direction", "number?"),
        "path",
        _curve,
        "armhole = curve shoulder_tip to scye_side leaving down arriving right",
    ),
    Form("smooth", ("point", "point", "point*"), "path", lambda *p: _smooth(p, None, None), "side = smooth a, b, c"),
    Form(
        "smooth leaving",
        ("direction", "point", "point", "point*"),
        "path",
        lambda d, *p: _smooth(p, d, None),
        "side = smooth a, b, c leaving down",
    ),
    Form(
        "smooth arriving",
        ("direction", "point", "point", "point*"),
        "path",
        lambda d, *p: _smooth(p, None, d),
        "side = smooth a, b, c arriving down",
    ),
    Form(
        "smooth leaving arriving",
        ("direction", "direction", "point", "point", "point*"),
        "path",
        lambda d, e, *p: _smooth(p, d, e),
        "side = smooth a, b, c leaving down arriving down",
    ),
    Form("arc", ("point", "point", "point"), "path", _arc, "hem = arc hem_centre to hem_side around apex"),
    Form(
        "arc_turn",
        ("point", "length", "angle", "angle"),
        "path",
        _arc_turn,
        "waist = arc around apex radius 21cm from 0deg to 180deg",
    ),
    Form("part", ("path", "point", "point"), "path", _part, "upper = part of side from scye_side to waist_side"),
    Form("join", ("path", "path*"), "path", _join, "whole = join upper, lower"),
    Form("reversed", ("path",), "path", Path.reversed, "back_way = armhole reversed"),
    Form("parallel left", ("path", "length"), "path", offset, "facing = parallel to neck by 6cm left"),
    Form("parallel right", ("path", "length"), "path", lambda p, d: offset(p, -d), "f = parallel to neck by 6cm right"),
    Form(
        "dart",
        ("point", "point", "point", "direction", "point?", "length?"),
        "dart",
        DartShape,
        "bust_dart = dart upper to tip to lower pressed down clear of bust_point by 2cm",
    ),
    Form("direction down", (), "direction", lambda: Direction("angle", -1.5707963267948966), "leaving down"),
    Form("direction up", (), "direction", lambda: Direction("angle", 1.5707963267948966), "leaving up"),
    Form("direction left", (), "direction", lambda: Direction("angle", 3.141592653589793), "leaving left"),
    Form("direction right", (), "direction", lambda: Direction("angle", 0.0), "leaving right"),
    Form("direction angle", ("angle",), "direction", lambda a: Direction("angle", a), "leaving 30deg"),
    Form("direction toward", ("point",), "direction", lambda p: Direction("toward", 0.0, p), "leaving toward tip"),
    Form("direction away", ("point",), "direction", lambda p: Direction("away", 0.0, p), "arriving away from tip"),
    Form(
        "direction square",
        ("path",),
        "direction",
        lambda p: Direction("square", p.start.angle_to(p.end)),
        "leaving square to shoulder",
    ),
)
