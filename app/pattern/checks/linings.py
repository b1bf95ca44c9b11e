"""Linings and facings: a lining ends no lower than its shell, and a facing has the shape of the edge that it faces.

Why: a lining that hangs out shows at the first fitting, and a facing as long as its neck but of another curve pulls
the neck out of shape: equal lengths are all that a tape finds. A facing is laid on the piece with the two edges'
ends on each other, as it will be sewn or turned over; what then lies apart must be stretched or eased. Bias strips
are bent to the edge, and cloth that stretches gives, so that neither is looked at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import pi

from app.pattern.checks.check import Check
from app.pattern.checks.joints import free_edges, is_hem
from app.pattern.checks.table import CuttingTable, edge_place, finding
from app.pattern.geometry import Path, Point
from app.pattern.names import dotted
from app.pattern.pieces.model import Edge, Pattern, Piece, Seam
from app.pattern.problem import Measured, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["APART", "CHECK"]

#: A lining may reach this much (mm) below its shell: it is the same line, drawn twice.
LOWER = 2.0
#: Edges laid on each other may lie so far apart (mm).
APART = 3.0
#: Seams whose sides differ by more than this (mm) are eased, and told by the seam walk if they are not meant.
_LIKE = 2.0
#: Points compared along an edge.
_POINTS = 24
_LINING = re.compile(r"lining\b", re.I)
_FACING = re.compile(r"(?<!inter)facing\b|lining\b", re.I)


_LONGER = Told(
    "checks.lining-longer",
    "The lining would hang out below the garment. Turn up more of it, so that it ends a little above the hem.",
    Severity.WARNING,
)
_SHAPE = Told(
    "checks.facing-shape",
    "A facing or a lining does not have the shape of the edge that it is sewn to. Lay it on before you cut it, and cut "
    "it after that edge.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every lining that is longer than its shell, and every facing of another shape than its edge."""
    pattern = table.pattern
    free = {(piece.name, edge.name) for piece, edge in free_edges(pattern)}
    told: set[str] = set()
    for lining, shell, drop in _lined(pattern):
        hems = [_hem(piece, free) for piece in (lining, shell)]
        if lining.name in told or hems[0] is None or hems[1] is None:
            continue
        lower = _lowest(hems[1].path) + drop - _lowest(hems[0].path)
        if lower > LOWER:
            told.add(lining.name)
            one, other = dotted(lining.name, hems[0].name), dotted(shell.name, hems[1].name)
            message = f"{one} ends {mm(lower)} below {other}: the lining hangs out of the garment."
            fix = f"Move it up by {mm(lower)} at least: a lining ends 2 to 3 cm above the hem, or is sewn to it."
            see = (("the shell's hem", hems[1].span), ("the lining's hem", hems[0].span))
            measured = Measured(lower, None, 0.0)
            yield finding(_LONGER, message, fix, edge_place(lining, hems[0]), see=see, measured=measured)
    stretch = {fabric.name: fabric.stretch for fabric in pattern.fabrics}
    for seam in pattern.seams:
        yield from _shape(pattern, seam, stretch)


def _cut_as_lining(pattern: Pattern, piece: Piece) -> bool:
    """Whether all of a piece is lining, by its cloth or by its own name."""
    titles = {fabric.name: f"{fabric.name} {fabric.title}" for fabric in pattern.fabrics}
    named = _LINING.search(f"{piece.name.replace('_', ' ')} {piece.title}") is not None
    return named or all(_LINING.search(titles.get(cut.fabric, "")) for cut in piece.cuts)


def _lined(pattern: Pattern) -> Iterator[tuple[Piece, Piece, float]]:
    """Each lining with a shell, by a seam that joins them or by their names; how much higher the lining is drawn."""
    linings = {piece.name for piece in pattern.pieces if _cut_as_lining(pattern, piece)}
    for seam in pattern.seams:
        for one in seam.a:
            for other in seam.b:
                if (one.piece in linings) != (other.piece in linings):
                    own, shell = (one, other) if one.piece in linings else (other, one)
                    ends = [pattern.piece(run.piece).edge(run.edge).path for run in (own, shell)]
                    drop = sum(sign * (p.start.y + p.end.y) / 2.0 for sign, p in zip((1.0, -1.0), ends, strict=True))
                    yield pattern.piece(own.piece), pattern.piece(shell.piece), drop
    shells = {piece.name: piece for piece in pattern.pieces if piece.name not in linings}
    for name in linings:
        shell_name = re.sub(r"_?lining_?", "", name)
        if shell_name in shells:
            pair = pattern.piece(name), shells[shell_name]
            yield *pair, pair[0].stitching.bounds.top - pair[1].stitching.bounds.top


