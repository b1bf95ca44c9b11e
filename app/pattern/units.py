"""Lengths and angles at the edges: everything inside is millimetres (float) and radians.

The one module that reads lengths people type and that writes lengths for people.
"""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction
from math import ceil, isfinite

__all__ = [
    "MM_PER",
    "LengthError",
    "Unit",
    "read_length",
    "show_cloth_length",
    "show_difference",
    "show_length",
    "show_seam_width",
    "show_small_length",
]


class Unit(StrEnum):
    """The unit in which a person reads and types lengths."""

    CM = "cm"
    INCH = "in"


#: Millimetres in one of each unit. The inch is exact by international agreement (1959): 25.4 mm.
MM_PER: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}

#: Two seam widths this near (mm) are sewn alike.
_SEWN_ALIKE = 0.2

_NAMES = {
    "": None,
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "in": "in",
    "ins": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "”": "in",
    "″": "in",
}
_VULGAR = {"¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3"}
_LENGTH = re.compile(
    r"^(?P<whole>\d{1,6}(?:[.,]\d{1,6})?)?\s*(?:(?:(?<=\d)[\s-]+)?(?P<num>\d{1,3})\s*/\s*(?P<den>\d{1,3}))?"
    r"\s*(?P<unit>mm|cm|m|inches|inch|ins|in|\"|”|″)?$"
)


class LengthError(ValueError):
    """A text that is no length; its message says why, in words for the person who typed it."""


def read_length(text: str, unit: Unit) -> float:
    """The length a person typed, in mm.

    Takes `38.5`, `97,8`, `38 1/2`, `38 1/2 in`, `5/8"`, `96.5cm`; a number without a
    unit is in `unit`. Raises `LengthError` with a message for the person.
    """
    cleaned = text.strip().lower()
    for sign, plain in _VULGAR.items():
        cleaned = cleaned.replace(sign, f" {plain}")
    cleaned = cleaned.strip()
    if not cleaned:
        raise LengthError("Nothing was entered.")
    match = _LENGTH.match(cleaned)
    if match is None or (match["whole"] is None and match["num"] is None):
        raise LengthError(f"“{text.strip()}” is not a length. Write it like 96.5 or 38 1/2.")
    return _value(match, text) * MM_PER[_NAMES[match["unit"] or ""] or str(unit)]


def _value(match: re.Match[str], text: str) -> float:
    whole, num, den = match["whole"], match["num"], match["den"]
    if den is not None and int(den) == 0:
        raise LengthError(f"“{text.strip()}” divides by nothing: check the fraction.")
    if num is not None and whole is not None and ("." in whole or "," in whole):
        raise LengthError(f"“{text.strip()}” mixes a decimal and a fraction: use one of them.")
    value = float((whole or "0").replace(",", ".")) + (float(Fraction(int(num), int(den))) if num else 0.0)
    if not isfinite(value):
        raise LengthError(f"“{text.strip()}” is too large.")
    return value


def show_length(mm: float, unit: Unit, *, named: bool = True) -> str:
    """A length for people: `96.5 cm` to the millimetre, or `38 1/2 in` to the nearest eighth."""
    if unit is Unit.CM:
        number = f"{round(mm) / 10.0:.1f}".removesuffix(".0")
        number = "0" if number == "-0" else number
        return f"{number} cm" if named else number
    eighths = round(mm / 25.4 * 8)
    sign, eighths = ("-", -eighths) if eighths < 0 else ("", eighths)
    number = sign + _in_eighths(eighths)
    return f"{number} in" if named else number


def show_cloth_length(mm: float, unit: Unit) -> str:
    """A length of cloth to buy, never less than `mm`: `1.85 m` to the centimetre, or `2 1/8 yd` to the eighth."""
    if unit is Unit.CM:
        return f"{ceil(mm / 10.0 - 1e-6) / 100.0:.2f} m"
    return f"{_in_eighths(ceil(mm / (36 * MM_PER['in']) * 8 - 1e-6))} yd"


def show_small_length(mm: float, unit: Unit) -> str:
    """A length of a few millimetres for people: `3 mm` to the millimetre, or `1/8 in` to the nearest eighth."""
    return f"{mm:.0f} mm" if unit is Unit.CM else show_length(mm, unit)


def show_seam_width(mm: float, unit: Unit) -> str:
    """A width to sew by, told so that sewing it loses nothing: `1.5 cm`, `1/2 in`, or `15 mm (about 5/8 in)`.

    Many seams add up: an eighth of an inch that is 0.9 mm too wide takes a centimetre off
    a skirt of six gores.
    """
    if unit is Unit.CM:
        return show_length(mm, unit)
    if abs(round(mm / 25.4 * 8) * 25.4 / 8 - mm) <= _SEWN_ALIKE:
        return show_length(mm, unit)
    return f"{mm:g} mm (about {show_length(mm, unit)})"


def show_difference(a: float, b: float, unit: Unit, *, named: bool = True) -> str:
    """How much longer `a` mm is than `b` mm, so that it agrees with both as `show_length` writes them."""
    step = 1.0 if unit is Unit.CM else MM_PER["in"] / 8
    return show_length((round(a / step) - round(b / step)) * step, unit, named=named)


def _in_eighths(eighths: int) -> str:
    """A number of eighths as `2 1/8`, `3/4` or `0`."""
    whole, rest = divmod(eighths, 8)
    part = Fraction(rest, 8)
    words = [str(whole)] if whole or not rest else []
    words += [f"{part.numerator}/{part.denominator}"] if rest else []
    return " ".join(words)
