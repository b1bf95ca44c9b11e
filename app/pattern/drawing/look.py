"""How each kind of line, fill and lettering looks on paper: widths in mm, dashes in mm, greys."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType

from app.pattern.drawing.pen import Face, FillStyle, LineStyle

__all__ = ["ACCENT", "BLACK", "GREY", "Ink", "Lines", "DrawingLook", "NotchWay", "Palette", "Stroke"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line's width and dashes in mm, and its ink as a shade from 0 (paper) to 1 (black)."""

    width: float
    shade: float
    dash: tuple[float, ...] = ()


#: The one colour of the house, teal #0f5b5b, for the edge being sewn; as red, green, blue from 0 to 1.
ACCENT = (0x0F / 255, 0x5B / 255, 0x5B / 255)
Ink = tuple[float, float, float]
#: Dashes in mm of the cutting lines of sizes, smallest first; the eye tells neighbours apart by rhythm, not by shade.
SIZE_DASHES: tuple[tuple[float, ...], ...] = (
    (),
    (7.0, 2.0),
    (1.0, 1.6),
    (9.0, 1.6, 1.2, 1.6),
    (3.2, 1.8),
    (9.0, 1.6, 1.2, 1.6, 1.2, 1.6),
    (14.0, 3.0),
    (5.0, 1.4, 2.0, 1.4),
    (2.0, 3.4),
    (14.0, 1.6, 3.0, 1.6, 3.0, 1.6),
    (6.0, 4.5),
    (1.0, 3.2),
)


@dataclass(frozen=True, slots=True)
class Palette:
    """The strokes and shades of every style."""

    strokes: Mapping[LineStyle, Stroke]
    fills: Mapping[FillStyle, float]
    words: Mapping[Face, float]

    def thicker(self, factor: float) -> Palette:
        """The same palette with every width and dash multiplied, for pictures drawn at a smaller scale."""
        strokes = {
            style: Stroke(s.width * factor, s.shade, tuple(d * factor for d in s.dash))
            for style, s in self.strokes.items()
        }
        return replace(self, strokes=MappingProxyType(strokes))

    def for_size(self, number: int) -> Palette:
        """The same palette with the cutting line of one size among several: dashes that grey print keeps apart."""
        cutting = self.strokes[LineStyle.CUTTING]
        heavy = cutting.width * (1.0 if number % 2 == 0 else 0.8)
        own = Stroke(heavy, cutting.shade, SIZE_DASHES[number % len(SIZE_DASHES)])
        return replace(self, strokes=MappingProxyType({**self.strokes, LineStyle.CUTTING: own}))

    def darker(self) -> Palette:
        """The same palette with the pattern's own lines in full black."""
        strokes = {
            style: s if style in (LineStyle.FURNITURE, LineStyle.JOINT) else replace(s, shade=1.0)
            for style, s in self.strokes.items()
        }
        words = {f: shade if f in (Face.PALE, Face.SIGN) else 1.0 for f, shade in self.words.items()}
        return replace(self, strokes=MappingProxyType(strokes), words=MappingProxyType(words))


#: Greys that spare ink yet print clearly on a laser or ink-jet printer; the cutting line leads.
GREY = Palette(
    strokes=MappingProxyType(
        {
            LineStyle.CUTTING: Stroke(0.55, 0.85),
            LineStyle.STITCHING: Stroke(0.28, 0.62, (3.2, 1.8)),
            LineStyle.FOLD: Stroke(0.38, 0.75, (9.0, 1.6, 1.4, 1.6)),
            LineStyle.BRACKET: Stroke(0.2, 0.55),
            LineStyle.DART: Stroke(0.3, 0.68, (3.2, 1.8)),
            LineStyle.DART_FOLD: Stroke(0.22, 0.55, (6.0, 1.4, 1.0, 1.4)),
            LineStyle.GRAIN: Stroke(0.38, 0.78),
            LineStyle.NOTCH: Stroke(0.5, 0.85),
            LineStyle.MARK: Stroke(0.28, 0.65),
            LineStyle.SEWN: Stroke(0.28, 0.6, (2.2, 1.4)),
            LineStyle.LENGTHEN: Stroke(0.25, 0.55),
            LineStyle.GATHER: Stroke(0.32, 0.65, (0.9, 1.5)),
            LineStyle.LABEL_LEADER: Stroke(0.2, 0.5),
            LineStyle.JOINT: Stroke(0.18, 0.42),
            LineStyle.FURNITURE: Stroke(0.2, 0.4),
            LineStyle.MINIATURE: Stroke(0.22, 0.7),
            LineStyle.RULER: Stroke(0.25, 0.9),
            LineStyle.HIGHLIGHT: Stroke(1.3, 1.0),
        }
    ),
    fills=MappingProxyType(
        {
            FillStyle.INK: 0.78,
            FillStyle.PAPER: 0.0,
            FillStyle.PIECE: 0.06,
            FillStyle.SECOND: 0.06,
            FillStyle.THIRD: 0.11,
            FillStyle.HERE: 0.35,
            FillStyle.ACCENT: 1.0,
        }
    ),
    words=MappingProxyType(
        {Face.REGULAR: 0.78, Face.ITALIC: 0.68, Face.STRONG: 0.85, Face.PALE: 0.52, Face.SIGN: 0.42}
    ),
)
BLACK = GREY.darker()


class Lines(StrEnum):
    """Which outlines are drawn."""

    BOTH = "both"  # the line to cut along and the line to sew along
    CUTTING = "with"  # with seam allowance: the line to cut along alone
    STITCHING = "without"  # without: the line to sew along alone, to be cut out with an allowance of one's own


class NotchWay(StrEnum):
    """Which way notches point: ticks to snip into the allowance, or wedges to cut round outside it."""

    IN = "in"
    OUT = "out"


@dataclass(frozen=True, slots=True)
class DrawingLook:
    """What a piece says of itself besides its lines.

    `garment`, `order_number` and `customer` go into the title block when not empty;
    `fabrics` turns a fabric's name into its title, `tints` into the fill of pieces cut
    from it alone. `edge_words` are small words along edges, by (piece, edge). `scale`
    enlarges lettering and arrows for pictures drawn smaller than life. `upright` is the
    direction in the piece's frame (radians) that runs from left to right for the reader.
    """

    garment: str = ""
    order_number: str = ""
    customer: str = ""
    fabrics: Mapping[str, str] = field(default_factory=dict)
    tints: Mapping[str, FillStyle] = field(default_factory=dict)
    edge_words: Mapping[tuple[str, str], str] = field(default_factory=dict)
    lines: Lines = Lines.BOTH
    notches: NotchWay = NotchWay.IN
    upright: float = 0.0
    scale: float = 1.0
