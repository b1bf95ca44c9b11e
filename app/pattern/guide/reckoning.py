"""What operators, units and the functions that are no forms mean, with lines of the guide's garment that use them."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["RECKONINGS", "UNITS", "Reckoning", "unit_key"]

_SHEET = "sheet cloth"
_ALIKE = ("a measure", "another of the same kind")


@dataclass(frozen=True, slots=True)
class Reckoning:
    """How something is written, what it means, the kind it gives, and lines of a section that show it.

    The first line's value is what the example comes to: a name on the sheet, or a girth. `takes`
    tells the parts in words; a unit has none.
    """

    written: str
    says: str
    gives: str
    lines: tuple[str, ...]
    takes: tuple[str, ...] = ()
    section: str = _SHEET


def _sum(written: str, says: str, *lines: str, takes: tuple[str, ...] = _ALIKE) -> Reckoning:
    return Reckoning(written, says, "length", lines, takes)


def _unit(written: str, says: str, *lines: str, gives: str = "length") -> Reckoning:
    return Reckoning(written, says, gives, lines)


_OPERATORS = {
    "add": _sum(
        "A + B",
        "Adds two measures of one kind: lengths to lengths, angles to angles, plain numbers to plain numbers.",
        "deep = high + 4cm",
        "low_edge = line corner to (corner right deep)",
    ),
    "subtract": _sum(
        "A - B",
        "Takes the second measure off the first; both of one kind.",
        "rest = wide - 4cm",
        "short_edge = line corner to (corner right rest)",
    ),
    "multiply": _sum(
        "A * B",
        "Times: a length with a plain number or a share. Two lengths give an area, which only sqrt() can use.",
        "half_high = high * 50%",
        "half_way = corner up half_high",
        takes=("a measure", "a plain number or another measure"),
    ),
    "divide": _sum(
        "A / B",
        "Shared out: a length over a plain number is a length, a length over a length is a plain number. "
        "Times and shared out go before plus and less, as at school; brackets go before both.",
        "third = (wide + 6cm) / 3",
        "third_way = corner right third",
        takes=("a measure", "a plain number or another measure"),
    ),
    "negative": _sum(
        "-A",
        "The same measure the other way: left for right, down for up, clockwise for anticlockwise.",
        "back = -3cm",
        "beside = at back, 5cm",
        takes=("a measure",),
    ),
}
_FUNCTIONS = {
    "min()": _sum(
        "min(A, B, ...)",
        "The smallest of several measures of one kind: an upper limit.",
        "depth = min(high / 2, 9cm)",
        "depth_line = line (top down depth) to (top_side down depth)",
        takes=("a measure", "another of the same kind, once or more often"),
    ),
    "max()": _sum(
        "max(A, B, ...)",
        "The largest of several measures of one kind: a lower limit.",
        "depth = max(high / 10, 3cm)",
        "depth_line = line (top down depth) to (top_side down depth)",
        takes=("a measure", "another of the same kind, once or more often"),
    ),
    "abs()": _sum(
        "abs(A)",
        "How much it is, whichever way it goes: never less than nothing.",
        "between_them = abs(high - wide)",
        "so_far = corner right between_them",
        takes=("a measure",),
    ),
    "likely()": Reckoning(
        "likely(MEASURE)",
        "What a measurement of the body most likely is, told from those that are asked for; the measurement itself "
        "where it is among them. It lets you draw to the armhole of the body without asking for it.",
        "length",
        ("seat = likely(hip_girth) / 4", "seat_way = corner right seat"),
        ("a measurement of the register",),
    ),
    "width()": Reckoning(
        "width(PIECE, POINT)",
        "How wide a piece is at the height of a point of its sheet, from stitching line to stitching line. "
        "It measures pieces that are cut, so it stands in girths, notions and instructions.",
        "length",
        ('girth round "Round the cloth" = 2 * width(cloth, low)',),
        ("a piece", "a point of its sheet"),
        "girth",
    ),
    "folded()": Reckoning(
        "folded(PIECE.EDGE)",
        "The length of an edge, or of a shape's side, when its pleats and tucks are folded.",
        "length",
        ('girth round "Round the cloth" = 4 * folded(cloth.hem)',),
        ("an edge of a piece or a side of a shape",),
        "girth",
    ),
}
_UNITS = {
    "mm": _unit("5mm", "Millimetres, in which the program works.", "seam = 5mm", "mark_at = corner right seam"),
    "cm": _unit("4cm", "Centimetres.", "deep = 4cm", "mark_at = corner right deep"),
    "m": _unit("0.1m", "Metres.", "long = 0.1m", "mark_at = corner right long"),
    "in": _unit(
        "3 1/2in",
        "Inches, with a fraction if wanted: 38 1/2in or 5/8in.",
        "deep = 3 1/2in",
        "mark_at = corner right deep",
    ),
    "deg": _unit(
        "30deg",
        "Degrees: 0deg is to the right, 90deg up, anticlockwise.",
        "lean = 30deg",
        "leaning = line corner to (corner going lean by 10cm)",
        gives="angle",
    ),
    "°": _unit(
        "30°",
        "The same with the sign for degrees.",
        "lean = 30°",
        "leaning = line corner to (corner going lean by 10cm)",
        gives="angle",
    ),
    "%": _unit(
        "20%",
        "A share, as a plain number: 20% is 0.2.",
        "share = 20%",
        "fifth = between corner and hem_side at share",
        gives="number",
    ),
    "": _unit(
        "1.5",
        "A plain number, which counts or shares. A length must have its unit; only 0 needs none.",
        "times = 1.5",
        "far = corner right times * 4cm",
        gives="number",
    ),
}
#: Operators and functions by name, as the compiler calls them.
RECKONINGS: dict[str, Reckoning] = {**_OPERATORS, **_FUNCTIONS}
#: Units by how they are written behind a number; "" is a plain number.
UNITS: dict[str, Reckoning] = _UNITS


def unit_key(unit: str) -> str:
    """The key of a unit's entry, in letters alone."""
    return {"": "plain number", "%": "unit share", "°": "unit degree sign"}.get(unit, f"unit {unit}")
