"""Fits the cloth: each piece goes on the width of its cloth with its grain along the warp.

Why: a piece wider than the cloth cannot be cut, and the customer finds out with the cloth on the table. The width is
the draft's suggestion, usable from edge to edge; a piece on the fold is opened out, which asks for the same width as
half of it on folded cloth. Turning by half a turn changes no width, so naps need no case of their own. A warning:
the customer may have wider cloth, and the lay plan for her own width has the last word.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from numpy.typing import NDArray

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, LaidPiece, finding
from app.pattern.geometry import Point
from app.pattern.pieces.mirror import mirror_in_fold
from app.pattern.pieces.model import Fabric, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm, mm_unlike

__all__ = ["CHECK", "TOLERANCE", "width_across"]

#: A piece may be this much (mm) wider than the cloth: the width of a pencil line.
TOLERANCE = 0.5
#: A grain line shorter than this (mm) shows no way; the grain check speaks of it.
_NO_LENGTH = 1e-6


_WIDE = Told(
    "checks.cloth-width",
    "A piece is wider than the cloth that the designer suggests. Your own cloth may do: see in the lay plan "
    "whether the piece goes on it.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every piece that is wider across its grain than a cloth it is cut from."""
    fabrics = {fabric.name: fabric for fabric in table.pattern.fabrics}
    for laid in table.pieces:
        cloths = [fabrics[cut.fabric] for cut in laid.piece.cuts if cut.fabric in fabrics]
        width = width_across(laid)
        yield from (_too_wide(laid.piece, cloth, width) for cloth in cloths if width > cloth.width + TOLERANCE)


def width_across(laid: LaidPiece) -> float:
    """Width in mm of a piece's cutting outline square to its grain, both halves of one on the fold together."""
    piece = laid.piece
    way = piece.grain.end.minus(piece.grain.start)
    away = np.array([-way.y, way.x]) / max(piece.grain.start.distance(piece.grain.end), _NO_LENGTH)
    points = shapely.get_coordinates(laid.cutting)
    if piece.fold_edge is not None:
        mirror = mirror_in_fold(piece)
        points = np.vstack([points, [mirror.apply(Point(x, y)) for x, y in _corners_of_hull(points)]])
    across = points @ away
    return float(across.max() - across.min())


def _corners_of_hull(points: NDArray[np.float64]) -> NDArray[np.float64]:
    """The points that can be outermost in some direction."""
    return shapely.get_coordinates(shapely.convex_hull(shapely.multipoints(points)))


def _too_wide(piece: Piece, cloth: Fabric, width: float) -> Problem:
    wide, has = mm_unlike(width, cloth.width)
    message = f"{piece.name} is {wide} wide across its grain, and {cloth.title} is {has} wide."
    fix = f"Use cloth of {mm(width)} or more, put a seam into the piece, or turn its grain where the cloth allows it."
    see = (("the piece", piece.span), ("the cloth", cloth.span))
    where = Place(piece.name, at=piece.grain.start)
    return finding(_WIDE, message, fix, where, see=see, measured=Measured(width, None, cloth.width))


#: The check as every room knows it.
CHECK = Check("fits_cloth", "Fits the cloth", _run, (_WIDE,))
