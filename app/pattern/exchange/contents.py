"""What of a piece is handed on, as plain values that both writers read: lines, points and words with their meaning."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from app.pattern.drawing import DrawingLook, RecordPen, draw_lines
from app.pattern.drawing.details import notch_ticks
from app.pattern.drawing.outline import fold_line, without_folds
from app.pattern.drawing.pen import LineStyle
from app.pattern.drawing.record import Drawn, Lined
from app.pattern.drawing.words import cut_words
from app.pattern.geometry import Box, Path, Point
from app.pattern.pieces.model import Mark, MarkKind, Notch, Pattern, Piece

__all__ = ["HandedLine", "HandedPiece", "HandedPoint", "LineKind", "StyleInfo", "handed_pieces"]

#: Half the arm of the cross that stands for a point mark, mm.
_ARM = 3.0


@dataclass(frozen=True, slots=True)
class StyleInfo:
    """The words that go with the whole pattern; all but the title may be empty."""

    title: str
    order_number: str = ""
    customer: str = ""
    studio: str = ""


class LineKind(StrEnum):
    """What a line of a piece means; these are the groups of the SVG files."""

    CUTTING = "cutting"
    STITCHING = "stitching"
    FOLD = "fold"
    DARTS = "darts"
    GRAIN = "grain"
    NOTCHES = "notches"
    MARKS = "marks"


@dataclass(frozen=True, slots=True)
class HandedLine:
    """A line with its meaning, in the piece's own frame (mm, y up).

    `style` is how the printed pattern draws it; `facts` are names and values that say
    more: the edge it is, its length in mm, the seam it belongs to.
    """

    kind: LineKind
    style: LineStyle
    path: Path
    facts: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class HandedPoint:
    """A place to drill, in the piece's own frame (mm, y up)."""

    at: Point
    label: str = ""


@dataclass(frozen=True, slots=True)
class HandedPiece:
    """Everything of one piece that is handed on.

    `slug` is unlike that of every other piece, and fit for file names and ids;
    `drawn` is what the printed pattern draws besides the title, for its words and arrow heads.
    """

    slug: str
    piece: Piece
    lines: tuple[HandedLine, ...]
    drills: tuple[HandedPoint, ...]
    drawn: tuple[Drawn, ...]
    look: DrawingLook

    @property
    def bounds(self) -> Box:
        """The box round the cutting line, mm."""
        return self.piece.cutting.bounds

    @property
    def cuts(self) -> tuple[str, ...]:
        """How many to cut of what, in words."""
        return tuple(cut_words(cut, self.look.fabrics.get(cut.fabric, cut.fabric)) for cut in self.piece.cuts)

    def of_kind(self, kind: LineKind) -> tuple[HandedLine, ...]:
        """The lines of one kind, in order."""
        return tuple(line for line in self.lines if line.kind is kind)


def handed_pieces(pattern: Pattern, info: StyleInfo) -> tuple[HandedPiece, ...]:
    """Every piece of the pattern, in its order."""
    fabrics = {fabric.name: fabric.title for fabric in pattern.fabrics}
    look = DrawingLook(info.title, info.order_number, info.customer, fabrics)
    return tuple(_handed(number, piece, look) for number, piece in enumerate(pattern.pieces, 1))


def _handed(number: int, piece: Piece, look: DrawingLook) -> HandedPiece:
    record = RecordPen()
    draw_lines(piece, record, look)
    drawn = tuple(record.marks)
    lines = (
        *_outlines(piece),
        *_darts(piece, drawn),
        _line(LineKind.GRAIN, LineStyle.GRAIN, Path.through(piece.grain.start, piece.grain.end)),
        *(line for notch in piece.notches for line in _notch(piece, notch)),
        *(line for mark in piece.marks if mark.kind is not MarkKind.DRILL for line in _mark(mark)),
    )
    drills = tuple(HandedPoint(mark.at, mark.label) for mark in piece.marks if mark.kind is MarkKind.DRILL)
    # Numbers come first, so that names that differ only in capitals stay apart on every file system.
    return HandedPiece(f"{number:02d}-{_slug(piece.name)}", piece, lines, drills, drawn, look)


