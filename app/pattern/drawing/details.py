"""Everything a cutter marks inside the outline: darts, notches, the grain, and the marks of making."""

from __future__ import annotations

from collections.abc import Callable

from shapely.geometry import LineString
from shapely.geometry import Point as ShapelyPoint

from app.pattern.drawing.arrows import arrow_head
from app.pattern.drawing.curves import ring
from app.pattern.drawing.look import DrawingLook, NotchWay
from app.pattern.drawing.outline import inward
from app.pattern.drawing.pen import FillStyle, LineStyle, Pen
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Dart, Edge, Mark, MarkKind, Notch, Piece

__all__ = [
    "draw_darts",
    "draw_grain",
    "draw_folds",
    "draw_marks",
    "draw_notches",
    "notch_ticks",
]

_TICK = 8.0
_TICK_INSIDE = 5.0
_DOUBLE_APART = 6.0
_REACH = 90.0
_WEDGE_WIDE, _WEDGE_HIGH = 6.0, 5.0


class _CutLine:
    """The cutting line, asked where a ray from inside the piece meets it."""

    def __init__(self, piece: Piece) -> None:
        self._line = LineString(piece.cutting.flatten(0.01))

    def met(self, start: Point, way: Point) -> Point | None:
        """The first point of the cutting line beyond `start` in the direction of `way`; None when there is none."""
        far = start.plus(way.scaled(_REACH))
        crossed = self._line.intersection(LineString([start, far]))
        if crossed.is_empty:
            return None
        here = ShapelyPoint(start)
        points = [Point(*xy) for part in getattr(crossed, "geoms", [crossed]) for xy in part.coords]
        return min(points, key=lambda p: here.distance(ShapelyPoint(p)))


