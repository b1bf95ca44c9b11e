"""Grain: every piece has a grain line long enough to lay by, and it is drawn inside the piece.

Why: a piece laid off the grain hangs and stretches differently from its partner.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import pi, radians

import numpy as np
import shapely

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, LaidPiece, finding
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Piece
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm

__all__ = ["BIAS", "CHECK", "off_grain", "on_bias"]

#: A grain line shorter than this (mm) cannot be measured from.
SHORTEST_GRAIN = 10.0
#: It may lie this far (mm) over the cutting line, as one on the fold may by rounding.
OVER = 0.5
#: A grain so near to 45 degrees (radians) is the bias.
BIAS = radians(8.0)
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
            message = f"The grain line of {name} is {mm(length)} long, less than {mm(SHORTEST_GRAIN)}."
            fix = "Run it along an edge or between two points that lie further apart."
            yield _finding(laid, _SHORT, message, fix, grain.start, Measured(length, SHORTEST_GRAIN))
        elif laid.simple_cutting:
            yield from _outside(laid)


def off_grain(piece: Piece, path: Path) -> float:
    """The angle between a line from end to end and the grain, 0 to a right angle, in radians."""
    turn = path.start.angle_to(path.end) - piece.grain.start.angle_to(piece.grain.end)
    return abs((turn + pi / 2.0) % pi - pi / 2.0)


def on_bias(piece: Piece) -> bool:
    """True for a piece cut on the bias: its grain lies half-way between along and across its longest straight edge."""
    straight = [edge.path for edge in piece.edges if edge.path.length - edge.path.start.distance(edge.path.end) < 1.0]
    longest = max(straight, key=lambda path: path.length, default=None)
    return longest is not None and longest.length > 0.0 and abs(off_grain(piece, longest) - pi / 4.0) < BIAS


def _outside(laid: LaidPiece) -> Iterator[Problem]:
    grain = laid.piece.grain
    points = [grain.start.between(grain.end, i / (POINTS - 1)) for i in range(POINTS)]
    over = shapely.distance(laid.inside_cutting, shapely.points(points))
    worst = int(np.argmax(over))
    if over[worst] > OVER:
        message = f"The grain line of {laid.piece.name} runs {mm(float(over[worst]))} outside the piece."
        fix = "Draw it shorter, or through a wider part of the piece."
        yield _finding(laid, _OUTSIDE, message, fix, points[worst], Measured(float(over[worst]), None, 0.0))


def _finding(laid: LaidPiece, told: Told, message: str, fix: str, at: Point, measured: Measured) -> Problem:
    see = (("the piece", laid.piece.span),)
    return finding(told, message, fix, Place(laid.piece.name, at=at), see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("grain", "Grain", _run, (_SHORT, _OUTSIDE))
