"""Draws one piece so that a cutter respects it, whatever the pen."""

from __future__ import annotations

from dataclasses import replace

from app.pattern.drawing.block import Block, block_beside, block_inside, draw_block
from app.pattern.drawing.details import (
    draw_dart_words,
    draw_darts,
    draw_edge_names,
    draw_grain,
    draw_grain_word,
    draw_marks,
    draw_notches,
)
from app.pattern.drawing.look import Look
from app.pattern.drawing.outline import draw_fold, draw_outline
from app.pattern.drawing.pen import LineStyle, Pen
from app.pattern.drawing.record import Drawn, Lined, RecordPen, replay
from app.pattern.drawing.words import short_block, title_block
from app.pattern.geometry import Path
from app.pattern.pieces.model import Piece

__all__ = ["draw_lines", "draw_piece", "piece_marks", "place_title"]


def draw_lines(piece: Piece, pen: Pen, look: Look) -> None:
    """Everything but the title block, in the piece's own frame."""
    draw_outline(piece, pen)
    for edge in piece.edges:
        if edge.fold:
            draw_fold(piece, edge, pen, look)
    draw_darts(piece, pen, look)
    draw_dart_words(piece, pen, look)
    draw_marks(piece, pen, look)
    draw_grain(piece, pen, look)
    draw_grain_word(piece, pen, look)
    draw_notches(piece, pen)
    if look.edge_names:
        draw_edge_names(piece, pen, look)


#: Blocks smaller than this part of their natural size are set over rows of stitching if that makes them larger.
_EASY_TO_READ = 0.75
#: Lines that may pass under a title, blanked out, when a piece is full of them.
_MAY_BE_COVERED = (LineStyle.SEWN, LineStyle.GATHER, LineStyle.LENGTHEN, LineStyle.FOLD)


def place_title(piece: Piece, drawn: list[Drawn], look: Look, avoid: tuple[Path, ...] = ()) -> Block:
    """The title block: inside, clear of what is drawn; else inside over rows of stitching; else beside the piece.

    It also keeps clear of the lines to `avoid` (the joints of sheets) where it stays easy to read.
    """
    full, short = title_block(piece, look), short_block(piece, look)
    if avoid:
        more = (*drawn, *(Lined(path, LineStyle.JOINT) for path in avoid))
        whole = block_inside(piece.stitching, more, (full,), look.scale)
        if whole is not None and whole.scale >= _EASY_TO_READ * look.scale:
            return whole
    clear = block_inside(piece.stitching, drawn, (full, short), look.scale)
    if clear is not None and clear.lines == full and clear.scale >= _EASY_TO_READ * look.scale:
        return clear
    firm = [mark for mark in drawn if not (isinstance(mark, Lined) and mark.style in _MAY_BE_COVERED)]
    over = block_inside(piece.stitching, firm, (full, short), look.scale) if len(firm) < len(drawn) else None
    if over is not None and (clear is None or over.scale > 1.2 * clear.scale or len(over.lines) > len(clear.lines)):
        return replace(over, blanks=True)
    return clear or block_beside(piece.cutting, short, look.scale)


def draw_piece(piece: Piece, pen: Pen, look: Look) -> None:
    """Draw a whole piece in its own frame (mm, y up)."""
    replay(piece_marks(piece, look), pen)


def piece_marks(piece: Piece, look: Look, avoid: tuple[Path, ...] = ()) -> tuple[Drawn, ...]:
    """The whole drawing of a piece, remembered, to be drawn on as many sheets as it takes.

    The title block is kept off the lines to `avoid` where it can be.
    """
    record = RecordPen()
    draw_lines(piece, record, look)
    draw_block(place_title(piece, record.marks, look, avoid), record)
    return tuple(record.marks)
