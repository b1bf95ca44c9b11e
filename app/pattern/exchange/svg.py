"""Writes true-scale SVG: a file for each piece and one with all of them, their lines grouped by what they mean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import degrees
from pathlib import Path as FilePath

from app.pattern.drawing import GREY, Face, FillStyle, LineStyle, RecordPen
from app.pattern.drawing.block import draw_block
from app.pattern.drawing.curves import ring
from app.pattern.drawing.fonts import FAMILY, width_of
from app.pattern.drawing.piece import place_title
from app.pattern.drawing.record import Drawn, Filled, Lined, Said
from app.pattern.exchange.contents import HandedLine, HandedPiece, LineKind, StyleInfo, handed_pieces
from app.pattern.exchange.layout import in_rows, joined, moved
from app.pattern.exchange.svg_path import fine, path_data, place
from app.pattern.exchange.words import printable
from app.pattern.geometry import Box, Point, Transform
from app.pattern.pieces.model import Pattern
from app.pattern.svg import closed, element, opened, said, svg

__all__ = ["ALL_PIECES", "write_svg_files"]

#: The file with all the pieces.
ALL_PIECES = "all-pieces.svg"
#: Paper round the drawing, mm, so that no line is halved by the edge of the picture.
_MARGIN = 5.0
_DRILL_RADIUS = 1.5
_FACES: dict[Face, dict[str, str]] = {
    Face.STRONG: {"font_weight": "bold"},
    Face.SIGN: {"font_weight": "bold"},
    Face.ITALIC: {"font_style": "italic"},
}
_DESCRIPTION = (
    "True scale: 1 unit is 1 mm. Groups with data-lines say what their lines mean; lengths (data-length) are in mm. "
    "A piece with a fold is given as its half. The group of signs is for reading only: never cut it."
)


#: A piece with the box round it and its signs, and the move to its place.
_Placed = tuple[Box, Transform, HandedPiece, tuple[Drawn, ...]]


def write_svg_files(pattern: Pattern, info: StyleInfo, folder: FilePath) -> tuple[str, ...]:
    """Write the SVG files into a folder that is there; returns their names, the one with all pieces last."""
    pieces = tuple((handed, _signs(handed)) for handed in handed_pieces(pattern, info))
    boxes = tuple(joined([handed.bounds, *(sign.bounds for sign in signs)]) for handed, signs in pieces)
    names = []
    for (handed, signs), box in zip(pieces, boxes, strict=True):
        names.append(f"{handed.slug}.svg")
        title = f"{info.title}: {handed.piece.title}"
        _write(folder / names[-1], title, [(box, Transform(), handed, signs)])
    moves = in_rows(boxes)
    placed = [(box, move, *piece) for box, move, piece in zip(boxes, moves, pieces, strict=True)]
    _write(folder / ALL_PIECES, info.title, placed)
    return (*names, ALL_PIECES)


def _signs(handed: HandedPiece) -> tuple[Drawn, ...]:
    """Everything that is there to be read: words, arrow heads, brackets; in the piece's frame."""
    titled = RecordPen()
    draw_block(place_title(handed.piece, list(handed.drawn), handed.look), titled)
    brackets = (m for m in handed.drawn if isinstance(m, Lined) and m.style is LineStyle.BRACKET)
    heads = (m for m in handed.drawn if isinstance(m, Filled) and m.style is FillStyle.INK)
    leaders = (m for m in titled.marks if isinstance(m, Lined))
    words = (m for m in (*handed.drawn, *titled.marks) if isinstance(m, Said))
    return (*brackets, *heads, *leaders, *words)


