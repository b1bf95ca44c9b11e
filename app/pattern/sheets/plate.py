"""The small plate on each sheet: its name, a tiny map, the garment and order, and its page number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import product

from shapely import STRtree
from shapely.geometry import LineString, box
from shapely.geometry.base import BaseGeometry

from app.pattern.drawing import Anchor, Face, Lettering, Pen
from app.pattern.drawing.fonts import width_of
from app.pattern.drawing.record import Drawn, Said, text_corners
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.sheets.info import PrintInfo
from app.pattern.sheets.maps import draw_tiny_map, map_transform
from app.pattern.sheets.plan import Sheet, SheetPlan

__all__ = ["PLATE", "draw_plate", "quiet_place"]

#: Width and height of the plate, mm.
PLATE = (52.0, 19.0)
_FROM_EDGE = 11.0
_MAP = 17.0
_STEPS = (9, 15)


@dataclass(frozen=True, slots=True)
class _Ink:
    """Everything drawn on a sheet, to be asked how much of it a box would cover."""

    shapes: tuple[BaseGeometry, ...]
    tree: STRtree

    def under(self, room: Box) -> float:
        """Length in mm of the lines (and outlines of words) inside a box."""
        ground = box(*room)
        met = self.tree.query(ground, predicate="intersects")
        return float(sum(self.shapes[i].intersection(ground).length + 1.0 for i in met))


def _shapes(drawn: Iterable[tuple[Drawn, Transform]]) -> Iterator[BaseGeometry]:
    for mark, place in drawn:
        if isinstance(mark, Said):
            corners = [place.apply(c) for c in text_corners(mark.at, mark.words, mark.lettering)]
            yield LineString([*corners, corners[0]])
        else:
            yield LineString(Path.flatten(mark.path.transformed(place), 0.5))


def quiet_place(frame: Box, drawn: Iterable[tuple[Drawn, Transform]]) -> Point:
    """Where in a frame on the page the plate covers least: its lower left corner; the lower left wins among equals."""
    shapes = tuple(_shapes(drawn))
    ink = _Ink(shapes, STRtree(shapes))
    wide, high = PLATE
    free_x = frame.right - frame.left - 2.0 * _FROM_EDGE - wide
    free_y = frame.top - frame.bottom - 2.0 * _FROM_EDGE - high
    corner = Point(frame.left + _FROM_EDGE, frame.bottom + _FROM_EDGE)
    best, least = corner, float("inf")
    for j, i in product(range(_STEPS[1]), range(_STEPS[0])):
        place = corner.moved(free_x * i / (_STEPS[0] - 1), free_y * j / (_STEPS[1] - 1))
        covered = ink.under(Box(place.x - 2.0, place.y - 2.0, place.x + wide + 2.0, place.y + high + 2.0))
        if covered < least:
            best, least = place, covered
        if covered == 0.0:
            break
    return best


def draw_plate(plan: SheetPlan, sheet: Sheet, info: PrintInfo, pen: Pen, at: Point) -> None:
    """The plate with its lower left corner at a place on the page."""
    top = at.y + PLATE[1]
    room = Box(at.x, at.y, at.x + _MAP, top)
    draw_tiny_map(plan, sheet, pen, room)
    left = map_transform(plan, room).apply(Point(plan.columns * plan.paper.printable[0], 0.0)).x + 3.0
    pen.text(Point(left, top - 8.0), sheet.name, Lettering(11.0, 0.0, Anchor.START, Face.SIGN))
    page = 2 + plan.sheets.index(sheet)
    order = f"order {info.order_number}" if info.order_number else ""
    lines = (info.title, order, f"page {page} of {1 + len(plan.sheets)}")
    for number, words in enumerate(line for line in lines if line):
        place = Point(left, top - 11.8 - 3.4 * number)
        size = 2.8 * min(1.0, (PLATE[0] - _MAP - 3.0) / width_of(words, 2.8))
        pen.text(place, words, Lettering(size, 0.0, Anchor.START, Face.PALE))
