"""The case for made to measure: how many bodies a fixed size fits, beside how many a draft fits.

    python -m app.pattern.proof.case app/demo/drafts/*.draft > app/pattern/proof/case.md

writes the table that the README quotes from; drafts for others than women are left out.

Method. `BODIES` women are drawn as for every proof (survey of 1988 widened for customers at large, seed `SEED`; see
`app.pattern.body.populations`). A fixed size is a body of our size chart: bust girths are the middles of the classes of
EN 13402-3:2004 (74 to 102 cm by 4, then to 131 by 6), waist and hip the likely ones for that bust (fits pooled
over three surveys). A garment made for one body and worn by another is off, at each girth, by as much as the bodies
differ, whatever its ease. It fits when it is off by no more than `FITS` (2 cm) at bust, waist and hip together.
- By bust: each body takes the size whose bust girth is nearest, as a customer reads a chart.
- Best of all: each body takes that of the twelve sizes that is least off at its worst girth, as if she had
  tried on all of them.
- Chosen for them: twelve sizes picked among the bodies themselves, one after the other, each fitting the most of those
  not yet fitted: no designer knows her customers so well.
- A draft: each body's own pattern is made and checked; it fits when it holds and its finished girths less their ease
  are within 2 cm of the body at those of bust, waist and hip that the draft declares.
That a draft fits where it holds is no surprise, for it is drawn to that body: what is counted is that it holds.
What it leaves out: cloth that gives, lengths, posture, the sewing; and a designer may choose better sizes for her own
customers than the likely ones. What speaks for the sizes is that 2 cm is strict for a loose garment.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from app.pattern.body import SIZES, draw_bodies, size_body
from app.pattern.make import DraftCard, Made, make_pattern, read_draft

__all__ = [
    "AT",
    "BODIES",
    "FITS",
    "Case",
    "best_size",
    "case_for",
    "chosen_sizes_fit",
    "draft_misses",
    "main",
    "nearest_by_bust",
    "share_that_fits",
    "table_of",
    "worst_miss",
]

#: The girths at which a garment must fit, and by how much it may be off (mm).
AT = ("bust_girth", "waist_girth", "hip_girth")
FITS = 20.0
#: How many women are drawn, and with which seed.
BODIES, SEED = 1000, 2024

Body = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Case:
    """Shares (0 to 1) of the bodies that a fixed size fits, and that each draft fits.

    The size is chosen by bust, is the best of all, or is one of as many made for just these bodies.
    """

    bodies: int
    by_bust: float
    best_of_all: float
    chosen_for_them: float
    drafts: Mapping[str, float]


@cache
def _chart() -> tuple[Body, ...]:
    return tuple(size_body(name) for name in SIZES)


def nearest_by_bust(body: Body) -> Body:
    """The size whose bust girth is nearest to the body's (mm)."""
    return min(_chart(), key=lambda size: abs(size["bust_girth"] - body["bust_girth"]))


def best_size(body: Body) -> Body:
    """The size that is least off at its worst girth."""
    return min(_chart(), key=lambda size: worst_miss(body, size))


def worst_miss(body: Body, made_for: Body, at: Iterable[str] = AT) -> float:
    """By how much (mm) a garment made for one body is off on another at its worst girth."""
    return max(abs(body[name] - made_for[name]) for name in at)


def share_that_fits(bodies: Sequence[Body], size_for: Callable[[Body], Body]) -> float:
    """Share of the bodies that their size fits at every girth, 0 to 1."""
    return sum(worst_miss(body, size_for(body)) <= FITS for body in bodies) / len(bodies)


def chosen_sizes_fit(bodies: Sequence[Body], sizes: int = len(SIZES)) -> float:
    """Share of the bodies (mm) fitted by so many sizes, each picked among them to fit the most that are left."""
    girths = np.array([[body[name] for name in AT] for body in bodies])
    fits = np.abs(girths[:, None, :] - girths[None, :, :]).max(axis=2) <= FITS
    left = np.ones(len(bodies), dtype=bool)
    for _ in range(sizes):
        left &= ~fits[:, int(np.argmax(fits[left].sum(axis=0)))]
    return 1.0 - float(left.mean())


def draft_misses(text: str, name: str, body: Body) -> float | None:
    """How far off (mm) a body's own pattern is at its worst declared girth; None when it has no pattern."""
    made = make_pattern(text, name, body, {})
    if not isinstance(made, Made):
        return None
    girths = [girth for girth in made.pattern.girths if girth.measure in AT]
    return max((abs(girth.measured - girth.ease - body[girth.measure]) for girth in girths), default=0.0)


def case_for(drafts: Mapping[str, str], bodies: Sequence[Body]) -> Case:
    """The case over some bodies (mm), for drafts given as texts by name."""
    shares = {}
    for name, text in drafts.items():
        misses = [draft_misses(text, name, body) for body in bodies]
        shares[name] = sum(miss is not None and miss <= FITS for miss in misses) / len(bodies)
    by_bust, best = (share_that_fits(bodies, chosen) for chosen in (nearest_by_bust, best_size))
    return Case(len(bodies), by_bust, best, chosen_sizes_fit(bodies), shares)


def table_of(case: Case) -> str:
    """The case in words and as a Markdown table, shares in percent of the bodies."""
    rows = {
        "fixed size, chosen by bust": case.by_bust,
        f"fixed size, best of all {len(SIZES)}": case.best_of_all,
        f"fixed size, {len(SIZES)} chosen for these very women": case.chosen_for_them,
        **{f"{name.replace('_', ' ')}, made to measure": share for name, share in case.drafts.items()},
    }
    lines = (f"| {what} | {share:.1%} |\n" for what, share in rows.items())
    whom = f"Of {case.bodies:,} women drawn, at bust, waist and hip together, within {FITS / 10:g} cm:"
    return f"{whom}\n\n| pattern | fits |\n|---|---|\n" + "".join(lines)


def main(paths: Sequence[str]) -> None:
    """Print the case as a table, for those of the drafts at `paths` that are for women."""
    texts = {Path(path).stem: Path(path).read_text("utf-8") for path in paths}
    cards = {name: read_draft(text, f"{name}.draft") for name, text in texts.items()}
    for_women = {
        name: texts[name] for name, card in cards.items() if isinstance(card, DraftCard) and card.group == "women"
    }
    print(table_of(case_for(for_women, draw_bodies(BODIES, SEED))), end="")


if __name__ == "__main__":
    main(sys.argv[1:])
