"""Child safety: no ties, cords or drawstrings at the head and neck of a child's garment, and none loose elsewhere.

Why: cords at the neck have caught in slides and doors and strangled children. EN 14682:2014 (as told by the Finnish
authority Tukes, which speaks to parents who sew at home as well): up to 7 years, or 134 cm, no cords or drawstrings
at hood, head or neck and no ties behind the neck; from 7 to 14 years no drawstrings with free ends there. In the USA
ASTM F1816 (with 16 CFR 1120) forbids hood and neck drawstrings from 2T to 12, and free ends over 75 mm at the waist.
The check goes by words and by the edges a piece is sewn to; it is no test of conformity: the rules that hold where
the garment is worn come first, and where they ask for a qualified person, ask one.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from app.pattern.checks.table import Table, finding
from app.pattern.names import in_words
from app.pattern.pieces.figures import mm
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.problem import Place, Problem, Severity, Span

__all__ = ["YOUNG", "check"]

#: Stature in mm up to which EN 14682 speaks of young children (7 years or 134 cm).
YOUNG = 1340.0
_CORD = re.compile(r"\b(cords?|draw-?strings?|ties?|ribbons?|strings?|sash(es)?)\b", re.I)
_NECK = re.compile(r"\b(necks?|neckline|hoods?|collars?|heads?|halters?|nape)\b", re.I)
_LOCAL = "Ask what rules hold where it is worn; EN 14682 and, in the USA, ASTM F1816 are the usual ones."


def check(table: Table) -> Iterator[Problem]:
    """Every cord or tie of a garment for children: an error at the head or neck of a young child's, else a warning."""
    pattern = table.pattern
    if pattern.group != "children":
        return
    young = pattern.statures is None or pattern.statures[0] <= YOUNG
    for name, title, place, span in _cords(pattern):
        yield _cord(title, _NECK.search(in_words(f"{name} {title}")) is not None, young, (place, span))


def _cords(pattern: Pattern) -> Iterator[tuple[str, str, Place, Span | None]]:
    """Pieces and notions that are cords or ties by name: all words that tell where they sit, title, place, span."""
    for piece in pattern.pieces:
        if _CORD.search(in_words(f"{piece.name} {piece.title}")):
            yield _neighbours(pattern, piece), piece.title, Place(piece.name), piece.span
    for notion in pattern.notions:
        if _CORD.search(in_words(f"{notion.name} {notion.title}")):
            yield notion.name, notion.title, Place(point=notion.name), notion.span


def _neighbours(pattern: Pattern, piece: Piece) -> str:
    """The piece's own name and the edges it is sewn to, as words."""
    seams = [seam for seam in pattern.seams if any(run.piece == piece.name for run in (*seam.a, *seam.b))]
    runs = [f"{run.piece} {run.edge}" for seam in seams for run in (*seam.a, *seam.b)]
    return " ".join([piece.name, *runs])


def _cord(title: str, at_neck: bool, young: bool, at: tuple[Place, Span | None]) -> Problem:
    place, span = at
    see = (("where it is drafted", span),)
    if at_neck and young:
        message = f"{title} sits at the head or neck of a garment for children up to {mm(YOUNG)} tall."
        fix = f"Leave it off and close the neck with a button or a popper. {_LOCAL}"
        return finding("checks.child-neck-cord", message, fix, place, see=see)
    where = "at the head or neck" if at_neck else "on a garment for children"
    message = f"{title} is a tie or a cord {where}: free ends can catch."
    fix = f"Sew it fast, keep free ends short (75 mm on outerwear in the USA), and none of them at the neck. {_LOCAL}"
    return finding("checks.child-cord", message, fix, place, see=see, severity=Severity.WARNING)
