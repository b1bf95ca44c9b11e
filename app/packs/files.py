"""The files of a pack: a row for each, with its name, its title, when there is one, and who writes it.

A new file of a pack is a row here and its writer; whoever asks for one by its name takes that from `request.py`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from app.packs.instructions import SheetFor, instruction_pdf, instruction_sheet
from app.packs.plan import PackPlan
from app.packs.report import SheetCount, report, report_bytes
from app.packs.request import ONE_SHEET_FILE, PROJECTOR_FILE
from app.packs.sides import sides_words
from app.packs.stages import Stage
from app.pattern.drawing import Lines
from app.pattern.exchange import StyleInfo, write_dxf, write_svg_files
from app.pattern.plain_words import for_maker, in_plain_words, titles_of
from app.pattern.sheets import write_projector_pdf, write_roll_pdf, write_tiled_pdf
from app.pattern.units import Unit

__all__ = ["FILES", "FileRow", "files_of", "notes_of"]

#: Every member of a zip carries the earliest date the format knows: equal packs have equal bytes.
_ZIP_DATE = (1980, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class FileRow:
    """A file of a pack. `{paper.name}` and `{paper.title}` in its name and title are those of the printer's paper.

    `write` puts it under that name into a folder; `stage` tells when; `there` whether a plan has it at all; `printed`
    tells of a file of patterns what it is printed on and on how many pages.
    """

    name: str
    title: str
    stage: Stage
    write: Callable[[PackPlan, Path], None]
    there: Callable[[PackPlan], bool] = lambda plan: True
    printed: Callable[[PackPlan], tuple[str, int]] | None = None

    def name_in(self, plan: PackPlan) -> str:
        """The file's name in this pack."""
        return self.name.format(paper=plan.sheets.paper)

    def title_in(self, plan: PackPlan) -> str:
        """What the file is, for people."""
        return self.title.format(paper=plan.sheets.paper)


def files_of(plan: PackPlan) -> tuple[FileRow, ...]:
    """The files of a pack, in the order to show."""
    return tuple(row for row in FILES if row.there(plan))


def notes_of(plan: PackPlan) -> tuple[str, ...]:
    """What she is to look at before she cuts."""
    return in_plain_words(for_maker(plan.made.findings), titles_of(plan.made.pattern))


def _instructions(plan: PackPlan, path: Path) -> None:
    request = plan.request
    # Who prints on paper measured in inches is given the instructions on US Letter.
    american = request.paper.startswith(("letter", "legal", "tabloid")) or "in" in request.paper
    to = SheetFor(
        title=request.title,
        customer=request.customer,
        studio=request.studio,
        order_number=request.order_number,
        unit=Unit(request.unit),
        paper="letter" if american else "a4",
        lines=Lines(request.prints.lines),
        projector=plan.projector is not None,
    )
    # Figures of her body stand in the files alone, so this is no note that an order's page keeps.
    notes = (*sides_words(request.sides, to.unit), *notes_of(plan))
    path.write_bytes(instruction_pdf(instruction_sheet(plan.made, plan.lay_plans, to, notes)))


def _tiled(plan: PackPlan, path: Path) -> None:
    write_tiled_pdf(plan.sheets, plan.made.pattern, plan.info, path)


def _one_sheet(plan: PackPlan, path: Path) -> None:
    assert plan.roll is not None
    write_roll_pdf(plan.roll, plan.made.pattern, plan.info, path)


def _projector(plan: PackPlan, path: Path) -> None:
    assert plan.projector is not None
    write_projector_pdf(plan.projector, plan.made.pattern, plan.info, path)


def _style(plan: PackPlan) -> StyleInfo:
    request = plan.request
    return StyleInfo(request.title, request.order_number, request.customer, request.studio)


def _dxf(plan: PackPlan, path: Path) -> None:
    write_dxf(plan.made.pattern, _style(plan), path)


def _pieces_svg(plan: PackPlan, path: Path) -> None:
    with TemporaryDirectory(dir=path.parent) as loose:
        _zip(Path(loose), write_svg_files(plan.made.pattern, _style(plan), Path(loose)), path)


def _report(plan: PackPlan, path: Path) -> None:
    counts = tuple(
        SheetCount(row.name_in(plan), *row.printed(plan)) for row in files_of(plan) if row.printed is not None
    )
    path.write_bytes(report_bytes(report(plan.made, plan.lay_plans, counts)))


def _everything(plan: PackPlan, path: Path) -> None:
    names = tuple(row.name_in(plan) for row in files_of(plan) if row.write is not _everything)
    _zip(path.parent, names, path)


def _zip(folder: Path, names: tuple[str, ...], path: Path) -> None:
    with ZipFile(path, "w") as archive:
        for name in names:
            member = ZipInfo(name, _ZIP_DATE)
            member.compress_type = ZIP_STORED if name.endswith((".pdf", ".zip")) else ZIP_DEFLATED
            archive.writestr(member, (folder / name).read_bytes())


#: In the order to show; within a stage they are written in this order too.
FILES = (
    FileRow("instructions.pdf", "Instructions, with your own figures", Stage.INSTRUCTIONS, _instructions),
    FileRow(
        "pattern-{paper.name}.pdf",
        "Pattern for {paper.title} paper",
        Stage.PRINT,
        _tiled,
        # The first page carries the figures of the scale and the map.
        printed=lambda plan: (plan.sheets.paper.name, 1 + len(plan.sheets.sheets)),
    ),
    FileRow(
        ONE_SHEET_FILE,
        "Pattern on one sheet, for a copy shop or plotter",
        Stage.PRINT,
        _one_sheet,
        there=lambda plan: plan.roll is not None,
        printed=lambda plan: ("one sheet", 1),
    ),
    FileRow(
        PROJECTOR_FILE,
        "Pattern for a projector, with a grid and layers",
        Stage.PRINT,
        _projector,
        there=lambda plan: plan.projector is not None,
        printed=lambda plan: ("projector", 1),
    ),
    FileRow("pattern.dxf", "Pattern for cutting machines and plotters (DXF, millimetres)", Stage.PRINT, _dxf),
    FileRow("pieces-svg.zip", "Each piece at true scale, for drawing programs (SVG)", Stage.PRINT, _pieces_svg),
    FileRow("report.json", "Every figure of the pattern, for machines", Stage.REPORT, _report),
    FileRow("everything.zip", "Everything in one file", Stage.REPORT, _everything),
)
