"""Outline: closed, simple, the right way round, the fold straight, no crumbs of edges, no kinks in curves.

Why: every length, allowance and lay plan is read off the outline. A bold corner inside
an edge is a design; a slight one is a slip, so only turns between `KINK` and `CORNER`
are reported, as warnings.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import radians

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, LaidPiece, edge_place, finding
from app.pattern.geometry import Point, foot, self_crossings
from app.pattern.pieces.model import Edge, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import angle_words, mm, mm_unlike

__all__ = ["CHECK"]

#: An edge shorter than this (mm) cannot be sewn.
SHORTEST_EDGE = 1.0
#: A fold edge may leave its straight line by this much (mm).
FOLD_BEND = 0.1
#: Turns inside an edge (radians) between these two are kinks; beyond the second, corners that were meant.
KINK, CORNER = radians(6.0), radians(40.0)
_BESIDE = 0.05  # mm: so near to the end of a fold, a corner is the fold's


_OPEN = Told(
    "checks.outline-open",
    "The line to sew along would not close round a piece, so it could not be cut out. That is a fault of the design.",
)
_CROSSES = Told(
    "checks.outline-crosses",
    "The line to sew along would cross itself, so that the piece could not be sewn. The design does not reach "
    "these measurements and choices as it stands.",
)
_CLOCKWISE = Told(
    "checks.outline-clockwise",
    "A piece would have its seam allowance on the inside, where the garment is. That is a fault of the design.",
)
_SHORT = Told(
    "checks.short-edge",
    "One side of a piece would shrink to less than a millimetre, too short to sew.",
)
_BENT = Told(
    "checks.fold-bent",
    "A side that lies on the fold of the cloth would not be straight, and cloth folds in a straight line only.",
)
_KINK = Told(
    "checks.kink",
    "A curve has a slight corner in it. Cut it as one smooth line.",
    Severity.WARNING,
    maker=False,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every fault of every piece's stitching outline."""
    for laid in table.pieces:
        yield from _outline(laid)
        for edge in laid.piece.edges:
            piece = laid.piece
            length = edge.path.length
            if length < SHORTEST_EDGE:
                long, least = mm_unlike(length, SHORTEST_EDGE)
                message = f"{piece.name}.{edge.name} is {long} long, less than {least}."
                fix = "Leave the edge out and let its neighbours meet, or move its ends apart."
                yield _edge_finding(piece, edge, _SHORT, message, fix, Measured(length, SHORTEST_EDGE))
            elif edge.fold:
                start, end = edge.path.start, edge.path.end
                points = edge.path.flatten(FOLD_BEND / 2.0)
                bend = (
                    max(point.distance(foot(point, start, end)) for point in points)
                    if start.distance(end) > 0.0
                    else edge.path.length
                )
                if bend > FOLD_BEND:
                    message = f"{piece.name}.{edge.name} lies on the fold and leaves a straight line by {mm(bend)}."
                    fix = "Draw the fold edge as one straight line: cloth folds straight."
                    yield _edge_finding(piece, edge, _BENT, message, fix, Measured(bend, None, FOLD_BEND))
            else:
                yield from _kinks(piece, edge)


def _outline(laid: LaidPiece) -> Iterator[Problem]:
    piece = laid.piece
    if not piece.stitching.closed:
        gap = piece.stitching.start.distance(piece.stitching.end)
        message = f"The stitching line of {piece.name} ends {mm(gap)} away from its start."
        fix = "Let its last edge end where its first one starts."
        yield _finding(piece, _OPEN, message, fix, piece.stitching.end)
    elif not laid.simple_stitching:
        yield _crossing(piece)
    elif piece.stitching.signed_area <= 0.0:
        message = f"The outline of {piece.name} runs clockwise, so its allowances would lie inside."
        fix = "List its edges anticlockwise."
        yield _finding(piece, _CLOCKWISE, message, fix, piece.stitching.start)


def _crossing(piece: Piece) -> Problem:
    places = self_crossings(piece.stitching)
    at = places[0].point if places else piece.stitching.start
    names = [
        edge.name
        for edge in piece.edges
        if any(edge.path.bounds.distance(place.point) < SHORTEST_EDGE for place in places)
    ]
    by = f" ({' and '.join(names)})" if names else ""
    message = f"The stitching line of {piece.name} crosses itself{by} at {at.x:.1f}, {at.y:.1f} mm."
    fix = (
        "Move the points so that these edges meet only at their ends, or list the edges in their order round the piece."
    )
    return _finding(piece, _CROSSES, message, fix, at)


def _kinks(piece: Piece, edge: Edge) -> Iterator[Problem]:
    stops = edge.path.stops
    for index, (before, after) in enumerate(pairwise(edge.path.segments), start=1):
        turn = abs(before.tangent(1.0).turn_to(after.tangent(0.0)))
        if KINK < turn < CORNER and not _at_a_fold(edge, stops[index]):
            message = (
                f"{piece.name}.{edge.name} has a kink of {angle_words(turn)} in it (up to {angle_words(KINK)} passes)."
            )
            fix = "Draw it as one smooth curve, or give both curves the same direction where they meet."
            yield finding(_KINK, message, fix, edge_place(piece, edge, after.start), see=(("the edge", edge.span),))


def _at_a_fold(edge: Edge, along: float) -> bool:
    """True in and at the ends of a fold, where the edge turns so that its layers lie on one another."""
    return any(start - _BESIDE < along < end + _BESIDE for start, end in edge.folds)


def _finding(piece: Piece, told: Told, message: str, fix: str, at: Point) -> Problem:
    return finding(told, message, fix, Place(piece.name, at=at), see=(("the piece", piece.span),))


def _edge_finding(piece: Piece, edge: Edge, told: Told, message: str, fix: str, measured: Measured) -> Problem:
    see = (("the edge", edge.span),)
    return finding(told, message, fix, edge_place(piece, edge), see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("outline", "Outline", _run, (_OPEN, _CROSSES, _CLOCKWISE, _SHORT, _BENT, _KINK))
