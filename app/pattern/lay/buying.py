"""The length of cloth to buy for a lay, and how a shop would say it."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from app.pattern.units import Unit, show_length

__all__ = ["ENDS", "SOLD_BY", "cloth_in_words", "length_to_buy"]

#: Cloth lost to squaring both cut ends along a thread, mm together (common practice).
ENDS = 20.0
#: Shops cut cloth by the twentieth of a metre: the figure is rounded up to this, mm.
SOLD_BY = 50.0
#: An eighth of a yard in mm, what shops cut by where cloth is sold in yards; the yard is 914.4 mm by agreement (1959).
EIGHTH_YARD = 914.4 / 8.0


def length_to_buy(used: float, shrinkage: float) -> float:
    """The length to buy in mm for `used` mm of lay: grown for shrinkage, with squared ends, rounded up to `SOLD_BY`."""
    needed = used / (1.0 - shrinkage) + ENDS
    return ceil(needed / SOLD_BY - 1e-9) * SOLD_BY


def cloth_in_words(length: float, unit: Unit) -> str:
    """A length of cloth (mm) as it is asked for in a shop: `195 cm`, or yards rounded up to an eighth, `2 1/8 yd`."""
    if unit is Unit.CM:
        return show_length(length, unit)
    whole, eighths = divmod(ceil(length / EIGHTH_YARD - 1e-9), 8)
    part = Fraction(eighths, 8)
    words = [str(whole)] if whole or not eighths else []
    words += [f"{part.numerator}/{part.denominator}"] if eighths else []
    return " ".join(words) + " yd"
