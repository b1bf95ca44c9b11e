"""Lengths and widths read off cut pieces with a tape: edges, runs of edges, seams; widths at a level."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from app.pattern.drafting.shapes.folded import on_paper, sewn
from app.pattern.pieces.model import Edge, EdgeRun, Pattern, Piece, Seam
from app.pattern.pieces.width import width_at

__all__ = [
    "Pass",
    "Pieces",
    "edge_length",
    "edge_passes",
    "edges_beside",
    "named_piece",
    "run_length",
    "seam_lengths",
    "starts_at_fold",
    "width_at",
]

#: Where pieces are looked up by name: a whole pattern, or a mapping of pieces.
Pieces = Pattern | Mapping[str, Piece]


@dataclass(frozen=True, slots=True)
class Pass:
    """One walk along an edge as part of a seam, `before` mm from the seam's start; folds count as folded."""

    piece: str
    edge: Edge
    backwards: bool
    before: float

    @property
    def length(self) -> float:
        """How far it walks, mm."""
        return self.edge.sewn_length

    def along_edge(self, position: float) -> float:
        """Distance from the edge's start as drawn, for a position along the seam; mm."""
        walked = position - self.before
        return on_paper(self.edge.folds, self.length - walked if self.backwards else walked)

    def position(self, along: float) -> float:
        """Position along the seam, for a distance from the edge's start as drawn; mm."""
        place = sewn(self.edge.folds, along)
        return self.before + (self.length - place if self.backwards else place)


def edges_beside(piece: Piece, name: str, backwards: bool) -> tuple[Edge, Edge]:
    """The edges beside the start and the end of a walk along an edge, as drawn or backwards."""
    at = piece.place_of(name)
    before, after = piece.edges[at - 1], piece.edges[(at + 1) % len(piece.edges)]
    return (before, after) if piece.edges[at].with_outline != backwards else (after, before)


def starts_at_fold(piece: Piece, name: str, backwards: bool) -> bool:
    """True when a walk along an edge, as drawn or backwards, starts on the fold of the piece and ends away from it."""
    first, last = edges_beside(piece, name, backwards)
    return first.fold and not last.fold


def named_piece(pieces: Pieces, name: str) -> Piece:
    """The piece of that name; raises KeyError when there is none."""
    return pieces.piece(name) if isinstance(pieces, Pattern) else pieces[name]


def edge_length(piece: Piece, edge: str) -> float:
    """Length of an edge as it is sewn, mm: on the stitching line, less what pleats fold away.

    Dart intakes are between edges, so no edge counts one.
    """
    return piece.edge(edge).sewn_length


def run_length(pieces: Pieces, runs: Iterable[EdgeRun]) -> float:
    """Length of edges sewn one after another, each as often as it occurs, mm."""
    return sum(run.times * edge_length(named_piece(pieces, run.piece), run.edge) for run in runs)


def seam_lengths(pieces: Pieces, seam: Seam) -> tuple[float, float]:
    """Stitched lengths of the two sides of a seam, (a, b) in mm."""
    return run_length(pieces, seam.a), run_length(pieces, seam.b)


def edge_passes(pieces: Pieces, runs: Iterable[EdgeRun]) -> Iterator[Pass]:
    """Each walk along an edge, in the order in which one side of a seam is sewn.

    An edge that occurs more than once is walked there and back, as the two halves of a
    piece cut on the fold are.
    """
    before = 0.0
    for run in runs:
        edge = named_piece(pieces, run.piece).edge(run.edge)
        for time in range(run.times):
            walked = Pass(run.piece, edge, run.backwards != (time % 2 == 1), before)
            yield walked
            before += walked.length