def draw_darts(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """Legs dashed out to the cutting line, the middle fold, and a drill dot at the point."""
    cut = _CutLine(piece)
    for dart in piece.darts:
        for foot in (dart.a, dart.b):
            end = cut.met(foot, _unit(dart.tip, foot)) or foot
            pen.line(Path.through(end, dart.tip), LineStyle.DART)
        middle = dart.cap.point_at(_middle_of_cap(dart))
        outer = cut.met(middle, _unit(dart.tip, middle)) or middle
        pen.line(Path.through(outer, dart.tip), LineStyle.DART_FOLD)
        pen.fill(ring(dart.tip, 0.9 * look.scale), FillStyle.INK)


def _unit(a: Point, b: Point) -> Point:
    return b.minus(a).scaled(1.0 / a.distance(b))


def _middle_of_cap(dart: Dart) -> float:
    """Where the cap turns at the fold: its corner nearest to the middle between the legs, else its middle."""
    stops = [d for d in dart.cap.stops if 0.0 < d < dart.cap.length]
    half = dart.cap.length / 2.0
    return min(stops, key=lambda d: abs(d - half), default=half)


def draw_grain(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """The grain arrow, a head at both ends."""
    start, end = piece.grain.start, piece.grain.end
    length = start.distance(end)
    if length < 1.0:
        return
    head = min(7.0 * look.scale, length / 4.0)
    pen.line(Path.through(start, end), LineStyle.GRAIN)
    arrow_head(start, end, pen, head)
    arrow_head(end, start, pen, head)


def notch_ticks(piece: Piece, notch: Notch, cut: _CutLine | None = None) -> tuple[Path, ...]:
    """The one or two ticks of a notch: from the cutting line inwards, never past the stitching line.

    An edge without allowance is ticked inwards by 5 mm.
    """
    edge, line = piece.edge(notch.edge), cut or _CutLine(piece)
    places = (-_DOUBLE_APART / 2.0, _DOUBLE_APART / 2.0) if notch.double else (0.0,)
    length = edge.path.length
    return tuple(_tick(edge, min(max(notch.along + shift, 0.0), length), line) for shift in places)


def _tick(edge: Edge, along: float, cut: _CutLine) -> Path:
    at, into = edge.path.point_at(along), inward(edge, along)
    start = cut.met(at, into.scaled(-1.0)) if edge.allowance.width > 0.0 else None
    if start is None or start.distance(at) < 0.5:
        return Path.through(at, at.plus(into.scaled(_TICK_INSIDE)))
    return Path.through(start, start.toward(at, min(_TICK, start.distance(at))))


def _wedge(tick: Path) -> Path:
    """A notch to be cut round: a wedge standing on the outer end of its tick, pointing out of the piece."""
    foot, out = tick.start, _unit(tick.end, tick.start)
    half = Point(-out.y, out.x).scaled(_WEDGE_WIDE / 2.0)
    return Path.through(foot.plus(half), foot.plus(out.scaled(_WEDGE_HIGH)), foot.minus(half))


def draw_notches(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """All notches of the piece, pointing in or out."""
    if piece.notches:
        cut = _CutLine(piece)
        for notch in piece.notches:
            for tick in notch_ticks(piece, notch, cut):
                pen.line(tick if look.notches is NotchWay.IN else _wedge(tick), LineStyle.NOTCH)


def draw_folds(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """The lines inside the piece at which it is folded, for pictures too small for all its marks."""
    for mark in piece.marks:
        if mark.kind is MarkKind.FOLD:
            _HANDS[mark.kind](mark, pen, look)


def draw_marks(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """All inside marks, each in its own way."""
    for mark in piece.marks:
        _HANDS[mark.kind](mark, pen, look)


def _as_line(style: LineStyle) -> Callable[[Mark, Pen, DrawingLook], None]:
    def draw(mark: Mark, pen: Pen, look: DrawingLook) -> None:
        if mark.path is None:
            _cross(mark.at, 3.0 * look.scale, pen)
        else:
            pen.line(mark.path, style)

    return draw


def _cross(at: Point, arm: float, pen: Pen) -> None:
    pen.line(Path.through(at.moved(-arm, 0.0), at.moved(arm, 0.0)), LineStyle.MARK)
    pen.line(Path.through(at.moved(0.0, -arm), at.moved(0.0, arm)), LineStyle.MARK)


def _lengthen(mark: Mark, pen: Pen, look: DrawingLook) -> None:
    """Two lines close together: part or overlap the paper between them."""
    if mark.path is None:
        _cross(mark.at, 3.0 * look.scale, pen)
        return
    way = _unit(mark.path.start, mark.path.end)
    for side in (-1.5 * look.scale, 1.5 * look.scale):
        shift = Point(-way.y * side, way.x * side)
        moved = tuple(p.plus(shift) for p in mark.path.flatten(0.05))
        pen.line(Path.through(*moved), LineStyle.LENGTHEN)


def _lay(mark: Mark, pen: Pen, look: DrawingLook) -> None:
    """An arrow over a pleat, from the edge that is folded to where it is laid."""
    if mark.path is not None:
        pen.line(mark.path, LineStyle.MARK)
        arrow_head(mark.path.end, mark.path.start, pen, min(3.5 * look.scale, mark.path.length * 0.5))


def _button(mark: Mark, pen: Pen, look: DrawingLook) -> None:
    pen.line(ring(mark.at, 4.0 * look.scale), LineStyle.MARK)
    _cross(mark.at, 2.4 * look.scale, pen)


def _buttonhole(mark: Mark, pen: Pen, look: DrawingLook) -> None:
    """The slit with a bar across each end."""
    if mark.path is None:
        _button(mark, pen, look)
        return
    pen.line(mark.path, LineStyle.MARK)
    for at, along in ((mark.path.start, 0.0), (mark.path.end, mark.path.length)):
        way = mark.path.tangent_at(along)
        across = Point(-way.y, way.x).scaled(2.0 * look.scale)
        pen.line(Path.through(at.plus(across), at.minus(across)), LineStyle.MARK)


def _drill(mark: Mark, pen: Pen, look: DrawingLook) -> None:
    pen.fill(ring(mark.at, 0.9 * look.scale), FillStyle.INK)
    pen.line(ring(mark.at, 2.4 * look.scale), LineStyle.MARK)


_HANDS: dict[MarkKind, Callable[[Mark, Pen, DrawingLook], None]] = {
    MarkKind.STITCH: _as_line(LineStyle.SEWN),
    MarkKind.FOLD: _as_line(LineStyle.FOLD),
    MarkKind.LAY: _lay,
    MarkKind.LENGTHEN: _lengthen,
    MarkKind.GATHER: _as_line(LineStyle.GATHER),
    MarkKind.PLACE: _as_line(LineStyle.MARK),
    MarkKind.BUTTON: _button,
    MarkKind.BUTTONHOLE: _buttonhole,
    MarkKind.DRILL: _drill,
}
