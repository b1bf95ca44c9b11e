"""Places: the line at which a piece is laid on is as long as the piece is wide, and no piece is longer than a person.

Why: a pocket of 13 cm laid on a line of 10 cm is sewn on crooked, or the line is left of an older pocket. And
a slip of a unit or a sign makes a skirt of three metres, which nothing but its drawing shows: hardly anybody is taller
than 2 m (from memory), and a train is asked about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import cos, sin

from app.pattern.checks.check import Check
from app.pattern.checks.piece_words import head_noun
from app.pattern.checks.table import CuttingTable, LaidPiece, finding
from app.pattern.geometry import Path
from app.pattern.names import in_words
from app.pattern.pieces.model import Mark, MarkKind, Pattern, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LONGEST", "LONGEST_TIE"]

#: A line for a piece may differ from its width by this much, mm.
OFF = 3.0
#: No piece of the body is longer along its grain than this, and no tie longer than that, mm.
LONGEST, LONGEST_TIE = 2200.0, 4000.0
#: What is narrower than this (mm) is a strip: a ruffle or a band may be of any length.
STRIP = 280.0
_TIE = re.compile(r"tie|belt|sash|strap|cord|drawstring|ribbon")

_WIDTH = Told(
    "checks.place-width",
    "The line that marks where a piece is sewn on is not as long as that piece. Measure both before you sew it.",
    Severity.WARNING,
)
_LONG = Told(
    "checks.piece-long",
    "A piece is longer than anybody is tall. Ask whether that is meant before you buy the cloth.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every place that does not fit its piece, and every piece out of all measure."""
    for laid in table.pieces:
        for mark in laid.piece.marks:
            if mark.kind is MarkKind.PLACE and mark.path is not None:
                yield from _placed(table.pattern, laid.piece, mark, mark.path)
        if laid.sound:
            yield from _long(laid)


def _placed(pattern: Pattern, owner: Piece, mark: Mark, path: Path) -> Iterator[Problem]:
    """A straight line for the top of a piece that is sewn on there; of outlines and crosses nothing is said."""
    reach = path.start.distance(path.end)
    if reach < 1.0 or path.length - reach > 1.0:
        return
    words = in_words(mark.label)
    for piece in pattern.pieces:
        noun = head_noun(piece)
        on = piece is not owner and any(edge.finish == "applied" for edge in piece.edges)
        if not on or not noun or not re.search(rf"\b{re.escape(noun)}s?\b", words, re.I):
            continue
        widths = [edge.sewn_length for edge in piece.edges]
        box = piece.stitching.bounds
        near = min((*widths, box.right - box.left, box.top - box.bottom), key=lambda width: abs(width - reach))
        if abs(near - reach) > OFF:
            message = f"{owner.name} marks a line of {mm(reach)} for {piece.name}, of which no side is as long."
            fix = f"Make both the same: the nearest is {mm(near)}."
            see = (("the mark", mark.span), ("the piece", piece.span))
            where = Place(owner.name, at=mark.at)
            yield finding(_WIDTH, message, fix, where, see=see, measured=Measured(reach, near - OFF, near + OFF))


def _long(laid: LaidPiece) -> Iterator[Problem]:
    piece = laid.piece
    lean = piece.grain.start.angle_to(piece.grain.end)
    along = [point.x * cos(lean) + point.y * sin(lean) for point in piece.stitching.flatten(5.0)]
    across = [point.y * cos(lean) - point.x * sin(lean) for point in piece.stitching.flatten(5.0)]
    long, wide = sorted((max(along) - min(along), max(across) - min(across)), reverse=True)
    wide *= 1.0 if piece.fold_edge is None else 2.0
    most = LONGEST if wide > STRIP else LONGEST_TIE if _TIE.search(head_noun(piece)) else None
    if most is not None and long > most:
        message = f"{piece.name} is {mm(long)} long; {mm(most)} is more than a garment needs."
        fix = "Check units and signs in what it is drawn from, and the limits of its choices."
        see = (("the piece", piece.span),)
        yield finding(_LONG, message, fix, Place(piece.name), see=see, measured=Measured(long, None, most))


#: The check as every room knows it.
CHECK = Check("places", "Places", _run, (_WIDTH, _LONG))
