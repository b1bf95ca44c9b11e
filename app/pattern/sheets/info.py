"""What a printed pattern says of its order and how it is to be drawn, and how that becomes the look of the drawing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from unicodedata import normalize

from app.pattern.drawing import DrawingLook, FillStyle, Lines, NotchWay
from app.pattern.drawing.fonts import letters_lacking
from app.pattern.drawing.words import seam_words
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Place, Problem, Severity
from app.pattern.units import Unit

__all__ = ["Join", "PrintInfo", "PrintStyle", "info_problems", "look_of"]

#: The texts that people write, by their field, as they are told of.
_TOLD = {"title": "title", "customer": "customer's name", "studio": "studio's name"}


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
    """The words on every printed file; all but the title may be empty. `language` is a BCP 47 tag.

    Words are kept as they can be set: accents joined to their letters, on one line, without signs that nobody sees,
    and without letters that the typeface lacks. `lacking` holds those by the field they were taken from.
    """

    title: str
    order_number: str = ""
    customer: str = ""
    studio: str = ""
    language: str = "en"
    unit: Unit = Unit.CM
    lacking: Mapping[str, tuple[str, ...]] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        """Make the words fit to be set."""
        lacking = {}
        for name in _TOLD:
            words = _on_one_line(getattr(self, name))
            lacking[name] = letters_lacking(words)
            kept = _on_one_line("".join(letter for letter in words if letter not in lacking[name]))
            # A file cannot be without a title: one of which nothing is left stays as it is.
            legible = any(letter.isalnum() for letter in kept)
            object.__setattr__(self, name, kept if legible else words if name == "title" else "")
        object.__setattr__(self, "lacking", lacking)


def _on_one_line(words: str) -> str:
    """Words on one line, their accents joined to their letters, without control and format characters."""
    seen = (sign for sign in normalize("NFC", words) if sign.isprintable() or sign.isspace())
    return " ".join("".join(seen).split())


def look_of(pattern: Pattern, info: PrintInfo | None = None, style: PrintStyle | None = None) -> DrawingLook:
    """How the pattern's pieces are drawn for an order."""
    said, chosen = info or PrintInfo(""), style or PrintStyle()
    return DrawingLook(
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
    """A warning for every text that had letters which the typeface cannot set."""
    return tuple(
        Problem(
            code="sheets.letters-lacking",
            message=f"The {_TOLD[name]} has letters the typeface cannot print: {' '.join(letters)}. "
            f"{_instead(info, name)}",
            fix="Write it in Latin, Greek or Cyrillic letters.",
            where=Place(point=_TOLD[name]),
            severity=Severity.WARNING,
        )
        for name, letters in info.lacking.items()
        if letters
    )


def _instead(info: PrintInfo, name: str) -> str:
    printed = set(info.lacking[name]).isdisjoint(getattr(info, name))
    return "The pattern is printed without them." if printed else "They print as empty boxes."
