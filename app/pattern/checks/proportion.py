"""Proportion: no allowance is wider than is ever sewn, and none is a scrap.

Why: 15 cm for 15 mm cuts a piece that no table holds, and nothing but its drawing shows it. Tailored seams that can
be let out have 1 in (a tailors' text), so that over 40 mm at a seam is asked about; less than 3 mm is neither a raw
edge nor an allowance (common practice). Of hems see `hems`; of seams too narrow, `finish`.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.joints import sewn_edges
from app.pattern.checks.table import CuttingTable, edge_place, finding
from app.pattern.names import dotted
from app.pattern.pieces.model import CornerCut, Edge, Piece
from app.pattern.problem import Measured, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LEAST_ANY", "MOST_SEAM"]

#: The widest allowance of a sewn edge, and the least of any that is not nothing, mm.
MOST_SEAM, LEAST_ANY = 40.0, 3.0
#: A written allowance is as exact as the draft says; this much (mm) is rounding.
TOLERANCE = 0.05


_WIDE = Told(
    "checks.seam-wide",
    "A seam allowance is wider than any that is sewn. Measure it before you cut, and sew on the line that is drawn.",
    Severity.WARNING,
)
_SCRAP = Told(
    "checks.allowance-scrap",
    "An edge has an allowance of a millimetre or two, too little to turn. Cut on the line, or cut it wider.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every allowance out of all proportion."""
    sewn = sewn_edges(table.pattern)
    for piece in table.pattern.pieces:
        for edge in piece.edges:
            if not edge.fold:
                yield from _edge(piece, edge, (piece.name, edge.name) in sewn)


def _edge(piece: Piece, edge: Edge, sewn: bool) -> Iterator[Problem]:
    width, name = edge.allowance.width, dotted(piece.name, edge.name)
    where, see = edge_place(piece, edge), (("the edge", edge.span),)
    if sewn and width > MOST_SEAM + TOLERANCE and edge.allowance.corner is not CornerCut.TURNED_BACK:
        message = f"{name} is sewn and has an allowance of {mm(width)}; {mm(MOST_SEAM)} is more than a seam needs."
        fix = "Give it less, or check its unit. A hem or a casing is turned up: write “turned back” behind its width."
        yield finding(_WIDE, message, fix, where, see=see, measured=Measured(width, None, MOST_SEAM))
    elif not sewn and TOLERANCE < width < LEAST_ANY - TOLERANCE:
        message = f"{name} has an allowance of {mm(width)}: too much for an edge cut raw, too little to turn."
        fix = f"Give it {mm(LEAST_ANY)} or more, or write: none."
        yield finding(_SCRAP, message, fix, where, see=see, measured=Measured(width, LEAST_ANY))


#: The check as every room knows it.
CHECK = Check("proportion", "Proportion", _run, (_WIDE, _SCRAP))
