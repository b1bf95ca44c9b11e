"""What is written on a piece: its title, how many to cut of what, and whom it is for."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.drawing.look import DrawingLook
from app.pattern.drawing.pen import Face
from app.pattern.pieces.edge_words import edges_words
from app.pattern.pieces.model import Cut, EdgeRun, Pattern, Piece

__all__ = ["TitleLine", "cut_words", "seam_words", "short_block", "title_block"]

_TITLE, _CUT, _SMALL = 9.0, 5.0, 4.0


@dataclass(frozen=True, slots=True)
class TitleLine:
    """One line of a title block: em size in mm at full scale."""

    words: str
    size: float
    face: Face


def cut_words(cut: Cut, fabric_title: str) -> str:
    """`cut 2 Shell, mirrored`, `cut 1 Shell on fold`."""
    words = f"cut {cut.count} {fabric_title}"
    if cut.on_fold:
        words += " on fold"
    if cut.pair:
        words += ", mirrored"
    return words


def short_block(piece: Piece, look: DrawingLook) -> tuple[TitleLine, ...]:
    """The lines no piece may be without: its title and its cut list."""
    cuts = (cut_words(cut, look.fabrics.get(cut.fabric, cut.fabric)) for cut in piece.cuts)
    return (
        TitleLine(piece.title, _TITLE, Face.STRONG),
        *(TitleLine(words, _CUT, Face.REGULAR) for words in cuts),
    )


def title_block(piece: Piece, look: DrawingLook) -> tuple[TitleLine, ...]:
    """All lines of the title block, most important first."""
    source = " · ".join(word for word in (look.garment, look.order_number) if word)
    lines = [*short_block(piece, look)]
    lines += [TitleLine(piece.note, _SMALL, Face.ITALIC)] if piece.note else []
    lines += [TitleLine(source, _SMALL, Face.REGULAR)] if source else []
    lines += [TitleLine(f"for {look.customer}", _SMALL, Face.REGULAR)] if look.customer else []
    return tuple(lines)


def seam_words(pattern: Pattern) -> dict[tuple[str, str], str]:
    """For each edge that is sewn, by (piece, edge): to which pieces, as `to Back, side`; its first seam counts."""
    found: dict[tuple[str, str], str] = {}
    for seam in pattern.seams:
        for here, there in ((seam.a, seam.b), (seam.b, seam.a)):
            for run in here:
                found.setdefault((run.piece, run.edge), _to(pattern, there))
    return found


def _to(pattern: Pattern, runs: tuple[EdgeRun, ...]) -> str:
    titles = tuple(dict.fromkeys(pattern.piece(run.piece).title for run in runs))
    said = {words for title in titles for words in _edges_of(pattern, title, runs)}
    return f"to {' and '.join(titles)}" + (f", {said.pop()}" if len(said) == 1 else "")


def _edges_of(pattern: Pattern, title: str, runs: tuple[EdgeRun, ...]) -> tuple[str, ...]:
    here = [run for run in runs if pattern.piece(run.piece).title == title]
    return edges_words(pattern.piece(here[0].piece), (run.edge for run in here))
