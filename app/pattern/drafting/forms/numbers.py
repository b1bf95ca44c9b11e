"""Forms that measure and reckon: lengths, distances, angles, roots and limits."""

from __future__ import annotations

from math import acos, asin, atan2, ceil, cos, hypot, pi, sin, sqrt, tan

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.forms.form import Form
from app.pattern.drafting.kinds import DartShape
from app.pattern.geometry import Path, Point

__all__ = ["NUMBERS"]


def _root(value: float) -> float:
    if value < 0.0:
        raise CannotDraw(
            "drafting.root",
            f"The root of {value:.2f} was asked for, which is below nothing.",
            "Keep what it is taken of positive.",
        )
    return sqrt(value)


def _round_up(value: float, step: float) -> float:
    if step <= 0.0:
        raise CannotDraw("drafting.round", "Rounding needs a step above nothing.", "Write round_up(x, 5mm).")
    return ceil(value / step - 1e-9) * step


def _turn(a: Point, b: Point) -> float:
    return atan2(b.y - a.y, b.x - a.x)


def _arccos(ratio: float) -> float:
    if not -1.0 <= ratio <= 1.0:
        raise CannotDraw("drafting.arccos", f"No angle has the cosine {ratio:.3f}.", "Keep the ratio between -1 and 1.")
    return acos(ratio)


def _arcsin(ratio: float) -> float:
    if not -1.0 <= ratio <= 1.0:
        raise CannotDraw("drafting.arcsin", f"No angle has the sine {ratio:.3f}.", "Keep the ratio between -1 and 1.")
    return asin(ratio)


def _length(what: Path) -> float:
    return what.length


def _intake(what: DartShape) -> float:
    return what.a.distance(what.b)


NUMBERS = (
    Form("length()", ("path",), "length", _length, "length(armhole)"),
    Form("distance()", ("point", "point"), "length", Point.distance, "distance(neck, tip)"),
    Form("across()", ("point", "point"), "length", lambda p, q: abs(q.x - p.x), "across(centre, side)"),
    Form("drop()", ("point", "point"), "length", lambda p, q: p.y - q.y, "drop(nape, waist)"),
    Form("intake()", ("dart",), "length", _intake, "intake(bust_dart)"),
    Form("angle()", ("point", "point"), "angle", _turn, "angle(neck, tip)"),
    Form("sin()", ("angle",), "number", sin, "sin(30deg)"),
    Form("cos()", ("angle",), "number", cos, "cos(30deg)"),
    Form("tan()", ("angle",), "number", tan, "tan(30deg)"),
    Form("arctan()", ("number",), "angle", lambda r: atan2(r, 1.0), "arctan(drop / run)"),
    Form("arccos()", ("number",), "angle", _arccos, "arccos(near / far)"),
    Form("arcsin()", ("number",), "angle", _arcsin, "arcsin(rise / far)"),
    Form("full_turns()", ("number",), "angle", lambda n: 2.0 * pi * n, "full_turns(1/4)"),
    Form("hypot()", ("length", "length"), "length", hypot, "hypot(rise, run)"),
    Form("round_up()", ("length", "length"), "length", _round_up, "round_up(band, 5mm)"),
    Form("sqrt()", ("area",), "length", _root, "sqrt(far * far - near * near)"),
)
