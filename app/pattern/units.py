"""Lengths and angles at the edges: everything inside is millimetres (float) and radians.

The one module that reads lengths people type and that writes lengths for people.
"""

from __future__ import annotations

import re
from enum import StrEnum
from fractions import Fraction
from math import ceil, degrees, isfinite

__all__ = [
    "MM_PER",
    "LengthError",
    "Unit",
    "angle_words",
    "has_unit",
    "mm",
    "mm_unlike",
    "read_change",
    "read_length",
    "show_cloth_length",
    "show_difference",
    "show_least_width",
    "show_length",
    "show_range",
    "show_seam_width",
    "with_other_units",
]


class Unit(StrEnum):
    """The unit in which a person reads and types lengths."""

    CM = "cm"
    INCH = "in"


#: Millimetres in one of each unit. The inch is exact by international agreement (1959): 25.4 mm.
MM_PER: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}

#: Two seam widths this near (mm) are sewn alike.
_SEWN_ALIKE = 0.2

#: Lengths that come out under so many millimetres are small.
_SMALL = 10

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
    r"^(?P<whole>\d{1,6}(?:[.,]\d{1,6})?)?(?:(?:^|(?<=\d)[\s-]+)(?P<num>\d{1,3})\s*/\s*(?P<den>\d{1,3}))?"
    r"\s*(?P<unit>mm|cm|m|inches|inch|ins|in|\"|”|″)?$"
)
_METRIC = re.compile(r"\b(\d+(?:\.\d+)?) (mm|cm|m)\b")


class LengthError(ValueError):
    """A text that is no length; its message says why, in words for the person who typed it."""


#: Signs that people type or paste for a minus.
_MINUS = ("-", "−", "–")


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
    whole, num, den = match["whole"], match["num"], match["den"]
    if den is not None and int(den) == 0:
        raise LengthError(f"“{text.strip()}” divides by 0: check the fraction.")
    if num is not None and whole is not None and ("." in whole or "," in whole):
        raise LengthError(f"“{text.strip()}” mixes a decimal and a fraction: use one of them.")
    # `15/16` is under one inch, while `381/2` may be meant as 38 1/2: a guess would spoil a garment.
    if num is not None and whole is None and int(num) > int(den):
        raise LengthError(f"“{text.strip()}” can be read in two ways. Put a space before the fraction, as in 38 1/2.")
    value = float((whole or "0").replace(",", ".")) + (float(Fraction(int(num), int(den))) if num else 0.0)
    if not isfinite(value):
        raise LengthError(f"“{text.strip()}” is too large.")
    return value * MM_PER[_NAMES[match["unit"] or ""] or str(unit)]


def read_change(text: str, unit: Unit) -> float:
    """A length by which something is made longer, or shorter with a minus before it, in mm; else as `read_length`."""
    plain = text.strip()
    return -read_length(plain[1:], unit) if plain[:1] in _MINUS and plain[1:].strip() else read_length(text, unit)


def has_unit(text: str) -> bool:
    """True when a length a person typed names its unit."""
    return re.search(r"(mm|cm|m|inches|inch|ins|in|[\"”″])\s*$", text, re.IGNORECASE) is not None


def show_length(mm: float, unit: Unit, *, named: bool = True) -> str:
    """A length for people: `96.5 cm` to the millimetre, or `38 1/2 in` to the nearest eighth.

    Under a centimetre it is finer and, where the unit is named, in the unit in which one
    thinks of it: `4 mm`, `3/16 in`; one decimal of a millimetre under one of them.
    """
    small = round(abs(mm), 1) > 0 and round(abs(mm)) < _SMALL
    if unit is Unit.CM:
        if small and named:
            return f"{round(mm, 1):g} mm" if abs(mm) < 1.0 else f"{mm:.0f} mm"
        number = f"{round(mm) / 10.0:.1f}".removesuffix(".0")
        number = "0" if number == "-0" else number
        return f"{number} cm" if named else number
    parts = 16 if small else 8
    if small and named and round(abs(mm) / MM_PER["in"] * parts) == 0:
        return "under 1/16 in"
    number = _in_parts(round(mm / MM_PER["in"] * parts), parts)
    return f"{number} in" if named else number


