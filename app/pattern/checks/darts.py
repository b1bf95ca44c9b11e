"""Darts: legs of one length, an intake, the tip inside the piece and clear of the point it is aimed at.

Why: legs of unequal length pucker and leave a step in the seam; a dart sewn up to or
past the bust point pokes out there.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

import shapely

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.geometry import Point
from app.pattern.pieces.model import Dart, Piece
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm, mm_unlike

__all__ = ["CHECK"]

#: The legs may differ by this much (mm), as two sides of a seam may.
LEG_TOLERANCE = 0.5
#: A tip may come this much (mm) nearer to its point than the designer asked.
CLEARANCE_TOLERANCE = 0.5
#: A dart takes in at least this much (mm).
LEAST_INTAKE = 1.0


_LEGS = Told(
    "checks.dart-legs",
    "The two sides of a dart would not be equally long, so that it would pucker and leave a step in the seam.",
)
_CLEARANCE = Told(
    "checks.dart-clearance",
    "A dart would end too near the point it is aimed at, such as the bust point, and poke out there.",
)
_INTAKE = Told(
    "checks.dart-intake",
    "A dart would take in less than a millimetre, too little to sew.",
)
_OUTSIDE = Told(
    "checks.dart-outside",
    "The point of a dart would lie outside its piece, where there is no cloth to sew.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every fault of every dart."""
    for laid in table.pieces:
        for dart in laid.piece.darts:
            one, two = dart.a.distance(dart.tip), dart.b.distance(dart.tip)
            if abs(one - two) > LEG_TOLERANCE:
                message = f"The legs of dart {dart.name} are {mm(one)} and {mm(two)}: {mm(abs(one - two))} apart."
                short, long = ("second", "first") if one > two else ("first", "second")
                fix = f"Make both the same: let the {short} leg end {mm(abs(one - two))} further out"
                mouth = dart.a.distance(dart.b)
                if mouth > LEAST_INTAKE:
                    # So far the tip lies beside the line that is square to the mouth in its middle.
                    aside = abs(one * one - two * two) / (2.0 * mouth)
                    fix += f", or move its point {mm(aside)} sideways, toward the end of the {long} leg"
                fix += "."
                yield _finding(laid.piece, dart, _LEGS, message, fix, Measured(two, one, one))
            yield from _clearance(laid.piece, dart)
            if dart.intake < LEAST_INTAKE:
                intake, least = mm_unlike(dart.intake, LEAST_INTAKE)
                message = f"Dart {dart.name} takes in {intake}, less than {least}."
                fix = "Widen it at the edge, or leave the dart out."
                yield _finding(laid.piece, dart, _INTAKE, message, fix, Measured(dart.intake, LEAST_INTAKE))
            if laid.simple_stitching and not shapely.contains_xy(laid.inside_stitching, *dart.tip):
                message = f"The tip of dart {dart.name} lies outside the stitching line of {laid.piece.name}."
                fix = "Move the tip into the piece."
                yield _finding(laid.piece, dart, _OUTSIDE, message, fix)


def _clearance(piece: Piece, dart: Dart) -> Iterator[Problem]:
    point = dart.keep_clear
    if point is None:
        return
    mouth = dart.a.between(dart.b, 0.5)
    clear = shapely.LineString([mouth, dart.tip]).distance(shapely.Point(point))
    if clear < dart.clear_by - CLEARANCE_TOLERANCE:
        message = f"Dart {dart.name} comes within {mm(clear)} of the point it must stay {mm(dart.clear_by)} clear of."
        back, beyond = _back_and_beyond(mouth, dart.tip, point, dart.clear_by)
        fix = f"Draw the tip back by {mm(back)} or more towards the dart's mouth."
        if beyond > CLEARANCE_TOLERANCE:
            # Such a dart was shortened first and turned about its shortened tip afterwards
            message += f" Its tip lies {mm(beyond)} beyond that point."
            fix = (
                "Move the dart first, while its tip is still at the point, and shorten it after: "
                f"moved = pivot {dart.name} of SHAPE to POINT as NAME, then: shorten NAME of moved by "
                f"{mm(dart.clear_by).replace(' ', '')}"
            )
        yield _finding(piece, dart, _CLEARANCE, message, fix, Measured(clear, dart.clear_by))


def _back_and_beyond(mouth: Point, tip: Point, point: Point, clear_by: float) -> tuple[float, float]:
    """How far a tip must go back along its dart to stay clear of a point, and how far it lies beyond it; both mm."""
    long = mouth.distance(tip)
    if long <= 0.0:
        return clear_by, 0.0
    way = tip.minus(mouth).scaled(1.0 / long)
    out = point.minus(mouth)
    beside, along = abs(out.x * way.y - out.y * way.x), out.x * way.x + out.y * way.y
    stops = along - sqrt(max(clear_by * clear_by - beside * beside, 0.0))
    return long - stops, long - along


def _finding(piece: Piece, dart: Dart, told: Told, message: str, fix: str, measured: Measured | None = None) -> Problem:
    where = Place(piece.name, point=dart.name, at=dart.tip)
    return finding(told, message, fix, where, see=(("the dart", dart.span),), measured=measured)


#: The check as every room knows it.
CHECK = Check("darts", "Darts", _run, (_LEGS, _CLEARANCE, _INTAKE, _OUTSIDE))
