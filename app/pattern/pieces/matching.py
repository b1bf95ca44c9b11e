"""Notches that match across a seam: the same distance along both sides, once the ease is where it belongs."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.pattern.names import dotted
from app.pattern.pieces.measure import Pass, Pieces, edge_passes, seam_lengths
from app.pattern.pieces.model import Edge, EdgeRun, Notch, Seam
from app.pattern.problem import Place, Problem, Refused, Span
from app.pattern.units import mm, mm_unlike

__all__ = ["SEAM_END", "NotchWish", "PlacedNotch", "lost_notches", "match_notches", "notch_on"]

#: A notch this near (mm) to the end of an edge is the end itself: the seam that ends there marks it.
SEAM_END = 0.5


@dataclass(frozen=True, slots=True)
class NotchWish:
    """A notch the designer wants, `along` mm from the "start" or the "end" of an edge or of a seam's side.

    `side` names the side of the seam on which the distance is measured, "a" or "b".
    """

    along: float
    counted_from: str = "start"
    double: bool = False
    side: str = "a"
    span: Span | None = None

    def position(self, length: float) -> float:
        """Distance from the start, for a side of that length; mm."""
        return length - self.along if self.counted_from == "end" else self.along


@dataclass(frozen=True, slots=True)
class PlacedNotch:
    """A notch and the piece it goes on."""

    piece: str
    notch: Notch


@dataclass(frozen=True, slots=True)
class _Walk:
    """Positions (mm from the seam's start) on side a and side b that are sewn together; straight between them."""

    a: tuple[float, ...]
    b: tuple[float, ...]


def notch_on(piece: str, edge: Edge, wish: NotchWish) -> Notch | Refused:
    """A notch on one edge by itself, at the wished distance from the edge's start or end as drawn."""
    length = edge.path.length
    if 0.0 <= wish.along <= length:
        return Notch(edge.name, wish.position(length), wish.double, None, wish.span)
    place = f"{wish.counted_from} of {dotted(piece, edge.name)}"
    wanted, long = mm_unlike(wish.along, length)
    message = f"A notch is wanted {wanted} from the {place}, which is {long} long."
    where = wish.span or Place(piece, edge.name)
    return Refused.of(Problem("pieces.notch-off-edge", message, _between(length), where))


def match_notches(
    pieces: Pieces,
    seam: Seam,
    index: int,
    wishes: Sequence[NotchWish],
    eased: tuple[float, float] | None = None,
) -> tuple[PlacedNotch, ...] | Refused:
    """Each wished notch on both sides of a seam, `index` being the seam's place in the pattern; mm.

    In a plain seam both sides have it at the same distance from the end it is counted
    from, in one that ends short at the same distance from the start; gathers and elastic
    keep its share of the length. In an eased seam the sides
    are flat outside `eased` and eased evenly inside: two positions along the side the
    wishes are measured on, each best at a notch, so that the maker can see them. Without
    `eased` the ease lies between the first and the last notch, or with one notch in
    the stretch beyond it. A notch that falls on the end of an edge is left out there:
    the seam that ends there marks it.
    """
    lengths = seam_lengths(pieces, seam)
    if faults := _off_seam(seam, wishes, lengths):
        return Refused(faults)
    if not wishes:
        return ()
    walk = _walk(seam, wishes, lengths, eased)
    if isinstance(walk, Refused):
        return walk
    places = ((wish, _positions(wish, walk, lengths, seam)) for wish in wishes)
    # Each notch once: the two halves of a piece on the fold share theirs
    placed = (n for wish, at in places for n in _both_sides(pieces, seam, index, at, wish))
    kept: list[PlacedNotch] = []
    for one in placed:
        if not any(_same(one, other) for other in kept):
            kept.append(one)
    return tuple(kept)


def lost_notches(pieces: Pieces, seam: Seam, wishes: Sequence[NotchWish]) -> tuple[Span, ...]:
    """The lines of those notches that fall on the end of an edge on both sides, or on another, so that none is drawn.

    A notch on one side's joint is not lost: it says where the joint goes. In an eased seam, single ones at both ends
    say that the ease lies all along it.
    """
    lengths = seam_lengths(pieces, seam)
    walk = _walk(seam, wishes, lengths, None) if wishes and not _off_seam(seam, wishes, lengths) else None
    if not isinstance(walk, _Walk):
        return ()
    places = [(wish, _positions(wish, walk, lengths, seam)) for wish in wishes]
    lost = [
        wish
        for i, (wish, at) in enumerate(places)
        # Of two in one place only one is drawn
        if any(abs(at[0] - before[0]) < SEAM_END for _, before in places[:i])
        or all(_pass_at(pieces, runs, position) is None for runs, position in zip((seam.a, seam.b), at, strict=True))
    ]
    if seam.kind == "ease" and len(lost) > 1 and not any(wish.double for wish in lost):
        return ()
    return tuple(wish.span for wish in lost if wish.span is not None)


def _between(length: float) -> str:
    return f"Place it between the ends: less than {mm(length)} away."


def _off_seam(seam: Seam, wishes: Sequence[NotchWish], lengths: tuple[float, float]) -> tuple[Problem, ...]:
    return tuple(
        Problem(
            "pieces.notch-off-seam",
            f"A notch is wanted {wanted} from the {wish.counted_from} of a seam that is {long} long.",
            _between(length),
            wish.span or seam.span or _seam_place(seam, wish.side),
        )
        for wish in wishes
        for length in (lengths[wish.side == "b"],)
        for wanted, long in (mm_unlike(wish.along, length),)
        if not 0.0 <= wish.along <= length
    )


def _seam_place(seam: Seam, side: str) -> Place:
    run = (seam.b if side == "b" else seam.a)[0]
    return Place(run.piece, run.edge)


def _walk(
    seam: Seam, wishes: Sequence[NotchWish], lengths: tuple[float, float], eased: tuple[float, float] | None
) -> _Walk | Refused:
    """Which positions of the two sides are sewn together."""
    length_a, length_b = lengths
    if seam.kind != "ease":
        return _Walk((0.0, length_a), (0.0, length_b))
    on_b = wishes[0].side == "b"
    first, rest = (eased[0], lengths[on_b] - eased[1]) if eased else _flat_ends(wishes, lengths)
    walk = _Walk((0.0, first, length_a - rest, length_a), (0.0, first, length_b - rest, length_b))
    if all(p <= q for side in (walk.a, walk.b) for p, q in pairwise(side)):
        return walk
    ends = f"{mm(first)} from the seam's start and {mm(rest)} from its end"
    message = f"The ease of {mm(length_a - length_b)} does not fit between {ends}."
    fix = "Spread the ease over a longer stretch: move the notches further apart."
    where = wishes[0].span or seam.span or _seam_place(seam, "a")
    return Refused.of(Problem("pieces.notch-ease", message, fix, where))


def _flat_ends(wishes: Sequence[NotchWish], lengths: tuple[float, float]) -> tuple[float, float]:
    """How much of the seam is sewn flat at its start and at its end: up to the first notch, and from the last."""
    from_start = [wish.position(lengths[wish.side == "b"]) for wish in wishes]
    from_end = [lengths[wish.side == "b"] - at for wish, at in zip(wishes, from_start, strict=True)]
    if len(wishes) > 1:
        return min(from_start), min(from_end)
    return (0.0, from_end[0]) if wishes[0].counted_from == "end" else (from_start[0], 0.0)


def _positions(wish: NotchWish, walk: _Walk, lengths: tuple[float, float], seam: Seam) -> tuple[float, float]:
    """Where the notch lies on side a and on side b, mm from the seam's start."""
    if seam.kind == "plain":
        return wish.position(lengths[0]), wish.position(lengths[1])
    if seam.kind == "short":  # flat on each other from their starts, wherever the one ends
        at = wish.position(lengths[wish.side == "b"])
        return at, at
    if wish.side == "b":
        at = wish.position(lengths[1])
        return _between_knots(at, walk.b, walk.a), at
    at = wish.position(lengths[0])
    return at, _between_knots(at, walk.a, walk.b)


def _between_knots(at: float, own: Sequence[float], other: Sequence[float]) -> float:
    i = min(max(bisect_right(own, at) - 1, 0), len(own) - 2)
    while own[i + 1] <= own[i] and i > 0:
        i -= 1
    span = own[i + 1] - own[i]
    share = (at - own[i]) / span if span > 0.0 else 0.0
    return other[i] + share * (other[i + 1] - other[i])


def _both_sides(
    pieces: Pieces, seam: Seam, index: int, positions: tuple[float, float], wish: NotchWish
) -> list[PlacedNotch]:
    placed = []
    for runs, position in zip((seam.a, seam.b), positions, strict=True):
        found = _pass_at(pieces, runs, position)
        if found is not None:
            notch = Notch(found.edge.name, found.along_edge(position), wish.double, index, wish.span)
            placed.append(PlacedNotch(found.piece, notch))
    return placed


def _pass_at(pieces: Pieces, runs: Sequence[EdgeRun], position: float) -> Pass | None:
    """The edge on which a position lies; None on (or within `SEAM_END` of) an edge's end."""
    for walked in edge_passes(pieces, runs):
        into = position - walked.before
        if SEAM_END < into < walked.length - SEAM_END:
            return walked
    return None


def _same(one: PlacedNotch, other: PlacedNotch) -> bool:
    on_one_edge = (one.piece, one.notch.edge) == (other.piece, other.notch.edge)
    return on_one_edge and abs(one.notch.along - other.notch.along) < SEAM_END
