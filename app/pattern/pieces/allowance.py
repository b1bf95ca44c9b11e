"""The cutting line: every edge moved outward by its seam allowance, with the corners each seam asks for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import radians

from app.pattern.geometry import GeometryError, Path, Point, offset
from app.pattern.pieces.corners import TINY, Arrival, CornerJoint, join_across, join_corner
from app.pattern.pieces.model import CornerCut, Edge
from app.pattern.pieces.spec import Traced
from app.pattern.pieces.welding import welded, without_small_loops
from app.pattern.units import mm

__all__ = ["NoCuttingLine", "cutting_outline"]

#: A turn inside one edge sharper than this (radians) is a corner of its cutting line too.
INNER_CORNER = radians(0.25)
#: Loops in the cutting line no longer than this many of the widest allowance come from tight bends, and are cut off.
LONGEST_LOOP = 4.0


class NoCuttingLine(GeometryError):
    """An edge bends too tightly for any line to run outside it at its allowance; `edge` is its name."""

    def __init__(self, edge: str, width: float) -> None:
        """For the edge of that name and its allowance in mm."""
        super().__init__(f"{edge} bends too tightly for an allowance of {mm(width)}")
        self.edge = edge


@dataclass(frozen=True, slots=True)
class _SmoothSide:
    """A stretch of the outline without a corner in it, in outline order, and its cutting line before corners."""

    stitch: Path
    cut: Path
    width: float
    opening: CornerCut
    closing: CornerCut
    fold: bool = False

    def at_end(self) -> Arrival:
        """The side arriving at the corner at its end."""
        along = self.stitch.segments[-1].tangent(1.0)
        return Arrival(self.stitch.end, along, Point(along.y, -along.x), self.width, self.closing, self.fold, self.cut)

    def at_start(self) -> Arrival:
        """The side arriving, backwards, at the corner at its start."""
        along = self.stitch.segments[0].tangent(0.0)
        out = Point(along.y, -along.x)
        cut = self.cut.reversed()
        return Arrival(self.stitch.start, along.scaled(-1.0), out, self.width, self.opening, self.fold, cut)


def cutting_outline(traced: Traced) -> Path:
    """The closed anticlockwise line to cut along, mm: outside the stitching line by each edge's allowance.

    Smooth joints of equal width stay smooth; a dart's cap takes the allowances of the
    edges beside it and keeps its peak.
    """
    sides = list(_sides(traced))
    if len(sides) == 1:
        return _alone(sides[0])
    joints = [join_corner(a.at_end(), b.at_start()) for a, b in _around(sides)]
    sides, joints = _without_swallowed(sides, joints)
    return without_small_loops(_assembled(sides, joints), LONGEST_LOOP * max(side.width for side in sides))


def _sides(traced: Traced) -> Iterator[_SmoothSide]:
    caps = dict(zip(traced.mouths, traced.darts, strict=True))
    count = len(traced.edges)
    for i, edge in enumerate(traced.edges):
        yield from _edge_sides(edge)
        if i in caps:
            widths = (edge.allowance.width, traced.edges[(i + 1) % count].allowance.width)
            # A dart's cap on either side of its peak
            first, second = caps[i].cap.segments
            for half, width in zip((Path((first,)), Path((second,))), widths, strict=True):
                yield _SmoothSide(half, _moved_out(caps[i].name, half, width), width, CornerCut.PLAIN, CornerCut.PLAIN)


def _edge_sides(edge: Edge) -> Iterator[_SmoothSide]:
    """The edge in outline order, parted at its inner corners; its own corner rule holds at its two ends."""
    # The path parted wherever it turns a corner between two segments
    path = edge.path if edge.with_outline else edge.path.reversed()
    parts, run = [], [path.segments[0]]
    for before, after in pairwise(path.segments):
        if abs(before.tangent(1.0).turn_to(after.tangent(0.0))) > INNER_CORNER:
            parts.append(Path(tuple(run)))
            run = []
        run.append(after)
    parts = [*parts, Path(tuple(run))]
    last = len(parts) - 1
    corner = edge.allowance.corner
    for i, part in enumerate(parts):
        opening = corner if i == 0 else CornerCut.PLAIN
        closing = corner if i == last else CornerCut.PLAIN
        width = 0.0 if edge.fold else edge.allowance.width
        yield _SmoothSide(part, _moved_out(edge.name, part, width), width, opening, closing, edge.fold)


def _moved_out(name: str, part: Path, width: float) -> Path:
    """The parallel line `width` mm outside; raises `NoCuttingLine` where there is none."""
    if width <= TINY:
        return part
    try:
        return offset(part, -width)
    except GeometryError as reason:
        raise NoCuttingLine(name, width) from reason


def _around(sides: Sequence[_SmoothSide]) -> list[tuple[_SmoothSide, _SmoothSide]]:
    return [(side, sides[(i + 1) % len(sides)]) for i, side in enumerate(sides)]


def _alone(side: _SmoothSide) -> Path:
    """The cutting line of a piece with one edge all round, such as a circle."""
    joint = join_corner(side.at_end(), side.at_start())
    return _assembled([side], [joint])


def _without_swallowed(
    sides: list[_SmoothSide], joints: list[CornerJoint]
) -> tuple[list[_SmoothSide], list[CornerJoint]]:
    """Leave out sides that their neighbours' cutting lines swallow whole in a hollow corner."""
    while len(sides) > 2:
        spare = [sides[i].cut.length - joints[i].back - joints[i - 1].forth for i in range(len(sides))]
        worst = min(range(len(sides)), key=spare.__getitem__)
        if spare[worst] > -TINY:
            break
        before, after = sides[worst - 1], sides[(worst + 1) % len(sides)]
        joints[worst - 1] = join_across(before.at_end(), after.at_start())
        del sides[worst], joints[worst]
    return sides, joints


def _assembled(sides: Sequence[_SmoothSide], joints: Sequence[CornerJoint]) -> Path:
    stretches: list[Path] = []
    for i, side in enumerate(sides):
        first, last = joints[i - 1].forth, side.cut.length - joints[i].back
        if last - first > TINY:
            whole = first <= TINY and joints[i].back <= TINY
            stretches.append(side.cut if whole else side.cut.part(first, last))
        way = joints[i].way
        if way is not None:
            stretches.append(way)
    return welded(segment for stretch in stretches for segment in stretch.segments)
