"""Writes a pattern as DXF for cutters and plotters: a block for each piece, layers as in ASTM D6673, millimetres."""

from __future__ import annotations

from collections.abc import Iterator
from io import StringIO
from math import atan2, degrees
from pathlib import Path as FilePath

from ezdxf import options, units  # type: ignore[attr-defined]  # documented, yet not exported by name
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.blocklayout import BlockLayout

from app.pattern.drawing.block import block_beside, block_inside, draw_block
from app.pattern.drawing.fonts import CAP_HEIGHT
from app.pattern.drawing.pen import Anchor, LineStyle
from app.pattern.drawing.record import Lined, RecordPen, Said
from app.pattern.exchange.contents import HandedPiece, LineKind, StyleInfo, handed_pieces
from app.pattern.exchange.layers import Layer, layer_of
from app.pattern.exchange.layout import in_rows, joined, moved
from app.pattern.exchange.points import polyline
from app.pattern.exchange.words import in_code_page, one_line, piece_text, piece_words, style_text, style_words
from app.pattern.geometry import Box, Path, Point
from app.pattern.pieces.model import Pattern

__all__ = ["write_dxf"]

# A setting of the whole process, since ezdxf has no other: dates and identifiers are always the same ones.
options.write_fixed_meta_data_for_testing = True

#: The oldest release with a unit in its header; it still has the POLYLINE of the releases before it.
_RELEASE = "R2000"
#: Index colours, so that a viewer tells the layers apart; white (7) is black on paper.
_COLOURS = {
    Layer.BOUNDARY: 7,
    Layer.TURN_POINTS: 8,
    Layer.CURVE_POINTS: 9,
    Layer.NOTCHES: 1,
    Layer.MIRROR: 5,
    Layer.GRAIN: 3,
    Layer.INTERNAL: 8,
    Layer.DRILL: 1,
    Layer.SEW: 4,
    Layer.ANNOTATION: 8,
}
_ALIGNED = {
    Anchor.START: TextEntityAlignment.LEFT,
    Anchor.MIDDLE: TextEntityAlignment.CENTER,
    Anchor.END: TextEntityAlignment.RIGHT,
}
#: Letters of the style's text, mm, and the distance between its lines.
_LETTER, _LEADING = 10.0, 16.0
#: Lines whose points are named on layers 2 and 3.
_POINTED = (Layer.BOUNDARY, Layer.INTERNAL, Layer.SEW)


def write_dxf(pattern: Pattern, info: StyleInfo, path: FilePath) -> None:
    """Write the pattern's DXF file (R2000, ASCII, 1 unit = 1 mm, y up). Equal patterns give equal bytes."""
    document = new(_RELEASE, units=units.MM)
    for layer in Layer:
        document.layers.add(str(int(layer)), color=_COLOURS[layer])
    document = document
    pieces = handed_pieces(pattern, info)
    boxes = tuple(_fill(document.blocks.new(handed.slug), handed) for handed in pieces)
    moves = in_rows(boxes)
    for handed, move in zip(pieces, moves, strict=True):
        place = (round(move.dx, 4), round(move.dy, 4))
        document.modelspace().add_blockref(handed.slug, place, {"layer": str(int(Layer.BOUNDARY))})
    _finish(document, info, joined(moved(box, move) for box, move in zip(boxes, moves, strict=True)))
    text = StringIO()
    document.write(text)
    path.write_bytes(document.encode(text.getvalue()))


def _finish(document: Drawing, info: StyleInfo, box: Box) -> None:
    """The style's text under the pieces, and what a viewer should show first."""
    space = document.modelspace()
    lines = [(words, Layer.BOUNDARY) for words in style_text(info)]
    lines += [(words, Layer.ANNOTATION) for words in style_words(info)]
    for number, (words, layer) in enumerate(lines, 1):
        at = Point(0.0, box.bottom - 2.0 * _LEADING - number * _LEADING)
        space.add_text(in_code_page(words), height=_LETTER, dxfattribs=_on(layer)).set_placement(_rounded(at))
    bottom = box.bottom - (len(lines) + 3.0) * _LEADING
    space.dxf.extmin, space.dxf.extmax = (0.0, round(bottom, 4), 0.0), (round(box.right, 4), round(box.top, 4), 0.0)
    middle = ((box.left + box.right) / 2.0, (bottom + box.top) / 2.0)
    document.set_modelspace_vport(max(box.top - bottom, box.width), middle)


