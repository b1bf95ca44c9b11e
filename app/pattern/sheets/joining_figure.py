"""A small figure on the first page: two sheets before and after they are joined, with the button made whole."""

from __future__ import annotations

from math import pi

from app.pattern.drawing import Anchor, Face, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.curves import rectangle, ring
from app.pattern.geometry import Arc, Cubic, Path, Point
from app.pattern.sheets.plan import SheetPlan, sheet_name

__all__ = ["JOINING_HIGH", "JOINING_WIDE", "draw_joining"]

_SHEET = (18.0, 20.0)
_MARGIN = 1.6
_APART = 4.0
_ARROW = 9.0
#: The room the figure takes, mm.
JOINING_WIDE = 4.0 * _SHEET[0] + _APART + 2.0 * _ARROW - 2.0 * _MARGIN
JOINING_HIGH = _SHEET[1]


def draw_joining(pen: Pen, plan: SheetPlan, corner: Point) -> None:
    """The figure with its top left corner at a place; it names the first joint of the plan's wall, or A1 and A2."""
    names = _names(plan)
    wide = _SHEET[0]
    _sheet(pen, corner, names[0])
    _sheet(pen, corner.moved(wide + _APART, 0.0), names[1])
    _half(pen, corner.moved(wide - _MARGIN, 0.0), pi / 2.0)
    _half(pen, corner.moved(wide + _APART + _MARGIN, 0.0), -pi / 2.0)
    _seam(pen, corner, wide - _MARGIN)
    arrow = corner.moved(2.0 * wide + _APART + _ARROW * 0.35, -_SHEET[1] / 2.0)
    pen.line(Path.through(arrow, arrow.moved(_ARROW, 0.0)), LineStyle.FURNITURE)
    for lift in (1.2, -1.2):
        pen.line(Path.through(arrow.moved(_ARROW - 1.8, lift), arrow.moved(_ARROW, 0.0)), LineStyle.FURNITURE)
    _joined(pen, corner.moved(2.0 * wide + _APART + 1.7 * _ARROW, 0.0), names)


def _names(plan: SheetPlan) -> tuple[str, str]:
    for sheet in plan.sheets:
        if plan.sheet_at(sheet.row, sheet.column + 1) is not None:
            return sheet.name, sheet_name(sheet.row, sheet.column + 1)
    return sheet_name(0, 0), sheet_name(0, 1)


def _sheet(pen: Pen, corner: Point, name: str) -> None:
    wide, high = _SHEET
    pen.line(rectangle(corner.x, corner.y - high, corner.x + wide, corner.y), LineStyle.FURNITURE)
    inner = (corner.x + _MARGIN, corner.y - high + _MARGIN, corner.x + wide - _MARGIN, corner.y - _MARGIN)
    pen.line(rectangle(*inner), LineStyle.JOINT)
    pen.text(corner.moved(wide / 2.0, -6.0), name, Lettering(3.4, 0.0, Anchor.MIDDLE, Face.SIGN))


def _half(pen: Pen, top: Point, from_angle: float) -> None:
    middle = top.moved(0.0, -_SHEET[1] / 2.0)
    for radius in (2.3, 1.7):
        pen.line(Path((Arc(middle, radius, from_angle, pi),)), LineStyle.MINIATURE)


def _seam(pen: Pen, corner: Point, joint: float) -> None:
    """A pattern line that runs from one sheet to the next."""
    low = -_SHEET[1] + 4.5
    a, b = corner.moved(3.0, low), corner.moved(joint, low + 2.0)
    pen.line(Path((Cubic(a, a.moved(4.0, 0.2), b.moved(-4.0, -0.8), b),)), LineStyle.CUTTING)
    shift = _APART + 2.0 * _MARGIN
    c, d = b.moved(shift, 0.0), b.moved(shift + 12.0, 5.0)
    pen.line(Path((Cubic(c, c.moved(4.0, 0.8), d.moved(-3.0, -2.5), d),)), LineStyle.CUTTING)


def _joined(pen: Pen, corner: Point, names: tuple[str, str]) -> None:
    """Both sheets as one, the joint fine, the button round."""
    wide, high = _SHEET
    joint = wide - _MARGIN
    pen.line(rectangle(corner.x, corner.y - high, corner.x + 2.0 * joint, corner.y), LineStyle.FURNITURE)
    top = corner.moved(joint, 0.0)
    pen.line(Path.through(top, top.moved(0.0, -high)), LineStyle.JOINT)
    middle = top.moved(0.0, -high / 2.0)
    for radius in (2.3, 1.7):
        pen.line(ring(middle, radius), LineStyle.MINIATURE)
    for x in (-0.65, 0.65):
        for y in (-0.65, 0.65):
            pen.fill(ring(middle.moved(x, y), 0.28), FillStyle.INK)
    for x, name in ((joint / 2.0, names[0]), (joint * 1.5, names[1])):
        pen.text(corner.moved(x, -6.0), name, Lettering(3.4, 0.0, Anchor.MIDDLE, Face.SIGN))
    low = -high + 4.5
    a, b, d = corner.moved(3.0, low), corner.moved(joint, low + 2.0), corner.moved(joint + 12.0, low + 7.0)
    first = Cubic(a, a.moved(4.0, 0.2), b.moved(-4.0, -0.8), b)
    pen.line(Path((first, Cubic(b, b.moved(4.0, 0.8), d.moved(-3.0, -2.5), d))), LineStyle.CUTTING)
