"""Draws one piece so that a cutter respects it, whatever the pen."""

from __future__ import annotations

from app.pattern.drawing.block import Block, block_beside, block_inside, draw_block
from app.pattern.drawing.details import (
    draw_darts,
    draw_edge_names,
    draw_grain,
    draw_grain_word,
    draw_marks,
    draw_notches,
)
from app.pattern.drawing.look import Look
from app.pattern.drawing.outline import draw_fold, draw_outline
from app.pattern.drawing.pen import Pen
from app.pattern.drawing.record import Drawn, RecordPen, replay
from app.pattern.drawing.words import short_block, title_block
from app.pattern.pieces.model import Piece

__all__ = ["draw_lines", "draw_piece", "piece_marks", "place_title"]


def draw_lines(piece: Piece, pen: Pen, look: Look) -> None:
    """Everything but the title block, in the piece's own frame."""
    draw_outline(piece, pen)
    for edge in piece.edges:
        if edge.fold:
            draw_fold(piece, edge, pen, look)
    draw_darts(piece, pen, look)
    draw_marks(piece, pen, look)
    draw_grain(piece, pen, look)
    draw_grain_word(piece, pen, look)
    draw_notches(piece, pen)
    if look.edge_names:
        draw_edge_names(piece, pen, look)


def place_title(piece: Piece, drawn: list[Drawn], look: Look) -> Block:
    """The title block: inside where it fits clear of what is drawn, else beside the piece with a leader."""
    full, short = title_block(piece, look), short_block(piece, look)
    inside = block_inside(piece.stitching, drawn, (full, short), look.scale)
    return inside or block_beside(piece.cutting, short, look.scale)


def draw_piece(piece: Piece, pen: Pen, look: Look) -> None:
    """Draw a whole piece in its own frame (mm, y up)."""
    replay(piece_marks(piece, look), pen)


def piece_marks(piece: Piece, look: Look) -> tuple[Drawn, ...]:
    """The whole drawing of a piece, remembered, to be drawn on as many sheets as it takes."""
    record = RecordPen()
    draw_lines(piece, record, look)
    draw_block(place_title(piece, record.marks, look), record)
    return tuple(record.marks)
