"""What a printed pattern says of its order and how it is to be drawn, and how that becomes the look of the drawing."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from app.pattern.drawing import FillStyle, Lines, Look, NotchWay
from app.pattern.drawing.fonts import letters_lacking
from app.pattern.drawing.words import seam_words
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, Severity
from app.pattern.units import Unit

__all__ = ["Join", "PrintInfo", "PrintStyle", "info_problems", "look_of"]


class Join(StrEnum):
    """How the sheets of a wall are joined."""

    TRIM = "trim"  # right and lower edges are trimmed and laid over the neighbours' margins
    BUTT = "butt"  # every shared edge is cut or folded on its line; the edges meet without overlap


@dataclass(frozen=True, slots=True)
class PrintStyle:
    """Choices of how the pieces are drawn on every printed file: outlines, notches, and names along the seams."""

    lines: Lines = Lines.BOTH
    notches: NotchWay = NotchWay.IN
    seam_names: bool = True


@dataclass(frozen=True, slots=True)
class PrintInfo:
    """The words on every printed file; all but the title may be empty. `language` is a BCP 47 tag."""

    title: str
    order_number: str = ""
    customer: str = ""
    studio: str = ""
    language: str = "en"
    unit: Unit = Unit.CM


def look_of(pattern: Pattern, info: PrintInfo | None = None, style: PrintStyle | None = None) -> Look:
    """How the pattern's pieces are drawn for an order."""
    said, chosen = info or PrintInfo(""), style or PrintStyle()
    return Look(
        garment=said.title,
        order_number=said.order_number,
        customer=said.customer,
        fabrics={fabric.name: fabric.title for fabric in pattern.fabrics},
        tints=tints_of(pattern),
        edge_words=seam_words(pattern) if chosen.seam_names else {},
        lines=chosen.lines,
        notches=chosen.notches,
    )


def tints_of(pattern: Pattern) -> dict[str, FillStyle]:
    """The fill of every fabric but the first, by the fabric's name."""
    further = [fabric.name for fabric in pattern.fabrics[1:]]
    return {name: FillStyle.THIRD if number else FillStyle.SECOND for number, name in enumerate(further)}


def info_problems(info: PrintInfo) -> tuple[Problem, ...]:
    """A warning for every text with letters that the typeface cannot set: they print as empty boxes."""
    found = []
    for where, words in (("title", info.title), ("customer's name", info.customer), ("studio's name", info.studio)):
        lacking = letters_lacking(words)
        if lacking:
            found.append(
                Problem(
                    code="sheets.letters-lacking",
                    message=f"The {where} has letters the typeface cannot print: {' '.join(lacking)}.",
                    fix="Write it in Latin, Greek or Cyrillic letters.",
                    severity=Severity.WARNING,
                )
            )
    return tuple(found)
