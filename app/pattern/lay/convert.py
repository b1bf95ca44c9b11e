"""From a pattern to what is cut from one of its fabrics, as flat outlines with the grain along x."""

from __future__ import annotations

from app.pattern.geometry import Point, Transform
from app.pattern.lay.model import LayItem
from app.pattern.pieces.model import Cut, Pattern, Piece

__all__ = ["items_for"]

#: Largest distance between a curve and the chords it is laid with, mm: a fraction of a cutting line's width.
FLATNESS = 0.1


def items_for(pattern: Pattern, fabric: str) -> tuple[LayItem, ...]:
    """Everything to cut from the fabric of that name: cutting outlines in mm, the grain's upper end towards +x."""
    return tuple(_item(piece, cut) for piece in pattern.pieces for cut in piece.cuts if cut.fabric == fabric)


def _item(piece: Piece, cut: Cut) -> LayItem:
    grain = piece.grain
    turn = Transform.turn(-grain.start.angle_to(grain.end), grain.start)
    outline = tuple(turn.apply(p) for p in piece.cutting.flatten(FLATNESS))
    if outline[0].distance(outline[-1]) < 1e-9:
        outline = outline[:-1]
    return LayItem(piece.name, piece.title, outline, cut.count, cut.pair, cut.on_fold, _fold(piece, cut, turn))


def _fold(piece: Piece, cut: Cut, turn: Transform) -> tuple[Point, Point] | None:
    edge = piece.fold_edge
    if edge is None or not cut.on_fold:
        return None
    return turn.apply(edge.path.start), turn.apply(edge.path.end)
