"""What to buy besides cloth, in amounts that a shop sells."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from app.pattern.pieces.model import Notion, Pattern
from app.pattern.units import MM_PER, Unit, show_cloth_length, show_length, with_other_units

__all__ = ["NotionRow", "notions_list"]

#: What is cut off a roll is rounded up: to the centimetre, from half a metre on to 5 cm, as shops sell it; inches to
#: the half, from a yard on the eighth of a yard.
_FINE, _COARSE, _COARSE_FROM = 10.0, 50.0, 500.0
_HALF_INCH, _YARD = MM_PER["in"] / 2, 36 * MM_PER["in"]
#: A length that overshoots a step by less than a hundredth of a millimetre is that step.
_SLACK = 0.01


@dataclass(frozen=True, slots=True)
class NotionRow:
    """One thing to buy, with its amount in words; `amount` is empty when the draft gives none."""

    title: str
    amount: str


def notions_list(pattern: Pattern, unit: Unit) -> tuple[NotionRow, ...]:
    """The pattern's notions with amounts for people; who measures in inches reads inches beside metric sizes.

    What is cut off a roll is never less than the draft needs. What is counted and has a
    length, such as a zip, is told as long as it is, as the steps tell it.
    """
    return tuple(NotionRow(_title(notion, unit), _amount(notion, unit)) for notion in pattern.notions)


def _title(notion: Notion, unit: Unit) -> str:
    return notion.title if unit is Unit.CM else with_other_units(notion.title)


def _amount(notion: Notion, unit: Unit) -> str:
    if notion.count is None:
        return "" if notion.length is None else _off_the_roll(notion.length, unit)
    count = str(ceil(notion.count - _SLACK))
    if notion.length is None:
        return count
    length = show_length(notion.length, unit)
    return f"{length} long" if count == "1" else f"{count}, each {length} long"


def _off_the_roll(mm: float, unit: Unit) -> str:
    if unit is Unit.INCH:
        return show_cloth_length(mm, unit) if mm >= _YARD else show_length(_up(mm, _HALF_INCH), unit)
    length = _up(mm, _COARSE if mm >= _COARSE_FROM else _FINE)
    return show_cloth_length(length, unit) if length >= MM_PER["m"] else show_length(length, unit)


def _up(mm: float, step: float) -> float:
    return ceil((mm - _SLACK) / step) * step
