"""Where a piece's title goes in the picture of a lay: inside its outline, or as a number that a key explains."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from unicodedata import east_asian_width

from shapely import Polygon, box, prepare

__all__ = ["Label", "label_in", "line_width", "number_in"]

#: Sizes of lettering tried, in picture units (CSS pixels at full width), the easiest to read first.
SIZES = (14.0, 13.0, 12.5)
#: Height of a line, and room kept clear round the words, as a share of the size.
LEADING = 1.2
CLEAR = 0.35
#: Widest average letter of a plain sans serif, as a share of the size: never too narrow for a title.
LETTER = 0.6


@dataclass(frozen=True, slots=True)
class Label:
    """Lines of words, centred on a point of the picture (units, y down), in one size."""

    x: float
    y: float
    size: float
    lines: tuple[str, ...]


def line_width(words: str, size: float) -> float:
    """A width that words in a sans serif of this size do not exceed, in the unit of the size."""
    return sum((1.0 if east_asian_width(letter) in "WF" else LETTER) * size for letter in words)


def label_in(outline: Polygon, title: str, deepest: tuple[float, float]) -> Label | None:
    """The title in the largest size and the fewest lines that fit inside the outline; None when none does."""
    prepare(outline)
    for size in SIZES:
        for lines in _wrapped(title):
            spot = _spot_for(outline, lines, size, deepest)
            if spot is not None:
                return Label(*spot, size, lines)
    return None


def number_in(outline: Polygon, number: int, deepest: tuple[float, float]) -> Label:
    """The number at the deepest point, as large as its piece allows and never too small to read."""
    x, y = deepest
    room = outline.exterior.distance(box(x, y, x, y))
    return Label(x, y, min(12.0, max(9.0, room * 1.6)), (str(number),))


def _wrapped(title: str) -> Iterator[tuple[str, ...]]:
    """The title on one line, on two of nearly equal length, and word by word."""
    words = title.split()
    yield (" ".join(words),)
    if len(words) > 1:
        cuts = [(" ".join(words[:k]), " ".join(words[k:])) for k in range(1, len(words))]
        yield min(cuts, key=lambda pair: max(map(len, pair)))
    if len(words) > 2:
        yield tuple(words)


def _spot_for(
    outline: Polygon, lines: tuple[str, ...], size: float, deepest: tuple[float, float]
) -> tuple[float, float] | None:
    half_width = max(line_width(line, size) for line in lines) / 2.0 + CLEAR * size
    half_height = len(lines) * LEADING * size / 2.0 + CLEAR * size / 2.0
    for x, y in _spots(outline, deepest):
        if outline.contains(box(x - half_width, y - half_height, x + half_width, y + half_height)):
            return x, y
    return None


def _spots(outline: Polygon, deepest: tuple[float, float]) -> Iterator[tuple[float, float]]:
    """Places to try, the quietest first: the centroid, the deepest point, then a grid outwards from the centroid."""
    centre = outline.centroid
    yield centre.x, centre.y
    yield deepest
    left, bottom, right, top = outline.bounds
    grid = [
        (left + (right - left) * i / 16.0, bottom + (top - bottom) * j / 10.0)
        for i in range(1, 16)
        for j in range(1, 10)
    ]
    yield from sorted(grid, key=lambda p: (p[0] - centre.x) ** 2 + (p[1] - centre.y) ** 2)
