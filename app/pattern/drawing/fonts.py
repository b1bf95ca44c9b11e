"""The house's typeface: where its files are, how wide words are, and which letters it lacks."""

from __future__ import annotations

import re
from pathlib import Path as FilePath

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from app.pattern.drawing.pen import Face

__all__ = ["CAP_HEIGHT", "FAMILY", "font_name", "letters_lacking", "width_of", "wrapped"]

FAMILY = "Source Sans 3"
#: Height of a capital over the em, from the font's OS/2 table (sCapHeight 660 of 1000).
CAP_HEIGHT = 0.66

#: Where a line may break: at any space but those that hold words together (U+00A0, U+202F).
_SPACE = re.compile(r"[^\S\u00a0\u202f]+")

_FOLDER = FilePath(__file__).resolve().parents[3] / "static" / "fonts"
_FILES = {
    Face.REGULAR: "SourceSans3-Regular",
    Face.ITALIC: "SourceSans3-It",
    Face.STRONG: "SourceSans3-Semibold",
    Face.PALE: "SourceSans3-Regular",
    Face.SIGN: "SourceSans3-Semibold",
}


def font_name(face: Face) -> str:
    """The name under which ReportLab knows a face; the font is registered on first use."""
    name = _FILES[face]
    if name not in pdfmetrics.getRegisteredFontNames():
        pdfmetrics.registerFont(TTFont(name, str(_FOLDER / f"{name}.ttf")))
    return name


def width_of(words: str, size: float, face: Face = Face.REGULAR) -> float:
    """Width of words in the unit of `size` (the em), without kerning: never too narrow by more than a hair."""
    return float(pdfmetrics.stringWidth(words, font_name(face), size))


def letters_lacking(words: str, face: Face = Face.REGULAR) -> tuple[str, ...]:
    """The letters of `words` that the typeface cannot set, each once, in order."""
    known = pdfmetrics.getFont(font_name(face)).face.charToGlyph
    return tuple(dict.fromkeys(letter for letter in words if ord(letter) not in known))


def wrapped(words: str, size: float, width: float, face: Face = Face.REGULAR) -> tuple[str, ...]:
    """Words broken into lines no wider than `width` mm (a single longer word keeps its line).

    A no-break space, as between a figure and its unit, holds its words on one line.
    """
    lines: list[str] = []
    for word in _SPACE.split(words.strip()):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, size, face) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