def _fill(block: BlockLayout, handed: HandedPiece) -> Box:
    """Draw a piece into its block; returns the box round the piece and its words, mm."""
    _polyline(block, handed.piece.cutting, Layer.BOUNDARY)
    for line in handed.lines:
        if line.kind is not LineKind.CUTTING:
            layer = layer_of(line)
            if layer in (Layer.GRAIN, Layer.MIRROR):
                block.add_line(_rounded(line.path.start), _rounded(line.path.end), _on(layer))
            else:
                _polyline(block, line.path, layer)
    for at, angle in _notches(handed):
        block.add_point(_rounded(at), {**_on(Layer.NOTCHES), "angle": round(degrees(angle), 3)})
    for drill in handed.drills:
        block.add_point(_rounded(drill.at), _on(Layer.DRILL))
    return _say(block, handed)


def _on(layer: Layer) -> dict[str, str]:
    return {"layer": str(int(layer))}


def _rounded(point: Point) -> tuple[float, float]:
    return round(point.x, 4), round(point.y, 4)


def _polyline(block: BlockLayout, path: Path, layer: Layer) -> None:
    """A path as a POLYLINE, its points named as turn points or curve points."""
    traced = polyline(path)
    points = [_rounded(point) for point in traced.points]
    if len(points) == 2:
        block.add_line(points[0], points[1], _on(layer))
    else:
        block.add_polyline2d(points, close=traced.closed, dxfattribs=_on(layer))
    if layer in _POINTED:
        for point, turn in zip(points, traced.turns, strict=True):
            block.add_point(point, _on(Layer.TURN_POINTS if turn else Layer.CURVE_POINTS))


def _notches(handed: HandedPiece) -> Iterator[tuple[Point, float]]:
    """Each notch as its point on the cutting line and the angle in radians at which it goes in.

    The legs of darts are notched where they leave the piece (common practice).
    """
    legs = [line for line in handed.of_kind(LineKind.DARTS) if dict(line.facts)["part"].startswith("leg")]
    for line in (*handed.of_kind(LineKind.NOTCHES), *legs):
        way = line.path.tangent_at(0.0)
        yield line.path.start, atan2(way.y, way.x)


def _say(block: BlockLayout, handed: HandedPiece) -> Box:
    """Set the words of a piece where nothing is drawn; returns the box round piece and words, mm."""
    keyed = {line.words for line in piece_text(handed)}
    titled = RecordPen()
    # The block of words: clear of every line, else clear of the grain and other words, else beside the piece
    stitching = handed.piece.stitching
    full = (*piece_text(handed), *piece_words(handed))
    firm = [mark for mark in handed.drawn if not isinstance(mark, Lined) or mark.style is LineStyle.GRAIN]
    inside = block_inside(stitching, handed.drawn, (full,)) or block_inside(stitching, firm, (full,))
    draw_block(inside or block_beside(handed.piece.cutting, full), titled)
    drawn = [mark for mark in handed.drawn if isinstance(mark, Said)]
    said = [mark for mark in titled.marks if isinstance(mark, Said)]
    for mark in said:
        _text(block, mark, Layer.BOUNDARY if mark.words in keyed else Layer.ANNOTATION)
    for mark in drawn:
        _text(block, mark, Layer.ANNOTATION)
    return joined([handed.bounds, *(mark.bounds for mark in (*said, *drawn))])


def _text(block: BlockLayout, said: Said, layer: Layer) -> None:
    """Words as TEXT; its height is that of the capitals."""
    height = round(said.lettering.size * CAP_HEIGHT, 4)
    rotation, words = round(degrees(said.lettering.angle), 3), in_code_page(one_line(said.words))
    text = block.add_text(words, height=height, rotation=rotation, dxfattribs=_on(layer))
    text.set_placement(_rounded(said.at), align=_ALIGNED[said.lettering.anchor])
