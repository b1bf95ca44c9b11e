"""What helps to join two sheets: the trimming frame, scissors, and a button at the middle of every shared edge.

The button is ours: a sewing button cut in half by the joint. Joined rightly it is
round, has its four holes, and carries the same two sheet names on both sides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi

from app.pattern.drawing import Anchor, Face, Lettering, LineStyle, Pen
from app.pattern.drawing.curves import ring
from app.pattern.geometry import Arc, Box, Path, Point, Transform
from app.pattern.sheets.info import Join
from app.pattern.sheets.plan import Sheet, SheetPlan

__all__ = ["BUTTON", "SheetJoint", "draw_frame", "draw_joint", "joints_of"]

#: Radius of the joining button, mm.
BUTTON = 6.0
_RIM, _HOLE, _HOLES_AT = 4.6, 0.75, 1.7
_WORD, _NOTE = 3.2, 2.5
_AWAY = 2.2


@dataclass(frozen=True, slots=True)
class SheetJoint:
    """A shared edge as seen from one sheet. `outward` points to the neighbour; `pair` is the same from both sides."""

    start: Point
    end: Point
    outward: Point
    pair: str
    neighbour: str
    trimmed: bool

    @property
    def middle(self) -> Point:
        """The middle of the edge, where the button is."""
        return self.start.between(self.end, 0.5)


_SIDES = ((0, 1, Point(1.0, 0.0)), (1, 0, Point(0.0, -1.0)), (0, -1, Point(-1.0, 0.0)), (-1, 0, Point(0.0, 1.0)))


def joints_of(plan: SheetPlan, sheet: Sheet, frame: Box) -> Iterator[SheetJoint]:
    """The joints of a sheet whose frame on the page is `frame`; right and lower edges are the trimmed ones."""
    for down, across, outward in _SIDES:
        other = plan.sheet_at(sheet.row + down, sheet.column + across)
        if other is not None:
            first, second = sorted((sheet, other), key=lambda s: (s.row, s.column))
            start, end = _edge(frame, outward)
            yield SheetJoint(start, end, outward, f"{first.name}·{second.name}", other.name, down + across > 0)


def _edge(frame: Box, outward: Point) -> tuple[Point, Point]:
    """The edge of a box on the side of `outward`, anticlockwise round the box."""
    left, bottom, right, top = frame
    if outward.x:
        x, ends = (right, (bottom, top)) if outward.x > 0 else (left, (top, bottom))
        return Point(x, ends[0]), Point(x, ends[1])
    y, ends = (top, (right, left)) if outward.y > 0 else (bottom, (left, right))
    return Point(ends[0], y), Point(ends[1], y)


def draw_frame(frame: Box, pen: Pen) -> None:
    """Short angles at the four corners of the frame, which is also the edge of the drawing."""
    arm = 5.0
    for x, into_x in ((frame.left, arm), (frame.right, -arm)):
        for y, into_y in ((frame.bottom, arm), (frame.top, -arm)):
            pen.line(Path.through(Point(x + into_x, y), Point(x, y), Point(x, y + into_y)), LineStyle.JOINT)


def draw_joint(joint: SheetJoint, pen: Pen, join: Join = Join.TRIM) -> None:
    """The shared edge, half a button, both names, and in the margin what is done here."""
    pen.line(Path.through(joint.start, joint.end), LineStyle.JOINT)
    into = joint.outward.scaled(-1.0)
    angle = Point(0.0, 0.0).angle_to(into)
    for radius in (BUTTON, _RIM):
        pen.line(Path((Arc(joint.middle, radius, angle - pi / 2.0, pi),)), LineStyle.FURNITURE)
    along = Point(-into.y, into.x)
    for side in (-_HOLES_AT, _HOLES_AT):
        hole = joint.middle.plus(into.scaled(_HOLES_AT)).plus(along.scaled(side))
        pen.line(ring(hole, _HOLE), LineStyle.FURNITURE)
    # The pair of names inside the frame, beyond the half button
    out, size = joint.outward, _WORD
    at = joint.middle.plus(out.scaled(-(BUTTON + 1.8)))
    if out.x:
        anchor = Anchor.END if out.x > 0 else Anchor.START
        pen.text(at.moved(0.0, -size * 0.33), joint.pair, Lettering(size, 0.0, anchor, Face.PALE))
    else:
        drop = -size * 0.66 if out.y > 0 else 0.0
        pen.text(at.moved(0.0, drop), joint.pair, Lettering(size, 0.0, Anchor.MIDDLE, Face.PALE))
    _margin_note(joint, _note(joint, join), pen)
    if joint.trimmed or join is Join.BUTT:
        _scissors(joint, pen)


def _note(joint: SheetJoint, join: Join) -> str:
    """What is done at an edge."""
    if join is Join.BUTT:
        return f"cut or fold here; {joint.neighbour} meets this line"
    return f"trim, and lay over {joint.neighbour}" if joint.trimmed else f"{joint.neighbour} lies over this margin"


def _margin_note(joint: SheetJoint, words: str, pen: Pen) -> None:
    """Words along the edge, outside the frame."""
    out = joint.outward
    angle = pi / 2.0 if out.x else 0.0
    away = _AWAY + (_NOTE * 0.7 if out.x > 0 or out.y < 0 else 0.0)
    at = joint.start.between(joint.end, 0.25 if out.x > 0 or out.y < 0 else 0.75).plus(out.scaled(away))
    pen.text(at, words, Lettering(_NOTE, angle, Anchor.MIDDLE, Face.PALE))


def _scissors(joint: SheetJoint, pen: Pen) -> None:
    """Small scissors on the trimming line, cutting along it."""
    way = Point(0.0, 0.0).angle_to(joint.end.minus(joint.start))
    place = Transform.turn(way, Point(0.0, 0.0)).then(Transform.move(*joint.start.between(joint.end, 0.1)))
    for side in (1.0, -1.0):
        pen.line(ring(place.apply(Point(-2.6, 1.15 * side)), 0.95), LineStyle.FURNITURE)
        blade = (Point(-1.8, 0.65 * side), Point(3.2, -0.75 * side))
        pen.line(Path.through(*(place.apply(p) for p in blade)), LineStyle.FURNITURE)
