"""Pictures of a part: its pieces with all that is printed on them, the shapes on its sheet, the seam it is sewn in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.pattern.drafting.playback import drawing_lines, frame_at
from app.pattern.drawing import GREY, BoundsPen, DrawingLook, FillStyle, SvgPen, draw_lines, seam_svg, svg_page
from app.pattern.drawing.playback import frame_svg
from app.pattern.drawing.words import cut_words
from app.pattern.geometry import Box
from app.pattern.guide.examples import PlayedExample
from app.pattern.pieces.model import Pattern, Piece

__all__ = ["PartPicture", "pieces_pictured", "seam_pictured", "sheet_pictured"]

#: Length in mm of a picture's longer side at which lines and letters have their natural size.
_NATURAL = 110.0


@dataclass(frozen=True, slots=True)
class PartPicture:
    """A picture and what it shows, in words."""

    words: str
    drawing: str


def pieces_pictured(pattern: Pattern, names: Sequence[str]) -> tuple[PartPicture, ...]:
    """Each piece alone, with its folds, notches and marks; its title and its cuts are the words."""
    titles = {fabric.name: fabric.title for fabric in pattern.fabrics}
    pieces = [pattern.piece(name) for name in names]
    return tuple(
        PartPicture(f"{p.title}: {'; '.join(cut_words(c, titles[c.fabric]) for c in p.cuts)}", _drawn(p))
        for p in pieces
    )


def _drawn(piece: Piece) -> str:
    box = piece.cutting.bounds
    scale = max(1.0, max(box.right - box.left, box.top - box.bottom) / _NATURAL)
    look = DrawingLook(scale=scale * 0.8)
    pen, bounds = SvgPen(palette=GREY.thicker(scale * 0.6)), BoundsPen()
    pen.fill(piece.cutting, FillStyle.PIECE)
    draw_lines(piece, pen, look)
    draw_lines(piece, bounds, look)
    assert bounds.box is not None
    left, bottom, right, top = bounds.box
    rim = 2.0 * scale
    box = Box(left - rim, bottom - rim, right + rim, top + rim)
    return svg_page(pen, box, title=piece.title, kind="piece-picture")


def sheet_pictured(played: PlayedExample, sheet: str) -> PartPicture:
    """What pattern work left on a sheet: its shapes, the newest in colour."""
    frame = frame_at(played.env, played.program, drawing_lines(played.env, sheet)[-1])
    return PartPicture("On its sheet, from shape to shape", frame_svg(replace(frame, things=frame.shapes)))


def seam_pictured(pattern: Pattern, seam: int) -> PartPicture:
    """The pieces of a seam with the edges that are sewn."""
    return PartPicture("Where it is sewn", seam_svg(pattern, pattern.seams[seam]))
