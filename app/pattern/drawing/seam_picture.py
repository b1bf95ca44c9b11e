"""The picture of a seam: its pieces with the edges to be sewn strong, every piece titled in a room of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.pattern.drawing.curves import ring
from app.pattern.drawing.details import draw_darts, notch_ticks
from app.pattern.drawing.fonts import width_of, wrapped
from app.pattern.drawing.look import GREY, DrawingLook
from app.pattern.drawing.outline import draw_outline, fold_line
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering, LineStyle
from app.pattern.drawing.svg import SvgPen, svg_page
from app.pattern.geometry import Box, Point, Transform
from app.pattern.pieces.edge_words import edges_words
from app.pattern.pieces.model import EdgeRun, Pattern, Piece, Seam

__all__ = ["WIDE_SHAPE", "seam_svg"]

#: Letters and lines are sized for the paper, mm: the room of a picture in a row, and that of a picture much wider than
#: high, which gets the room of two. One that is taller gets white at its sides, so that letters stay the same.
ROOM, WIDE_ROOM, _HIGH = 49.0, 101.0, 44.0
#: From this shape on, width by height, a picture is wide.
WIDE_SHAPE = 1.7
#: Em size of the titles, mm: 7 points and a little more.
_TITLE, _LEADING, _WORDS_WIDE = 2.7, 3.2, 16.0
_GAP, _EDGE, _LINES, _DOT = 3.4, 1.0, 0.3, 0.8


@dataclass(frozen=True, slots=True)
class _Slot:
    """A piece, its title in lines, and the room both take in the picture, mm."""

    piece: Piece
    lines: tuple[str, ...]
    width: float
    height: float

    @classmethod
    def of(cls, piece: Piece, scale: float) -> _Slot:
        """The room of a piece when letters are `scale` times their natural size."""
        box = piece.cutting.bounds
        across, size = box.right - box.left, _TITLE * scale
        lines = wrapped(piece.title, size, max(across, _WORDS_WIDE * scale))
        words = max(width_of(line, size) for line in lines)
        return cls(piece, lines, max(across, words), box.top - box.bottom + (_LEADING * len(lines) + 0.8) * scale)


@dataclass(frozen=True, slots=True)
class _Arranged:
    """Slots with the top left corner of each, and the size of the whole."""

    places: tuple[tuple[_Slot, Point], ...]
    width: float
    height: float

    def scale(self, room: float) -> float:
        """How many mm of the piece one mm on paper shows, in a room so wide."""
        return max(1.0, self.width / room, self.height / _HIGH)


def _in_rows(slots: Sequence[_Slot], wide: float, gap: float) -> _Arranged:
    """Slots in order from the left, a new row wherever the width is used up."""
    places: list[tuple[_Slot, Point]] = []
    left, top, deep, width = 0.0, 0.0, 0.0, 0.0
    for slot in slots:
        if left > 0.0 and left + slot.width > wide + 1e-6:
            left, top, deep = 0.0, top - deep - gap, 0.0
        places.append((slot, Point(left, top)))
        width, deep = max(width, left + slot.width), max(deep, slot.height)
        left += slot.width + gap
    return _Arranged(tuple(places), width, deep - top)


def _arranged(pieces: Sequence[Piece], room: float) -> _Arranged:
    """The rows in which the pieces come out largest; letters and rows are fitted to each other in a few rounds."""
    scale, best = 1.0, None
    for _ in range(6):
        slots = [_Slot.of(piece, scale) for piece in pieces]
        gap = _GAP * scale
        # Wide, low pieces first leave no white under them when the others stand in a row of their own.
        orders = (slots, sorted(slots, key=lambda s: s.height / s.width))
        widths = [sum(s.width + gap for s in slots[: n + 1]) - gap for n in range(len(slots))]
        tried = [_in_rows(order, max(wide, *(s.width for s in slots)), gap) for order in orders for wide in widths]
        best = min(tried, key=lambda one: one.scale(room))
        scale = best.scale(room)
    assert best is not None
    return best


def seam_svg(pattern: Pattern, seam: Seam) -> str:
    """The pieces of a seam, the edges to be sewn strong, a dot at the ends that meet first."""
    names = tuple(dict.fromkeys(run.piece for run in (*seam.a, *seam.b)))
    pieces, room = [pattern.piece(name) for name in names], ROOM
    laid = _arranged(pieces, room)
    if laid.width > WIDE_SHAPE * laid.height:
        room = WIDE_ROOM
        laid = _arranged(pieces, room)
    scale = laid.scale(room)
    pen = SvgPen(palette=GREY.thicker(scale * _LINES))
    for slot, corner in laid.places:
        _sewn_piece(slot, corner, seam, (pen, scale))
    edge = _EDGE * scale
    # Never taller than its room at full width: letters come out on paper as large as they were meant.
    least = room * scale if room == ROOM else WIDE_SHAPE * (laid.height + 2.0 * edge)
    spare = (max(laid.width, least) - laid.width) / 2.0
    frame = Box(-spare - edge, -laid.height - edge * 0.5, laid.width + spare + edge, edge)
    return svg_page(pen, frame, title=_seam_title(pattern, seam), kind="seam-picture")


def _sewn_piece(slot: _Slot, corner: Point, seam: Seam, inked: tuple[SvgPen, float]) -> None:
    """One piece, in the middle of its slot, with its title under it."""
    (pen, scale), piece = inked, slot.piece
    box = piece.cutting.bounds
    middle = corner.x + slot.width / 2.0
    pen.open_group(piece.title, kind="piece")
    moved = pen.moved(Transform.move(middle - (box.left + box.right) / 2.0, corner.y - box.top))
    _body(piece, moved, scale)
    for run in (run for run in (*seam.a, *seam.b) if run.piece == piece.name):
        # An edge that is sewn, with its notches
        moved.line(piece.edge(run.edge).path, LineStyle.HIGHLIGHT)
        for notch in piece.notches:
            if notch.edge == run.edge:
                for tick in notch_ticks(piece, notch):
                    moved.line(tick, LineStyle.NOTCH)
    for side in (seam.a, seam.b):
        if side[0].piece == piece.name:
            path = piece.edge(side[0].edge).path
            moved.fill(ring(path.end if side[0].backwards else path.start, _DOT * scale), FillStyle.ACCENT)
    foot = corner.y - (box.top - box.bottom)
    for number, line in enumerate(slot.lines, start=1):
        at = Point(middle, foot - _LEADING * number * scale)
        pen.text(at, line, Lettering(_TITLE * scale, 0.0, Anchor.MIDDLE, Face.REGULAR))
    pen.close_group()


def _body(piece: Piece, pen: SvgPen, scale: float) -> None:
    pen.fill(piece.cutting, FillStyle.PIECE)
    draw_outline(piece, pen)
    for edge in piece.edges:
        if edge.fold:
            pen.line(fold_line(piece, edge), LineStyle.FOLD)
    draw_darts(piece, pen, DrawingLook(scale=scale * _LINES))


def _seam_title(pattern: Pattern, seam: Seam) -> str:
    """The seam in words: `Sleeve, cap, to Front, armhole and Back, armhole`."""

    def side(runs: tuple[EdgeRun, ...]) -> str:
        pieces = [pattern.piece(name) for name in dict.fromkeys(run.piece for run in runs)]
        edges = {p.name: edges_words(p, (run.edge for run in runs if run.piece == p.name)) for p in pieces}
        return " and ".join(f"{piece.title}, {words}" for piece in pieces for words in edges[piece.name])

    return f"{side(seam.a)}, to {side(seam.b)}"
