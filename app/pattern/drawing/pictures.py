"""Small pictures for the screen and the instruction sheet: one piece, and the whole pattern for review."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import sqrt

from app.pattern.drawing.block import block_inside, draw_block
from app.pattern.drawing.details import draw_darts, draw_grain, draw_notches
from app.pattern.drawing.fonts import width_of
from app.pattern.drawing.look import GREY, Look
from app.pattern.drawing.outline import draw_fold, draw_outline, fold_line
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.record import RecordPen, join_boxes, replay
from app.pattern.drawing.svg import SvgPen, svg_page
from app.pattern.drawing.words import TitleLine, cut_words
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.units import MM_PER, Unit, show_length

__all__ = ["piece_svg", "preview_svg"]

#: Width in mm of a picture at which lines and letters have their natural size.
_NATURAL = 330.0


@dataclass(frozen=True, slots=True)
class _Spot:
    """A piece and where it stands in a picture."""

    piece: Piece
    transform: Transform
    box: Box


def _shelves(pieces: Iterable[Piece], wide: float, gap: float) -> tuple[_Spot, ...]:
    """Pieces side by side from the left, in order, on as many shelves as a picture of that width needs."""
    spots: list[_Spot] = []
    left, top, deep = 0.0, 0.0, 0.0
    for piece in pieces:
        box = piece.cutting.bounds
        across, up = box.right - box.left, box.top - box.bottom
        if spots and left + across > wide:
            left, top, deep = 0.0, top - deep - gap, 0.0
        move = Transform.move(left - box.left, top - box.top)
        spots.append(_Spot(piece, move, Box(left, top - up, left + across, top)))
        left, deep = left + across + gap, max(deep, up)
    return tuple(spots)


def _tallest_first(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """Pieces by height, so that shelves are well filled; equals keep their order."""
    return tuple(sorted(pieces, key=lambda p: p.cutting.bounds.bottom - p.cutting.bounds.top))


def _shelf_width(pieces: tuple[Piece, ...], shape: float) -> float:
    """A width at which the shelves come out about `shape` times as wide as high."""
    boxes = [p.cutting.bounds for p in pieces]
    area = sum((b.right - b.left) * (b.top - b.bottom) for b in boxes)
    widest = max(b.right - b.left for b in boxes)
    return max(widest, sqrt(1.25 * area * shape))


def _around(boxes: Iterable[Box], margin: float) -> Box:
    box = join_boxes(boxes)
    return Box(box.left - margin, box.bottom - margin, box.right + margin, box.top + margin)


def _body(piece: Piece, pen: Pen, look: Look) -> None:
    """A piece as small pictures show it."""
    pen.fill(piece.cutting, FillStyle.PIECE)
    draw_outline(piece, pen)
    for edge in piece.edges:
        if edge.fold:
            draw_fold(piece, edge, pen, look)
    draw_darts(piece, pen, look)
    draw_grain(piece, pen, look)
    draw_notches(piece, pen, look)


def _titled(piece: Piece, pen: Pen, look: Look) -> None:
    """The body and, where it fits, the piece's title; a title that does not fit stands below the piece."""
    record = RecordPen()
    _body(piece, record, replace(look, scale=look.scale * 0.7))
    lines = (TitleLine(piece.title, 6.6, Face.STRONG),)
    block = block_inside(piece.stitching, record.marks, (lines,), look.scale)
    replay(record.marks, pen)
    if block is not None:
        draw_block(block, pen)
    else:
        box = piece.cutting.bounds
        room = box.right - box.left + 12.0 * look.scale
        size = min(5.2 * look.scale, room / width_of(piece.title, 1.0, Face.STRONG))
        at = Point((box.left + box.right) / 2.0, box.bottom - 1.25 * size)
        pen.text(at, piece.title, Lettering(size, 0.0, Anchor.MIDDLE, Face.STRONG))


def _cut_list(piece: Piece, titles: dict[str, str]) -> str:
    return "; ".join(cut_words(cut, titles.get(cut.fabric, cut.fabric)) for cut in piece.cuts)


def preview_svg(pattern: Pattern, unit: Unit) -> str:
    """All pieces side by side to one scale, titled, with a scale bar in the reader's unit."""
    titles = {fabric.name: fabric.title for fabric in pattern.fabrics}
    wide = _shelf_width(pattern.pieces, 1.7)
    scale = max(1.0, wide / _NATURAL)
    look = Look(scale=scale)
    spots = _shelves(_tallest_first(pattern.pieces), wide, 14.0 * scale)
    pen = SvgPen(palette=GREY.thicker(scale))
    for spot in spots:
        box = spot.box
        size = f"{show_length(box.right - box.left, unit)} × {show_length(box.top - box.bottom, unit)}"
        pen.open_group(f"{spot.piece.title}: {_cut_list(spot.piece, titles)}; {size}", kind="piece")
        _titled(spot.piece, pen.moved(spot.transform), look)
        pen.close_group()
    frame = _around((s.box for s in spots), 9.0 * scale)
    bar = _scale_bar(pen, Point(frame.left + 9.0 * scale, frame.bottom - 4.0 * scale), unit, scale)
    whole = _around((frame, bar), 0.0)
    count = f"{len(spots)} pieces" if len(spots) != 1 else "1 piece"
    return svg_page(pen, whole, title=f"{pattern.title}: {count} to scale", kind="pattern-preview")


def _scale_bar(pen: SvgPen, at: Point, unit: Unit, scale: float) -> Box:
    """A bar of 20 cm or 8 in, and the box it takes."""
    long = 20.0 * MM_PER["cm"] if unit is Unit.CM else 8.0 * MM_PER["in"]
    tick = 2.0 * scale
    end = at.moved(long, 0.0)
    corners = (at.moved(0.0, tick), at, end, end.moved(0.0, tick))
    pen.line(Path.through(*corners), LineStyle.GRAIN)
    lettering = Lettering(4.6 * scale, 0.0, Anchor.START, Face.REGULAR)
    pen.text(end.moved(3.0 * scale, 0.0), show_length(long, unit), lettering)
    return Box(at.x, at.y - 5.0 * scale, end.x + 30.0 * scale, at.y + tick)


def piece_svg(piece: Piece) -> str:
    """One piece without words, for a cutting list."""
    box = piece.cutting.bounds
    scale = max(box.right - box.left, box.top - box.bottom) / 60.0
    pen = SvgPen(palette=GREY.thicker(max(1.0, scale * 0.6)))
    pen.fill(piece.cutting, FillStyle.PIECE)
    draw_outline(piece, pen)
    for edge in piece.edges:
        if edge.fold:
            pen.line(fold_line(piece, edge), LineStyle.FOLD)
    draw_grain(piece, pen, Look(scale=min(scale * 0.6, 200.0)))
    return svg_page(pen, _around((box,), 2.0 * scale), title=piece.title, kind="piece-thumbnail")
