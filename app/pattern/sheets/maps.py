"""The wall of sheets in small: as an assembly map with the pieces on it, or as a tiny map that says `you are here`."""

from __future__ import annotations

from app.pattern.drawing import Anchor, Face, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.curves import rectangle
from app.pattern.geometry import Box, Point, Transform
from app.pattern.sheets.artwork import Artwork
from app.pattern.sheets.plan import Sheet, SheetPlan

__all__ = ["draw_assembly_map", "draw_tiny_map", "map_transform"]


def map_transform(plan: SheetPlan, room: Box) -> Transform:
    """From the wall to the largest map that fits the top left of a room on the page."""
    wide, high = plan.paper.printable
    scale = min((room.right - room.left) / (wide * plan.columns), (room.top - room.bottom) / (high * plan.rows))
    return Transform.scale(scale).then(Transform.move(room.left, room.top))


def _on_map(sheet: Sheet, place: Transform) -> Box:
    low, high = place.apply(Point(sheet.box.left, sheet.box.bottom)), place.apply(Point(sheet.box.right, sheet.box.top))
    return Box(low.x, low.y, high.x, high.y)


def draw_tiny_map(plan: SheetPlan, here: Sheet, pen: Pen, room: Box) -> None:
    """All sheets as small boxes, this one filled."""
    place = map_transform(plan, room)
    for sheet in plan.sheets:
        box = rectangle(*_on_map(sheet, place))
        if sheet is here:
            pen.fill(box, FillStyle.HERE)
        pen.line(box, LineStyle.FURNITURE)


def draw_assembly_map(plan: SheetPlan, art: Artwork, pen: Pen, room: Box) -> Box:
    """All sheets with their names, and the pieces across them in miniature; returns the box it takes."""
    place = map_transform(plan, room)
    for placed in plan.placed:
        for outline in art.outlines(placed.piece)[-1:]:
            pen.fill(outline.transformed(placed.transform.then(place)), FillStyle.PIECE)
    boxes = [_on_map(sheet, place) for sheet in plan.sheets]
    for sheet, box in zip(plan.sheets, boxes, strict=True):
        pen.line(rectangle(*box), LineStyle.JOINT)
        size = min(4.4, (box.right - box.left) * 0.3)
        at = Point(box.left + size * 0.35, box.top - size * 0.95)
        pen.text(at, sheet.name, Lettering(size, 0.0, Anchor.START, Face.SIGN))
    for placed in plan.placed:
        for outline in art.outlines(placed.piece):
            pen.line(outline.transformed(placed.transform.then(place)), LineStyle.MINIATURE)
    return Box(
        min(b.left for b in boxes), min(b.bottom for b in boxes), max(b.right for b in boxes), max(b.top for b in boxes)
    )
