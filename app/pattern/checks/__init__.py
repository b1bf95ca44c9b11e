"""The checks a careful cutter makes with a tape on the paper: they read a pattern, never change it."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from app.pattern.checks import (
    allowance,
    child_safety,
    cut_list,
    darts,
    finish,
    finished_size,
    fits_cloth,
    fullness,
    getting_in,
    grain,
    hem_fullness,
    notch_walk,
    outline,
    seam_walk,
    shirring,
    truing,
    walk_order,
    wearing_ease,
)
from app.pattern.checks.table import Table, lay_on_table
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem

__all__ = ["CHECKS", "Check", "for_maker", "run_checks"]

#: Findings that speak of the draft's own lines: only its designer can do something about them, no maker of the garment.
_FOR_DESIGNER = frozenset(
    f"checks.{code}"
    for code in ("allowance-unlike", "dart-truing", "fold-truing", "kink", "shirring-unstated", "truing", "walk-order")
)

#: One check: a pattern on the table in, what is wrong with it out.
Check = Callable[[Table], Iterable[Problem]]

#: Every check, in the order in which they report.
CHECKS: tuple[Check, ...] = (
    outline.check,
    darts.check,
    allowance.check,
    cut_list.check,
    grain.check,
    seam_walk.check,
    notch_walk.check,
    walk_order.check,
    truing.check,
    fullness.check,
    finished_size.check,
    wearing_ease.check,
    getting_in.check,
    finish.check,
    hem_fullness.check,
    shirring.check,
    fits_cloth.check,
    child_safety.check,
)


def run_checks(pattern: Pattern) -> tuple[Problem, ...]:
    """Everything the checks find wrong with a pattern, in the order of `CHECKS`; empty when it holds."""
    table = lay_on_table(pattern)
    return tuple(problem for check in CHECKS for problem in check(table))


def for_maker(findings: Iterable[Problem]) -> tuple[Problem, ...]:
    """The findings that whoever makes the garment can do something about; those on the draft's own lines left out."""
    return tuple(problem for problem in findings if problem.code not in _FOR_DESIGNER)
