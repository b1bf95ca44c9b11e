"""The layers of a DXF file for cutters, with the meanings of ASTM D6673 as far as they could be found.

Source: ASTM D6673-10 (withdrawn in 2019), known second hand from two independent
transcriptions that agree on every layer named here. The standard's own text was not read.
"""

from __future__ import annotations

from enum import IntEnum

from app.pattern.drawing.pen import LineStyle
from app.pattern.exchange.contents import HandedLine, LineKind

__all__ = ["Layer", "layer_of"]


class Layer(IntEnum):
    """The layers we write; a layer's name in the file is its number."""

    BOUNDARY = 1  # the piece boundary: our cutting line; and the text that machines read
    TURN_POINTS = 2  # corners and ends of the lines on 1, 8 and 14
    CURVE_POINTS = 3  # the other points of those lines
    NOTCHES = 4
    MIRROR = 6  # the fold of a piece that is given as its half
    GRAIN = 7
    INTERNAL = 8  # drawn, not cut
    DRILL = 13
    SEW = 14
    ANNOTATION = 15  # words for people


_BY_KIND = {
    LineKind.FOLD: Layer.MIRROR,
    LineKind.GRAIN: Layer.GRAIN,
    LineKind.STITCHING: Layer.SEW,
    LineKind.NOTCHES: Layer.INTERNAL,
}
_SEWN = {LineStyle.SEWN, LineStyle.DART, LineStyle.STITCHING}


def layer_of(line: HandedLine) -> Layer:
    """The layer of a line inside the boundary.

    Darts and marks are sewn or drawn, by their style; the tick of a notch is drawn, the
    notch itself being a point on its own layer.
    """
    if line.kind in _BY_KIND:
        return _BY_KIND[line.kind]
    return Layer.SEW if line.style in _SEWN else Layer.INTERNAL
