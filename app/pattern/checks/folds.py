"""Folds: what is folded in two matches about its line, and the grain lies along the fold of the cloth.

Why: a waistband whose halves differ cannot be closed at its ends, and a piece whose grain lies askew to the fold
on which it is cut hangs askew. The inner half of a band is often drawn a few millimetres deeper, to be caught when it
is stitched in the ditch (common practice); short folds, of a collar or a band, are cut either way of the grain.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import cos, degrees, pi, radians, sin

import shapely

from app.pattern.checks.check import Check
from app.pattern.checks.grain import BIAS, off_grain, on_bias
from app.pattern.checks.pairs import off_mirror
from app.pattern.checks.step_words import steps_text
from app.pattern.checks.table import CuttingTable, LaidPiece, edge_place, finding
from app.pattern.geometry import Path, Transform
from app.pattern.names import dotted
from app.pattern.pieces.model import Edge, Mark, MarkKind, Pattern, Piece
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "bias_said"]

#: Halves that are sewn to one another may lie this far off each other, mm.
HALVES = 2.0
#: The inner half may be deeper by this, mm.
DEEPER = 6.0
#: The grain lies along a fold to within this angle, radians.
ALONG = radians(3.0)
#: A fold longer than this (mm) is that of a body piece: the grain never lies square to it.
LONG_FOLD = 150.0
#: The share of its way through the piece that a line must be drawn for the piece to be folded along it.
MOST_OF_IT = 0.8
_SAYS_BIAS = re.compile(r"\bbias\b|\b45\s?(?:°|deg)|\bdiagonal|\bon the cross\b", re.I)

_HALVES = Told(
    "checks.fold-halves",
    "The two halves of a piece that is folded along its line do not match. Trim the longer one to the shorter.",
    Severity.WARNING,
)
_ASKEW = Told(
    "checks.grain-fold",
    "The grain of a piece would not lie along the fold it is cut on, so that it would hang askew.",
    Severity.WARNING,
    maker=False,
)
_BIAS = Told(
    "checks.grain-bias",
    "A piece is drawn to be cut on the bias, and nothing says so. Lay it by its grain line as it is printed.",
    Severity.WARNING,
    maker=False,
)

_NOT_BIAS = Told(
    "checks.grain-not-bias",
    "A piece says that it is cut on the bias, and its grain line says otherwise. Ask which is meant before you cut.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Halves that do not match, and grains that lie askew."""
    for laid in table.pieces:
        piece = laid.piece
        lines = _folded_along(laid)
        if len(lines) == 1 and laid.sound:
            yield from _halves(laid, lines[0])
        fold = piece.fold_edge
        if fold is not None:
            yield from _askew(table.pattern, piece, fold)
        elif _only_said(piece) and laid.sound:
            yield _not_bias(piece)
        elif on_bias(piece) and not bias_said(table.pattern, piece) and laid.sound and off_mirror(laid) > HALVES:
            yield _unsaid(piece)


# ---- halves
def _folded_along(laid: LaidPiece) -> list[Mark]:
    """The lines along which the whole piece is folded: straight, from edge to edge. (Those of pleats are several.)"""
    marks = [mark for mark in laid.piece.marks if mark.kind is MarkKind.FOLD and mark.path is not None]
    return [mark for mark in marks if mark.path is not None and _crosses(laid, mark.path)]


def _crosses(laid: LaidPiece, path: Path) -> bool:
    """True for a straight line that goes most of the way through the piece, as far as it lies in it."""
    reach = path.start.distance(path.end)
    if path.length - reach > 1.0 or reach < 1.0:
        return False
    far = 2.0 * sum(laid.stitching.bounds[2:]) - 2.0 * sum(laid.stitching.bounds[:2])
    ways = (path.start.toward(path.end, -far), path.start.toward(path.end, far))
    chord = shapely.LineString([tuple(way) for way in ways]).intersection(laid.inside_stitching)
    return reach > MOST_OF_IT * chord.length > 0.0


def _halves(laid: LaidPiece, mark: Mark) -> Iterator[Problem]:
    """What is closed must meet itself when folded; the half that is turned in may be a little deeper."""
    piece, path = laid.piece, mark.path
    if path is None:
        return
    sides = _depths(piece, path)
    deeper = abs(sides[0] - sides[1])
    over = Transform.mirror(path.start, path.end)
    closed = [edge for edge in piece.edges if edge.finish == "closed"]
    worst, off = _furthest(laid, closed, over)
    inner = (edge for edge in piece.edges if edge.finish in ("turned in", "caught"))
    turned = [edge for edge in inner if off_line(path, edge.path) < ALONG]
    if worst is not None and off > max(HALVES, deeper + 0.5 if deeper <= DEEPER else 0.0):
        message = f"Folded along its line, {dotted(piece.name, worst.name)} lies {mm(off)} off the other half."
        yield _halves_told(piece, worst, mark, message, off)
    elif turned and deeper > DEEPER and min(sides) > max(sides) / 2.0:
        deep = f"{mm(sides[0])} deep on one side and {mm(sides[1])} on the other"
        message = f"Folded along its line, {piece.name} is {deep}."
        yield _halves_told(piece, turned[0], mark, message, deeper)


