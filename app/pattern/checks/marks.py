"""Marks: buttons, buttonholes and placements lie on the garment, clear of its darts, apart, and evenly in their row.

Why: a pocket placed past the hem line is sewn into the hem, a buttonhole in the allowance disappears in the seam, and
one inside a dart is folded away. Lines of the making (to lengthen, to fold, to gather, to shirr) run out into the
allowance on purpose. A row of buttons is even when moving no one of them would make it so; a first or last one may
stand by itself (common practice). What runs over the cutting line is `allowance`'s.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import shapely

from app.pattern.checks.allowance import MARK_TOLERANCE
from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, LaidPiece, finding
from app.pattern.geometry import Point
from app.pattern.pieces.model import Dart, Mark, MarkKind
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "CLOSE", "OUT"]

#: A mark may leave the stitching line by this much (mm): it is sewn on the line itself then.
OUT = 1.0
#: Two buttons, or two buttonholes, lie further apart than this (mm).
CLOSE = 8.0
#: In an even row one may be off by this much (mm).
EVEN = 2.0
#: A row has at least so many.
_ROW = 4
_PLACED = (MarkKind.PLACE, MarkKind.BUTTON, MarkKind.BUTTONHOLE, MarkKind.DRILL)
_BUTTONS = (MarkKind.BUTTON, MarkKind.BUTTONHOLE)


_ALLOWANCE = Told(
    "checks.mark-in-allowance",
    "A mark lies in a seam allowance or a hem, where it will be turned in. Ask where it belongs before you use it.",
    Severity.WARNING,
)
_DART = Told(
    "checks.mark-in-dart",
    "A mark lies across a dart, which folds it away. Sew the dart first, then measure the place anew.",
    Severity.WARNING,
)
_CLOSE = Told(
    "checks.marks-close",
    "Two buttons or buttonholes lie on each other. Leave one out, or space them evenly by hand.",
    Severity.WARNING,
)
_UNEVEN = Told(
    "checks.marks-uneven",
    "One of a row of buttons or buttonholes is out of its row. Space them evenly by hand.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every mark where nothing can be sewn to it, and every row of buttons with one out of place."""
    for laid in table.pieces:
        if not laid.sound:
            continue
        for mark in laid.piece.marks:
            if mark.kind in _PLACED:
                yield from _in_allowance(laid, mark)
                yield from _in_darts(laid, mark)
        for kind in _BUTTONS:
            row = [mark for mark in laid.piece.marks if mark.kind is kind and mark.path is None]
            close = list(_close(laid, row))
            yield from close or _uneven(laid, row)


def _shape(mark: Mark) -> shapely.Geometry:
    if mark.path is None:
        return shapely.Point(mark.at.x, mark.at.y)
    return shapely.LineString([tuple(point) for point in mark.path.flatten(MARK_TOLERANCE)])


def _in_allowance(laid: LaidPiece, mark: Mark) -> Iterator[Problem]:
    """A mark past the stitching line; one over the cutting line as well is told by the allowance check."""
    points = mark.path.flatten(MARK_TOLERANCE) if mark.path else (mark.at,)
    away = shapely.distance(laid.inside_stitching, shapely.points([tuple(p) for p in points]))
    beyond = shapely.distance(laid.inside_cutting, shapely.points([tuple(p) for p in points]))
    if max(beyond) > MARK_TOLERANCE or max(away) <= OUT:
        return
    worst = points[int(away.argmax())]
    beside = min(laid.piece.edges, key=lambda edge: _off(edge.path.flatten(MARK_TOLERANCE), worst))
    message = (
        f"{_name(laid, mark)} runs {mm(float(max(away)))} past the stitching line at {beside.name}, "
        "into what is turned in there."
    )
    fix = f"Move it so that it ends before {beside.name}."
    measured = Measured(float(max(away)), None, OUT)
    yield _finding(laid, mark, _ALLOWANCE, (message, fix), worst, measured)


def _off(line: Sequence[Point], point: Point) -> float:
    return float(shapely.LineString([tuple(p) for p in line]).distance(shapely.Point(point.x, point.y)))


def _in_darts(laid: LaidPiece, mark: Mark) -> Iterator[Problem]:
    for dart in laid.piece.darts:
        inside = shapely.Polygon([tuple(p) for p in (dart.a, dart.tip, dart.b)])
        # A mark on a leg or at the point itself is the dart's own
        if inside.area > 0.0 and inside.buffer(-OUT).intersects(_shape(mark)):
            yield _finding(laid, mark, _DART, _dart_words(laid, mark, dart), mark.at)
            return


def _dart_words(laid: LaidPiece, mark: Mark, dart: Dart) -> tuple[str, str]:
    message = f"{_name(laid, mark)} lies across the dart {dart.name}, which is folded away when it is sewn."
    return message, "Move it beside the dart, or pivot the dart elsewhere."


def _close(laid: LaidPiece, row: Sequence[Mark]) -> Iterator[Problem]:
    for index, one in enumerate(row):
        for other in row[index + 1 :]:
            gap = one.at.distance(other.at)
            if gap < CLOSE:
                message = f"Two {one.kind.value} marks of {laid.piece.name} lie {mm(gap)} apart."
                fix = "Take one out, or give them their distance."
                yield _finding(laid, other, _CLOSE, (message, fix), other.at, Measured(gap, CLOSE))
                return


def _uneven(laid: LaidPiece, marks: Sequence[Mark]) -> Iterator[Problem]:
    """The one mark inside a row by whose moving alone the row becomes even."""
    if len(marks) < _ROW:
        return
    low, high = _far_ends(marks)
    row = sorted(marks, key=lambda mark: mark.at.distance(low.at))
    last = len(row) - 1
    wanted = [low.at.between(high.at, i / last) for i in range(len(row))]
    off = [mark.at.distance(at) for mark, at in zip(row, wanted, strict=True)]
    out = [i for i, far in enumerate(off) if far > EVEN]
    if len(out) != 1 or not 0 < out[0] < last:
        return
    mark, far = row[out[0]], off[out[0]]
    message = (
        f"One of the {len(row)} {mark.kind.value} marks of {laid.piece.name} is {mm(far)} out of its row: "
        f"the others lie evenly, {mm(_gap(wanted))} apart."
    )
    words = message, f"Move it by {mm(far)}."
    yield _finding(laid, mark, _UNEVEN, words, mark.at, Measured(far, None, EVEN))


def _gap(points: Sequence[Point]) -> float:
    return next(one.distance(other) for one, other in pairwise(points))


def _far_ends(marks: Sequence[Mark]) -> tuple[Mark, Mark]:
    pairs = ((one, other) for i, one in enumerate(marks) for other in marks[i + 1 :])
    return max(pairs, key=lambda pair: pair[0].at.distance(pair[1].at))


def _name(laid: LaidPiece, mark: Mark) -> str:
    return f"The mark “{mark.label or mark.kind.value}” of {laid.piece.name}"


def _finding(
    laid: LaidPiece, mark: Mark, told: Told, words: tuple[str, str], at: Point, measured: Measured | None = None
) -> Problem:
    message, fix = words
    where = Place(laid.piece.name, point=mark.label, at=at)
    return finding(told, message, fix, where, see=(("the mark", mark.span),), measured=measured)


#: The check as every room knows it.
CHECK = Check("marks", "Marks", _run, (_ALLOWANCE, _DART, _CLOSE, _UNEVEN))
