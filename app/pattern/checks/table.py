"""The cutting table: a pattern with every piece's outlines flattened once, so that the checks need not do it again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Edge, EdgeRun, Pattern, Piece
from app.pattern.problem import Measured, Place, Problem, Related, Span, Told

__all__ = [
    "FLATNESS",
    "LaidPiece",
    "CuttingTable",
    "edge_place",
    "finding",
    "lay_on_table",
    "run_words",
    "seam_words",
    "side_place",
]

#: Outlines are flattened for checking to within this (mm), well under every tolerance that is checked on them.
FLATNESS = 0.05


@dataclass(frozen=True, slots=True)
class LaidPiece:
    """A piece with its two outlines as rings and polygons; `simple_...` is False where a line crosses itself."""

    piece: Piece
    stitching: shapely.LinearRing
    cutting: shapely.LinearRing
    inside_stitching: shapely.Polygon
    inside_cutting: shapely.Polygon
    simple_stitching: bool
    simple_cutting: bool

    @property
    def sound(self) -> bool:
        """True when the stitching line is fit to measure on: closed, free of crossings, anticlockwise."""
        line = self.piece.stitching
        return self.simple_stitching and line.closed and line.signed_area > 0.0


@dataclass(frozen=True, slots=True)
class CuttingTable:
    """A pattern laid out for checking."""

    pattern: Pattern
    pieces: tuple[LaidPiece, ...]


def lay_on_table(pattern: Pattern) -> CuttingTable:
    """The pattern with its outlines flattened to within `FLATNESS` mm."""
    return CuttingTable(pattern, tuple(_laid(piece) for piece in pattern.pieces))


def _laid(piece: Piece) -> LaidPiece:
    stitching, cutting = _ring(piece.stitching), _ring(piece.cutting)
    return LaidPiece(
        piece,
        stitching,
        cutting,
        shapely.Polygon(stitching),
        shapely.Polygon(cutting),
        bool(stitching.is_simple),
        bool(cutting.is_simple),
    )


def _ring(path: Path) -> shapely.LinearRing:
    points = path.flatten(FLATNESS)
    return shapely.LinearRing(np.array(points[:-1] if path.closed else points))


def finding(
    told: Told,
    message: str,
    fix: str,
    where: Place,
    *,
    see: Sequence[tuple[str, Span | Place | None]] = (),
    measured: Measured | None = None,
) -> Problem:
    """A problem of a kind that its check declares: the place in the work; what else to look at, most of all the lines.

    `measured` are both figures where lengths are compared.
    """
    related = tuple(Related(words, there) for words, there in see if there is not None)
    return Problem(told.code, message, fix, where, told.severity, related, measured=measured)


def run_words(runs: Sequence[EdgeRun]) -> str:
    """One side of a seam in words: `back.armhole + front.armhole`."""
    return " + ".join(f"{run.piece}.{run.edge}" + (f" x {run.times}" if run.times > 1 else "") for run in runs)


def seam_words(a: Sequence[EdgeRun], b: Sequence[EdgeRun]) -> str:
    """A seam in words: `sleeve.cap to back.armhole + front.armhole`."""
    return f"{run_words(a)} to {run_words(b)}"


def edge_place(piece: Piece, edge: Edge, at: Point | None = None) -> Place:
    """A place on an edge; its middle segment's start when no point is given."""
    return Place(piece.name, edge.name, at=at or edge.path.segments[len(edge.path.segments) // 2].point(0.5))


def side_place(pattern: Pattern, runs: Sequence[EdgeRun]) -> Place:
    """A place on the first edge of one side of a seam."""
    piece = pattern.piece(runs[0].piece)
    return edge_place(piece, piece.edge(runs[0].edge))
