"""Child safety: no ties, cords or drawstrings at the head and neck of a child's garment, and none loose elsewhere.

Why: cords at the neck have caught in slides and doors and strangled children; `app.pattern.pieces.children` says by
which rules, and how a child's garment is told. The check goes by words and by the edges a piece is sewn to; it is no
test of conformity: the rules that hold where the garment is worn come first, and where they ask for a qualified
person, ask one. A garment for grown people that is drawn for somebody as small as a child is only warned of.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.names import in_words
from app.pattern.pieces.children import CORD, CORD_RULES, NECK, YOUNG, for_child, for_young_child
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Place, Problem, Severity, Span, Told
from app.pattern.units import Unit, show_length

__all__ = ["CHECK"]

_LOCAL = f"Ask what rules hold where it is worn ({CORD_RULES})."
_AT_NECK = Told(
    "checks.child-neck-cord",
    "Danger: there would be a cord or a tie at a young child's head or neck. It can catch on a slide, a door or a cot "
    f"and strangle the child. Do not sew one on: a button or a popper closes a neck safely. {_LOCAL}",
)
_LOOSE = Told(
    "checks.child-cord",
    "Danger on a child: a cord or a tie can catch and hold or strangle. If a child will wear this, have none at the "
    f"head or neck, sew the others fast and keep their ends short. {_LOCAL}",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every cord or tie of a garment for a child: an error at the head or neck of a young child's, else a warning."""
    pattern = table.pattern
    if not for_child(pattern):
        return
    for name, title, place, span in _cords(pattern):
        at_neck = NECK.search(in_words(f"{name} {title}")) is not None
        yield _cord(pattern, title, at_neck, (place, span))


def _cords(pattern: Pattern) -> Iterator[tuple[str, str, Place, Span | None]]:
    """Pieces and notions that are cords or ties by name: all words that tell where they sit, title, place, span."""
    for piece in pattern.pieces:
        if CORD.search(in_words(f"{piece.name} {piece.title}")):
            # The piece's own name and the edges it is sewn to, as words
            seams = [seam for seam in pattern.seams if any(run.piece == piece.name for run in (*seam.a, *seam.b))]
            runs = [f"{run.piece} {run.edge}" for seam in seams for run in (*seam.a, *seam.b)]
            yield " ".join([piece.name, *runs]), piece.title, Place(piece.name), piece.span
    for notion in pattern.notions:
        if CORD.search(in_words(f"{notion.name} {notion.title}")):
            yield notion.name, notion.title, Place(point=notion.name), notion.span


def _cord(pattern: Pattern, title: str, at_neck: bool, at: tuple[Place, Span | None]) -> Problem:
    place, span = at
    see = (("where it is drafted", span),)
    if at_neck and for_young_child(pattern):
        message = (
            f"{title} sits at the head or neck of a garment for children up to {show_length(YOUNG, Unit.CM)} tall."
        )
        fix = f"Leave it off and close the neck with a button or a popper. {_LOCAL}"
        return finding(_AT_NECK, message, fix, place, see=see)
    where = "at the head or neck" if at_neck else f"on a garment {_whose(pattern)}"
    message = f"{title} is a tie or a cord {where}: free ends can catch."
    fix = f"Sew it fast, keep free ends short (75 mm on outerwear in the USA), and none of them at the neck. {_LOCAL}"
    return finding(_LOOSE, message, fix, place, see=see)


def _whose(pattern: Pattern) -> str:
    return "for children" if pattern.group == "children" else "for somebody no taller than a young child"


#: The check as every room knows it.
CHECK = Check("child_safety", "Child safety", _run, (_AT_NECK, _LOOSE))
