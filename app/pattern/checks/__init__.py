"""The checks a careful cutter makes with a tape on the paper: they read a pattern, never change it."""

from __future__ import annotations

from app.pattern.checks import (
    allowance,
    child_safety,
    counts,
    cut_list,
    darts,
    edge_finish,
    elastic,
    finish,
    finished_size,
    fit,
    fits_cloth,
    folds,
    fullness,
    getting_in,
    grain,
    hem_fullness,
    hems,
    linings,
    making,
    marks,
    notch_pairs,
    notch_walk,
    openings,
    outline,
    pairs,
    places,
    proportion,
    seam_walk,
    shirring,
    sleeve_notches,
    step_order,
    steps,
    truing,
    walk_order,
    ways_in,
    wearing_ease,
)
from app.pattern.checks.check import Check
from app.pattern.checks.table import lay_on_table
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem

__all__ = ["CHECKS", "Check", "run_checks"]

#: Every check, in the order in which they report.
CHECKS: tuple[Check, ...] = (
    outline.CHECK,
    darts.CHECK,
    allowance.CHECK,
    marks.CHECK,
    cut_list.CHECK,
    pairs.CHECK,
    counts.CHECK,
    grain.CHECK,
    folds.CHECK,
    seam_walk.CHECK,
    notch_walk.CHECK,
    notch_pairs.CHECK,
    sleeve_notches.CHECK,
    walk_order.CHECK,
    truing.CHECK,
    fullness.CHECK,
    finished_size.CHECK,
    wearing_ease.CHECK,
    fit.CHECK,
    getting_in.CHECK,
    ways_in.CHECK,
    openings.CHECK,
    finish.CHECK,
    proportion.CHECK,
    places.CHECK,
    edge_finish.CHECK,
    making.CHECK,
    steps.CHECK,
    step_order.CHECK,
    hem_fullness.CHECK,
    hems.CHECK,
    linings.CHECK,
    shirring.CHECK,
    elastic.CHECK,
    fits_cloth.CHECK,
    child_safety.CHECK,
)


def run_checks(pattern: Pattern) -> tuple[Problem, ...]:
    """Everything the checks find wrong with a pattern, in the order of `CHECKS`; empty when it holds."""
    table = lay_on_table(pattern)
    return tuple(problem for check in CHECKS for problem in check.on(table))
