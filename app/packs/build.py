"""The pack of an order: draft, check, lay, print, instruct, report; nothing is written until every check has held."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from hashlib import file_digest
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from app.packs.instructions import SheetFor, instruction_pdf, instruction_sheet
from app.packs.report import SheetCount, report, report_bytes
from app.packs.request import Cloth as ClothChoice
from app.packs.request import PackFile, PackOutcome, PackReady, PackRefused, PackRequest, Progress
from app.pattern.drawing import Lines
from app.pattern.exchange import StyleInfo, write_dxf, write_svg_files
from app.pattern.lay import EFFORT_FULL, Cloth, LayPlan, cloth_of, items_for, plan
from app.pattern.make import Made, Refused, make_pattern
from app.pattern.pieces.model import Fabric
from app.pattern.plain_words import for_maker, in_plain_words, titles_of
from app.pattern.problem import Problem
from app.pattern.settled import Settled, settle
from app.pattern.sheets import (
    Join,
    PrintInfo,
    PrintStyle,
    ProjectorPlan,
    RollPlan,
    SheetPlan,
    info_problems,
    paper_of,
    plan_projector,
    plan_roll,
    plan_sheets,
    write_projector_pdf,
    write_roll_pdf,
    write_tiled_pdf,
)
from app.pattern.units import Unit, show_cloth_length

__all__ = ["Stage", "StageClock", "build_pack", "build_timed"]

#: Every member of a zip carries the earliest date the format knows: equal packs have equal bytes.
_ZIP_DATE = (1980, 1, 1, 0, 0, 0)

#: Further orders of the pieces to try on paper. On our first drafts hardly more sheets were saved by more.
_SHEET_TRIES, _ROLL_TRIES = 20, 8

#: What a PDF page cannot hold is left out and told: the sheets hold the same pieces. All else stops the build.
_LEAVES_OUT = frozenset({"sheets.too-long"})


class Stage(StrEnum):
    """The stages of a build, in order, in words for the customer who waits."""

    DRAFT = "Drafting and checking"
    LAY = "Laying the pieces on the cloth"
    SHEETS = "Planning the sheets"
    PRINT = "Printing the pattern"
    INSTRUCTIONS = "Writing the instructions"
    REPORT = "Writing down every figure"


#: Share of the work done when a stage begins, from builds that were timed.
_BEGUN = {
    Stage.DRAFT: 0.0,
    Stage.LAY: 0.05,
    Stage.SHEETS: 0.5,
    Stage.PRINT: 0.6,
    Stage.INSTRUCTIONS: 0.7,
    Stage.REPORT: 0.95,
}
_TITLES = {
    "instructions.pdf": "Instructions, with your own figures",
    "pattern-one-sheet.pdf": "Pattern on one sheet, for a copy shop or plotter",
    "pattern-projector.pdf": "Pattern for a projector, with a grid and layers",
    "pattern.dxf": "Pattern for cutting machines and plotters (DXF, millimetres)",
    "pieces-svg.zip": "Each piece at true scale, for drawing programs (SVG)",
    "report.json": "Every figure of the pattern, for machines",
    "everything.zip": "Everything in one file",
}


@dataclass(frozen=True, slots=True)
class _Planned:
    """All that is known before a file is written.

    `roll` and `projector` are None where there is no such file; where one was wanted, `left_out` says why.
    """

    made: Made
    lays: Mapping[str, LayPlan]
    sheets: SheetPlan
    roll: RollPlan | None
    projector: ProjectorPlan | None
    left_out: tuple[Problem, ...]


@dataclass(slots=True)
class StageClock:
    """A `Progress` that notes when each stage began by a clock of your choice, and passes it on."""

    clock: Callable[[], float]
    onward: Progress
    begun: list[tuple[str, float]]

    def __call__(self, stage: str, share: float) -> None:
        """Note the time and tell the next listener."""
        self.begun.append((stage, self.clock()))
        self.onward(stage, share)

    def seconds(self) -> tuple[tuple[str, float], ...]:
        """Each stage with its length by the clock; the last one ends now."""
        ends = [moment for _, moment in self.begun[1:]] + [self.clock()]
        return tuple((stage, end - start) for (stage, start), end in zip(self.begun, ends, strict=True))


def build_pack(request: PackRequest, folder: Path, progress: Progress) -> PackOutcome:
    """Build every file of the pack into `folder`, or say every problem and write nothing.

    The same request gives the same bytes, but for the lay of cloth that is laid open:
    its nester works against the clock. The lay used is kept in report.json.
    """
    planned = _plan(request, progress)
    if not isinstance(planned, _Planned):
        return PackRefused(planned)
    return PackReady(_write(request, planned, folder, progress), _summary(request, planned))


def build_timed(
    request: PackRequest, folder: Path, clock: Callable[[], float]
) -> tuple[PackOutcome, tuple[tuple[str, float], ...]]:
    """`build_pack`, with the length of each stage by `clock`."""
    stages = StageClock(clock, lambda stage, share: None, [])
    outcome = build_pack(request, folder, stages)
    return outcome, stages.seconds()


def _plan(request: PackRequest, progress: Progress) -> _Planned | tuple[Problem, ...]:
    _begin(progress, Stage.DRAFT)
    unit = Unit(request.unit)
    made = _made(request, unit)
    if not isinstance(made, Made):
        return made
    _begin(progress, Stage.LAY)
    lays, problems = _lays(request, made)
    if problems:
        return problems
    _begin(progress, Stage.SHEETS)
    prints, style = request.prints, _style(request)
    paper = paper_of(request.paper, prints.margin_mm)
    if isinstance(paper, Problem):
        return (paper,)
    sheets = plan_sheets(made.pattern, paper, tries=_SHEET_TRIES, join=Join(prints.join), style=style)
    if not isinstance(sheets, SheetPlan):
        return sheets
    roll = plan_roll(made.pattern, prints.roll_mm, tries=_ROLL_TRIES, style=style)
    if isinstance(roll, tuple) and any(problem.code not in _LEAVES_OUT for problem in roll):
        return roll
    projector = plan_projector(made.pattern, _info(request), style) if prints.projector else None
    return _Planned(
        made,
        lays,
        sheets,
        roll if isinstance(roll, RollPlan) else None,
        projector if isinstance(projector, ProjectorPlan) else None,
        tuple(problem for found in (roll, projector) if isinstance(found, tuple) for problem in found),
    )


def _made(request: PackRequest, unit: Unit) -> Made | tuple[Problem, ...]:
    """The pattern under the design's own title, with a card of the choices that were the customer's."""
    choices = request.choices
    held = settle(request.draft_text, request.draft_name, {name: choices[name] for name in request.settled})
    if not isinstance(held, Settled):
        return held
    made = make_pattern(request.draft_text, request.draft_name, request.measurements, choices, unit)
    if isinstance(made, Refused):
        return made.problems
    return replace(made, card=held.card, pattern=replace(made.pattern, title=request.title))


def _style(request: PackRequest) -> PrintStyle:
    return PrintStyle(lines=Lines(request.prints.lines))


def _begin(progress: Progress, stage: Stage) -> None:
    progress(stage, _BEGUN[stage])


def _lays(request: PackRequest, made: Made) -> tuple[dict[str, LayPlan], tuple[Problem, ...]]:
    """A lay plan for each cloth that something is cut from, and every problem met."""
    lays: dict[str, LayPlan] = {}
    problems: list[Problem] = []
    for fabric in made.pattern.fabrics:
        items = items_for(made.pattern, fabric.name)
        if not items:
            continue
        lay = plan(items, _cloth(fabric, request.cloths.get(fabric.name)), effort=EFFORT_FULL)
        if isinstance(lay, LayPlan):
            lays[fabric.name] = lay
        else:
            problems += lay
    return lays, tuple(problems)


def _cloth(fabric: Fabric, chosen: ClothChoice | None) -> Cloth:
    """The customer's cloth, or the designer's suggestion where she chose none."""
    cloth = cloth_of(fabric)
    if chosen is None:
        return cloth
    # What has a nap for the designer has one for the customer too.
    return replace(cloth, width=chosen.width_mm, folded=chosen.folded, one_way=chosen.one_way or fabric.one_way)


def _write(request: PackRequest, planned: _Planned, folder: Path, progress: Progress) -> tuple[PackFile, ...]:
    """Write every file; returns them in the order to show."""
    _begin(progress, Stage.PRINT)
    counts = _print(request, planned, folder)
    machines = _hand_on(request, planned, folder)
    _begin(progress, Stage.INSTRUCTIONS)
    sheet = instruction_sheet(planned.made, planned.lays, _to(request, planned), _notes(planned.made))
    (folder / "instructions.pdf").write_bytes(instruction_pdf(sheet))
    _begin(progress, Stage.REPORT)
    figures = report(planned.made, planned.lays, counts)
    (folder / "report.json").write_bytes(report_bytes(figures))
    names = ("instructions.pdf", *(count.file for count in counts), *machines, "report.json")
    _zip(folder, names, folder / "everything.zip")
    titles = {**_TITLES, _tiled_name(planned): f"Pattern for {planned.sheets.paper.title} paper"}
    return tuple(_file(folder, name, titles[name]) for name in (*names, "everything.zip"))


def _print(request: PackRequest, planned: _Planned, folder: Path) -> tuple[SheetCount, ...]:
    pattern, info, tiled = planned.made.pattern, _info(request), _tiled_name(planned)
    write_tiled_pdf(planned.sheets, pattern, info, folder / tiled)
    # The first page carries the figures of the scale and the map.
    counts = [SheetCount(tiled, planned.sheets.paper.name, 1 + len(planned.sheets.sheets))]
    if planned.roll is not None:
        write_roll_pdf(planned.roll, pattern, info, folder / "pattern-one-sheet.pdf")
        counts.append(SheetCount("pattern-one-sheet.pdf", "one sheet", 1))
    if planned.projector is not None:
        write_projector_pdf(planned.projector, pattern, info, folder / "pattern-projector.pdf")
        counts.append(SheetCount("pattern-projector.pdf", "projector", 1))
    return tuple(counts)


def _tiled_name(planned: _Planned) -> str:
    return f"pattern-{planned.sheets.paper.name}.pdf"


def _info(request: PackRequest) -> PrintInfo:
    return PrintInfo(
        title=request.title,
        order_number=request.order_number,
        customer=request.customer,
        studio=request.studio,
        unit=Unit(request.unit),
    )


def _to(request: PackRequest, planned: _Planned) -> SheetFor:
    return SheetFor(
        title=request.title,
        customer=request.customer,
        studio=request.studio,
        order_number=request.order_number,
        unit=Unit(request.unit),
        paper="letter" if _is_american(request) else "a4",
        lines=Lines(request.prints.lines),
        projector=planned.projector is not None,
    )


def _is_american(request: PackRequest) -> bool:
    """True for who prints on paper measured in inches: the instructions are then set on US Letter."""
    return request.paper.startswith(("letter", "legal", "tabloid")) or "in" in request.paper


def _hand_on(request: PackRequest, planned: _Planned, folder: Path) -> tuple[str, ...]:
    """The files for other people's machines."""
    pattern = planned.made.pattern
    style = StyleInfo(request.title, request.order_number, request.customer, request.studio)
    write_dxf(pattern, style, folder / "pattern.dxf")
    with TemporaryDirectory(dir=folder) as loose:
        names = write_svg_files(pattern, style, Path(loose))
        _zip(Path(loose), names, folder / "pieces-svg.zip")
    return "pattern.dxf", "pieces-svg.zip"


