"""A drafting sheet up to one of its steps as a picture: what was there in grey, the newest in the house's colour."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from app.pattern.drafting import DartShape
from app.pattern.drafting.playback import Frame, Shown
from app.pattern.drafting.shapes.shape import Shape, ShapeDart
from app.pattern.drawing.curves import ring
from app.pattern.drawing.fonts import CAP_HEIGHT, width_of
from app.pattern.drawing.look import GREY, Stroke
from app.pattern.drawing.pen import Face, FillStyle, Lettering, LineStyle
from app.pattern.drawing.record import join_boxes
from app.pattern.drawing.svg import SvgPen, svg_page
from app.pattern.geometry import Box, Line, Path, Point
from app.pattern.names import in_words

__all__ = ["box_of", "frame_svg"]

#: Part of the picture's longer side that is one unit of line and lettering: letters stand 3 units high.
_UNITS = 95.0
_LETTERS = 3.0
_PALETTE = replace(
    GREY, strokes={**GREY.strokes, LineStyle.HIGHLIGHT: Stroke(0.75, 1.0), LineStyle.MARK: Stroke(0.3, 0.55)}
)
_MOST_INK = 200
_LEAST = 60.0  # mm: a single point still stands on a sheet of some size


@dataclass(slots=True)
class _Sheet:
    """A picture in the making: the pen, mm to one unit, the boxes of words already set, and where lines run."""

    pen: SvgPen
    unit: float
    taken: list[Box] = field(default_factory=list)
    ink: list[Point] = field(default_factory=list)


def box_of(frames: Iterable[Frame]) -> Box:
    """The box round everything on these frames with room for names, mm; frames of one box can be laid over another."""
    parts = [what for frame in frames for thing in frame.things for what in _parts(thing.what)]
    # The box of what matters: a plumb or foundation line that runs far past all the rest is cut off by the frame
    firm = [_bounds(what) for what in parts if isinstance(what, Point) or not _is_straight(what)]
    lines = [what for what in parts if isinstance(what, Path) and _is_straight(what)]
    box = join_boxes(firm) if firm else None
    reach = max(box.right - box.left, box.top - box.bottom) if box else 0.0
    near = [line.bounds for line in lines if reach <= _LEAST or line.length <= reach]
    boxes = [*firm, *near]
    box = join_boxes(boxes) if boxes else Box(0.0, 0.0, 0.0, 0.0)
    spare = [max(0.0, _LEAST - size) / 2.0 for size in (box.right - box.left, box.top - box.bottom)]
    edge = max(box.right - box.left, box.top - box.bottom, _LEAST) * 0.09
    return Box(
        box.left - spare[0] - edge, box.bottom - spare[1] - edge, box.right + spare[0] + edge, box.top + spare[1] + edge
    )


def _is_straight(path: Path) -> bool:
    return len(path.segments) == 1 and isinstance(path.segments[0], Line)


def frame_svg(frame: Frame, box: Box | None = None) -> str:
    """One frame as a picture that stands on its own; `box` is what to show (mm), by default what is there."""
    box = box or box_of([frame])
    unit = max(box.right - box.left, box.top - box.bottom) / _UNITS
    sheet = _Sheet(SvgPen(palette=_PALETTE.thicker(unit)), unit)
    for thing in reversed(frame.things):
        for what in _parts(thing.what):
            _draw(sheet, what, thing.newest)
            sheet.ink += _along(what, unit * 1.2)
    # Points are not written over
    for shown in frame.points:
        if isinstance(shown.what, Point):
            by = sheet.unit * 0.8
            sheet.taken.append(Box(shown.what.x - by, shown.what.y - by, shown.what.x + by, shown.what.y + by))
    for thing in frame.things:
        _name(sheet, thing, box)
    title = f"Sheet {frame.sheet}, line {frame.line}: {frame.words}"
    return svg_page(sheet.pen, box, title=title, kind="frame")


# ---- things as points and paths


def _parts(what: Point | Path | DartShape | Shape) -> Iterator[Point | Path]:
    if isinstance(what, Point | Path):
        yield what
    elif isinstance(what, DartShape):
        yield Path.through(what.a, what.tip, what.b)
    else:
        for item in what.items:
            yield from _parts(item.dart) if isinstance(item, ShapeDart) else (item.path,)
        yield from (thing.what for thing in what.inside if isinstance(thing.what, Path))


def _bounds(what: Point | Path) -> Box:
    return what.bounds if isinstance(what, Path) else Box(what.x, what.y, what.x, what.y)


def _draw(sheet: _Sheet, what: Point | Path, newest: bool) -> None:
    if isinstance(what, Path):
        sheet.pen.line(what, LineStyle.HIGHLIGHT if newest else LineStyle.MARK)
        return
    style = FillStyle.ACCENT if newest else FillStyle.INK
    sheet.pen.fill(ring(what, sheet.unit * (1.0 if newest else 0.55)), style)


# ---- names, each where there is room


def _name(sheet: _Sheet, shown: Shown, box: Box) -> None:
    """Write a thing's name beside it: the newest always, an older point where nothing stands in the way."""
    if not shown.newest and not isinstance(shown.what, Point):
        return
    words = in_words(shown.name)
    face = Face.STRONG if shown.newest else Face.PALE
    size = sheet.unit * _LETTERS
    room = width_of(words, size, face), size * CAP_HEIGHT
    spots = [_spot(at, side, room, sheet.unit) for at in _places(shown.what) for side in _SIDES]
    inside = [spot for spot in spots if _holds(box, spot)] or spots
    free = [spot for spot in inside if not any(spot.meets(other) for other in sheet.taken)]
    if not free and not shown.newest:
        return
    spot = min(free or inside, key=lambda box: sum(_within(box, point) for point in sheet.ink))
    sheet.taken.append(spot)
    sheet.pen.text(Point(spot.left, spot.bottom), words, Lettering(size, face=face))


#: Where a name may stand beside its point, in the order of liking: right, left, above, below.
_SIDES = ((1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, 1), (1, -1), (-1, -1))


def _spot(at: Point, side: tuple[int, int], room: tuple[float, float], unit: float) -> Box:
    gap = 1.7 * unit
    width, height = room
    left = at.x + (gap if side[0] > 0 else -gap - width if side[0] < 0 else -width / 2.0)
    low = at.y + (gap if side[1] > 0 else -gap - height if side[1] < 0 else -height / 2.0)
    return Box(left, low, left + width, low + height)


def _within(box: Box, point: Point) -> bool:
    return box.left <= point.x <= box.right and box.bottom <= point.y <= box.top


def _along(what: Point | Path, step: float) -> list[Point]:
    """Points of a path close enough together that no word slips between them."""
    if isinstance(what, Point):
        return []
    count = min(_MOST_INK, int(what.length / step) + 1)
    return [what.point_at(what.length * i / count) for i in range(count + 1)]


def _holds(box: Box, spot: Box) -> bool:
    return box.left <= spot.left and box.bottom <= spot.bottom and spot.right <= box.right and spot.top <= box.top


def _places(what: Point | Path | DartShape | Shape) -> Sequence[Point]:
    """Places a name belongs to, best first: a point itself, the middle of a path, the tip of a dart."""
    if isinstance(what, Point):
        return (what,)
    if isinstance(what, Path):
        return [what.point_at(what.length * share) for share in (0.5, 0.3, 0.7)]
    if isinstance(what, DartShape):
        return (what.tip,)
    box = join_boxes([_bounds(part) for part in _parts(what)])
    return (Point((box.left + box.right) / 2.0, (box.bottom + box.top) / 2.0),)
