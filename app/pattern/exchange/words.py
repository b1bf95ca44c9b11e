"""The text of a DXF file: the lines that machines read, and the lines for people.

The keys in capitals are those of ASTM D6673 from memory: the standard's own text was not read.
"""

from __future__ import annotations

from app.pattern.drawing.pen import Face
from app.pattern.drawing.words import TitleLine
from app.pattern.exchange.contents import HandedPiece, StyleInfo

__all__ = ["SIZE", "in_code_page", "one_line", "piece_text", "piece_words", "printable", "style_text", "style_words"]

#: No size of any chart: the pattern is drawn for one body.
SIZE = "made to measure"
_KEYED, _SPOKEN = 5.0, 4.0


def printable(words: str) -> str:
    """Words on one line, without control characters: no file format has a place for those."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in words).split())


def one_line(words: str) -> str:
    """Printable words in which no sign has the second meaning that DXF gives it (`%%d`, `^I`, `\\U+00B0`)."""
    plain = printable(words).replace("%%", "% %").replace("^", "ˆ")
    return plain.replace("\\U+", "\\ U+").replace("\\M+", "\\ M+")


def in_code_page(words: str) -> str:
    """Words for a file in code page 1252: every letter it lacks as `\\U+` and the four digits of a UTF-16 unit."""
    return "".join(sign if sign.encode("cp1252", "ignore") != b"" else _escaped(sign) for sign in words)


def _escaped(sign: str) -> str:
    units = sign.encode("utf-16-be").hex().upper()
    return "".join(f"\\U+{units[i : i + 4]}" for i in range(0, len(units), 4))


def style_text(info: StyleInfo) -> tuple[str, ...]:
    """What the whole file says of itself to a machine. No date: equal patterns give equal files."""
    lines = [f"STYLE NAME: {info.title}", f"AUTHOR: {info.studio}" if info.studio else ""]
    return tuple(one_line(line) for line in (*lines, f"SAMPLE SIZE: {SIZE}", "UNITS: METRIC") if line)


def style_words(info: StyleInfo) -> tuple[str, ...]:
    """What the whole file says to people."""
    order = f"Order {info.order_number}" if info.order_number else ""
    person = f"For {info.customer}" if info.customer else ""
    scale = "1 drawing unit is 1 mm. Pieces with a line on layer 6 are halves: mirror them there."
    return tuple(one_line(line) for line in (order, person, scale) if line)


def piece_text(handed: HandedPiece) -> tuple[TitleLine, ...]:
    """What a piece says of itself to a machine; quantity and material are those of its first cloth."""
    piece, first = handed.piece, handed.piece.cuts[:1]
    lines = [f"PIECE NAME: {piece.title}", f"SIZE: {SIZE}"]
    lines += [f"QUANTITY: {cut.count}" for cut in first]
    lines += [f"MATERIAL: {handed.look.fabrics.get(cut.fabric, cut.fabric)}" for cut in first]
    return tuple(TitleLine(one_line(line), _KEYED, Face.REGULAR) for line in lines)


def piece_words(handed: HandedPiece) -> tuple[TitleLine, ...]:
    """What a piece says to people: every cloth it is cut from, and the designer's note."""
    lines = (*handed.cuts, handed.piece.note)
    return tuple(TitleLine(one_line(line), _SPOKEN, Face.REGULAR) for line in lines if line)