def _hem(piece: Piece, free: set[tuple[str, str]]) -> Edge | None:
    """The lowest free hem of a piece."""
    hems = [edge for edge in piece.edges if is_hem(edge) and (piece.name, edge.name) in free]
    return min(hems, key=lambda edge: _lowest(edge.path), default=None)


def _lowest(path: Path) -> float:
    lowest: float = path.bounds.bottom
    return lowest


def _shape(pattern: Pattern, seam: Seam, stretch: dict[str, float]) -> Iterator[Problem]:
    if seam.kind != "plain" or len(seam.a) != 1 or len(seam.b) != 1:
        return
    pieces = pattern.piece(seam.a[0].piece), pattern.piece(seam.b[0].piece)
    if pieces[0] is pieces[1] or any(stretch.get(cut.fabric, 0.0) > 0.0 for piece in pieces for cut in piece.cuts):
        return
    facings = [_FACING.search(f"{piece.name.replace('_', ' ')} {piece.title}") is not None for piece in pieces]
    if facings[0] == facings[1]:
        return
    edges = pieces[0].edge(seam.a[0].edge), pieces[1].edge(seam.b[0].edge)
    own = 0 if facings[0] else 1
    if abs(edges[0].sewn_length - edges[1].sewn_length) > _LIKE or any(edge.folds for edge in edges):
        return
    if _on_bias(pieces[own], edges[own]):
        return
    apart = _apart(_along(edges[0], seam.a[0].backwards), _along(edges[1], seam.b[0].backwards))
    if apart > APART:
        one, other = (dotted(pieces[i].name, edges[i].name) for i in (own, 1 - own))
        message = f"{one} is as long as {other}, and laid on it lies {mm(apart)} away: it has another shape."
        fix = f"Take it from the shape that {pieces[1 - own].name} is cut from: face SHAPE along {edges[1 - own].name}."
        see = (("the facing's edge", edges[own].span), ("the edge it faces", edges[1 - own].span))
        measured = Measured(apart, None, APART)
        yield finding(_SHAPE, message, fix, edge_place(pieces[own], edges[own]), see=see, measured=measured)


def _on_bias(piece: Piece, edge: Edge) -> bool:
    """Whether an edge lies across the bias of its cloth, 30 to 60 degrees off the grain."""
    grain = piece.grain.start.angle_to(piece.grain.end)
    off = (edge.path.start.angle_to(edge.path.end) - grain) % (pi / 2.0)
    return (
        pi / 6.0 < off < pi / 3.0
        and len(edge.path.segments) == 1
        and edge.path.length - 0.01 < edge.path.start.distance(edge.path.end)
    )


def _along(edge: Edge, backwards: bool) -> list[Point]:
    path = edge.path.reversed() if backwards else edge.path
    return [path.point_at(path.length * i / _POINTS) for i in range(_POINTS + 1)]


def _apart(one: list[Point], other: list[Point]) -> float:
    """How far two edges lie apart at most with their ends laid on each other, either way up, mm."""
    flat = [_laid(points) for points in (one, other)]
    return min(
        float(max(a.distance(Point(b.x, side * b.y)) for a, b in zip(*flat, strict=True))) for side in (1.0, -1.0)
    )


def _laid(points: list[Point]) -> list[Point]:
    """The points with the middle between their ends at nothing and their ends along x."""
    start, end = points[0], points[-1]
    middle = start.between(end, 0.5)
    far = start.distance(end) / 2.0
    if far < 1e-9:
        return list(points)
    ux, uy = (end.x - start.x) / (2.0 * far), (end.y - start.y) / (2.0 * far)
    return [
        Point((p.x - middle.x) * ux + (p.y - middle.y) * uy, (p.y - middle.y) * ux - (p.x - middle.x) * uy)
        for p in points
    ]


#: The check as every room knows it.
CHECK = Check("linings", "Linings and facings", _run, (_LONGER, _SHAPE))