def show_range(least: float, most: float, unit: Unit) -> str:
    """From one length to another in the unit in which one is entered: `6 to 18 cm`, `0.5 to 2 cm`."""
    return f"{show_length(least, unit, named=False)} to {show_length(most, unit, named=False)} {unit.value}"


def show_least_width(mm: float, unit: Unit) -> str:
    """The least width that will do, never less than `mm`: to the next whole centimetre, or the next half inch."""
    step = 10.0 if unit is Unit.CM else MM_PER["in"] / 2.0
    return show_length(ceil(mm / step - 1e-6) * step, unit)


def show_cloth_length(mm: float, unit: Unit) -> str:
    """A length of cloth to buy, never less than `mm`: `1.85 m` to the centimetre, or `2 1/8 yd` to the eighth."""
    if unit is Unit.CM:
        return f"{ceil(mm / 10.0 - 1e-6) / 100.0:.2f} m"
    return f"{_in_parts(ceil(mm / (36 * MM_PER['in']) * 8 - 1e-6), 8)} yd"


def show_seam_width(mm: float, unit: Unit) -> str:
    """A width to sew by, told so that sewing it loses nothing: `1.5 cm`, `2.5 mm`, `15 mm (about 5/8 in)`.

    Many seams add up: an eighth of an inch that is 0.9 mm too wide takes a centimetre off
    a skirt of six gores.
    """
    exact, shown = f"{mm:g} mm", show_length(mm, unit)
    if unit is Unit.CM:
        return exact if 0.0 < mm < _SMALL else shown
    if shown.startswith("under"):
        return f"{exact} ({shown})"
    return shown if abs(read_length(shown, unit) - mm) <= _SEWN_ALIKE else f"{exact} (about {shown})"


def show_difference(a: float, b: float, unit: Unit, *, named: bool = True) -> str:
    """How much longer `a` mm is than `b` mm, so that it agrees with both as `show_length` writes them."""
    step = 1.0 if unit is Unit.CM else MM_PER["in"] / 8
    return show_length((round(a / step) - round(b / step)) * step, unit, named=named)


def with_other_units(words: str) -> str:
    """What a thing is called in a shop, with inches or yards beside each metric length: `11 mm (7/16 in)`.

    Metres are told as cloth is, from fifty yards on in fives, as reels say it: `100 m (110 yd)`.
    """
    return _METRIC.sub(lambda found: f"{found[0]} ({_imperial(float(found[1]), found[2])})", words)


def _imperial(number: float, unit: str) -> str:
    if unit == "m":
        yards = number * MM_PER["m"] / (36 * MM_PER["in"])
        return f"{round(yards / 5) * 5} yd" if yards >= 50 else show_cloth_length(number * MM_PER["m"], Unit.INCH)
    mm = number * MM_PER[unit]
    # Buttons and tapes are sold by the sixteenth up to an inch.
    return f"{_in_parts(round(mm / MM_PER['in'] * 16), 16)} in" if mm < MM_PER["in"] else show_length(mm, Unit.INCH)


def _in_parts(number: int, parts: int) -> str:
    """A number of eighths or sixteenths as `2 1/8`, `3/4`, `-1/2` or `0`."""
    whole, rest = divmod(abs(number), parts)
    part = Fraction(rest, parts)
    words = [str(whole)] if whole or not rest else []
    words += [f"{part.numerator}/{part.denominator}"] if rest else []
    return ("-" if number < 0 else "") + " ".join(words)


def mm(length: float) -> str:
    """A length in mm for a designer's message: `12.5 mm`, and `0.04 mm` where one decimal would hide it."""
    words = f"{length:.2f}" if 0.0 < abs(length) < 0.95 else f"{length:.1f}".removesuffix(".0")
    return f"{words} mm"


def mm_unlike(one: float, other: float) -> tuple[str, str]:
    """Two lengths in mm for one message, with as many decimals as it takes to tell them apart, three at most."""
    plain = mm(one), mm(other)
    finer = ((f"{one:.{places}f} mm", f"{other:.{places}f} mm") for places in (2, 3))
    return next((said for said in (plain, *finer) if said[0] != said[1]), plain)


def angle_words(radians: float) -> str:
    """An angle for a message, in degrees with one decimal: `92.5°`, `90°`."""
    words = f"{degrees(radians):.1f}".removesuffix(".0")
    return f"{words}°"
