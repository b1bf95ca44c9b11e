"""Pairs: a piece that is not its own mirror image is cut as a left and a right one, where two are wanted.

Why: two sleeves cut alike are two left sleeves. Only a piece that looks the same turned over, about its grain or
square to it, may be cut twice as it is; panels that are sewn to one another in a ring, each to the next, are cut alike,
and a strip cut on the bias has no left and right.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

import numpy as np
import shapely
from shapely import affinity

from app.pattern.checks.check import Check
from app.pattern.checks.grain import on_bias
from app.pattern.checks.table import CuttingTable, LaidPiece, finding
from app.pattern.pieces.model import Cut, Pattern
from app.pattern.problem import Place, Problem, Severity, Told

__all__ = ["CHECK", "UNLIKE", "off_mirror"]

#: A piece turned over may lie this far (mm) off itself and still be its own mirror image.
UNLIKE = 1.5
#: So many panels of one kind, sewn to the next, go round in a ring, all alike.
_RING = 3

_TWO_LEFT = Told(
    "checks.pair-unmirrored",
    "Two pieces would be cut alike that must be a left and a right one. Turn the pattern over for the second.",
    Severity.WARNING,
    maker=False,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every cut of several alike of a lopsided piece."""
    for laid in table.pieces:
        cuts = [cut for cut in laid.piece.cuts if _alike(table.pattern, laid, cut)]
        if cuts and laid.sound and not on_bias(laid.piece) and (off := off_mirror(laid)) > UNLIKE:
            yield _told(laid, cuts[0], off)


def _alike(pattern: Pattern, laid: LaidPiece, cut: Cut) -> bool:
    """True for an even number cut the same way up, but for panels of a ring."""
    if cut.pair or cut.on_fold or cut.count % 2 or laid.piece.fold_edge is not None:
        return False
    name = laid.piece.name
    ring = cut.count >= _RING and any(
        {run.piece for run in seam.a} == {run.piece for run in seam.b} == {name} and seam.a[0].edge != seam.b[0].edge
        for seam in pattern.seams
    )
    return not ring


def off_mirror(laid: LaidPiece) -> float:
    """How far a piece turned over lies off itself, mm: about its grain or square to it, whichever is nearer.

    Turned over about a line square to the grain, it is the other of a pair turned end for end.
    """
    grain = laid.piece.grain
    angle = grain.start.angle_to(grain.end)
    ring = laid.stitching
    return min(_off(ring, angle), _off(ring, angle + pi / 2.0))


def _off(ring: shapely.LinearRing, angle: float) -> float:
    """How far the ring mirrored in a line of that direction (radians) through its middle lies off itself, mm."""
    middle = shapely.Polygon(ring).centroid
    c, s = cos(2.0 * angle), sin(2.0 * angle)
    x, y = middle.x, middle.y
    over = affinity.affine_transform(ring, [c, s, s, -c, x - c * x - s * y, y - s * x + c * y])
    points = shapely.points(np.array(over.coords))
    return float(shapely.distance(points, ring).max())


def _told(laid: LaidPiece, cut: Cut, off: float) -> Problem:
    piece = laid.piece
    message = (
        f"{piece.name} is cut {cut.count} from {cut.fabric} all alike, and it is not its own mirror image: turned "
        f"over it lies up to {off:.0f} mm off itself. All {cut.count} would be left ones."
    )
    fix = f"Cut a left and a right: cut {cut.count} mirrored {cut.fabric}. Or draw both its halves alike."
    return finding(_TWO_LEFT, message, fix, Place(piece.name), see=(("the piece", piece.span),))


#: The check as every room knows it.
CHECK = Check("pairs", "Pairs", _run, (_TWO_LEFT,))
