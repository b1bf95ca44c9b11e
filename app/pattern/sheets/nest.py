"""Several sizes of one draft nested on a common point: an artwork with a layer and a rhythm of dashes for each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import atan2, hypot, radians, sin

from shapely import unary_union

from app.pattern.drawing import (
    GREY,
    Anchor,
    DrawingLook,
    Face,
    FillStyle,
    Lettering,
    Lines,
    LineStyle,
    RecordPen,
)
from app.pattern.drawing.arrows import readable
from app.pattern.drawing.block import block_beside, draw_block
from app.pattern.drawing.curves import polygon
from app.pattern.drawing.details import draw_darts, draw_grain, draw_marks, draw_notches
from app.pattern.drawing.labels import small_words
from app.pattern.drawing.outline import as_shown, draw_bracket, draw_outline, fold_line, inward
from app.pattern.drawing.piece import place_title
from app.pattern.drawing.record import Drawn, Filled, Lined, Said, text_corners
from app.pattern.drawing.words import short_block
from app.pattern.geometry import Path, Point, Transform, foot
from app.pattern.pieces.model import Edge, Pattern, Piece
from app.pattern.problem import Place, Problem, Refused
from app.pattern.sheets.artwork import Ply, Sign, fabric_signs, pattern_problems, upright_after
from app.pattern.sheets.footprint import Ground, ground_of, moved
from app.pattern.sheets.info import PrintInfo, PrintStyle, look_of

__all__ = ["Nest", "common_point", "nest_of", "nest_problems"]

_SIZE_LETTER = 3.2
#: On how many of a piece's edges the sizes are named, and between which shares of their length.
_NAMED_EDGES, _FIRST, _LAST = 2, 0.25, 0.75
#: Folds that stray from one another by no more than this are one line on paper, mm.
_ONE_LINE = 0.2
#: Edges at least so long are equally welcome for the names of sizes, mm.
_LONG_ENOUGH = 200.0


@dataclass(frozen=True, slots=True)
class _Nested:
    """One size of a piece with its shift (mm) onto the common point."""

    size: str
    piece: Piece
    shift: Transform


class Nest:
    """The sizes of one pattern as one artwork. Lines of cutting alone unless a style asks for more."""

    def __init__(
        self, sizes: Mapping[str, Pattern], info: PrintInfo | None = None, style: PrintStyle | None = None
    ) -> None:
        """`sizes` goes from the smallest; all have the same pieces, as `nest_problems` tells."""
        self.style = style or PrintStyle(lines=Lines.CUTTING)
        self._sizes = dict(sizes)
        self._first = next(iter(self._sizes.values()))
        self._look = look_of(self._first, info, self.style)
        self._palettes = {size: GREY.for_size(number) for number, size in enumerate(self._sizes)}
        self._nested = {piece.name: self._nested_sizes(piece.name) for piece in self._first.pieces}

    def _nested_sizes(self, name: str) -> tuple[_Nested, ...]:
        pieces = [pattern.piece(name) for pattern in self._sizes.values()]
        points = common_point(pieces)
        shifts = [Transform.move(points[0].x - p.x, points[0].y - p.y) for p in points]
        return tuple(_Nested(*one) for one in zip(self._sizes, pieces, shifts, strict=True))

    @property
    def pieces(self) -> tuple[tuple[str, str], ...]:
        """Name and title of each piece."""
        return tuple((piece.name, piece.title) for piece in self._first.pieces)

    @property
    def layers(self) -> tuple[str, ...]:
        """A layer for each size."""
        return tuple(_layer(size) for size in self._sizes)

    @property
    def signs(self) -> tuple[Sign, ...]:
        """The line of each size, and the fills of further fabrics."""
        sizes = tuple(Sign(LineStyle.CUTTING, f"size {size}", self._palettes[size]) for size in self._sizes)
        return (*sizes, *fabric_signs(self._first))

    def grounds(self) -> tuple[Ground, ...]:
        """The ground that all sizes of each piece take together."""
        return tuple(self._ground(piece.name) for piece in self._first.pieces)

    def _ground(self, name: str) -> Ground:
        each = [ground_of(one.piece, self._look) for one in self._nested[name]]
        shifts = [one.shift for one in self._nested[name]]
        shape = unary_union([moved(g.shape, s) for g, s in zip(each, shifts, strict=True)])
        cutting = unary_union([moved(g.cutting, s) for g, s in zip(each, shifts, strict=True)])
        return Ground(name, shape, cutting)

    def outlines(self, piece: str) -> tuple[Path, ...]:
        """The smallest and the largest outline."""
        every = [as_shown(n.piece, self.style.lines).cutting.transformed(n.shift) for n in self._nested[piece]]
        return tuple(dict.fromkeys((every[0], every[-1])))

    def plies(self, piece: str, joints: tuple[Path, ...] = (), turns: int = 0) -> tuple[Ply, ...]:
        """What all sizes share, then each size in its layer and its dashes."""
        look = replace(self._look, upright=upright_after(turns))
        sizes = [self._size_ply(nested, number, look) for number, nested in enumerate(self._nested[piece])]
        others = [mark for ply in sizes for mark in ply.marks]
        return (Ply(_shared(self._nested[piece], others, look, joints)), *sizes)

    def _size_ply(self, nested: _Nested, number: int, look: DrawingLook) -> Ply:
        record, piece = RecordPen(), as_shown(nested.piece, look.lines)
        draw_outline(piece, record, look.lines)
        draw_darts(piece, record, look)
        draw_marks(piece, record, look)
        draw_notches(piece, record, look)
        share = _FIRST + (_LAST - _FIRST) * number / max(1, len(self._sizes) - 1)
        wanted = _spread_edges(self._nested[nested.piece.name])
        names = [mark for name in wanted for mark in _size_name(piece.edge(name), nested.size, share, look)]
        common = _common_folds(self._nested[nested.piece.name], look)
        folds = [fold for number, fold in enumerate(_folds(nested, look)) if number not in common]
        marks = [_shifted(mark, nested.shift) for mark in (*record.marks, *names) if not _is_fold(mark)]
        return Ply((*marks, *folds), _layer(nested.size), self._palettes[nested.size])


def _layer(size: str) -> str:
    return f"Size {size}"


def nest_of(sizes: Mapping[str, Pattern], info: PrintInfo, style: PrintStyle | None = None) -> Nest | Refused:
    """The sizes (by name, the smallest first) as one artwork, or why they cannot be nested."""
    problems = nest_problems(sizes)
    return Refused(problems) if problems else Nest(sizes, info, style)


def nest_problems(sizes: Mapping[str, Pattern]) -> tuple[Problem, ...]:
    """Why patterns cannot be nested: none at all, one that cannot be printed, or pieces that differ in kind."""
    if not sizes:
        message = "No size was given, so there is nothing to nest."
        return (Problem("sheets.no-sizes", message, "Name one size or more.", Place(point="sizes")),)
    unfit = tuple(problem for pattern in sizes.values() for problem in pattern_problems(pattern))
    first_name, first = next(iter(sizes.items()))
    return unfit or tuple(
        _differs(f"Size {name} {how} size {first_name}", piece)
        for name, pattern in sizes.items()
        for piece, how in _differences(first, pattern)
    )


def _differs(message: str, piece: str) -> Problem:
    fix = "Grade with choices that give every size the same pieces, edges, darts and notches."
    return Problem("sheets.sizes-differ", f"{message}.", fix, Place(piece=piece))


def _differences(first: Pattern, other: Pattern) -> Iterator[tuple[str, str]]:
    """Each piece that differs in kind from the first size, with how."""
    known, here = ({piece.name: piece for piece in pattern.pieces} for pattern in (first, other))
    yield from ((name, f"lacks the piece “{known[name].title}” of") for name in known if name not in here)
    yield from ((name, f"has a piece “{here[name].title}” more than") for name in here if name not in known)
    for name in known.keys() & here.keys():
        for what, kind in (("edges", _edges), ("darts", _darts), ("notches", _notches), ("marks", _marks)):
            if kind(known[name]) != kind(here[name]):
                yield name, f"has other {what} on “{known[name].title}” than"


def _edges(piece: Piece) -> tuple[object, ...]:
    return tuple((edge.name, edge.fold) for edge in piece.edges)


def _darts(piece: Piece) -> tuple[object, ...]:
    return tuple(zip((dart.name for dart in piece.darts), piece.mouths, strict=True))


def _notches(piece: Piece) -> tuple[object, ...]:
    return tuple(sorted((notch.edge, notch.double) for notch in piece.notches))


def _marks(piece: Piece) -> tuple[object, ...]:
    return tuple(mark.kind for mark in piece.marks)


def common_point(pieces: Sequence[Piece]) -> tuple[Point, ...]:
    """The corner on which sizes of a piece are nested, in each size's frame.

    An end of the fold edge, else of the longest edge along the grain (a centre front), else
    any corner: the one round which the other corners of smallest and largest stray least.
    """
    corners = _likely_corners(pieces[0])
    every = [_corners(piece) for piece in pieces]

    def strays(corner: int) -> float:
        small, large = every[0], every[-1]
        way = small[corner].minus(large[corner])
        return max(a.distance(b.plus(way)) for a, b in zip(small, large, strict=True))

    best = min(corners, key=strays)
    return tuple(one[best] for one in every)


def _likely_corners(piece: Piece) -> Sequence[int]:
    """The ends of the edge that a pattern-cutter would lay on one another, as numbers of corners; else all."""
    count = len(piece.edges)
    kept = [i for i, edge in enumerate(piece.edges) if edge.fold] or [
        i for i, edge in enumerate(piece.edges) if _runs_with_grain(edge, piece)
    ]
    if not kept:
        return range(count)
    longest = max(kept, key=lambda i: piece.edges[i].path.length)
    return (longest, (longest + 1) % count)


def _runs_with_grain(edge: Edge, piece: Piece) -> bool:
    """True for an edge that is straight and at most a degree off the grain."""
    way, grain = edge.path.end.minus(edge.path.start), piece.grain.end.minus(piece.grain.start)
    chord = hypot(way.x, way.y)
    across = abs(way.x * grain.y - way.y * grain.x) / max(1e-9, chord * hypot(grain.x, grain.y))
    return edge.path.length - chord < 0.01 and across < sin(radians(1.0))


def _corners(piece: Piece) -> list[Point]:
    """Where each edge begins in outline order."""
    return [edge.path.start if edge.with_outline else edge.path.end for edge in piece.edges]


def _shared(
    sizes: Sequence[_Nested], others: Sequence[Drawn], look: DrawingLook, joints: tuple[Path, ...]
) -> tuple[Drawn, ...]:
    """What belongs to all sizes, drawn as for the smallest: fold bracket, grain, small words and the title."""
    shown, record = as_shown(sizes[0].piece, look.lines), RecordPen()
    for fold in _common_folds(sizes, look).values():
        record.line(fold.path, LineStyle.FOLD)
    for edge in shown.edges:
        if edge.fold:
            draw_bracket(edge, record, look)
    draw_grain(shown, record, look)
    obstacles = [Lined(m.path, LineStyle.JOINT) if isinstance(m, Lined) else m for m in others]
    words = small_words(shown, (*obstacles, *record.marks), replace(look, edge_words={}))
    block = place_title(shown, [*obstacles, *record.marks, *words], look, joints)
    if block.leader is not None:
        largest = as_shown(sizes[-1].piece, look.lines).cutting.transformed(sizes[-1].shift)
        block = block_beside(largest, short_block(shown, look), look.scale)
    title = RecordPen()
    draw_block(block, title)
    return (*record.marks, *words, *title.marks)


def _folds(one: _Nested, look: DrawingLook) -> tuple[Lined, ...]:
    """The lines to fold along, at the edge and inside the piece, on the common point."""
    record, piece = RecordPen(), as_shown(one.piece, look.lines)
    for edge in piece.edges:
        if edge.fold:
            record.line(fold_line(piece, edge), LineStyle.FOLD)
    draw_marks(piece, record, look)
    shifted = (_shifted(mark, one.shift) for mark in record.marks if _is_fold(mark))
    return tuple(mark for mark in shifted if isinstance(mark, Lined))


def _is_fold(mark: Drawn) -> bool:
    return isinstance(mark, Lined) and mark.style is LineStyle.FOLD


def _common_folds(sizes: Sequence[_Nested], look: DrawingLook) -> dict[int, Lined]:
    """For each fold that lies on one line in all sizes, by its number, the longest.

    Drawn for each size, their dashes would fill each other's gaps to a line that looks like one to cut along.
    """
    found = {}
    for number, folds in enumerate(zip(*(_folds(one, look) for one in sizes), strict=False)):
        longest = max(folds, key=lambda fold: fold.path.length)
        if all(_strays(fold.path, longest.path) <= _ONE_LINE for fold in (*folds, longest)):
            found[number] = longest
    return found


def _strays(fold: Path, line: Path) -> float:
    """How far a fold lies off the straight line through the ends of another, mm."""
    points = (fold.point_at(share * fold.length) for share in (0.0, 0.25, 0.5, 0.75, 1.0))
    return max(point.distance(foot(point, line.start, line.end)) for point in points)


def _spread_edges(sizes: Sequence[_Nested]) -> tuple[str, ...]:
    """The sewn edges on which smallest and largest lie farthest apart, long ones before short ones, by name."""
    small, large = sizes[0], sizes[-1]

    def apart(edge: Edge) -> float:
        other = large.piece.edge(edge.name).path
        ends = (edge.path.point_at(edge.path.length / 2.0), large.shift.apply(other.point_at(other.length / 2.0)))
        way = edge.path.tangent_at(edge.path.length / 2.0)
        across = abs((ends[1].x - ends[0].x) * way.y - (ends[1].y - ends[0].y) * way.x)
        return across * min(edge.path.length, _LONG_ENOUGH)

    sewn = [edge for edge in small.piece.edges if not edge.fold]
    return tuple(edge.name for edge in sorted(sewn, key=lambda edge: -apart(edge))[:_NAMED_EDGES])


def _size_name(edge: Edge, size: str, share: float, look: DrawingLook) -> Iterator[Drawn]:
    """The size's name on its own cutting line, as heights are named on the lines of a map."""
    along = share * edge.path.length
    way, out = edge.path.tangent_at(along), inward(edge, along).scaled(-edge.allowance.width)
    angle = readable(atan2(way.y, way.x), look.upright)
    up = Point(0.0, 1.0).turned(angle, Point(0.0, 0.0))
    at = edge.path.point_at(along).plus(out).plus(up.scaled(-0.33 * _SIZE_LETTER))
    lettering = Lettering(_SIZE_LETTER, angle, Anchor.MIDDLE, Face.STRONG)
    yield Filled(polygon(*text_corners(at, size, lettering)), FillStyle.PAPER)
    yield Said(at, size, lettering)


def _shifted(mark: Drawn, shift: Transform) -> Drawn:
    if isinstance(mark, Said):
        return replace(mark, at=shift.apply(mark.at))
    return replace(mark, path=mark.path.transformed(shift))
