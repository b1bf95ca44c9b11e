"""What a printed pattern says of its order, and how that becomes the look of the drawing."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.drawing import Look
from app.pattern.drawing.fonts import letters_lacking
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, Severity
from app.pattern.units import Unit

__all__ = ["PrintInfo", "info_problems", "look_of"]


@dataclass(frozen=True, slots=True)
class PrintInfo:
    """The words on every printed file; all but the title may be empty. `language` is a BCP 47 tag."""

    title: str
    order_number: str = ""
    customer: str = ""
    studio: str = ""
    language: str = "en"
    unit: Unit = Unit.CM


def look_of(pattern: Pattern, info: PrintInfo | None = None) -> Look:
    """How the pattern's pieces are drawn for an order."""
    fabrics = {fabric.name: fabric.title for fabric in pattern.fabrics}
    if info is None:
        return Look(fabrics=fabrics)
    return Look(garment=info.title, order_number=info.order_number, customer=info.customer, fabrics=fabrics)


def info_problems(info: PrintInfo) -> tuple[Problem, ...]:
    """A warning for every text with letters that the typeface cannot set: they print as empty boxes."""
    found = []
    for where, words in (("title", info.title), ("customer's name", info.customer), ("studio's name", info.studio)):
        lacking = letters_lacking(words)
        if lacking:
            found.append(
                Problem(
                    code="sheets.letters-lacking",
                    message=f"The {where} has letters the typeface cannot print: {' '.join(lacking)}",
                    fix="Write it in Latin, Greek or Cyrillic letters.",
                    severity=Severity.WARNING,
                )
            )
    return tuple(found)
