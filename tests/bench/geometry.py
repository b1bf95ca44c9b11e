"""How long the geometry takes, in microseconds; by hand: python tests/bench/geometry.py (in the project's root)."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path as File
from timeit import repeat

sys.path.insert(0, str(File(__file__).parents[2]))

from app.pattern.geometry import (
    Cubic,
    Path,
    Point,
    crossings,
    curve,
    is_simple,
    nearest,
    offset,
    smooth,
    spans_at,
)

ARMHOLE = (Point(0, 0), Point(2, 95), Point(60, 150), Point(128, 152))
OTHER = Path((Cubic(Point(0, 100), Point(50, 60), Point(80, 110), Point(140, 60)),))
OUTLINE = smooth([Point(0, 0).polar(r, i) for i, r in enumerate((150, 130, 140, 150, 130, 145))], closed=True)


def microseconds(work: Callable[[], object], times: int = 300) -> float:
    """The best of five runs, per call."""
    return min(repeat(work, number=times, repeat=5)) / times * 1e6


def main() -> None:
    """Print one line for each kind of work."""
    path = Path((Cubic(*ARMHOLE),))
    works: dict[str, Callable[[], object]] = {
        "length of a fresh cubic": lambda: Cubic(*ARMHOLE).length,
        "point at a distance": lambda: path.point_at(77.0),
        "curve": lambda: curve(ARMHOLE[0], ARMHOLE[3], 1.5, 0.1),
        "nearest": lambda: nearest(path, Point(80, 80)),
        "crossing of a line and a cubic": lambda: crossings(path, Path.through(Point(0, 90), Point(140, 60))),
        "crossing of two cubics": lambda: crossings(path, OTHER),
        "offset of a cubic": lambda: offset(path, 10.0),
        "offset of a closed outline of six": lambda: offset(OUTLINE, -10.0),
        "is it simple": lambda: is_simple(OUTLINE),
        "its width at a height": lambda: spans_at(OUTLINE, 20.0),
    }
    for name, work in works.items():
        print(f"{name:36s} {microseconds(work):9.1f} µs")


if __name__ == "__main__":
    main()
