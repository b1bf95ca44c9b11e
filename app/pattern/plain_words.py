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
from app.pattern.pieces import told as pieces
from app.pattern.problem import Place, Problem, Severity, Told
from app.pattern.proof import told as proof
from app.pattern.sheets import told as sheets

__all__ = ["KINDS", "NO_TITLES", "REMOVED", "for_maker", "in_plain_words", "is_told", "title_of", "told_of"]

_ROOMS = (language, body, drafting, pieces, lay, sheets, proof)
#: Every kind of problem with what its check or its room is called, by its code.
_ALL: Mapping[str, tuple[Told, str]] = MappingProxyType(
    {told.code: (told, room.ROOM) for room in _ROOMS for told in room.TOLD}
    | {told.code: (told, check.title) for check in CHECKS for told in check.findings}
)
#: Every kind of problem, in the order of the rooms and then of the checks.
KINDS: tuple[Told, ...] = tuple(told for told, _ in _ALL.values())
#: For problems about pieces whose titles are not known.
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


def in_plain_words(problems: Iterable[Problem], titles: Mapping[str, str] = NO_TITLES) -> tuple[str, ...]:
    """A sentence for each kind of problem, each once, in the order found; before it the `titles` of the pieces."""
    found: dict[str, dict[str, None]] = {}
    for problem in problems:
        piece = titles.get(problem.where.piece, "") if isinstance(problem.where, Place) else ""
        found.setdefault(told_of(problem.code).words, {}).update({piece: None} if piece else {})
    return tuple(f"{', '.join(pieces)}: {words}" if pieces else words for words, pieces in found.items())
