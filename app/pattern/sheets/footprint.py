"""The ground a piece takes on a sheet: inside its cutting line, and its words where they stand beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from shapely import unary_union
from shapely.affinity import affine_transform
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from app.pattern.drawing import DrawingLook, LineStyle, NotchWay, piece_marks
from app.pattern.drawing.outline import as_shown
from app.pattern.drawing.record import Drawn, Lined, Said, text_corners
from app.pattern.geometry import Transform
from app.pattern.pieces.model import Piece
from app.pattern.problem import Place, Problem

__all__ = ["Ground", "ground_of", "moved", "piece_problems", "quarter"]


@dataclass(frozen=True, slots=True)
class Ground:
    """A piece's name, its ground as a Shapely shape in the piece's frame, and its cutting area, mm."""

    piece: str
    shape: BaseGeometry
    cutting: BaseGeometry


def ground_of(piece: Piece, look: DrawingLook) -> Ground:
    """The ground a piece takes when drawn with a look."""
    cutting: BaseGeometry = Polygon(as_shown(piece, look.lines).cutting.flatten(0.05))
    marks = piece_marks(piece, look)
    words = [Polygon(text_corners(m.at, m.words, m.lettering)) for m in marks if isinstance(m, Said)]
    beside = [box for box in words if cutting.disjoint(box)]
    if look.notches is NotchWay.OUT:
        cutting = unary_union([cutting, *_wedges(marks)])
    # Nothing may slip between a piece and the words that a leader ties to it.
    return Ground(piece.name, unary_union([cutting, *beside]).convex_hull if beside else cutting, cutting)


def _wedges(marks: Iterable[Drawn]) -> Iterator[BaseGeometry]:
    """The notches that stand out of a piece."""
    for mark in marks:
        if isinstance(mark, Lined) and mark.style is LineStyle.NOTCH:
            yield Polygon(mark.path.flatten(0.05)).buffer(0.01)


def quarter(turns: int) -> Transform:
    """A turn by quarters, anticlockwise, with exact figures."""
    re, im = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[turns % 4]
    return Transform(re, im)


def moved(shape: BaseGeometry, transform: Transform) -> BaseGeometry:
    """A Shapely shape after a transform without mirroring."""
    t = transform
    return affine_transform(shape, [t.re, -t.im, t.im, t.re, t.dx, t.dy])


def piece_problems(piece: Piece) -> tuple[Problem, ...]:
    """Why a piece cannot be laid on paper; empty when all is well."""
    shape = Polygon(piece.cutting.flatten(0.05)) if piece.cutting.closed else Polygon()
    if shape.is_valid and shape.area > 1.0:
        return ()
    what = "is empty" if shape.area <= 1.0 else "crosses itself"
    return (
        Problem(
            code="sheets.no-outline",
            message=f"The cutting line of {piece.title} {what}, so it cannot be printed.",
            fix="Check the piece's edges and allowances in the draft.",
            where=piece.span or Place(piece=piece.name),
        ),
    )
