"""Finds a calm place for a piece's title block: inside, upright or along the piece, clear of every mark."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import ceil, cos, pi, sin

import numpy as np
from numpy.typing import NDArray
from shapely import buffer, contains_xy, prepare, unary_union
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from app.pattern.drawing.curves import polygon, ring
from app.pattern.drawing.fonts import CAP_HEIGHT, width_of
from app.pattern.drawing.pen import Anchor, FillStyle, Lettering, LineStyle, Pen
from app.pattern.drawing.record import Drawn, Filled, Lined, text_corners
from app.pattern.drawing.words import TitleLine
from app.pattern.geometry import Path, Point

__all__ = ["Block", "block_beside", "block_inside", "draw_block"]

_LEADING = 1.32
_SCALES = (1.0, 0.9, 0.8, 0.72, 0.64, 0.57, 0.5)
_CLEAR = 2.5
#: Cells narrower than twice the clearance, so that no fine line slips between two of their middles.
_CELL = 3.0


@dataclass(frozen=True, slots=True)
class Block:
    """A title block in its place: the middle of its box, its turn in radians, and the scale of its letters.

    `leader` is where a fine line leads to when the block stands beside its piece;
    `blanks` when what lies under the block is blanked out first.
    """

    lines: tuple[TitleLine, ...]
    middle: Point
    angle: float
    scale: float
    leader: tuple[Point, Point] | None = None
    blanks: bool = False

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of its box, mm."""
        return _block_size(self.lines, self.scale)

    @property
    def corners(self) -> tuple[Point, ...]:
        """The corners of its box, anticlockwise, mm."""
        wide, high = self.size
        c, s = cos(self.angle), sin(self.angle)
        signs = ((-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5))
        return tuple(self.middle.moved(c * i * wide - s * j * high, s * i * wide + c * j * high) for i, j in signs)


def _block_size(lines: tuple[TitleLine, ...], scale: float) -> tuple[float, float]:
    wide = max(width_of(line.words, line.size, line.face) for line in lines)
    high = sum(line.size * _LEADING for line in lines) - lines[-1].size * (_LEADING - 1.0)
    return wide * scale, high * scale


def block_inside(
    outline: Path,
    drawn: Iterable[Drawn],
    choices: tuple[tuple[TitleLine, ...], ...],
    look_scale: float = 1.0,
    upright: float = 0.0,
) -> Block | None:
    """The largest block that fits inside a closed outline clear of what is drawn; None when none does.

    `choices` are the blocks to try, fullest first; each is tried at `look_scale` and down to half of it, level for
    the reader (`upright`, a quarter turn or none, in radians) before standing.
    """
    room = _Room.of(outline, drawn, look_scale)
    if room is None:
        return None
    for lines in choices:
        for scale in (look_scale * part for part in _SCALES):
            for angle in (upright, upright + pi / 2.0):
                wide, high = _block_size(lines, scale)
                size = (high, wide) if abs(sin(angle)) > 0.5 else (wide, high)
                middle = room.place(*size)
                if middle is not None:
                    return Block(lines, middle, angle, scale)
    return None


def block_beside(outline: Path, lines: tuple[TitleLine, ...], look_scale: float = 1.0) -> Block:
    """The block to the right of a small piece, with a leader to a dot just inside its outline."""
    scale, gap = 0.57 * look_scale, 6.0 * look_scale
    wide, _ = _block_size(lines, scale)
    shape = Polygon(outline.flatten(0.1))
    left, bottom, right, top = shape.bounds
    height = (bottom + top) / 2.0
    across = shape.intersection(LineString([(left, height), (right, height)]))
    edge = right if across.is_empty else float(across.bounds[2])
    middle = Point(right + gap + wide / 2.0, height)
    leader = (Point(right + gap - 1.0, height), Point(edge - 2.0 * look_scale, height))
    return Block(lines, middle, 0.0, scale, leader)


def draw_block(block: Block, pen: Pen) -> None:
    """Set a block's lines, centred, and its leader."""
    if block.blanks:
        pen.fill(polygon(*block.corners), FillStyle.PAPER)
    if block.leader is not None:
        pen.line(Path.through(*block.leader), LineStyle.LABEL_LEADER)
        pen.fill(ring(block.leader[1], 1.2 * block.scale), FillStyle.INK)
    _, high = block.size
    c, s = cos(block.angle), sin(block.angle)
    down = high / 2.0
    for line in block.lines:
        size = line.size * block.scale
        baseline = down - size * (0.5 + CAP_HEIGHT / 2.0)
        at = block.middle.moved(-s * baseline, c * baseline)
        pen.text(at, line.words, Lettering(size, block.angle, Anchor.MIDDLE, line.face))
        down -= size * _LEADING


def _shapes(drawn: Iterable[Drawn]) -> Iterator[BaseGeometry]:
    """What a block must keep clear of; outlines are left out, since the room already ends there."""
    for mark in drawn:
        if isinstance(mark, Lined):
            if mark.style not in (LineStyle.CUTTING, LineStyle.STITCHING):
                yield LineString(mark.path.flatten(0.5))
        elif isinstance(mark, Filled):
            if mark.style is FillStyle.INK:
                yield Polygon(mark.path.flatten(0.5))
        else:
            yield Polygon(text_corners(mark.at, mark.words, mark.lettering))


@dataclass(frozen=True, slots=True)
class _Room:
    """Which cells of a grid over the piece are free, as sums over all cells below and to the left."""

    sums: NDArray[np.int64]
    corner: Point
    cell: Point
    heart: Point

    @classmethod
    def of(cls, outline: Path, drawn: Iterable[Drawn], scale: float) -> _Room | None:
        """The free room inside an outline; None when there is none at all."""
        inside = Polygon(outline.flatten(0.3)).buffer(-1.2 * _CLEAR * scale)
        taken = unary_union(buffer(list(_shapes(drawn)), _CLEAR * scale, quad_segs=16))
        free = inside.difference(taken)
        if free.is_empty:
            return None
        left, bottom, right, top = free.bounds
        across, up = (max(12, ceil(way / (_CELL * scale))) for way in (right - left, top - bottom))
        cell = Point((right - left) / across, (top - bottom) / up)
        xs = left + cell.x * (np.arange(across) + 0.5)
        ys = bottom + cell.y * (np.arange(up) + 0.5)
        prepare(free)
        mask = contains_xy(free, *np.meshgrid(xs, ys))
        sums = np.zeros((len(ys) + 1, len(xs) + 1), dtype=np.int64)
        sums[1:, 1:] = mask.cumsum(0).cumsum(1)
        heart = inside.centroid
        return cls(sums, Point(left, bottom), cell, Point(heart.x, heart.y))

    def place(self, wide: float, high: float) -> Point | None:
        """The middle of a free upright box of that size, as near the heart of the piece as may be."""
        nx, ny = int(wide / self.cell.x) + 2, int(high / self.cell.y) + 2
        s = self.sums
        if ny >= s.shape[0] or nx >= s.shape[1]:
            return None
        held = s[ny:, nx:] - s[:-ny, nx:] - s[ny:, :-nx] + s[:-ny, :-nx]
        rows, columns = np.nonzero(held == nx * ny)
        if not len(rows):
            return None
        xs = self.corner.x + (columns + nx / 2.0) * self.cell.x
        ys = self.corner.y + (rows + ny / 2.0) * self.cell.y
        best = int(np.argmin(np.hypot(xs - self.heart.x, ys - self.heart.y)))
        return Point(float(xs[best]), float(ys[best]))
