"""Writes the pattern for a home printer: a first page, then one page for each sheet of the wall."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path as FilePath

from app.pattern.drawing import Palette, PdfPen
from app.pattern.drawing.curves import rectangle
from app.pattern.drawing.look import GREY
from app.pattern.drawing.record import Drawn, RecordPen, box_of_points, replay
from app.pattern.geometry import Box, Path, Point, Transform
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem
from app.pattern.sheets.artwork import Artwork, OnePattern, Ply
from app.pattern.sheets.book import Book, draw_ply
from app.pattern.sheets.cover import draw_cover
from app.pattern.sheets.footprint import quarter
from app.pattern.sheets.info import PrintInfo, info_problems
from app.pattern.sheets.joins import draw_frame, draw_joint, joints_of
from app.pattern.sheets.plan import Sheet, SheetPlan
from app.pattern.sheets.plate import Plate, quiet_place

__all__ = ["joints_under", "write_tiled_artwork", "write_tiled_pdf"]

#: How far the drawing runs on beyond the frame, so that a joint a hair off shows no gap, mm.
BLEED = 2.0


def write_tiled_pdf(
    plan: SheetPlan, pattern: Pattern, info: PrintInfo, path: FilePath, *, palette: Palette = GREY
) -> tuple[Problem, ...]:
    """Write the tiled PDF for a plan made from this pattern; returns warnings about the words on it, if any."""
    return write_tiled_artwork(plan, OnePattern(pattern, info, plan.style), info, path, palette=palette)


def write_tiled_artwork(
    plan: SheetPlan, art: Artwork, info: PrintInfo, path: FilePath, *, palette: Palette = GREY
) -> tuple[Problem, ...]:
    """Write the tiled PDF of any artwork for the plan made from it; returns warnings about the words on it, if any."""
    joints = joints_under(plan)
    plies = {p.piece: art.plies(p.piece, joints[p.piece], p.turns) for p in plan.placed}
    book = Book(path, info, f"Sewing pattern on {plan.paper.title}, true to scale at 100 %", art.layers)
    start = plan.paper.upright
    draw_cover(plan, art, info, book.open_page(start.width, start.height, label="start", marks=("start",)))
    book.close_page()
    for sheet in plan.sheets:
        marks_here = tuple(_marks_on(plan, sheet))
        pen = book.open_page(plan.paper.width, plan.paper.height, label=sheet.name, marks=marks_here).inked(palette)
        _draw_sheet(book, pen, _SheetJob(plan, sheet, info, plies))
        book.close_page()
    book.bookmark("Print this page first", "start")
    book.bookmark("Sheets", "sheets", under=((f"Sheet {s.name}", f"sheet {s.name}") for s in plan.sheets))
    book.bookmark("Pieces", "pieces", under=((title, f"piece {name}") for name, title in art.pieces))
    book.close()
    return info_problems(info)


def joints_under(plan: SheetPlan) -> dict[str, tuple[Path, ...]]:
    """For each piece, the frames of the sheets it lies on, in the piece's own frame."""
    found = {}
    for placed in plan.placed:
        back = Transform.move(-placed.transform.dx, -placed.transform.dy).then(quarter(-placed.turns))
        found[placed.piece] = tuple(rectangle(*s.box).transformed(back) for s in plan.sheets_of(placed.piece))
    return found


class _SheetJob:
    """What is needed to draw one sheet."""

    def __init__(self, plan: SheetPlan, sheet: Sheet, info: PrintInfo, plies: Mapping[str, tuple[Ply, ...]]) -> None:
        self.plan, self.sheet, self.info = plan, sheet, info
        wide, high = plan.paper.printable
        margin = plan.paper.margin
        self.frame = Box(margin, margin, margin + wide, margin + high)
        bleed = min(BLEED, margin)
        self.clip = Box(margin - bleed, margin - bleed, margin + wide + bleed, margin + high + bleed)
        to_page = Transform.move(margin - sheet.box.left, margin - sheet.box.bottom)
        places = {p.piece: p.transform.then(to_page) for p in plan.placed}
        here = [(ply, places[name]) for name in sheet.pieces for ply in plies[name]]
        self.plies = tuple((self._shown(ply, place), place) for ply, place in here)

    def _shown(self, ply: Ply, place: Transform) -> Ply:
        return replace(ply, marks=tuple(mark for mark in ply.marks if _shows(mark, place, self.clip)))

    @property
    def drawn(self) -> tuple[tuple[Drawn, Transform], ...]:
        """Every mark on the sheet with its place."""
        return tuple((mark, place) for ply, place in self.plies for mark in ply.marks)


def _shows(mark: Drawn, place: Transform, clip: Box) -> bool:
    """True when a mark's box, on the page, meets the part of the page that is drawn on."""
    low_x, low_y, high_x, high_y = mark.bounds
    corners = (Point(low_x, low_y), Point(high_x, low_y), Point(high_x, high_y), Point(low_x, high_y))
    box = box_of_points(place.apply(p) for p in corners)
    return box.left < clip.right and box.right > clip.left and box.bottom < clip.top and box.top > clip.bottom


def _draw_sheet(book: Book, pen: PdfPen, job: _SheetJob) -> None:
    """The page's furniture first, the pattern over it."""
    furniture = RecordPen()
    draw_frame(job.frame, furniture)
    for joint in joints_of(job.plan, job.sheet, job.frame):
        draw_joint(joint, furniture, job.plan.join)
    replay(furniture.marks, pen)
    taken = (*job.drawn, *((mark, Transform()) for mark in furniture.marks))
    plate = Plate.of(job.plan, job.sheet, job.info)
    plate.draw(pen, quiet_place(job.frame, plate.size, taken))
    book.clip(job.clip)
    for ply, place in job.plies:
        draw_ply(book, pen.moved(place), ply)
    book.unclip()


def _marks_on(plan: SheetPlan, sheet: Sheet) -> Iterator[str]:
    """The marks for bookmarks that lead to a sheet: its own, and those of pieces that begin on it."""
    yield f"sheet {sheet.name}"
    if sheet is plan.sheets[0]:
        yield from ("sheets", "pieces")
    for placed in plan.placed:
        if plan.sheets_of(placed.piece)[0] is sheet:
            yield f"piece {placed.piece}"
