"""What a pen must know how to do, and the kinds of line, fill and lettering a pattern is drawn with."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from app.pattern.geometry import Path, Point

__all__ = ["Anchor", "Face", "FillStyle", "Lettering", "LineStyle", "Pen"]


class LineStyle(StrEnum):
    """What a line means to the person who cuts and sews."""

    CUTTING = "cutting"
    STITCHING = "stitching"
    FOLD = "fold"
    BRACKET = "bracket"  # the arrows that point at a fold: fine, so that nobody cuts along them
    DART = "dart"
    DART_FOLD = "dart-fold"
    GRAIN = "grain"
    NOTCH = "notch"
    MARK = "mark"
    SEWN = "sewn"  # a row to sew along inside a piece
    LENGTHEN = "lengthen"
    GATHER = "gather"
    LABEL_LEADER = "leader"
    JOINT = "joint"  # a sheet's frame, where it is trimmed
    FURNITURE = "furniture"  # join marks, maps, rules: the page's own things
    MINIATURE = "miniature"  # a piece's outline on a map
    RULER = "ruler"  # a check square: its edge is measured with a ruler
    HIGHLIGHT = "highlight"  # the edge that is being sewn


class FillStyle(StrEnum):
    """What a filled shape means."""

    INK = "ink"  # arrow heads, drill dots
    PAPER = "paper"  # blanks out what lies under words
    PIECE = "piece"  # the body of a piece in a small picture
    SECOND = "second"  # a piece of the second fabric: contrast or lining
    THIRD = "third"  # a piece of a further fabric
    HERE = "here"  # this sheet on the map
    ACCENT = "accent"  # the end at which two edges meet


class Face(StrEnum):
    """The cuts of the house's typeface."""

    REGULAR = "regular"
    ITALIC = "italic"
    STRONG = "strong"
    PALE = "pale"  # regular, in the furniture's ink
    SIGN = "sign"  # strong, in the furniture's ink: a sheet's name


class Anchor(StrEnum):
    """Which point of the words lies at the given place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


@dataclass(frozen=True, slots=True)
class Lettering:
    """How words are set: em size in mm, angle in radians anticlockwise from +x, anchor and face."""

    size: float
    angle: float = 0.0
    anchor: Anchor = Anchor.START
    face: Face = Face.REGULAR


class Pen(Protocol):
    """Something that can be told to draw, in the frame of what is drawn (mm, y up)."""

    def line(self, path: Path, style: LineStyle) -> None:
        """Draw an open or closed path."""

    def fill(self, path: Path, style: FillStyle) -> None:
        """Fill a closed path."""

    def text(self, at: Point, words: str, lettering: Lettering) -> None:
        """Set words with the baseline's anchor at a point."""