def _write(path: FilePath, title: str, placed: Sequence[_Placed]) -> None:
    """One picture of some pieces, each moved to its place."""
    box = joined(moved(own, move) for own, move, _, _ in placed)
    wide, high = fine(box.width + 2.0 * _MARGIN), fine(box.height + 2.0 * _MARGIN)
    # y is turned to point down: mirrored in the line on which it is 0, then moved into the paper.
    down = Transform.mirror(Point(0.0, 0.0), Point(1.0, 0.0))
    frame = down.then(Transform.move(_MARGIN - box.left, _MARGIN + box.top))
    inside = [
        element("title", said(printable(title))),
        element("desc", said(_DESCRIPTION)),
        *(line for _, move, handed, signs in placed for line in _piece(handed, signs, move.then(frame))),
    ]
    picture = svg(
        "\n",
        "\n".join(inside),
        "\n",
        width=f"{wide}mm",
        height=f"{high}mm",
        viewBox=f"0 0 {wide} {high}",
        font_family=f"'{FAMILY}', sans-serif",
        fill="none",
        stroke_linejoin="round",
    )
    path.write_text(f'<?xml version="1.0" encoding="UTF-8"?>\n{picture}\n', "utf-8", newline="\n")


def _piece(handed: HandedPiece, signs: tuple[Drawn, ...], frame: Transform) -> Iterator[str]:
    piece = handed.piece
    cut, half = printable("; ".join(handed.cuts)), "yes" if piece.fold_edge else "no"
    yield opened("g", id=handed.slug, data_piece=printable(piece.name), data_cut=cut, data_half=half)
    yield element("title", said(printable(piece.title)))
    for kind in LineKind:
        # The lines of one kind; nothing when there are none
        lines = handed.of_kind(kind)
        if lines:
            yield opened("g", id=f"{handed.slug}-{kind}", data_lines=str(kind))
            yield from (_stroked(line, frame) for line in lines)
            yield closed("g")
    # A small circle about each place to drill; nothing when there are none
    if handed.drills:
        yield opened("g", id=f"{handed.slug}-drills", data_lines="drills")
        for drill in handed.drills:
            circle = path_data(ring(drill.at, _DRILL_RADIUS).transformed(frame))
            yield element("path", d=circle, **_stroke(LineStyle.MARK), data_label=printable(drill.label))
        yield closed("g")
    yield opened("g", id=f"{handed.slug}-signs", data_lines="signs")
    yield from (_sign(sign, frame) for sign in signs)
    yield closed("g")
    yield closed("g")


def _stroked(line: HandedLine, frame: Transform) -> str:
    facts = {f"data_{name}": printable(value) for name, value in line.facts if value}
    return element("path", d=path_data(line.path.transformed(frame)), **_stroke(line.style), **facts)


def _grey(shade: float) -> str:
    return "#" + f"{round((1.0 - shade) * 255):02x}" * 3


def _stroke(style: LineStyle) -> dict[str, str | None]:
    stroke = GREY.strokes[style]
    dash = " ".join(fine(d) for d in stroke.dash) or None
    return {"stroke": _grey(stroke.shade), "stroke_width": fine(stroke.width), "stroke_dasharray": dash}


def _sign(sign: Drawn, frame: Transform) -> str:
    if isinstance(sign, Lined):
        return element("path", d=path_data(sign.path.transformed(frame)), **_stroke(sign.style))
    if isinstance(sign, Filled):
        return element("path", d=path_data(sign.path.transformed(frame)), fill=_grey(GREY.fills[sign.style]))
    return _words(sign, frame)


def _words(words: Said, frame: Transform) -> str:
    """Words with a rim of paper, so that they can be read where a line runs under them.

    They are as wide as they are planned, whatever typeface the reader has.
    """
    at, lettering = frame.apply(words.at), words.lettering
    turn = -degrees(lettering.angle)
    return element(
        "text",
        said(printable(words.words)),
        x=fine(at.x),
        y=fine(at.y),
        text_anchor=str(lettering.anchor),
        transform=f"rotate({fine(turn)} {place(at)})" if abs(turn) > 0.01 else None,
        font_size=fine(lettering.size),
        **_FACES.get(lettering.face, {}),
        textLength=fine(width_of(words.words, lettering.size, lettering.face)),
        lengthAdjust="spacingAndGlyphs",
        fill=_grey(GREY.words[lettering.face]),
        stroke="#fff",
        stroke_width=fine(lettering.size * 0.2),
        paint_order="stroke",
    )
