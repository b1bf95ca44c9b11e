"""Allowance: the cutting line is simple, goes round the stitching line at each edge's width; folds and marks hold.

Why: the cutting line is what the scissors follow. Widths are checked at points of every
edge that are clear of its corners, where the allowance is shaped on purpose. A piece
whose stitching line is not sound is left to the outline check.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import numpy as np
import shapely

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, LaidPiece, edge_place, finding
from app.pattern.geometry import Point, self_crossings
from app.pattern.pieces.model import Edge, Mark, Piece
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm

__all__ = ["CHECK"]

#: The cutting line may be this far (mm) from where the allowance puts it: drawing error and flattening together.
WIDTH_TOLERANCE = 0.15
#: A mark may lie this far (mm) over the cutting line.
MARK_TOLERANCE = 0.5
#: The cutting line may reach this far (mm) over the fold.
FOLD_TOLERANCE = 0.1
#: Widths are checked no nearer to a corner than this many of the widest allowance there.
CLEAR_OF_CORNER = 2.5
#: Where along each segment (as its parameter) the width is checked.
STATIONS = (0.2, 0.5, 0.8)
#: Segments of an edge that meet at directions further apart than this (as a sine) have a corner between them.
CORNER_SINE = 0.03


_OPEN = Told(
    "checks.cutting-open",
    "The line to cut along would not close round a piece, so it could not be cut out. That is a fault of ours.",
)
_CROSSES = Told(
    "checks.cutting-crosses",
    "The line to cut along would cross itself, so that the piece could not be cut out with its seam allowance.",
)
_OUTSIDE = Told(
    "checks.stitching-outside",
    "Part of the line to sew along would lie outside the cloth you cut, so that there would be nothing to sew.",
)
_OVER_FOLD = Told(
    "checks.over-fold",
    "A piece that is cut on folded cloth would reach over the fold, where there is no cloth to cut.",
)
_WIDTH = Told(
    "checks.allowance-width",
    "A seam allowance would be wider or narrower than it is said to be, so that you would sew beside the line.",
)
_MARK = Told(
    "checks.mark-outside",
    "A mark inside a piece, such as a button's place or a fold line, would run out over its cut edge.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every fault of every piece's cutting line."""
    for laid in table.pieces:
        if laid.sound:
            yield from _cutting(laid)


def _cutting(laid: LaidPiece) -> Iterator[Problem]:
    if not laid.piece.cutting.closed:
        yield _open(laid.piece)
        return
    if not laid.simple_cutting:
        piece = laid.piece
        places = self_crossings(piece.cutting)
        at = places[0].point if places else piece.cutting.start
        message = f"The cutting line of {piece.name} crosses itself at {at.x:.1f}, {at.y:.1f} mm."
        fix = "Make the allowance narrower there, or the hollow of the outline wider."
        yield finding(_CROSSES, message, fix, Place(piece.name, at=at), see=(("the piece", piece.span),))
        return
    shapely.prepare(laid.inside_cutting)
    yield from _inside(laid)
    yield from _widths(laid)
    yield from _over_fold(laid)
    for mark in laid.piece.marks:
        yield from _mark(laid, mark)


def _open(piece: Piece) -> Problem:
    gap = piece.cutting.start.distance(piece.cutting.end)
    message = f"The cutting line of {piece.name} ends {mm(gap)} away from its start."
    where = Place(piece.name, at=piece.cutting.end)
    see = (("the piece", piece.span),)
    return finding(_OPEN, message, "Cut the piece again.", where, see=see, measured=Measured(gap, None, 0.0))


def _inside(laid: LaidPiece) -> Iterator[Problem]:
    corners = shapely.get_coordinates(laid.stitching)
    over = np.atleast_1d(shapely.distance(laid.inside_cutting, shapely.points(corners)))
    worst = int(np.argmax(over))
    if over[worst] > WIDTH_TOLERANCE:
        measured = Measured(float(over[worst]), None, 0.0)
        at = Point(*corners[worst])
        message = f"The stitching line of {laid.piece.name} lies {mm(float(over[worst]))} outside its cutting line."
        fix = "Give every edge an allowance of nothing or more, and cut the piece again."
        where = Place(laid.piece.name, at=at)
        yield finding(_OUTSIDE, message, fix, where, see=(("the piece", laid.piece.span),), measured=measured)


