"""Small words along lines: darts, marks, the grain and seams, each in a spot where it lies over nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import atan2

from shapely import STRtree, intersection, length
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from app.pattern.drawing.arrows import readable
from app.pattern.drawing.fonts import width_of
from app.pattern.drawing.look import DrawingLook
from app.pattern.drawing.outline import inward
from app.pattern.drawing.pen import Anchor, Face, FillStyle, Lettering
from app.pattern.drawing.record import Drawn, Lined, Said, text_corners
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Dart, Edge, Mark, MarkKind, Piece

__all__ = ["small_words"]

_LETTER, _SEAM_LETTER = 3.4, 2.6
#: Room kept round small words, mm.
_CLEAR = 0.5
#: Where along a line words are tried, the first the best liked.
_SPOTS = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
_GRAIN_SPOTS = (0.26, 0.74, 0.4, 0.6, 0.18, 0.82, 0.5)
#: Share of an edge that its seam's words may take at most, and how far the edge may stray from their baseline, mm.
_MOST_OF_EDGE, _STRAYS = 0.7, 1.0
_WORDS = {MarkKind.LENGTHEN: "lengthen or shorten here", MarkKind.GATHER: "gather"}


class _Taken:
    """What is drawn already, and how much of it words would lie over."""

    def __init__(self, drawn: Iterable[Drawn]) -> None:
        self._shapes = [shape for mark in drawn for shape in _shape(mark)]
        self._tree = STRtree(self._shapes)
        self._said: list[Polygon] = []

    def under(self, said: Said) -> float:
        """Length of lines and outlines under the words, mm; 0 when they lie free."""
        ground = _ground(said).buffer(_CLEAR)
        met = [self._shapes[i] for i in self._tree.query(ground, predicate="intersects")]
        met += [other for other in self._said if other.intersects(ground)]
        return float(sum(covered + 1.0 for covered in length(intersection(met, ground)).tolist())) if met else 0.0

    def add(self, said: Said) -> None:
        """Take in words that were placed."""
        self._said.append(_ground(said))


def _ground(said: Said) -> Polygon:
    return Polygon(text_corners(said.at, said.words, said.lettering))


def _shape(mark: Drawn) -> Iterator[BaseGeometry]:
    if isinstance(mark, Lined):
        yield LineString(mark.path.flatten(0.2))
    elif isinstance(mark, Said):
        yield _ground(mark)
    elif mark.style is FillStyle.INK:
        yield Polygon(mark.path.flatten(0.2))


def small_words(piece: Piece, drawn: Sequence[Drawn], look: DrawingLook) -> tuple[Said, ...]:
    """All the small words of a piece over what is drawn on it; seams whose words find no free spot stay unnamed."""
    taken = _Taken(drawn)
    placed: list[Said] = []
    wanted = [*_all_darts(piece, look), *_all_marks(piece, look), *_grain(piece, look)]
    for spots in wanted:
        best = min(spots, key=taken.under)
        taken.add(best)
        placed.append(best)
    for tried in _seams(piece, look):
        free = next((said for said in tried if taken.under(said) == 0.0), None)
        if free is not None:
            taken.add(free)
            placed.append(free)
    return tuple(placed)


@dataclass(frozen=True, slots=True)
class _Baseline:
    """Words to set beside a line: their size, and the distance of the letters' feet or heads from it, mm."""

    words: str
    size: float
    lift: float
    upright: float = 0.0

    def beside(self, path: Path, share: float, side: float) -> Said:
        """The words over (1.0) or under (-1.0) a path, in the middle of a share of its length."""
        along = share * path.length
        way = path.tangent_at(along)
        angle = readable(atan2(way.y, way.x), self.upright)
        up = Point(0.0, 1.0).turned(angle, Point(0.0, 0.0))
        rise = self.lift if side > 0.0 else -self.lift - 0.72 * self.size
        at = path.point_at(along).plus(up.scaled(rise))
        return Said(at, self.words, Lettering(self.size, angle, Anchor.MIDDLE, Face.ITALIC))


def _all_darts(piece: Piece, look: DrawingLook) -> Iterator[tuple[Said, ...]]:
    return (_dart(dart, look) for dart in piece.darts if dart.label)


def _dart(dart: Dart, look: DrawingLook) -> tuple[Said, ...]:
    """A dart's label outside its legs, else between them."""
    baseline = _Baseline(dart.label, _LETTER * look.scale, 0.5 * _LETTER * look.scale, look.upright)
    legs = (Path.through(dart.b, dart.tip), Path.through(dart.a, dart.tip))
    return tuple(baseline.beside(leg, share, side) for leg in legs for share in (0.5, 0.4, 0.6) for side in (1.0, -1.0))


