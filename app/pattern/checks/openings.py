"""Openings: none is longer than the edge in which it lies.

Why: a zip of 90 cm in a side of 63 opens a girth on paper only. An opening begins at its girth and runs along the
edges that leave it, through darts but round no corner. Where another piece is sewn on there, it may go on in it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import chain

from app.pattern.checks.check import Check
from app.pattern.checks.joints import sewn_edges
from app.pattern.checks.rings import rings
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.checks.turns import turn_between
from app.pattern.pieces.model import Edge, Girth, Pattern, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK"]

#: A girth is that of a ring when it measures as much within this share.
_SAME = 0.02
#: An opening may be longer by this much (mm): a zip is bought to the centimetre.
_GIVES = 10.0
#: An opening does not go round a corner sharper than this, radians (40 degrees).
_CORNER = 0.7


_OPENS = Told(
    "checks.opening-long",
    "An opening would be longer than the edge it is in. Measure the edge before you buy a zip.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every opening longer than any edge that leaves its girth."""
    for girth in table.pattern.girths:
        yield from _opening(table.pattern, girth)


def _opening(pattern: Pattern, girth: Girth) -> Iterator[Problem]:
    """An opening longer than the edges that begin at its girth, or than every edge there is."""
    if girth.opens <= 0.0:
        return
    all_runs = list(_all_runs(pattern))
    beside = list(_leaving(pattern, girth.measured, max(all_runs, default=(0.0, ""))[0]))
    longest, name = max(beside or all_runs, default=(0.0, ""))
    if girth.opens <= longest + _GIVES:
        return
    where = "the longest edge there" if beside else "the longest edge of all"
    message = f"{girth.title or girth.name} opens by {mm(girth.opens)}, and {where}, {name}, is {mm(longest)} long."
    fix = f"Open it by less than {mm(longest)}, or let it open fully."
    measured = Measured(girth.opens, None, longest)
    yield finding(_OPENS, message, fix, Place(point=girth.name), see=(("the girth", girth.span),), measured=measured)


def _leaving(pattern: Pattern, length: float, beyond: float) -> Iterator[tuple[float, str]]:
    """How far edges run from every ring of that length, and which; and `beyond` where another piece is sewn on."""
    sewn = sewn_edges(pattern)
    named = (rings(pattern, _named(word)) for word in ("", "waist", "neck", "hem"))
    close = [ring for ring in chain.from_iterable(named) if abs(ring.length - length) <= _SAME * length]
    for ring in close:
        own = {(piece.name, edge.name) for piece, edge in ring.edges}
        for piece, edge in ring.edges:
            for reach, name, then in _runs_from(piece, edge, own):
                yield reach + (beyond if then is not None and (piece.name, then.name) in sewn else 0.0), name


def _named(word: str) -> Callable[[Piece, Edge], bool]:
    return lambda _, edge: edge.name.startswith(word)


def _runs_from(piece: Piece, edge: Edge, own: set[tuple[str, str]]) -> Iterator[tuple[float, str, Edge | None]]:
    """From both ends of an edge, how far the outline runs to its next corner; where from, and which edge comes then."""
    count, place = len(piece.edges), piece.place_of(edge.name)
    for step in (1, -1):
        reach, first, then = 0.0, piece.edges[(place + step) % count], None
        for far in range(1, count):
            beside = piece.edges[(place + step * far) % count]
            if (piece.name, beside.name) in own or beside.name.startswith("hem"):
                break
            then = beside
            if far > 1 and _turns(piece, (place + step * (far - 1)) % count, step):
                break
            then, reach = None, reach + beside.path.length
        yield reach, f"{piece.name}.{first.name}", then


def _turns(piece: Piece, place: int, step: int) -> bool:
    """Whether the outline turns a corner after an edge, going on by `step`; at a dart it runs on."""
    other = (place + step) % len(piece.edges)
    before, after = (place, other) if step > 0 else (other, place)
    return before not in piece.mouths and abs(turn_between(piece.edges[before], piece.edges[after])) > _CORNER


def _all_runs(pattern: Pattern) -> Iterator[tuple[float, str]]:
    for piece in pattern.pieces:
        for edge in piece.edges:
            yield from ((reach, name) for reach, name, _ in _runs_from(piece, edge, {(piece.name, edge.name)}))


#: The check as every room knows it.
CHECK = Check("openings", "Openings", _run, (_OPENS,))