def _furthest(laid: LaidPiece, edges: list[Edge], over: Transform) -> tuple[Edge | None, float]:
    """The edge of those that lies furthest off the outline when it is folded over, and how far, mm."""
    found: tuple[Edge | None, float] = (None, 0.0)
    for edge in edges:
        points = shapely.points([tuple(over.apply(point)) for point in edge.path.flatten(0.5)])
        off = float(shapely.distance(points, laid.stitching).max())
        if off > found[1]:
            found = (edge, off)
    return found


def off_line(one: Path, other: Path) -> float:
    """The angle between two lines from end to end, 0 to a right angle, in radians."""
    turn = one.start.angle_to(one.end) - other.start.angle_to(other.end)
    return abs((turn + pi / 2.0) % pi - pi / 2.0)


def _depths(piece: Piece, line: Path) -> tuple[float, float]:
    """How far the piece reaches to the left and to the right of a line, mm."""
    angle = line.start.angle_to(line.end)
    c, s = cos(angle), sin(angle)
    aside = [(p.y - line.start.y) * c - (p.x - line.start.x) * s for p in piece.stitching.flatten(0.5)]
    return max(aside), -min(aside)


def _halves_told(piece: Piece, edge: Edge, mark: Mark, message: str, off: float) -> Problem:
    fix = "Draw the fold half-way between both edges, and both halves alike."
    see = (("the fold", mark.span), ("the edge", edge.span))
    return finding(_HALVES, message, fix, edge_place(piece, edge), see=see, measured=Measured(off, None, HALVES))


# ---- grain
def _askew(pattern: Pattern, piece: Piece, fold: Edge) -> Iterator[Problem]:
    off = off_grain(piece, fold.path)
    square = pi / 2.0 - off < ALONG
    if off < ALONG or (square and fold.path.length <= LONG_FOLD):
        return
    if abs(off - pi / 4.0) < BIAS and bias_said(pattern, piece):
        return
    how = "square to" if square else f"{degrees(off):.0f}° off"
    message = f"The grain of {piece.name} lies {how} its fold {fold.name}: cloth is folded along the grain."
    fix = f"Draw the grain along the fold: grain along {fold.name}. If it is to be cut on the bias, say so in a note."
    see = (("the piece", piece.span), ("the fold", fold.span))
    yield finding(_ASKEW, message, fix, edge_place(piece, fold), see=see)


def bias_said(pattern: Pattern, piece: Piece) -> bool:
    """True when the piece's title or note, or some step, speaks of the bias."""
    return _SAYS_BIAS.search(f"{piece.title} {piece.note} {steps_text(pattern)}") is not None


def _only_said(piece: Piece) -> bool:
    """True where the piece itself says bias, and its grain lies along or across its longest straight edge."""
    straight = [e.path for e in piece.edges if e.path.length - e.path.start.distance(e.path.end) < 1.0]
    if not straight or not re.search(r"\bbias\b|\bon the cross\b", f"{piece.title} {piece.note}", re.I):
        return False
    return abs(off_grain(piece, max(straight, key=lambda path: path.length)) - pi / 4.0) > pi / 4.0 - BIAS


def _not_bias(piece: Piece) -> Problem:
    message = f"{piece.name} is said to be cut on the bias, and its grain lies along or across it."
    fix = "Draw the grain at 45° to its long edge, or take the word out."
    return finding(_NOT_BIAS, message, fix, Place(piece.name, at=piece.grain.start), see=(("the piece", piece.span),))


def _unsaid(piece: Piece) -> Problem:
    message = f"The grain of {piece.name} lies between along and across: it is cut on the bias, and nothing says so."
    fix = 'Say it on the piece, note "Cut on the bias.", or draw the grain along or across it.'
    return finding(_BIAS, message, fix, Place(piece.name, at=piece.grain.start), see=(("the piece", piece.span),))


#: The check as every room knows it.
CHECK = Check("folds", "Folds", _run, (_HALVES, _ASKEW, _BIAS, _NOT_BIAS))
