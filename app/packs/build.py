"""The pack of an order: draft, check, lay, print, instruct, report; nothing is written until every check has held."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import file_digest
from pathlib import Path
from typing import Any

from app.packs.files import files_of, notes_of
from app.packs.plan import PackPlan, plan_pack
from app.packs.request import PackFile, PackOutcome, PackReady, PackRequest, Progress
from app.packs.stages import Stage, begin
from app.pattern.problem import Refused, spelled_out
from app.pattern.sheets import info_problems
from app.pattern.units import Unit, show_cloth_length

__all__ = ["build_pack"]


def build_pack(request: PackRequest, folder: Path, progress: Progress) -> PackOutcome:
    """Build every file of the pack into `folder`, or say every problem and write nothing.

    The same request gives the same bytes, but for the lay of cloth that is laid open:
    its nester works against the clock. The lay used is kept in report.json.
    """
    plan = plan_pack(request, progress)
    if isinstance(plan, Refused):
        return plan
    for stage in (Stage.PRINT, Stage.INSTRUCTIONS, Stage.REPORT):
        begin(progress, stage)
        for row in files_of(plan):
            if row.stage is stage:
                row.write(plan, folder / row.name_in(plan))
    files = []
    for row in files_of(plan):
        path = folder / row.name_in(plan)
        with path.open("rb") as opened:
            digest = file_digest(opened, "sha256").hexdigest()
        files.append(PackFile(path.name, row.title_in(plan), path.stat().st_size, digest))
    return PackReady(tuple(files), _summary(plan), plan.made.findings)


def _summary(plan: PackPlan) -> dict[str, Any]:
    """What the order's page says of the pack: sheets, cloth to buy, which files are not there, and other notes."""
    lacking = (spelled_out([problem]) for problem in info_problems(plan.info))
    return {
        "sheets": len(plan.sheets.sheets),
        "paper": plan.request.paper,
        "cloths": list(_cloth_summaries(plan)),
        "left_out": [spelled_out([problem]) for problem in plan.left_out],
        "notes": [*notes_of(plan), *lacking],
    }


def _cloth_summaries(plan: PackPlan) -> Iterator[dict[str, Any]]:
    for name, planned in plan.lay_plans.items():
        cloth, words = planned.cloth, show_cloth_length(planned.buy, Unit(plan.request.unit))
        yield {"name": name, "title": cloth.title, "width_mm": cloth.width, "buy_mm": planned.buy, "buy": words}
