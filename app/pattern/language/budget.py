"""How many things of each kind a draft may hold: far more than any garment, and so few that every page can show them.

Each stage after the reading walks these lists, some of them list against list. The largest draft of the catalogue
stays under a third of each of these, and under a tenth of most.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from app.pattern.language import nodes as n
from app.pattern.language.lines import Source
from app.pattern.problem import Problem

__all__ = ["BUDGET", "Counted", "too_many"]


@dataclass(frozen=True, slots=True)
class Counted:
    """A kind of thing: what it is called, how to find all of them in a draft, how many there may be, and a remedy."""

    called: str
    find: Callable[[n.Draft], Sequence[Any]]
    most: int
    remedy: str


def _clauses(draft: n.Draft, sort: type) -> list[Any]:
    return [clause for piece in draft.pieces for clause in piece.clauses if isinstance(clause, sort)]


def _edges(draft: n.Draft) -> list[Any]:
    return [item for clause in _clauses(draft, n.OutlineClause) for item in clause.items]


def _runs(draft: n.Draft) -> list[n.RunNode]:
    return [run for seam in draft.seams for run in (*seam.a, *seam.b)]


#: Options of one choice.
_OPTIONS = 60
#: Everything that is counted.
BUDGET: tuple[Counted, ...] = (
    Counted("measurements", lambda d: d.needs, 150, "Ask only for what the draft uses."),
    Counted("choices", lambda d: d.choices, 100, "Offer fewer choices, or make several designs."),
    Counted("fabrics", lambda d: d.fabrics, 30, "Make several designs of it."),
    Counted("notions", lambda d: d.notions, 100, "List what is bought, not each place where it goes."),
    Counted("sheets", lambda d: d.sheets, 120, "Draw several pieces on one sheet."),
    Counted("pieces", lambda d: d.pieces, 60, "Split it into several designs."),
    Counted("cuts of pieces", lambda d: [c for p in d.pieces for c in p.cuts], 240, "Cut each piece of fewer cloths."),
    Counted("edges", _edges, 600, "Join edges that are sewn alike into one."),
    Counted("edges finished", lambda d: [e for c in _clauses(d, n.FinishClause) for e in c.edges], 600, "Join edges."),
    Counted("notches", lambda d: _clauses(d, n.NotchClause), 400, "Keep to the notches a maker matches."),
    Counted("marks", lambda d: _clauses(d, n.MarkClause), 400, "Write marks in a row as one that is repeated."),
    Counted("notes on pieces", lambda d: _clauses(d, n.NoteClause), 200, "Say it in the steps."),
    Counted("seams", lambda d: d.seams, 300, "Sew runs of edges in one line."),
    Counted("edges in seams", _runs, 1_000, "Join edges that are sewn alike into one."),
    Counted("notches in seams", lambda d: [x for s in d.seams for x in s.notches], 600, "Keep to what is matched."),
    Counted("girths", lambda d: d.girths, 100, "Keep to the levels at which a garment is fitted."),
    Counted("fit lines", lambda d: d.fits, 100, "Keep to the places at which a garment is fitted."),
    Counted("steps of the making", lambda d: d.steps, 300, "Say several things in one step."),
    Counted("pictures of seams", lambda d: [x for s in d.steps for x in s.seams], 300, "Show each seam once."),
)


def too_many(draft: n.Draft, source: Source) -> Iterator[Problem]:
    """A problem for each kind of which the draft holds more than it may, at the first that is too many."""
    for kind in BUDGET:
        found = kind.find(draft)
        if len(found) > kind.most:
            said = f"The draft has {len(found):,} {kind.called}; {kind.most:,} are the most."
            yield source.problem("language.too-many", said, kind.remedy, found[kind.most].span)
    for choice in draft.choices:
        if len(choice.options) > _OPTIONS:
            said = f"“{choice.name}” has {len(choice.options):,} options; {_OPTIONS} are the most."
            yield source.problem("language.too-many", said, "Make it a measured choice, or several.", choice.span)
