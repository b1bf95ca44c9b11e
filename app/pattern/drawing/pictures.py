"""Small pictures for the screen and the instruction sheet: one piece, and the whole pattern for review."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from app.pattern.drawing.block import Block, block_inside, draw_block
from app.pattern.drawing.details import draw_darts, draw_folds, draw_grain, draw_notches
from app.pattern.drawing.fonts import width_of, wrapped
from app.pattern.drawing.look import GREY, DrawingLook
from app.pattern.drawing.outline import draw_fold, draw_outline, fold_line
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.record import Drawn, RecordPen, Said, join_boxes, replay
from app.pattern.drawing.svg import SvgPen, svg_page
from app.pattern.drawing.words import TitleLine, cut_words
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.units import MM_PER, Unit, show_length

__all__ = ["piece_svg", "preview_svg"]

#: Width and height in mm of the room on paper for which the letters and lines of a preview are sized: the lower
#: of the two that an instruction sheet's cover has, less what stands round them.
_ROOM = (168.0, 67.0)
#: Em sizes in mm of a title inside its piece at most, of one below it, and of the scale's words: 7 points and more.
_INSIDE, _BELOW, _WORDS = 3.6, 2.7, 2.7
_LEADING, _LEAST_WORDS = 3.2, 16.0
_GAP, _EDGE, _LINES, _ROUNDS = 6.0, 3.0, 0.5, 4


@dataclass(frozen=True, slots=True)
class _Shown:
    """A piece as a preview shows it: what is drawn, its title inside it, or else in lines below it."""

    piece: Piece
    marks: tuple[Drawn, ...]
    block: Block | None
    lines: tuple[str, ...]
    width: float
    height: float

    @classmethod
    def of(cls, piece: Piece, scale: float) -> _Shown:
        """The piece and its title when one mm on paper shows `scale` mm of it."""
        record = RecordPen()
        _body(piece, record, DrawingLook(scale=scale * _LINES * 0.7))
        # Words along a fold would be too small to read here; its line says the same.
        drawn = tuple(mark for mark in record.marks if not isinstance(mark, Said))
        title = (TitleLine(piece.title, _INSIDE, Face.STRONG),)
        block = block_inside(piece.stitching, drawn, (title,), scale)
        # Scaled down to fit inside it, a title may become too small to be read: then it stands below.
        if block is not None and block.scale * _INSIDE < _BELOW * scale:
            block = None
        box = piece.cutting.bounds
        across, up, size = box.right - box.left, box.top - box.bottom, _BELOW * scale
        if block is not None:
            return cls(piece, drawn, block, (), across, up)
        lines = wrapped(piece.title, size, max(across, _LEAST_WORDS * scale), Face.STRONG)
        words = max(width_of(line, size, Face.STRONG) for line in lines)
        high = up + (_LEADING * len(lines) + 0.8) * scale
        return cls(piece, drawn, None, lines, max(across, words), high)


@dataclass(frozen=True, slots=True)
class _PieceInPicture:
    """A piece and where it stands in a picture: the box is that of its room, titles and all."""

    shown: _Shown
    transform: Transform
    box: Box


def _shelves(shown: Iterable[_Shown], wide: float, gap: float) -> tuple[_PieceInPicture, ...]:
    """Pieces side by side from the left, in order, on as many shelves as a picture of that width needs."""
    spots: list[_PieceInPicture] = []
    left, top, deep = 0.0, 0.0, 0.0
    for one in shown:
        box = one.piece.cutting.bounds
        if spots and left + one.width > wide:
            left, top, deep = 0.0, top - deep - gap, 0.0
        inside = (one.width - (box.right - box.left)) / 2.0
        move = Transform.move(left + inside - box.left, top - box.top)
        spots.append(_PieceInPicture(one, move, Box(left, top - one.height, left + one.width, top)))
        left, deep = left + one.width + gap, max(deep, one.height)
    return tuple(spots)


def _around(boxes: Iterable[Box], margin: float) -> Box:
    box = join_boxes(boxes)
    return Box(box.left - margin, box.bottom - margin, box.right + margin, box.top + margin)


def _body(piece: Piece, pen: Pen, look: DrawingLook) -> None:
    """A piece as small pictures show it."""
    pen.fill(piece.cutting, FillStyle.PIECE)
    draw_outline(piece, pen)
    for edge in piece.edges:
        if edge.fold:
            draw_fold(piece, edge, pen, look)
    draw_darts(piece, pen, look)
    draw_folds(piece, pen, look)
    draw_grain(piece, pen, look)
    draw_notches(piece, pen, look)


def _draw(shown: _Shown, pen: Pen, scale: float) -> None:
    """The piece with its title inside it or below it."""
    replay(shown.marks, pen)
    if shown.block is not None:
        draw_block(shown.block, pen)
    box = shown.piece.cutting.bounds
    for number, line in enumerate(shown.lines, start=1):
        at = Point((box.left + box.right) / 2.0, box.bottom - _LEADING * number * scale)
        pen.text(at, line, Lettering(_BELOW * scale, 0.0, Anchor.MIDDLE, Face.STRONG))


def _cut_list(piece: Piece, titles: dict[str, str]) -> str:
    return "; ".join(cut_words(cut, titles.get(cut.fabric, cut.fabric)) for cut in piece.cuts)


def preview_svg(pattern: Pattern, unit: Unit) -> str:
    """All pieces side by side to one scale, titled, with a scale bar in the reader's unit."""
    titles = {fabric.name: fabric.title for fabric in pattern.fabrics}
    spots, scale = _laid(pattern.pieces)
    pen = SvgPen(palette=GREY.thicker(scale * _LINES))
    for spot in spots:
        piece, box = spot.shown.piece, spot.shown.piece.cutting.bounds
        size = f"{show_length(box.right - box.left, unit)} × {show_length(box.top - box.bottom, unit)}"
        pen.open_group(f"{piece.title}: {_cut_list(piece, titles)}; {size}", kind="piece")
        _draw(spot.shown, pen.moved(spot.transform), scale)
        pen.close_group()
    frame = _around((s.box for s in spots), _EDGE * scale)
    bar = _scale_bar(pen, Point(frame.left + _EDGE * scale, frame.bottom - 2.0 * scale), unit, scale)
    whole = _around((frame, bar), 0.0)
    count = f"{len(spots)} pieces" if len(spots) != 1 else "1 piece"
    return svg_page(pen, whole, title=f"{pattern.title}: {count} to scale", kind="pattern-preview")