def _slug(name: str) -> str:
    """The name in letters that every file system and XML id allows."""
    return "".join(sign if sign.isascii() and sign.isalnum() else "-" for sign in name)


def _line(kind: LineKind, style: LineStyle, path: Path, **facts: str | float) -> HandedLine:
    words = {name: value if isinstance(value, str) else f"{value:.3f}" for name, value in facts.items()}
    return HandedLine(kind, style, path, (*words.items(), ("length", f"{path.length:.3f}")))


def _outlines(piece: Piece) -> Iterator[HandedLine]:
    """The cutting line but for its folds, one stitching line for each edge, and the folds."""
    folds = tuple(edge for edge in piece.edges if edge.fold)
    for path in without_folds(piece.cutting, folds):
        yield _line(LineKind.CUTTING, LineStyle.CUTTING, path)
    for edge in piece.edges:
        if not edge.fold:
            width, corner = edge.allowance.width, str(edge.allowance.corner)
            facts: dict[str, str | float] = {"edge": edge.name, "allowance": width, "corner": corner}
            yield _line(LineKind.STITCHING, LineStyle.STITCHING, edge.path, **facts)
    for edge in folds:
        yield _line(LineKind.FOLD, LineStyle.FOLD, fold_line(piece, edge), edge=edge.name)


def _darts(piece: Piece, drawn: tuple[Drawn, ...]) -> Iterator[HandedLine]:
    """Each dart's cap, its legs and its middle fold; legs and fold run out to the cutting line, as printed."""
    legs = _drawn_as(drawn, LineStyle.DART)
    folds = _drawn_as(drawn, LineStyle.DART_FOLD)
    for dart, leg_a, leg_b, fold in zip(piece.darts, legs[::2], legs[1::2], folds, strict=True):
        for part, style, path in (
            ("cap", LineStyle.STITCHING, dart.cap),
            ("leg a", LineStyle.DART, leg_a),
            ("leg b", LineStyle.DART, leg_b),
            ("fold", LineStyle.DART_FOLD, fold),
        ):
            yield _line(LineKind.DARTS, style, path, dart=dart.name, part=part, intake=dart.intake)


def _drawn_as(drawn: tuple[Drawn, ...], style: LineStyle) -> tuple[Path, ...]:
    return tuple(mark.path for mark in drawn if isinstance(mark, Lined) and mark.style is style)


def _notch(piece: Piece, notch: Notch) -> Iterator[HandedLine]:
    """The one or two ticks of a notch, each from the cutting line inwards."""
    facts: dict[str, str | float] = {"edge": notch.edge, "along": notch.along}
    facts["notch"] = "double" if notch.double else "single"
    if notch.seam is not None:
        facts["seam"] = str(notch.seam + 1)
    for tick in notch_ticks(piece, notch):
        yield _line(LineKind.NOTCHES, LineStyle.NOTCH, tick, **facts)


_STYLES = {
    MarkKind.STITCH: LineStyle.SEWN,
    MarkKind.FOLD: LineStyle.FOLD,
    MarkKind.LENGTHEN: LineStyle.LENGTHEN,
    MarkKind.GATHER: LineStyle.GATHER,
}


def _mark(mark: Mark) -> Iterator[HandedLine]:
    """An inside mark: its line, or a cross at its point."""
    style = _STYLES.get(mark.kind, LineStyle.MARK)
    across = Path.through(mark.at.moved(-_ARM, 0.0), mark.at.moved(_ARM, 0.0))
    upright = Path.through(mark.at.moved(0.0, -_ARM), mark.at.moved(0.0, _ARM))
    for path in (mark.path,) if mark.path is not None else (across, upright):
        yield _line(LineKind.MARKS, style, path, mark=str(mark.kind), label=mark.label)
