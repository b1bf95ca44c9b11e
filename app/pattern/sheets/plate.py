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
from app.pattern.sheets.maps import draw_tiny_map
from app.pattern.sheets.plan import Sheet, SheetPlan
from app.pattern.sheets.setting import fitted

__all__ = ["Plate", "quiet_place"]

_FROM_EDGE = 9.0
_STEPS = (13, 19)
_HIGH, _GAP, _WORDS_WIDE = 19.0, 3.0, 34.0
_NAME, _SMALL = 11.0, 2.8


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


@dataclass(frozen=True, slots=True)
class Plate:
    """What one sheet's plate says, and the room it takes."""

    plan: SheetPlan
    sheet: Sheet
    lines: tuple[str, ...]

    @classmethod
    def of(cls, plan: SheetPlan, sheet: Sheet, info: PrintInfo) -> Plate:
        """The plate of a sheet; the first page is page 1."""
        order = f"order {info.order_number}" if info.order_number else ""
        page = f"page {2 + plan.sheets.index(sheet)} of {1 + len(plan.sheets)}"
        return cls(plan, sheet, tuple(line for line in (info.title, order, page) if line))

    @property
    def _map_wide(self) -> float:
        wide, high = self.plan.paper.printable
        return min(_HIGH * wide * self.plan.columns / (high * self.plan.rows), _HIGH)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, mm."""
        words = max(width_of(line, _SMALL) for line in self.lines)
        name = width_of(self.sheet.name, _NAME, Face.SIGN)
        return self._map_wide + _GAP + max(name, min(words, _WORDS_WIDE)), _HIGH

    def draw(self, pen: Pen, at: Point) -> None:
        """Draw it with its lower left corner at a place on the page."""
        top = at.y + _HIGH
        draw_tiny_map(self.plan, self.sheet, pen, Box(at.x, at.y, at.x + self._map_wide, top))
        left = at.x + self._map_wide + _GAP
        pen.text(Point(left, top - 8.0), self.sheet.name, Lettering(_NAME, 0.0, Anchor.START, Face.SIGN))
        for number, words in enumerate(self.lines):
            place = Point(left, top - 11.8 - 3.4 * number)
            pen.text(place, words, Lettering(fitted(words, _SMALL, _WORDS_WIDE), 0.0, Anchor.START, Face.PALE))


def quiet_place(frame: Box, size: tuple[float, float], drawn: Iterable[tuple[Drawn, Transform]]) -> Point:
    """Where in a frame on the page a box covers least: its lower left corner; the lower left wins among equals."""
    shapes = tuple(_shapes(drawn))
    ink = _Ink(shapes, STRtree(shapes))
    wide, high = size
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