def _over_fold(laid: LaidPiece) -> Iterator[Problem]:
    """A piece cut on folded cloth cannot reach over the fold."""
    fold = laid.piece.fold_edge
    if fold is None:
        return
    ends = (fold.path.start, fold.path.end) if fold.with_outline else (fold.path.end, fold.path.start)
    way = ends[1].minus(ends[0])
    corners = shapely.get_coordinates(laid.cutting)
    out = ((corners[:, 0] - ends[0].x) * way.y - (corners[:, 1] - ends[0].y) * way.x) / ends[0].distance(ends[1])
    worst = int(np.argmax(out))
    if out[worst] > FOLD_TOLERANCE:
        message = f"{laid.piece.name} is cut on the fold and its cutting line reaches {mm(float(out[worst]))} over it."
        fix = f"Cut the piece open, with a seam at {fold.name}, or leave the allowance beside the fold out."
        where = Place(laid.piece.name, fold.name, at=Point(*corners[worst]))
        measured = Measured(float(out[worst]), None, 0.0)
        yield finding(_OVER_FOLD, message, fix, where, see=(("the fold", fold.span),), measured=measured)


def _widths(laid: LaidPiece) -> Iterator[Problem]:
    edges = laid.piece.edges
    stations = [s for i in range(len(edges)) for s in _stations(edges, i)]
    if not stations:
        return
    away = shapely.distance(laid.cutting, shapely.points([wanted for _, _, wanted in stations]))
    told: set[str] = set()
    for i in np.flatnonzero(away > WIDTH_TOLERANCE):
        edge, on, _ = stations[i]
        if edge.name not in told:
            told.add(edge.name)
            yield _wrong_width(laid, edge, on, float(away[i]))


def _wrong_width(laid: LaidPiece, edge: Edge, on: Point, off: float) -> Problem:
    real = float(laid.cutting.distance(shapely.Point(on)))
    name = f"{laid.piece.name}.{edge.name}"
    width = edge.allowance.width
    message = f"The allowance of {name} should be {mm(width)} and the cutting line lies {mm(real)} away."
    if abs(real - width) <= WIDTH_TOLERANCE:
        # Beside the place the line is near enough, at the place itself it is not
        message = f"The allowance of {name} is {mm(width)}, and the cutting line lies {mm(off)} off where that puts it."
    fix = "Make the allowance narrower than the hollows of the outline beside it, or the edge longer."
    where = edge_place(laid.piece, edge, on)
    measured = Measured(real, edge.allowance.width, edge.allowance.width)
    return finding(_WIDTH, message, fix, where, see=(("the edge", edge.span),), measured=measured)


def _stations(edges: tuple[Edge, ...], index: int) -> Iterator[tuple[Edge, Point, Point]]:
    """Points of an edge clear of corners, and where the cutting line should be beside them."""
    edge, count = edges[index], len(edges)
    widths = [edges[i % count].allowance.width for i in (index - 1, index, index + 1)]
    clear = CLEAR_OF_CORNER * max(widths)
    out = edge.allowance.width if edge.with_outline else -edge.allowance.width
    stops, corners = edge.path.stops, _corners(edge)
    for segment, start in zip(edge.path.segments, stops, strict=False):
        for t in STATIONS:
            along = start + t * segment.length
            if all(abs(along - corner) >= clear for corner in corners):
                on, way = segment.point(t), segment.tangent(t)
                yield edge, on, Point(on.x + out * way.y, on.y - out * way.x)


def _corners(edge: Edge) -> list[float]:
    """Distances along the edge of its ends and of the corners inside it, mm."""
    stops = edge.path.stops
    corners = [0.0, stops[-1]]
    for i, (before, after) in enumerate(pairwise(edge.path.segments), start=1):
        a, b = before.tangent(1.0), after.tangent(0.0)
        if abs(a.x * b.y - a.y * b.x) > CORNER_SINE:
            corners.append(stops[i])
    return corners


def _mark(laid: LaidPiece, mark: Mark) -> Iterator[Problem]:
    points = mark.path.flatten(MARK_TOLERANCE) if mark.path else (mark.at,)
    over = float(np.max(shapely.distance(laid.inside_cutting, shapely.points(points))))
    if over > MARK_TOLERANCE:
        name = f"The mark “{mark.label or mark.kind.value}” of {laid.piece.name}"
        where = Place(laid.piece.name, point=mark.label, at=mark.at)
        fix = "Move the mark into the piece, or make it shorter."
        message = f"{name} runs {mm(over)} over the cutting line."
        measured = Measured(over, None, 0.0)
        yield finding(_MARK, message, fix, where, see=(("the mark", mark.span),), measured=measured)


#: The check as every room knows it.
CHECK = Check("allowance", "Allowance", _run, (_OPEN, _CROSSES, _OUTSIDE, _OVER_FOLD, _WIDTH, _MARK))
