"""The grading table: how long every edge is in the smallest size, and what it gains from size to size."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path as FilePath

from app.pattern.drawing import Anchor, Face, Lettering, LineStyle, PdfPen
from app.pattern.geometry import Box, Path, Point
from app.pattern.pieces.edge_words import edge_words
from app.pattern.pieces.model import Pattern
from app.pattern.sheets.book import Book
from app.pattern.sheets.cover import draw_heading
from app.pattern.sheets.info import PrintInfo
from app.pattern.sheets.paper import Paper
from app.pattern.sheets.setting import fitted
from app.pattern.units import Unit, show_difference, show_length

__all__ = ["GradeRow", "grading_csv", "grading_rows", "write_grading_pdf"]

_ROW, _TEXT, _NAMES = 5.4, 3.5, 62.0
_COLUMN = 17.0


@dataclass(frozen=True, slots=True)
class GradeRow:
    """One edge: its piece's title, its name in words, and its stitched length in mm in each size."""

    piece: str
    edge: str
    lengths: tuple[float, ...]

    @property
    def gains(self) -> tuple[float, ...]:
        """What the edge gains from each size to the next, mm."""
        return tuple(larger - smaller for smaller, larger in pairwise(self.lengths))


def grading_rows(sizes: Mapping[str, Pattern]) -> tuple[GradeRow, ...]:
    """A row for every edge of every piece, in the pattern's order; the sizes have the same pieces."""
    first = next(iter(sizes.values()))
    return tuple(
        GradeRow(
            piece.title,
            edge_words(piece, edge.name),
            tuple(pattern.piece(piece.name).edge(edge.name).path.length for pattern in sizes.values()),
        )
        for piece in first.pieces
        for edge in piece.edges
    )


def grading_csv(sizes: Mapping[str, Pattern]) -> str:
    """The table as comma-separated values in mm: lengths, then gains."""
    names = tuple(sizes)
    written = io.StringIO()
    table = csv.writer(written, lineterminator="\n")
    table.writerow(["piece", "edge", *(f"{n} mm" for n in names), *(f"{a} to {b} mm" for a, b in pairwise(names))])
    for row in grading_rows(sizes):
        table.writerow([row.piece, row.edge, *(f"{mm:.1f}" for mm in (*row.lengths, *row.gains))])
    return written.getvalue()


def write_grading_pdf(sizes: Mapping[str, Pattern], info: PrintInfo, paper: Paper, path: FilePath) -> None:
    """The table as pages to print: the smallest size in full, the others as what they gain on the size before."""
    book = Book(path, info, "Grading table: what each edge gains from size to size")
    rows, sheet = list(grading_rows(sizes)), paper.upright
    page = 0
    while rows:
        page += 1
        pen = book.open_page(sheet.width, sheet.height, label=str(page), marks=(f"page {page}",))
        room = Box(sheet.margin, sheet.margin, sheet.width - sheet.margin, sheet.height - sheet.margin)
        top = draw_heading(pen, room, info) - 8.0
        fits = max(1, int((top - room.bottom) / _ROW) - 3)
        _page(pen, Box(room.left, room.bottom, room.right, top), tuple(sizes), rows[:fits], info.unit)
        del rows[:fits]
        book.close_page()
        book.bookmark(f"Grading table, page {page}", f"page {page}")
    book.close()


def _page(pen: PdfPen, room: Box, sizes: Sequence[str], rows: Sequence[GradeRow], unit: Unit) -> None:
    """Head and rows of one page."""
    step = min(_COLUMN, (room.right - room.left - _NAMES) / len(sizes))
    rights = [room.left + _NAMES + step * (number + 1) for number in range(len(sizes))]
    heads = [f"size {sizes[0]}", *(f"to {size}" for size in sizes[1:])]
    what = f"Stitched length in {unit.value}; then what each size gains on the one before"
    pen.text(Point(room.left, room.top - 2.5), what, Lettering(_TEXT, face=Face.ITALIC))
    y = room.top - 2.2 * _ROW
    for right, head in zip(rights, heads, strict=True):
        pen.text(Point(right, y), head, Lettering(fitted(head, _TEXT, step - 2.0), 0.0, Anchor.END, Face.STRONG))
    pen.line(Path.through(Point(room.left, y - 1.6), Point(rights[-1], y - 1.6)), LineStyle.FURNITURE)
    piece = ""
    for row in rows:
        y -= _ROW
        if row.piece != piece:
            title = fitted(row.piece, _TEXT, 30.0, Face.STRONG)
            pen.text(Point(room.left, y), row.piece, Lettering(title, face=Face.STRONG))
            piece = row.piece
        pen.text(Point(room.left + 32.0, y), row.edge, Lettering(fitted(row.edge, _TEXT, _NAMES - 33.0)))
        for right, words in zip(rights, _figures(row, unit), strict=True):
            pen.text(Point(right, y), words, Lettering(_TEXT, 0.0, Anchor.END))


def _figures(row: GradeRow, unit: Unit) -> tuple[str, ...]:
    gains = (show_difference(larger, smaller, unit, named=False) for smaller, larger in pairwise(row.lengths))
    return (show_length(row.lengths[0], unit, named=False), *(_signed(gain) for gain in gains))


def _signed(gain: str) -> str:
    """A gain with its sign, or a plain 0."""
    if not any(digit in "123456789" for digit in gain):
        return "0"
    return f"−{gain[1:]}" if gain.startswith("-") else f"+{gain}"