def _laid(pieces: tuple[Piece, ...]) -> tuple[tuple[_PieceInPicture, ...], float]:
    """The pieces on the shelves on which they come out largest, and how many mm of them one mm on paper shows.

    The letters take room too, so both are fitted to each other in a few rounds.
    """
    ordered = tuple(sorted(pieces, key=lambda p: p.cutting.bounds.bottom - p.cutting.bounds.top))
    # A scale to begin with, as if the pieces filled half of the room
    boxes = [piece.cutting.bounds for piece in pieces]
    area = sum((b.right - b.left) * (b.top - b.bottom) for b in boxes)
    scale = max(1.0, sqrt(2.0 * area / (_ROOM[0] * _ROOM[1])))
    for _ in range(_ROUNDS):
        shown, gap = [_Shown.of(piece, scale) for piece in ordered], _GAP * scale
        least = max(one.width for one in shown)
        ends = (sum(one.width + gap for one in shown[: n + 1]) - gap for n in range(len(shown)))
        tried = [_shelves(shown, wide, gap) for wide in {max(least, end) for end in ends}]
        spots = min(tried, key=_scale_of)
        wanted = _scale_of(spots)
        if abs(wanted - scale) < 0.03 * scale:
            break
        scale = wanted
    return spots, scale


def _scale_of(spots: tuple[_PieceInPicture, ...]) -> float:
    box = join_boxes(spot.box for spot in spots)
    return max(1.0, (box.right - box.left) / _ROOM[0], (box.top - box.bottom) / _ROOM[1])


def _scale_bar(pen: SvgPen, at: Point, unit: Unit, scale: float) -> Box:
    """A bar of 20 cm or 8 in, and the box it takes."""
    long = 20.0 * MM_PER["cm"] if unit is Unit.CM else 8.0 * MM_PER["in"]
    tick = 1.1 * scale
    end = at.moved(long, 0.0)
    corners = (at.moved(0.0, tick), at, end, end.moved(0.0, tick))
    pen.line(Path.through(*corners), LineStyle.GRAIN)
    lettering = Lettering(_WORDS * scale, 0.0, Anchor.START, Face.REGULAR)
    pen.text(end.moved(1.6 * scale, 0.0), show_length(long, unit), lettering)
    return Box(at.x, at.y - 2.7 * scale, end.x + 16.0 * scale, at.y + tick)


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
    look = DrawingLook(scale=min(scale * 0.6, 200.0))
    draw_darts(piece, pen, look)
    draw_folds(piece, pen, look)
    draw_grain(piece, pen, look)
    return svg_page(pen, _around((box,), 2.0 * scale), title=piece.title, kind="piece-thumbnail")
