"""Grain: every piece has a grain line long enough to lay by, and it is drawn inside the piece.

Why: a piece laid off the grain hangs and stretches differently from its partner.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot, pi, radians

import numpy as np
import shapely

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, LaidPiece, finding
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Piece
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm, mm_unlike

__all__ = ["BIAS", "CHECK", "off_grain", "on_bias"]

#: A grain line shorter than this (mm) cannot be measured from.
SHORTEST_GRAIN = 10.0
#: It may lie this far (mm) over the cutting line, as one on the fold may by rounding.
OVER = 0.5
#: A grain so near to 45 degrees (radians) is the bias.
BIAS = radians(8.0)
#: An edge as long as this share of the piece's extent is one by which the piece is seen to be bias.
LONG = 0.6
#: At how many points of it that is looked at.
POINTS = 9


_SHORT = Told(
    "checks.grain-short",
    "The grain line of a piece would be too short to lay it straight on the cloth by.",
)
_OUTSIDE = Told(
    "checks.grain-outside",
    "The grain line of a piece would run out of it, so that you could not lay the piece straight by it.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every fault of every piece's grain line."""
    for laid in table.pieces:
        grain, name = laid.piece.grain, laid.piece.name
        length = grain.start.distance(grain.end)
        if length < SHORTEST_GRAIN:
            long, least = mm_unlike(length, SHORTEST_GRAIN)
            message = f"The grain line of {name} is {long} long, less than {least}."
            fix = "Run it along an edge or between two points that lie further apart."
            yield _finding(laid, _SHORT, message, fix, grain.start, Measured(length, SHORTEST_GRAIN))
        elif laid.simple_cutting:
            yield from _outside(laid)


def off_grain(piece: Piece, path: Path) -> float:
    """The angle between a line from end to end and the grain, 0 to a right angle, in radians."""
    turn = path.start.angle_to(path.end) - piece.grain.start.angle_to(piece.grain.end)
    return abs((turn + pi / 2.0) % pi - pi / 2.0)


def on_bias(piece: Piece) -> bool:
    """True for a piece cut on the bias: its grain lies between along and across its long straight edges."""
    box = piece.stitching.bounds
    long = LONG * hypot(box.right - box.left, box.top - box.bottom)
    ends = [(edge.path, edge.path.start.distance(edge.path.end)) for edge in piece.edges]
    straight = [path for path, reach in ends if reach > long and path.length - reach < 1.0]
    return bool(straight) and all(abs(off_grain(piece, path) - pi / 4.0) < BIAS for path in straight)


def _outside(laid: LaidPiece) -> Iterator[Problem]:
    grain = laid.piece.grain
    points = [grain.start.between(grain.end, i / (POINTS - 1)) for i in range(POINTS)]
    over = shapely.distance(laid.inside_cutting, shapely.points(points))
    worst = int(np.argmax(over))
    if over[worst] > OVER:
        message = f"The grain line of {laid.piece.name} runs {mm(float(over[worst]))} outside the piece."
        fix = "Draw it shorter, or through a wider part of the piece."
        box = laid.piece.stitching.bounds
        if grain.start.distance(grain.end) > max(box.right - box.left, box.top - box.bottom):
            message += f" The piece itself is {mm(box.right - box.left)} by {mm(box.top - box.bottom)}."
            fix = "Draw it shorter; or, if the piece came out too small, check units and signs in its lines."
        yield _finding(laid, _OUTSIDE, message, fix, points[worst], Measured(float(over[worst]), None, 0.0))


def _finding(laid: LaidPiece, told: Told, message: str, fix: str, at: Point, measured: Measured) -> Problem:
    see = (("the piece", laid.piece.span),)
    return finding(told, message, fix, Place(laid.piece.name, at=at), see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("grain", "Grain", _run, (_SHORT, _OUTSIDE))
