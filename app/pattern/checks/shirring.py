"""Shirring and elastic: both widths are stated, relaxed and at full stretch, and so is the length of elastic.

Why: a shirred panel is cut flat, worn relaxed and put on stretched; a maker who is told one of the three cuts
the elastic by guess. A pattern with shirring rows, an elastic seam or elastic among its notions states
a girth with `stretches to`; the full width is 1.2 to 3 times the relaxed one (common practice; swatches differ), and
elastic is bought by length. Warnings, except that a full width under the relaxed one is impossible.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.pieces.model import Girth, MarkKind, Notion, Pattern
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LEAST_RATIO", "MOST_RATIO", "TOLERANCE", "elastics"]

#: Full width over relaxed width that elastic and shirring sew and recover from (common practice).
LEAST_RATIO, MOST_RATIO = 1.05, 3.0
#: Widths may differ by this much (mm).
TOLERANCE = 1.0
_SHIRRED = re.compile(r"\bshirr", re.I)
_ELASTIC = re.compile(r"\belastic\b", re.I)
_STAY = re.compile(r"\b(tape|stay|clear)\b", re.I)


_LENGTH = Told(
    "checks.elastic-length",
    "The design does not say how long to cut an elastic. Lay it round you where it will sit, until it holds "
    "without pressing, and add what its ends overlap.",
    Severity.WARNING,
)
_UNSTATED = Told(
    "checks.shirring-unstated",
    "The design does not say how wide the part with elastic is at rest and how wide it stretches.",
    Severity.WARNING,
    maker=False,
)
_NARROWER = Told(
    "checks.stretched-width",
    "A part with elastic would be narrower stretched than at rest, which cannot be. That is a fault of the design.",
)
_STRETCH = Told(
    "checks.stretched-ratio",
    "A part with elastic is to stretch hardly at all, or further than elastic comes back from. Sew the elastic "
    "to a scrap and stretch it before you cut.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every width or length of something elastic that is missing or cannot be."""
    pattern = table.pattern
    bought = elastics(pattern)
    yield from (_no_length(notion) for notion in bought if not notion.length)
    stated = [girth for girth in pattern.girths if girth.stretches_to > 0.0]
    if not stated and (bought or _is_shirred(pattern)):
        message = "Something here is drawn in by elastic, and no girth states its relaxed and its full width."
        fix = "Add a girth of the relaxed width with: stretches to FULL_WIDTH."
        yield finding(_UNSTATED, message, fix, Place())
    for girth in stated:
        yield from _widths(girth)


def elastics(pattern: Pattern) -> tuple[Notion, ...]:
    """The elastics among the notions, but for those that only keep a seam from growing."""
    return tuple(n for n in pattern.notions if _ELASTIC.search(n.title) and not _STAY.search(n.title))


def _is_shirred(pattern: Pattern) -> bool:
    marks = (mark for piece in pattern.pieces for mark in piece.marks if mark.kind is MarkKind.STITCH)
    return any(_SHIRRED.search(mark.label) for mark in marks)


def _no_length(notion: Notion) -> Problem:
    message = f"{notion.title} is bought by length, and none is stated."
    see = (("the notion", notion.span),)
    fix = "State its length, taken from the seam or the rows that it is sewn into."
    where = Place(point=notion.name)
    return finding(_LENGTH, message, fix, where, see=see)


def _widths(girth: Girth) -> Iterator[Problem]:
    relaxed, full = girth.measured, girth.stretches_to
    title = girth.title or girth.name
    where, see = Place(point=girth.name), (("the girth", girth.span),)
    if full < relaxed - TOLERANCE:
        message = f"{title} measures {mm(relaxed)} relaxed and is said to stretch to {mm(full)}, which is less."
        fix = "Exchange the two, or correct one of them."
        yield finding(_NARROWER, message, fix, where, see=see, measured=Measured(full, relaxed))
    elif not LEAST_RATIO * relaxed <= full <= MOST_RATIO * relaxed:
        ratio = f"{full / relaxed:.2f}" if relaxed > 0.0 else "no"
        message = (
            f"{title} measures {mm(relaxed)} relaxed and {mm(full)} stretched: a ratio of {ratio}, "
            f"where {LEAST_RATIO:g} to {MOST_RATIO:g} draws in and recovers."
        )
        fix = f"Make the full width {mm(LEAST_RATIO * relaxed)} to {mm(MOST_RATIO * relaxed)}."
        measured = Measured(full, LEAST_RATIO * relaxed, MOST_RATIO * relaxed)
        yield finding(_STRETCH, message, fix, where, see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("shirring", "Shirring and elastic", _run, (_LENGTH, _UNSTATED, _NARROWER, _STRETCH))
