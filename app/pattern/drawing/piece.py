"""Draws one piece so that a cutter respects it, whatever the pen."""

from __future__ import annotations

from dataclasses import replace

from app.pattern.drawing.block import Block, block_beside, block_inside, draw_block
from app.pattern.drawing.details import draw_darts, draw_grain, draw_marks, draw_notches
from app.pattern.drawing.labels import small_words
from app.pattern.drawing.look import DrawingLook
from app.pattern.drawing.outline import as_shown, draw_fold, draw_outline
from app.pattern.drawing.pen import LineStyle, Pen
from app.pattern.drawing.record import Drawn, Lined, RecordPen, replay
from app.pattern.drawing.words import short_block, title_block
from app.pattern.geometry import Path
from app.pattern.pieces.model import Piece

__all__ = ["draw_lines", "piece_marks", "place_title"]


def draw_lines(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """Everything but the title block, in the piece's own frame: lines first, then small words where they lie free."""
    record = RecordPen()
    shown = as_shown(piece, look.lines)
    # A pale fill for a piece that is cut from contrast or lining cloth and from nothing else
    tints = {look.tints.get(cut.fabric) for cut in shown.cuts}
    first = look.tints.get(shown.cuts[0].fabric) if shown.cuts else None
    if first is not None and None not in tints:
        record.fill(shown.cutting, first)
    draw_outline(shown, record, look.lines)
    for edge in shown.edges:
        if edge.fold:
            draw_fold(shown, edge, record, look)
    draw_darts(shown, record, look)
    draw_marks(shown, record, look)
    draw_grain(shown, record, look)
    draw_notches(shown, record, look)
    replay((*record.marks, *small_words(shown, record.marks, look)), pen)


#: Blocks smaller than this part of their natural size are set over rows of stitching if that makes them larger.
_EASY_TO_READ = 0.75
#: Lines that may pass under a title, blanked out, when a piece is full of them.
_MAY_BE_COVERED = (LineStyle.SEWN, LineStyle.GATHER, LineStyle.LENGTHEN, LineStyle.FOLD)


def place_title(piece: Piece, drawn: list[Drawn], look: DrawingLook, avoid: tuple[Path, ...] = ()) -> Block:
    """The title block: inside, clear of what is drawn; else inside over rows of stitching; else beside the piece.

    It also keeps clear of the lines to `avoid` (the joints of sheets) where it stays easy to read.
    """
    full, short = title_block(piece, look), short_block(piece, look)
    if avoid:
        more = (*drawn, *(Lined(path, LineStyle.JOINT) for path in avoid))
        whole = block_inside(piece.stitching, more, (full,), look.scale, look.upright)
        if whole is not None and whole.scale >= _EASY_TO_READ * look.scale:
            return whole
    clear = block_inside(piece.stitching, drawn, (full, short), look.scale, look.upright)
    if clear is not None and clear.lines == full and clear.scale >= _EASY_TO_READ * look.scale:
        return clear
    firm = [mark for mark in drawn if not (isinstance(mark, Lined) and mark.style in _MAY_BE_COVERED)]
    over = (
        block_inside(piece.stitching, firm, (full, short), look.scale, look.upright) if len(firm) < len(drawn) else None
    )
    if over is not None and (clear is None or over.scale > 1.2 * clear.scale or len(over.lines) > len(clear.lines)):
        return replace(over, blanks=True)
    return clear or block_beside(piece.cutting, short, look.scale)


def piece_marks(piece: Piece, look: DrawingLook, avoid: tuple[Path, ...] = ()) -> tuple[Drawn, ...]:
    """The whole drawing of a piece, remembered, to be drawn on as many sheets as it takes.

    The title block is kept off the lines to `avoid` where it can be.
    """
    record = RecordPen()
    draw_lines(piece, record, look)
    draw_block(place_title(as_shown(piece, look.lines), record.marks, look, avoid), record)
    return tuple(record.marks)
