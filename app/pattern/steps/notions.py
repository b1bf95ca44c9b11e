"""What to buy besides cloth, in amounts that a shop sells."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from app.pattern.pieces.model import Notion, Pattern
from app.pattern.units import Unit, show_length

__all__ = ["NotionRow", "notions_list"]

#: Figures are rounded up to the next step: under half a metre to the centimetre, above it to 5 cm; inches to eighths.
_FINE, _COARSE, _COARSE_FROM = 10.0, 50.0, 500.0
_EIGHTH = 25.4 / 8
#: A length that overshoots a step by less than a hundredth of a millimetre is that step.
_SLACK = 0.01


@dataclass(frozen=True, slots=True)
class NotionRow:
    """One thing to buy, with its amount in words; `amount` is empty when the draft gives none."""

    title: str
    amount: str


def notions_list(pattern: Pattern, unit: Unit) -> tuple[NotionRow, ...]:
    """The pattern's notions with amounts for people, never less than the draft needs."""
    return tuple(NotionRow(notion.title, _amount(notion, unit)) for notion in pattern.notions)


def _amount(notion: Notion, unit: Unit) -> str:
    count = "" if notion.count is None else str(ceil(notion.count - _SLACK))
    length = "" if notion.length is None else show_length(_rounded_up(notion.length, unit), unit)
    if count and length:
        return f"{count}, {length} long" if count == "1" else f"{count}, each {length} long"
    return count or length


def _rounded_up(mm: float, unit: Unit) -> float:
    coarse = _COARSE if mm >= _COARSE_FROM else _FINE
    step = coarse if unit is Unit.CM else _EIGHTH
    return ceil((mm - _SLACK) / step) * step
