"""Every kind of problem of the core as the person who will sew hears of it, by its code, with one naming of the checks.

Each check declares its own kinds, and each other room has a table beside its code (`told.py`). A code that stands
in none of them is a fault of ours: `told_of` raises, and a test looks for such codes in the source.
`python -m tests.words` prints the whole table.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from app.pattern.body import told as body
from app.pattern.checks import CHECKS
from app.pattern.drafting import told as drafting
from app.pattern.language import told as language
from app.pattern.lay import told as lay
from app.pattern.names import titled
from app.pattern.pieces import told as pieces
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Place, Problem, Severity, Told
from app.pattern.proof import told as proof
from app.pattern.sheets import told as sheets

__all__ = [
    "KINDS",
    "NO_TITLES",
    "REMOVED",
    "errors_of",
    "for_maker",
    "in_plain_words",
    "is_told",
    "title_of",
    "titles_of",
    "told_of",
]

_ROOMS = (language, body, drafting, pieces, lay, sheets, proof)
#: Every kind of problem with what its check or its room is called, by its code.
_ALL: Mapping[str, tuple[Told, str]] = MappingProxyType(
    {told.code: (told, room.ROOM) for room in _ROOMS for told in room.TOLD}
    | {told.code: (told, check.title) for check in CHECKS for told in check.findings}
)
#: Every kind of problem, in the order of the rooms and then of the checks.
KINDS: tuple[Told, ...] = tuple(told for told, _ in _ALL.values())
#: For problems about pieces and girths whose titles are not known.
NO_TITLES: Mapping[str, str] = MappingProxyType({})
#: What is said of a finding that was kept under a code which no check or room gives any more.
REMOVED = "Something in the pattern did not hold, by a check that has since been changed. The designer has the details."


def is_told(code: str) -> bool:
    """Whether there is a kind of this code; one that was kept long ago may be gone."""
    return code in _ALL


def told_of(code: str) -> Told:
    """The kind of problem of a code; raises KeyError for one that nobody declared."""
    return _ALL[code][0]


def title_of(code: str) -> str:
    """What the check is called that gives this code, or the room that does; raises KeyError like `told_of`."""
    return _ALL[code][1]


def for_maker(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """What whoever makes the garment must know of: all that stops it, and the warnings she can do something about."""
    return tuple(p for p in problems if p.severity is Severity.ERROR or told_of(p.code).maker)


def errors_of(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """What stops a pattern, its warnings left out."""
    return tuple(problem for problem in problems if problem.severity is Severity.ERROR)


def titles_of(pattern: Pattern | None) -> Mapping[str, str]:
    """What the pieces, girths and notions of a pattern are called for people, by their names in the draft."""
    if pattern is None:
        return NO_TITLES
    things = {notion.name: notion.title for notion in pattern.notions}
    things |= {place.name: place.title for place in pattern.fits}
    things |= {girth.name: girth.title for girth in pattern.girths}
    things |= {piece.name: piece.title for piece in pattern.pieces}
    return {name: titled(title, name) for name, title in things.items()}


def in_plain_words(problems: Iterable[Problem], titles: Mapping[str, str] = NO_TITLES) -> tuple[str, ...]:
    """A sentence for each kind of problem, each once, in the order found, with what it concerns before it.

    `titles` are those of pieces, girths and notions by name; what has none there goes unnamed.
    """
    found: dict[str, dict[str, None]] = {}
    for problem in problems:
        words = told_of(problem.code).words if is_told(problem.code) else REMOVED
        # The title of the piece that a problem concerns, or else of the girth or notion
        where = problem.where
        names = (where.piece, where.point) if isinstance(where, Place) else ()
        found.setdefault(words, {}).update(dict.fromkeys([titles[name] for name in names if name in titles][:1]))
    return tuple(f"{'; '.join(whose)}: {words}" if whose else words for words, whose in found.items())
