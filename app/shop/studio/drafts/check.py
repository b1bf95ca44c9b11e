"""What can be found out about a draft's text: everything wrong with it, and what it draws for one body."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.pattern import lay
from app.pattern.body.populations_standard import ProofBody, standard_bodies
from app.pattern.checks import CHECKS
from app.pattern.checks.table import lay_on_table
from app.pattern.drafting.advice import advice_of
from app.pattern.guide.drawing import DrawnDraft, draw_draft
from app.pattern.language.outline import DraftOutline, outline
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.pieces.model import Fabric, Pattern
from app.pattern.pieces.told import ROOM as CUTTING_OUT
from app.pattern.problem import Place, Problem, Refused
from app.pattern.settled import settle

__all__ = [
    "ClothTried",
    "DraftReading",
    "DraftSource",
    "DraftTrial",
    "draw_source",
    "read_text",
    "draft_source",
    "try_draft",
]

#: A page lays no more pieces of cloth than this in all: the time for a plan grows with their square.
MOST_LAID = 80
#: And no more that differ, a piece counting once for each cloth: each is tried beside each.
MOST_KINDS = 24
_CACHED = 16
_NOBODY = ProofBody("nobody", "size", {})


@dataclass(frozen=True, slots=True)
class DraftSource:
    """A draft's text, the name it is reported under, and the choices its listing settles, as sorted pairs."""

    text: str
    name: str
    settled: tuple[tuple[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class DraftReading:
    """A text without a body: everything wrong with it in the order of its lines; when nothing is, what it holds.

    `sizes` are the bodies of the size chart for whom it is meant; none while it cannot be read.
    `advice` is what a text that can be read leaves unsaid or unused; it hinders nothing.
    """

    problems: tuple[Problem, ...]
    outline: DraftOutline | None
    sizes: tuple[ProofBody, ...]
    advice: tuple[Problem, ...] = ()

    def size(self, wanted: str) -> ProofBody:
        """The body of this id; without one the middle of the chart."""
        middle = self.sizes[(len(self.sizes) - 1) // 2] if self.sizes else _NOBODY
        return next((size for size in self.sizes if size.id == wanted), middle)


@dataclass(frozen=True, slots=True)
class ClothTried:
    """One cloth of a pattern: its lay plan, or why there is none."""

    fabric: Fabric
    plan: lay.LayPlan | Refused


@dataclass(frozen=True, slots=True)
class DraftTrial:
    """What a text gives for one body with its choices as offered.

    `problems` say why there is no pattern. With one, `findings` has a row for each
    check, in order: its title, and what it found.
    """

    pattern: Pattern | None
    problems: tuple[Problem, ...]
    findings: tuple[tuple[str, tuple[Problem, ...]], ...] = ()
    cloths: tuple[ClothTried, ...] = ()


@lru_cache(maxsize=_CACHED)
def read_text(source: DraftSource) -> DraftReading:
    """Read a text."""
    held = settle(source.text, source.name, dict(source.settled))
    if isinstance(held, Refused):
        return DraftReading(held.problems, None, ())
    draft = held.program.draft
    bodies = standard_bodies(draft.group, 0, statures=held.program.statures)
    sizes = tuple(body for body in bodies if body.kind == "size")
    return DraftReading((), outline(draft), sizes, advice_of(held.program))


@lru_cache(maxsize=_CACHED)
def try_draft(source: DraftSource, size: str) -> DraftTrial:
    """Draw, cut, check and lay a text that can be read for a size of its chart."""
    reading = read_text(source)
    drawing = draw_source(source, size)
    if drawing.problems:
        return DraftTrial(None, drawing.problems)
    body = reading.size(size).body
    made = make_pattern(source.text, source.name, body, dict(source.settled))
    if not isinstance(made, Made | Failed):
        return DraftTrial(None, made.problems)
    table = lay_on_table(made.pattern)
    found = tuple((check.title, tuple(check.on(table))) for check in CHECKS)
    by_checks = {problem for _, some in found for problem in some}
    told = made.findings if isinstance(made, Made) else made.problems
    cutting = tuple(problem for problem in told if problem not in by_checks)
    return DraftTrial(made.pattern, (), ((CUTTING_OUT, cutting), *found), _cloths(made.pattern))


@lru_cache(maxsize=_CACHED)
def draw_source(source: DraftSource, size: str) -> DrawnDraft | Refused:
    """The sheets of a text drawn line by line for a size of its chart, or what is wrong with the text."""
    reading = read_text(source)
    if reading.problems:
        return Refused(reading.problems)
    return draw_draft(source.text, source.name, reading.size(size).body, dict(source.settled))


def _cloths(pattern: Pattern) -> tuple[ClothTried, ...]:
    items = [(fabric, lay.items_for(pattern, fabric.name)) for fabric in pattern.fabrics]
    many, kinds = sum(item.count for _, laid in items for item in laid), sum(len(laid) for _, laid in items)
    if many > MOST_LAID or kinds > MOST_KINDS:
        said = f"{many} pieces of {kinds} kinds are cut in all; this page lays up to {MOST_LAID} of {MOST_KINDS} kinds."
        problem = Problem("studio.much-to-lay", said, "The plan is made when a pattern is built.", Place())
        return tuple(ClothTried(fabric, Refused.of(problem)) for fabric, laid in items if laid)
    return tuple(
        ClothTried(fabric, lay.lay_plan_for(laid, fabric, effort=lay.EFFORT_QUICK)) for fabric, laid in items if laid
    )


def draft_source(text: str, name: str, settled: Mapping[str, Any]) -> DraftSource:
    """A text of a listing as it is asked about."""
    return DraftSource(text, name, tuple(sorted(settled.items())))
