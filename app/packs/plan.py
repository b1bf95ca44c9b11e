"""What a pack will hold, known before a file of it is written: the pattern, its lay plans, sheets and pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from app.packs.request import PackRequest, Progress
from app.packs.stages import Stage, begin
from app.pattern.drawing import Lines
from app.pattern.lay import EFFORT_FULL, LayPlan, items_for, lay_plan_for
from app.pattern.make import Made, make_pattern
from app.pattern.problem import Problem, Refused
from app.pattern.settled import settle
from app.pattern.sheets import (
    Join,
    PrintInfo,
    PrintStyle,
    ProjectorPlan,
    RollPlan,
    SheetPlan,
    paper_of,
    plan_projector,
    plan_roll,
    plan_sheets,
)
from app.pattern.units import Unit

__all__ = ["PackPlan", "plan_pack"]

#: Further orders of the pieces to try on paper. On our first drafts hardly more sheets were saved by more.
_SHEET_TRIES, _ROLL_TRIES = 20, 8

#: What a PDF page cannot hold is left out and told: the sheets hold the same pieces. All else stops the build.
_LEAVES_OUT = frozenset({"sheets.too-long"})


@dataclass(frozen=True, slots=True)
class PackPlan:
    """All that is known before a file is written.

    `roll` and `projector` are None where there is no such file; where one was wanted, `left_out` says why.
    """

    request: PackRequest
    info: PrintInfo
    made: Made
    lay_plans: Mapping[str, LayPlan]
    sheets: SheetPlan
    roll: RollPlan | None
    projector: ProjectorPlan | None
    left_out: tuple[Problem, ...]


def plan_pack(request: PackRequest, progress: Progress) -> PackPlan | Refused:
    """Draft and check the pattern, lay it on its cloths and on paper; or every problem that stops the build."""
    begin(progress, Stage.DRAFT)
    made = _made(request)
    if isinstance(made, Refused):
        return made
    begin(progress, Stage.LAY)
    lay_plans = _lay_plans(request, made)
    if isinstance(lay_plans, Refused):
        return lay_plans
    begin(progress, Stage.SHEETS)
    return _on_paper(request, made, lay_plans)


def _made(request: PackRequest) -> Made | Refused:
    """The pattern under the design's own title, with a card of the choices that were the customer's."""
    choices = request.choices
    held = settle(request.draft_text, request.draft_name, {name: choices[name] for name in request.settled})
    if isinstance(held, Refused):
        return held
    made = make_pattern(request.draft_text, request.draft_name, request.measurements, choices, Unit(request.unit))
    if isinstance(made, Refused):
        return made
    return replace(made, card=held.card, pattern=replace(made.pattern, title=request.title))


def _lay_plans(request: PackRequest, made: Made) -> dict[str, LayPlan] | Refused:
    """A lay plan for each cloth that something is cut from; refused when one cannot be laid."""
    lay_plans: dict[str, LayPlan] = {}
    problems: list[Problem] = []
    for fabric in made.pattern.fabrics:
        items = items_for(made.pattern, fabric.name)
        if not items:
            continue
        planned = lay_plan_for(items, fabric.laid_as(request.cloths.get(fabric.name)), effort=EFFORT_FULL)
        if isinstance(planned, Refused):
            problems += planned.problems
        else:
            lay_plans[fabric.name] = planned
    return Refused(tuple(problems)) if problems else lay_plans


def _on_paper(request: PackRequest, made: Made, lay_plans: Mapping[str, LayPlan]) -> PackPlan | Refused:
    """The whole plan, or why the pattern cannot be printed as she wants it."""
    prints, style = request.prints, PrintStyle(lines=Lines(request.prints.lines))
    unit = Unit(request.unit)
    info = PrintInfo(request.title, request.order_number, request.customer, request.studio, unit=unit)
    paper = paper_of(request.paper, prints.margin_mm)
    if isinstance(paper, Refused):
        return paper
    sheets = plan_sheets(made.pattern, paper, tries=_SHEET_TRIES, join=Join(prints.join), style=style)
    if isinstance(sheets, Refused):
        return sheets
    roll = plan_roll(made.pattern, prints.roll_mm, tries=_ROLL_TRIES, style=style)
    if isinstance(roll, Refused) and any(problem.code not in _LEAVES_OUT for problem in roll.problems):
        return roll
    projector = plan_projector(made.pattern, info, style) if prints.projector else None
    return PackPlan(
        request,
        info,
        made,
        lay_plans,
        sheets,
        roll if isinstance(roll, RollPlan) else None,
        projector if isinstance(projector, ProjectorPlan) else None,
        tuple(problem for found in (roll, projector) if isinstance(found, Refused) for problem in found.problems),
    )
