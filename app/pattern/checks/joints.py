"""Where the ends of seams bring edges of two pieces together: what the checks of hems, necks and linings look at."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.pattern.pieces.measure import edges_beside
from app.pattern.pieces.model import CornerCut, Edge, EdgeRun, Pattern, Piece, Seam

__all__ = ["HEMS", "Joint", "free_edges", "is_hem", "joints", "sewn_edges"]

#: How the names of edges begin that end a garment below (common practice).
HEMS = ("hem", "bottom_edge", "lower_hem")


@dataclass(frozen=True, slots=True)
class Joint:
    """One end of a seam: the edges of the two pieces that lie beside the seam there, and so meet once it is sewn.

    Each comes with whether it is its start, in the direction of travel round its piece, that lies there; and with the
    edge of the seam beside it.
    """

    seam: Seam
    one_end: tuple[Piece, Edge, bool]
    other_end: tuple[Piece, Edge, bool]
    one_seam: Edge
    other_seam: Edge

    @property
    def one(self) -> tuple[Piece, Edge]:
        """The first of the two edges."""
        return self.one_end[:2]

    @property
    def other(self) -> tuple[Piece, Edge]:
        """The edge that it meets."""
        return self.other_end[:2]


def joints(pattern: Pattern) -> Iterator[Joint]:
    """Both ends of every seam. An end at which a dart lies beside an edge, or the fold of a piece, joins nothing."""
    for seam in pattern.seams:
        for at_start in (True, False):
            one, other = (_beside(pattern, side, at_start) for side in (seam.a, seam.b))
            if one is not None and other is not None:
                yield Joint(seam, one[0], other[0], one[1], other[1])


def _beside(
    pattern: Pattern, runs: tuple[EdgeRun, ...], at_start: bool
) -> tuple[tuple[Piece, Edge, bool], Edge] | None:
    run = runs[0] if at_start else runs[-1]
    # An edge that is walked there and back ends where it began
    starts = at_start or run.times % 2 == 0
    piece = pattern.piece(run.piece)
    place = piece.place_of(run.edge)
    edge = edges_beside(piece, run.edge, run.backwards)[0 if starts else 1]
    other = piece.place_of(edge.name)
    follows = (place + 1) % len(piece.edges) == other
    if edge.fold or other == place or (place if follows else other) in piece.mouths:
        return None
    return (piece, edge, follows), piece.edges[place]


def sewn_edges(pattern: Pattern) -> frozenset[tuple[str, str]]:
    """The edges that some seam takes, each as (piece, edge)."""
    return frozenset((run.piece, run.edge) for seam in pattern.seams for run in (*seam.a, *seam.b))


def free_edges(pattern: Pattern) -> Iterator[tuple[Piece, Edge]]:
    """The edges that no seam takes and that lie on no fold."""
    sewn = sewn_edges(pattern)
    for piece in pattern.pieces:
        yield from ((piece, edge) for edge in piece.edges if not edge.fold and (piece.name, edge.name) not in sewn)


def is_hem(edge: Edge) -> bool:
    """Whether an edge is turned up: by its finish, by the corner of its allowance, or else by its name."""
    if edge.finish or edge.allowance.corner is CornerCut.TURNED_BACK:
        return edge.finish == "hemmed" or edge.allowance.corner is CornerCut.TURNED_BACK
    return edge.name.startswith(HEMS)
