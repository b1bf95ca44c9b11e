"""Finish: every allowance is wide enough for what is done with it, and as wide as that of the edge it is sewn to.

Why: a seam on the very edge frays out, a hem of a few millimetres cannot be turned, and a zip needs an
allowance as wide as its tape to lie on. Figures are common practice: 5 mm is the narrowest seam
the trade sews (overlocked knits), 5 mm the narrowest hem turned by hand or foot, and half a zip's tape
is 12 mm wide. Edges are laid on one another raw edge on raw edge: with unlike allowances, one of them is
sewn off its line. Which seam takes the zip a draft does not say, so one long enough for it must be wide enough.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, edge_place, finding
from app.pattern.names import dotted
from app.pattern.pieces.measure import edge_passes, named_piece, seam_lengths
from app.pattern.pieces.model import CornerCut, Edge, EdgeRun, Pattern, Piece, Seam
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LEAST_HEM", "LEAST_SEAM", "LEAST_ZIP"]

#: Least allowances in mm: of a sewn edge, of a turned hem, of a seam that takes a zip.
LEAST_SEAM, LEAST_HEM, LEAST_ZIP = 5.0, 5.0, 12.0
#: A written allowance is as exact as the draft says; this much (mm) is rounding.
TOLERANCE = 0.05
#: Allowances of edges that are sewn together may differ by less than this, mm.
UNLIKE = 1.0
#: Edges that share less of a seam than this (of its length) do not lie on one another.
_BESIDE = 0.02
#: Shorter seams take no zip, mm.
_SHORT = 80.0
_ZIP = re.compile(r"\bzips?\b|\bzippers?\b", re.I)


_HEM = Told(
    "checks.hem-narrow",
    "A hem has hardly anything to turn up. If your cloth frays, cut that edge a little wider, or bind it.",
    Severity.WARNING,
)
_SEAM = Told(
    "checks.seam-narrow",
    "A seam has very little allowance and may pull out. Cut that edge a little wider on both sides, and sew on "
    "the line that is drawn.",
    Severity.WARNING,
)
_UNLIKE = Told(
    "checks.allowance-unlike",
    "Two edges that are sewn together have seam allowances of different widths. Pin them line on line, not raw "
    "edge on raw edge.",
    Severity.WARNING,
)
_ZIP_NARROW = Told(
    "checks.zip-narrow",
    "No seam has an allowance as wide as half a zip's tape. Where the zip goes in, cut it at least 12 mm (1/2 "
    "in) wide on both sides.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every allowance too narrow for its finish."""
    pattern = table.pattern
    sewn = {(run.piece, run.edge) for seam in pattern.seams for run in (*seam.a, *seam.b)}
    for piece in pattern.pieces:
        for edge in piece.edges:
            yield from _edge(piece, edge, (piece.name, edge.name) in sewn)
    for seam in pattern.seams:
        yield from _unlike_widths(pattern, seam)
    yield from _zip(pattern)


def _edge(piece: Piece, edge: Edge, sewn: bool) -> Iterator[Problem]:
    width = edge.allowance.width
    name = dotted(piece.name, edge.name)
    if edge.fold:
        return
    if edge.allowance.corner is CornerCut.TURNED_BACK and width < LEAST_HEM - TOLERANCE:
        message = f"{name} has {mm(width)} to turn up; under {mm(LEAST_HEM)} a hem cannot be turned."
        yield _narrow(piece, edge, _HEM, message, LEAST_HEM)
    elif sewn and width < LEAST_SEAM - TOLERANCE:
        message = f"{name} is sewn and has an allowance of {mm(width)}; {mm(LEAST_SEAM)} is the least that holds."
        yield _narrow(piece, edge, _SEAM, message, LEAST_SEAM)


def _narrow(piece: Piece, edge: Edge, told: Told, message: str, least: float) -> Problem:
    fix = f"Give it {mm(least)} or more."
    see = (("the edge", edge.span),)
    measured = Measured(edge.allowance.width, least)
    return finding(told, message, fix, edge_place(piece, edge), see=see, measured=measured)


def _unlike_widths(pattern: Pattern, seam: Seam) -> Iterator[Problem]:
    """Edges that lie on one another in a seam and have unlike allowances, each pair once."""
    told: set[tuple[str, str]] = set()
    length, faced = seam_lengths(pattern, seam)
    for one in edge_passes(pattern, seam.a):
        for other in edge_passes(pattern, seam.b):
            shares = one.before / length, other.before / faced
            ends = (one.before + one.length) / length, (other.before + other.length) / faced
            names = dotted(one.piece, one.edge.name), dotted(other.piece, other.edge.name)
            widths = one.edge.allowance.width, other.edge.allowance.width
            if CornerCut.TURNED_BACK in (one.edge.allowance.corner, other.edge.allowance.corner):
                continue  # a hem is turned up first, and what is sewn to it lies on its line
            if min(widths) < LEAST_SEAM - TOLERANCE:
                continue  # too narrow is said already
            if min(ends) - max(shares) < _BESIDE or abs(widths[0] - widths[1]) < UNLIKE or names in told:
                continue
            told.add(names)
            message = f"{names[0]} has an allowance of {mm(widths[0])} and {names[1]}, sewn to it, {mm(widths[1])}."
            fix = "Give both the same, so that their raw edges meet when their stitching lines do."
            see = (("the first edge", one.edge.span), ("the other edge", other.edge.span), ("the seam", seam.span))
            where = edge_place(pattern.piece(one.piece), one.edge)
            measured = Measured(widths[0], widths[1], widths[1])
            yield finding(_UNLIKE, message, fix, where, see=see, measured=measured)


def _zip(pattern: Pattern) -> Iterator[Problem]:
    """A zip among the notions and no seam that is wide enough for it on both sides."""
    zips = [notion for notion in pattern.notions if _ZIP.search(f"{notion.title} {notion.name}")]
    widths = [min(_width(pattern, seam.a), _width(pattern, seam.b)) for seam in pattern.seams]
    if not zips or not widths or max(widths) >= LEAST_ZIP - TOLERANCE:
        return
    message = f"{zips[0].title} goes into a seam, and the widest allowance of any seam is {mm(max(widths))}."
    fix = f"Give both edges of the seam that takes it {mm(LEAST_ZIP)} or more."
    see = (("the zip", zips[0].span),)
    where = Place(point=zips[0].name)
    yield finding(_ZIP_NARROW, message, fix, where, see=see, measured=Measured(max(widths), LEAST_ZIP))


def _width(pattern: Pattern, side: Sequence[EdgeRun]) -> float:
    """The narrowest allowance of those edges of a seam's side that are long enough for a zip, mm; 0 without any."""
    edges = [named_piece(pattern, run.piece).edge(run.edge) for run in side]
    return min((edge.allowance.width for edge in edges if edge.path.length >= _SHORT), default=0.0)


#: The check as every room knows it.
CHECK = Check("finish", "Finish", _run, (_HEM, _SEAM, _UNLIKE, _ZIP_NARROW))
