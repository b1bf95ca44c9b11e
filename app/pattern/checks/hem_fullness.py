"""Hem fullness: a hem's raw edge is about as long as the line on the garment that it is turned to.

Why: the hem of a flared skirt is longer at its raw edge than where it comes to lie, and the fullness must be eased
away; in a hollow hem it is shorter and will not reach. On a hem of width w whose edge turns by an angle t on
its way, the raw edge is longer than the hem line by w t, and the line it is turned to shorter by w t
(parallels of a curve; Steiner). Up to `MOST` can be eased (common practice, with an ease thread); raw
edges that must stretch by more than `LEAST` pull, unless the cloth gives. Warnings: a narrow hem or a facing solves it.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import atan2, remainder, tau

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, edge_place, finding
from app.pattern.geometry import Path
from app.pattern.names import dotted
from app.pattern.pieces.model import CornerCut, Edge, Piece
from app.pattern.problem import Measured, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LEAST", "MOST", "raw_and_landing"]

#: The raw edge may be longer by this share of the line it is turned to, or shorter by that.
MOST, LEAST = 0.12, 0.04
#: Differences under this (mm) nobody sees.
TOLERANCE = 3.0


_FULL = Told(
    "checks.hem-fullness",
    "A curved hem does not lie flat by itself when it is turned up. Draw its raw edge in with an ease thread, "
    "turn up less, or face it.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every turned hem that cannot be eased flat, or that does not reach."""
    stretch = {fabric.name: fabric.stretch for fabric in table.pattern.fabrics}
    for piece in table.pattern.pieces:
        gives = max((stretch.get(cut.fabric, 0.0) for cut in piece.cuts), default=0.0)
        for edge in piece.edges:
            if edge.allowance.corner is CornerCut.TURNED_BACK and not edge.fold:
                yield from _hem(piece, edge, LEAST + gives)


def raw_and_landing(edge: Edge) -> tuple[float, float]:
    """Length in mm of a hem's raw edge, and of the line on the piece that it is turned to."""
    turn = _turning(edge.path) * (1.0 if edge.with_outline else -1.0)
    length, width = edge.path.length, edge.allowance.width
    return length + width * turn, length - width * turn


def _turning(path: Path) -> float:
    """How far the direction of travel turns to the left along the whole path, radians."""
    points = path.flatten()
    first, last = (atan2(way.y, way.x) for way in (path.tangent_at(0.0), path.tangent_at(path.length)))
    ways = [first, *(a.angle_to(b) for a, b in pairwise(points)), last]
    return sum(remainder(after - before, tau) for before, after in pairwise(ways))


def _hem(piece: Piece, edge: Edge, least: float) -> Iterator[Problem]:
    raw, landing = raw_and_landing(edge)
    more = raw - landing
    if landing <= 0.0 or abs(more) <= TOLERANCE or -least <= more / landing <= MOST:
        return
    name, width = dotted(piece.name, edge.name), edge.allowance.width
    sides = f"The raw edge of {name} is {mm(raw)} and the line it is turned to {mm(landing)}"
    if more > 0.0:
        message = f"{sides}: {mm(more)} to ease away, {more / landing:.1%}, where {MOST:.0%} lies flat."
        fix = f"Turn up {mm(width * MOST * landing / more)} or less, or face the hem."
    else:
        message = f"{sides}: {mm(-more)} too short to reach."
        fix = f"Turn up {mm(width * least * landing / -more)} or less, or face the hem."
    see = (("the edge", edge.span),)
    where = edge_place(piece, edge)
    measured = Measured(raw, landing * (1.0 - least), landing * (1.0 + MOST))
    yield finding(_FULL, message, fix, where, see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("hem_fullness", "Hem fullness", _run, (_FULL,))
