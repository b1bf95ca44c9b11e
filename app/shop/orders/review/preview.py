"""Between the pages and the core: a fitting's pattern and its cloth, worked out once and kept for a while."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from app.base import aside
from app.pattern import lay
from app.pattern.drawing import preview_svg
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Cloth, Fabric, Pattern
from app.pattern.plain_words import in_plain_words, titles_of
from app.pattern.problem import Problem, Refused
from app.pattern.units import Unit
from app.shop.catalogue.cards import draft_name, sample_of
from app.shop.catalogue.models import Listing
from app.shop.orders.models import Fitting
from app.shop.orders.service import cloths_of

__all__ = [
    "LEAST_SAVING",
    "ClothNeeded",
    "cloth_errors",
    "drawing_of",
    "pattern_of",
    "refused_of",
    "suggested_cloths",
    "pieces_by_cloth",
    "cloth_needed",
]

#: Patterns kept in memory: a customer looks at hers several times within minutes.
PATTERNS_CACHED = 256
#: A customer is told of the other way to lay her cloth when it buys at least so much less, mm.
LEAST_SAVING = 100.0

_Pairs = tuple[tuple[str, float | str | bool], ...]


@dataclass(frozen=True, slots=True)
class ClothNeeded:
    """One fabric of a pattern with its lay plan, or why there is none.

    `other` is the plan for the same cloth laid the other way (folded or open), where that was asked for.
    """

    fabric: Fabric
    plan: lay.LayPlan | Refused
    other: lay.LayPlan | None = None

    @property
    def better(self) -> lay.LayPlan | None:
        """The other way to lay the cloth, when it buys noticeably less or is the only one that goes."""
        if self.other is None or isinstance(self.plan, Refused):
            return self.other
        return self.other if self.plan.buy - self.other.buy >= LEAST_SAVING else None

    @property
    def problems(self) -> tuple[Problem, ...]:
        """Why there is no plan; empty when there is one."""
        return self.plan.problems if isinstance(self.plan, Refused) else ()


def pattern_of(fitting: Fitting) -> Made | Refused:
    """The fitting's pattern by the draft version it was saved with."""
    version = fitting.draft_version
    name = draft_name(fitting.listing)
    return _made(version.text, name, _pairs(fitting.measurements), _pairs(fitting.choices), Unit(fitting.unit))


def refused_of(fitting: Fitting) -> tuple[Problem, ...]:
    """Why there is no pattern for the fitting; empty when there is one."""
    made = pattern_of(fitting)
    return made.problems if isinstance(made, Refused) else ()


def suggested_cloths(listing: Listing) -> dict[str, Cloth]:
    """The cloth the designer suggests for each fabric, from the pattern of a middle size; empty when that fails."""
    sample = sample_of(listing)
    fabrics = sample.fabrics if sample else ()
    return {fabric.name: fabric.suggested for fabric in fabrics}


def cloth_errors(fitting: Fitting) -> dict[str, str]:
    """Why the pieces do not go on the customer's cloth, by the id of that part of the page; empty when they do.

    A cloth that is too narrow is told on her review before this is asked (`review.narrow`). Nothing is laid for it:
    how short a lay is to be found makes no difference here, and takes a second.
    """
    problems = [problem for _, items, cloth in pieces_by_cloth(fitting) for problem in lay.cannot_lay(items, cloth)]
    made = pattern_of(fitting)
    titles = titles_of(made.pattern if isinstance(made, Made) else None)
    return {"cloth": " ".join(in_plain_words(problems, titles))} if problems else {}


def drawing_of(pattern: Pattern, title: str, unit: Unit) -> str:
    """The pieces side by side, as SVG, under the design's title: several may be drawn from one draft."""
    return preview_svg(replace(pattern, title=title), unit)


def cloth_needed(fitting: Fitting) -> tuple[ClothNeeded, ...]:
    """How much of each fabric to buy for the cloth the customer has, and for the same cloth laid the other way.

    Empty when there is no pattern.
    """
    needed = []
    for fabric, items, cloth in pieces_by_cloth(fitting):
        plan, other = _plan(items, cloth), _plan(items, replace(cloth, folded=not cloth.folded))
        needed.append(ClothNeeded(fabric, plan, None if isinstance(other, Refused) else other))
    return tuple(needed)


def pieces_by_cloth(fitting: Fitting) -> list[tuple[Fabric, tuple[lay.LayItem, ...], Fabric]]:
    """Each fabric that something is cut from, with its pieces and the customer's cloth; none without a pattern."""
    made, cloths = pattern_of(fitting), cloths_of(fitting)
    pattern = made.pattern if isinstance(made, Made) else None
    cut_from = [(fabric, lay.items_for(pattern, fabric.name)) for fabric in pattern.fabrics] if pattern else []
    return [(fabric, items, fabric.laid_as(cloths.get(fabric.name))) for fabric, items in cut_from if items]


def _pairs(values: Mapping[str, float | str | bool]) -> _Pairs:
    return tuple(sorted(values.items()))


@lru_cache(maxsize=PATTERNS_CACHED)
def _made(text: str, name: str, body: _Pairs, choices: _Pairs, unit: Unit) -> Made | Refused:
    return aside.run_or_busy(
        make_pattern, text, name, {measure: float(mm) for measure, mm in body}, dict(choices), unit
    )


@lru_cache(maxsize=PATTERNS_CACHED)
def _plan(items: tuple[lay.LayItem, ...], cloth: Fabric) -> lay.LayPlan | Refused:
    # A look without the clock: the same figure each time, and the build, which looks harder, never needs more.
    return aside.run_or_busy(lay.lay_plan_for, items, cloth, effort=lay.EFFORT_STEADY)
