"""Where one shape may not lie beside another: convex parts, and tables of forbidden shifts row by row across the cloth.

For shapes A (lying) and B (coming), with B shifted by (dx, dy) from A, the forbidden
dx at one dy are a few intervals: the slice of the no-fit polygon at that height. All
pieces lie on rows `step` mm apart, so the heights that matter are whole steps and the
slices can be worked out once for each pair of shapes.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon, constrained_delaunay_triangles, intersects

__all__ = ["NOTHING", "Convex", "convex_parts", "forbidden_shifts", "mirrored_parts", "negated", "turned_parts"]

Floats = NDArray[np.float64]

#: An interval that forbids no shift.
NOTHING = (np.inf, -np.inf)
#: Two parts become one while their hull is at most this much more cloth, mm2 (a thousandth of a small piece).
SPARE = 120.0


@dataclass(frozen=True, slots=True)
class Convex:
    """A convex part: where it starts and ends in height, and its left and right sides as runs of (dy, dx) upwards."""

    bottom: float
    left_foot: float
    right_foot: float
    left: Floats
    right: Floats


def convex_parts(polygon: Polygon) -> tuple[Convex, ...]:
    """Convex parts that together cover the polygon and hardly more (mm)."""
    triangles = [part for part in constrained_delaunay_triangles(polygon).geoms if isinstance(part, Polygon)]
    return tuple(_sides(part) for part in _merged(triangles))


def turned_parts(parts: tuple[Convex, ...], width: float, height: float) -> tuple[Convex, ...]:
    """The parts of a shape of that size after half a turn in its place."""
    return tuple(_moved(_reflected(part), width, height) for part in parts)


def mirrored_parts(parts: tuple[Convex, ...], width: float) -> tuple[Convex, ...]:
    """The parts of a shape of that width turned over end for end in its place."""
    return tuple(_mirrored(part, width) for part in parts)


def _merged(triangles: list[Polygon]) -> list[Polygon]:
    """Neighbours joined, the cheapest join first, until every further join would waste more than `SPARE`."""
    parts = list(triangles)
    meeting = intersects(np.array(parts)[:, None], np.array(parts)[None, :])
    pairs = combinations(range(len(parts)), 2)
    cost = {(i, j): c for i, j in pairs if meeting[i, j] and (c := _waste(parts[i], parts[j])) <= SPARE}
    alive = set(range(len(parts)))
    while cost:
        i, j = min(cost, key=lambda pair: (cost[pair], pair))
        new = len(parts)
        parts.append(_hull(parts[i], parts[j]))
        alive -= {i, j}
        cost = {pair: c for pair, c in cost.items() if not {i, j} & set(pair)}
        near = [k for k in sorted(alive) if parts[k].intersects(parts[new])]
        cost |= {(k, new): c for k in near if (c := _waste(parts[k], parts[new])) <= SPARE}
        alive.add(new)
    return [parts[k] for k in sorted(alive)]


def _hull(*parts: Polygon) -> Polygon:
    hull = MultiPolygon(parts).convex_hull
    if not isinstance(hull, Polygon):
        raise TypeError("a part of a piece has no area")
    return hull


def _waste(a: Polygon, b: Polygon) -> float:
    """How much more the hull of two meeting parts covers than they do, mm2."""
    return float(_hull(a, b).area - a.area - b.area)


def _sides(part: Polygon) -> Convex:
    ring = np.asarray(_hull(part).exterior.coords[:-1], dtype=np.float64)
    ring = ring if Polygon(ring).exterior.is_ccw else ring[::-1]
    start = int(np.lexsort((-ring[:, 0], ring[:, 1]))[0])  # lowest, and of those the rightmost: the right side climbs
    ring = np.roll(ring, -start, axis=0)
    ways = np.diff(np.vstack([ring, ring[:1]]), axis=0)[:, ::-1]
    right = ways[ways[:, 0] > 0.0]
    left = -ways[ways[:, 0] < 0.0][::-1]
    lowest = ring[ring[:, 1] <= ring[0, 1]]
    return Convex(float(ring[0, 1]), float(lowest[:, 0].min()), float(ring[0, 0]), left, right)


def _reflected(part: Convex) -> Convex:
    """The part turned about the origin by half a turn: -B."""
    top = part.bottom + float(part.left[:, 0].sum())
    left_head = part.left_foot + float(part.left[:, 1].sum())
    right_head = part.right_foot + float(part.right[:, 1].sum())
    return Convex(-top, -right_head, -left_head, part.right[::-1], part.left[::-1])


def _moved(part: Convex, dx: float, dy: float) -> Convex:
    return Convex(part.bottom + dy, part.left_foot + dx, part.right_foot + dx, part.left, part.right)


def _mirrored(part: Convex, width: float) -> Convex:
    """The part turned over about the upright line at half of `width`."""
    flip = np.array([1.0, -1.0])
    return Convex(part.bottom, width - part.right_foot, width - part.left_foot, part.right * flip, part.left * flip)


def _chain(foot: float, bottom: float, ways: Floats, slopes: Floats) -> tuple[Floats, Floats]:
    """A side of a convex sum: the ways of both parts in the order of their slopes, as (heights, xs)."""
    run = np.vstack([[bottom, foot], ways[np.argsort(slopes, kind="stable")]]).cumsum(axis=0)
    return run[:, 0], run[:, 1]


def _slices(a: Convex, b: Convex, heights: Floats) -> tuple[Floats, Floats]:
    """The least and most forbidden dx at each height for convex A and reflected B; inf and -inf where there is none."""
    bottom = a.bottom + b.bottom
    left, right = np.vstack([a.left, b.left]), np.vstack([a.right, b.right])
    ys, xs = _chain(a.left_foot + b.left_foot, bottom, left, left[:, 1] / left[:, 0])
    low = np.interp(heights, ys, xs, left=np.inf, right=np.inf)
    ys, xs = _chain(a.right_foot + b.right_foot, bottom, right, -right[:, 1] / right[:, 0])
    high = np.interp(heights, ys, xs, left=-np.inf, right=-np.inf)
    return low, high


def forbidden_shifts(a: tuple[Convex, ...], b: tuple[Convex, ...], heights: Floats) -> Floats:
    """The intervals of forbidden dx of B beside A at each dy of `heights`, mm: shape (heights, intervals, 2).

    Unused places hold `NOTHING`.
    """
    turned = [_reflected(part) for part in b]
    pairs = [_slices(one, other, heights) for one in a for other in turned]
    low, high = np.stack([p[0] for p in pairs], axis=1), np.stack([p[1] for p in pairs], axis=1)
    return _joined(low, high)


def _joined(low: Floats, high: Floats) -> Floats:
    """Overlapping intervals of each row joined into as few as there are."""
    order = np.argsort(low, axis=1)
    low, high = np.take_along_axis(low, order, axis=1), np.take_along_axis(high, order, axis=1)
    reach = np.maximum.accumulate(high, axis=1)
    starts = np.isfinite(low)
    starts[:, 1:] &= low[:, 1:] > reach[:, :-1]
    rank = np.cumsum(starts, axis=1) - 1
    table = np.full((len(low), max(1, int(rank.max()) + 1), 2), NOTHING)
    rows, places = np.nonzero(starts)
    table[rows, rank[rows, places], 0] = low[rows, places]
    rows, places = np.nonzero(np.isfinite(low))
    np.maximum.at(table[:, :, 1], (rows, rank[rows, places]), high[rows, places])
    return table


def negated(table: Floats) -> Floats:
    """The table for the two shapes in each other's place (or both turned by half a turn): every shift reversed."""
    return np.ascontiguousarray(-table[::-1, :, ::-1])