def _all_marks(piece: Piece, look: DrawingLook) -> Iterator[tuple[Said, ...]]:
    for mark in piece.marks:
        words = mark.label or _WORDS.get(mark.kind, "")
        if words:
            yield (
                _beside_line(mark, mark.path, words, look)
                if mark.path is not None
                else _beside_point(mark, words, look)
            )


def _beside_line(mark: Mark, path: Path, words: str, look: DrawingLook) -> tuple[Said, ...]:
    lift = 2.8 if mark.kind in (MarkKind.LENGTHEN, MarkKind.BUTTONHOLE) else 1.3
    baseline = _Baseline(words, _LETTER * look.scale, lift * look.scale, look.upright)
    half = width_of(words, baseline.size) / 2.0 / path.length
    shares = [share for share in _SPOTS if half <= share <= 1.0 - half] or [0.5]
    return tuple(baseline.beside(path, share, side) for share in shares for side in (1.0, -1.0))


def _beside_point(mark: Mark, words: str, look: DrawingLook) -> tuple[Said, ...]:
    """To the right of a point, else to its left, else over or under it."""
    size, away = _LETTER * look.scale, 4.5 * look.scale
    places = (
        (away, 0.0, Anchor.START),
        (-away, 0.0, Anchor.END),
        (0.0, away, Anchor.MIDDLE),
        (0.0, -away, Anchor.MIDDLE),
    )
    return tuple(
        Said(
            mark.at.plus(Point(x, y - size * 0.33).turned(look.upright, Point(0.0, 0.0))),
            words,
            Lettering(size, look.upright, anchor, Face.ITALIC),
        )
        for x, y, anchor in places
    )


def _grain(piece: Piece, look: DrawingLook) -> Iterator[tuple[Said, ...]]:
    """The word along the grain arrow, where it is long enough."""
    start, end = piece.grain.start, piece.grain.end
    if start.distance(end) >= 45.0 * look.scale:
        baseline = _Baseline("grain", _LETTER * look.scale, 1.4 * look.scale, look.upright)
        arrow = Path.through(start, end)
        yield tuple(baseline.beside(arrow, share, side) for share in _GRAIN_SPOTS for side in (1.0, -1.0))


def _seams(piece: Piece, look: DrawingLook) -> Iterator[Iterator[Said]]:
    for edge in piece.edges:
        words = look.edge_words.get((piece.name, edge.name), "")
        if words and not edge.fold:
            yield _along_edge(edge, words, look)


def _along_edge(edge: Edge, words: str, look: DrawingLook) -> Iterator[Said]:
    """Words in the allowance of an edge where it is wide enough, else just inside it; only along straight runs."""
    size = _SEAM_LETTER * look.scale
    wide, whole = width_of(words, size, Face.ITALIC), edge.path.length
    if wide > _MOST_OF_EDGE * whole:
        return
    roomy = edge.allowance.width >= 2.4 * size
    for out in (edge.allowance.width / 2.0, -1.6 * size) if roomy else (-1.6 * size,):
        for share in _SPOTS:
            along = share * whole
            if wide / 2.0 <= along <= whole - wide / 2.0 and _is_straight(edge.path, along, wide):
                yield _at_edge(edge, along, out, Said(Point(0.0, 0.0), words, Lettering(size, look.upright)))


def _is_straight(path: Path, along: float, wide: float) -> bool:
    a, b = path.point_at(along - wide / 2.0), path.point_at(along + wide / 2.0)
    return a.between(b, 0.5).distance(path.point_at(along)) <= _STRAYS


def _at_edge(edge: Edge, along: float, out: float, said: Said) -> Said:
    """The words with the middle of their small letters `out` mm outside an edge; their angle tells what is upright."""
    size, wide = said.lettering.size, width_of(said.words, said.lettering.size, Face.ITALIC)
    way = edge.path.point_at(along + wide / 2.0).minus(edge.path.point_at(along - wide / 2.0))
    angle = readable(atan2(way.y, way.x), said.lettering.angle)
    up = Point(0.0, 1.0).turned(angle, Point(0.0, 0.0))
    at = edge.path.point_at(along).plus(inward(edge, along).scaled(-out)).plus(up.scaled(-0.25 * size))
    return Said(at, said.words, Lettering(size, angle, Anchor.MIDDLE, Face.ITALIC))
