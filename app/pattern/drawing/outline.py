"""The lines to cut and to sew along, and the edge that lies on the fold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import atan2

from app.pattern.drawing.arrows import arrow_head, readable
from app.pattern.drawing.look import DrawingLook, Lines
from app.pattern.drawing.pen import Anchor, Face, Lettering, LineStyle, Pen
from app.pattern.geometry import Line, Path, Point, Segment
from app.pattern.pieces.model import Allowance, Edge, Piece

__all__ = ["as_shown", "draw_bracket", "draw_fold", "draw_outline", "fold_line", "inward", "reach_of", "without_folds"]

_ON_FOLD = 0.05
_BRACKET_IN = 11.0
_WORDS_EVERY = 260.0


def inward(edge: Edge, along: float) -> Point:
    """Unit vector from the edge into the piece, `along` mm from the edge's start as drawn."""
    way = edge.path.tangent_at(along)
    left = Point(-way.y, way.x)
    return left if edge.with_outline else left.scaled(-1.0)


def _on_line(point: Point, a: Point, b: Point) -> bool:
    cross = (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x)
    return abs(cross) <= _ON_FOLD * a.distance(b)


def _is_fold(segment: Segment, folds: tuple[Edge, ...], reach: float) -> bool:
    """True for a straight segment that runs along a fold edge, or `reach` mm at most beyond it (its allowances)."""
    return isinstance(segment, Line) and any(_along_fold(segment, fold, reach) for fold in folds)


def _along_fold(line: Line, fold: Edge, reach: float) -> bool:
    a, b = fold.path.start, fold.path.end
    if not (_on_line(line.start, a, b) and _on_line(line.end, a, b)):
        return False
    middle, span = line.point(0.5), a.distance(b)
    along = ((middle.x - a.x) * (b.x - a.x) + (middle.y - a.y) * (b.y - a.y)) / span
    return -reach <= along <= span + reach


def reach_of(piece: Piece) -> float:
    """How far the cutting line may run on beyond the ends of a fold edge, mm: its widest allowance."""
    return max(edge.allowance.width for edge in piece.edges) + 1.0


def without_folds(outline: Path, folds: tuple[Edge, ...], reach: float = 60.0) -> tuple[Path, ...]:
    """The runs of a closed outline between its fold edges; the whole outline when it has none.

    `reach` (see `reach_of`) is how far, in mm, a line may run on beyond the fold edge and still be the fold.
    """
    on_fold = [_is_fold(segment, folds, reach) for segment in outline.segments]
    if not any(on_fold):
        return (outline,)
    first = on_fold.index(True)
    order = [*range(first, len(on_fold)), *range(first)]
    runs: list[list[Segment]] = [[]]
    for index in order:
        if on_fold[index]:
            runs.append([])
        else:
            runs[-1].append(outline.segments[index])
    return tuple(Path(tuple(run)) for run in runs if run)


def fold_line(piece: Piece, fold: Edge) -> Path:
    """The fold from cutting line to cutting line, in the direction of the edge as drawn."""
    a, b = fold.path.start, fold.path.end
    ends = [p for s in piece.cutting.segments if _is_fold(s, (fold,), reach_of(piece)) for p in (s.start, s.end)]
    if not ends:
        return Path.through(a, b)
    span = a.distance(b)

    def along(point: Point) -> float:
        return ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / span

    return Path.through(min(ends, key=along), max(ends, key=along))


def as_shown(piece: Piece, lines: Lines) -> Piece:
    """The piece as it is drawn: where no allowances are wanted, its cutting line is the stitching line."""
    if lines is not Lines.STITCHING:
        return piece
    bare = tuple(replace(edge, allowance=Allowance(0.0, edge.allowance.corner)) for edge in piece.edges)
    return replace(piece, edges=bare, cutting=piece.stitching)


def draw_outline(piece: Piece, pen: Pen, lines: Lines = Lines.BOTH) -> None:
    """The cutting line, strong and solid, and the stitching line, finer and dashed, where both are wanted."""
    folds = tuple(edge for edge in piece.edges if edge.fold)
    for path in without_folds(piece.cutting, folds, reach_of(piece)):
        pen.line(path, LineStyle.CUTTING)
    for path in _sewn_runs(piece) if lines is Lines.BOTH else ():
        pen.line(path, LineStyle.STITCHING)


def _sewn_runs(piece: Piece) -> Iterator[Path]:
    """The stitching outline without folds, and without edges where it is the cutting line itself."""
    plain = tuple(edge for edge in piece.edges if edge.fold)
    if all(edge.fold or edge.allowance.width <= 0.0 for edge in piece.edges):
        return
    yield from without_folds(piece.stitching, plain, 0.0)


def draw_fold(piece: Piece, fold: Edge, pen: Pen, look: DrawingLook) -> None:
    """The fold as a chain line, with its bracket."""
    pen.line(fold_line(piece, fold), LineStyle.FOLD)
    draw_bracket(fold, pen, look)


def draw_bracket(fold: Edge, pen: Pen, look: DrawingLook) -> None:
    """A bracket whose arrows point at the fold, and the words `place on fold`."""
    length = fold.path.length
    deep = min(_BRACKET_IN * look.scale, length / 6.0)
    from_, to = fold.path.point_at(length * 0.12), fold.path.point_at(length * 0.88)
    into = inward(fold, length / 2.0)
    corners = [from_, *(p.plus(into.scaled(deep)) for p in (from_, to)), to]
    pen.line(Path.through(*corners), LineStyle.BRACKET)
    for tip, tail in ((corners[0], corners[1]), (corners[3], corners[2])):
        arrow_head(tip, tail, pen, min(4.5 * look.scale, deep * 0.6))
    if length * 0.7 >= 30.0 * look.scale:
        _fold_words(fold, deep, pen, look)


def _fold_words(fold: Edge, deep: float, pen: Pen, look: DrawingLook) -> None:
    """The words between the fold and its bracket, again every so often along a long fold."""
    length, size = fold.path.length, min(3.8 * look.scale, deep * 0.5)
    way, into = fold.path.tangent_at(length / 2.0), inward(fold, length / 2.0)
    angle = readable(atan2(way.y, way.x), look.upright)
    up = Point(0.0, 1.0).turned(angle, Point(0.0, 0.0))
    count = max(1, round(length * 0.76 / (_WORDS_EVERY * look.scale)))
    for turn in range(count):
        at = fold.path.point_at(length * (0.12 + 0.76 * (turn + 0.5) / count)).plus(into.scaled(deep * 0.53))
        lettering = Lettering(size, angle, Anchor.MIDDLE, Face.ITALIC)
        pen.text(at.plus(up.scaled(-size * 0.3)), "place on fold", lettering)
