"""Writes true-scale SVG: a file for each piece and one with all of them, their lines grouped by what they mean."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import degrees
from pathlib import Path as FilePath
from xml.sax.saxutils import escape, quoteattr

from app.pattern.drawing import GREY, Face, FillStyle, LineStyle, RecordPen
from app.pattern.drawing.block import draw_block
from app.pattern.drawing.curves import ring
from app.pattern.drawing.fonts import FAMILY, width_of
from app.pattern.drawing.piece import place_title
from app.pattern.drawing.record import Drawn, Filled, Lined, Said
from app.pattern.exchange.contents import HandedLine, HandedPiece, LineKind, StyleInfo, handed_pieces
from app.pattern.exchange.layout import in_rows, joined, moved
from app.pattern.exchange.svg_path import number, pair, path_data
from app.pattern.exchange.words import printable
from app.pattern.geometry import Box, Point, Transform
from app.pattern.pieces.model import Pattern

__all__ = ["ALL_PIECES", "write_svg_files"]

#: The file with all the pieces.
ALL_PIECES = "all-pieces.svg"
#: Paper round the drawing, mm, so that no line is halved by the edge of the picture.
_MARGIN = 5.0
_DRILL_RADIUS = 1.5
_BOLD = {Face.STRONG: ' font-weight="bold"', Face.SIGN: ' font-weight="bold"', Face.ITALIC: ' font-style="italic"'}
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
    wide, high = number(box.width + 2.0 * _MARGIN), number(box.height + 2.0 * _MARGIN)
    # y is turned to point down: mirrored in the line on which it is 0, then moved into the paper.
    down = Transform.mirror(Point(0.0, 0.0), Point(1.0, 0.0))
    frame = down.then(Transform.move(_MARGIN - box.left, _MARGIN + box.top))
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}" '
        f'font-family="\'{FAMILY}\', sans-serif" fill="none" stroke-linejoin="round">',
        f"<title>{_escaped(title)}</title>",
        f"<desc>{_escaped(_DESCRIPTION)}</desc>",
        *(line for _, move, handed, signs in placed for line in _piece(handed, signs, move.then(frame))),
        "</svg>",
    ]
    path.write_text("\n".join(lines) + "\n", "utf-8", newline="\n")


def _piece(handed: HandedPiece, signs: tuple[Drawn, ...], frame: Transform) -> Iterator[str]:
    piece = handed.piece
    yield (
        f'<g id="{handed.slug}" data-piece={_quoted(piece.name)} data-cut={_quoted("; ".join(handed.cuts))}'
        f' data-half="{"yes" if piece.fold_edge else "no"}">'
    )
    yield f"<title>{_escaped(piece.title)}</title>"
    for kind in LineKind:
        yield from _group(handed, kind, frame)
    yield from _drills(handed, frame)
    yield f'<g id="{handed.slug}-signs" data-lines="signs">'
    yield from (_sign(sign, frame) for sign in signs)
    yield "</g>"
    yield "</g>"


def _group(handed: HandedPiece, kind: LineKind, frame: Transform) -> Iterator[str]:
    """The lines of one kind; nothing when there are none."""
    lines = handed.of_kind(kind)
    if lines:
        yield f'<g id="{handed.slug}-{kind}" data-lines="{kind}">'
        yield from (_stroked(line, frame) for line in lines)
        yield "</g>"


def _drills(handed: HandedPiece, frame: Transform) -> Iterator[str]:
    """A small circle about each place to drill; nothing when there are none."""
    if handed.drills:
        yield f'<g id="{handed.slug}-drills" data-lines="drills">'
        for drill in handed.drills:
            circle = path_data(ring(drill.at, _DRILL_RADIUS).transformed(frame))
            yield f'<path d="{circle}" {_stroke(LineStyle.MARK)} data-label={_quoted(drill.label)}/>'
        yield "</g>"


def _stroked(line: HandedLine, frame: Transform) -> str:
    facts = "".join(f" data-{name}={_quoted(value)}" for name, value in line.facts if value)
    return f'<path d="{path_data(line.path.transformed(frame))}" {_stroke(line.style)}{facts}/>'


def _grey(shade: float) -> str:
    return "#" + f"{round((1.0 - shade) * 255):02x}" * 3


def _stroke(style: LineStyle) -> str:
    stroke = GREY.strokes[style]
    dash = f' stroke-dasharray="{" ".join(number(d) for d in stroke.dash)}"' if stroke.dash else ""
    return f'stroke="{_grey(stroke.shade)}" stroke-width="{number(stroke.width)}"{dash}'


def _sign(sign: Drawn, frame: Transform) -> str:
    if isinstance(sign, Lined):
        return f'<path d="{path_data(sign.path.transformed(frame))}" {_stroke(sign.style)}/>'
    if isinstance(sign, Filled):
        return f'<path d="{path_data(sign.path.transformed(frame))}" fill="{_grey(GREY.fills[sign.style])}"/>'
    return _words(sign, frame)


def _escaped(words: str) -> str:
    return escape(printable(words))


def _quoted(words: str) -> str:
    return quoteattr(printable(words))


def _words(said: Said, frame: Transform) -> str:
    """Words with a rim of paper, so that they can be read where a line runs under them.

    They are as wide as they are planned, whatever typeface the reader has.
    """
    at, lettering = frame.apply(said.at), said.lettering
    wide = number(width_of(said.words, lettering.size, lettering.face))
    turn = -degrees(lettering.angle)
    turned = f' transform="rotate({number(turn)} {pair(at)})"' if abs(turn) > 0.01 else ""
    place = f'x="{number(at.x)}" y="{number(at.y)}" text-anchor="{lettering.anchor}"{turned}'
    face = f'font-size="{number(lettering.size)}"{_BOLD.get(lettering.face, "")}'
    ink = f'fill="{_grey(GREY.words[lettering.face])}" stroke="#fff" stroke-width="{number(lettering.size * 0.2)}"'
    fitted = f'textLength="{wide}" lengthAdjust="spacingAndGlyphs"'
    return f'<text {place} {face} {fitted} {ink} paint-order="stroke">{_escaped(said.words)}</text>'