def _zip(folder: Path, names: tuple[str, ...], path: Path) -> None:
    with ZipFile(path, "w") as archive:
        for name in names:
            member = ZipInfo(name, _ZIP_DATE)
            member.compress_type = ZIP_STORED if name.endswith((".pdf", ".zip")) else ZIP_DEFLATED
            archive.writestr(member, (folder / name).read_bytes())


def _file(folder: Path, name: str, title: str) -> PackFile:
    path = folder / name
    with path.open("rb") as opened:
        digest = file_digest(opened, "sha256").hexdigest()
    return PackFile(name, title, path.stat().st_size, digest)


def _summary(request: PackRequest, planned: _Planned) -> dict[str, Any]:
    """What the order's page says of the pack: sheets, cloth to buy, which files are not there, and other notes."""
    lacking = (f"{problem.message} {problem.fix}" for problem in info_problems(_info(request)))
    return {
        "sheets": len(planned.sheets.sheets),
        "paper": request.paper,
        "cloths": list(_cloth_summaries(request, planned)),
        "left_out": [f"{problem.message} {problem.fix}" for problem in planned.left_out],
        "notes": [*_notes(planned.made), *lacking],
    }


def _notes(made: Made) -> tuple[str, ...]:
    """What she is to look at before she cuts."""
    return in_plain_words(for_maker(made.findings), titles_of(made.pattern))


def _cloth_summaries(request: PackRequest, planned: _Planned) -> Iterator[dict[str, Any]]:
    for name, lay in planned.lays.items():
        words = show_cloth_length(lay.buy, Unit(request.unit))
        yield {"name": name, "title": lay.cloth.title, "width_mm": lay.cloth.width, "buy_mm": lay.buy, "buy": words}
