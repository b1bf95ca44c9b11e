"""Fullness: gathers, shirring and elastic draw in by a ratio that cloth can take.

Why: under 1 there is nothing to gather, and over 4 the seam is too thick to sew; common
practice is 1.5 to 3 (4 for the sheerest cloth). A warning: swatches differ.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.table import Table, finding, run_words, seam_words, side_place
from app.pattern.pieces.figures import mm
from app.pattern.pieces.measure import seam_lengths
from app.pattern.problem import Problem, Severity

__all__ = ["check"]

#: Ratios of flat length to finished length that can be sewn (common practice).
LEAST_RATIO, MOST_RATIO = 1.0, 4.0
#: Lengths may miss those ratios by this much (mm).
TOLERANCE = 0.5


def check(table: Table) -> Iterator[Problem]:
    """Every gathered or elasticated seam with a ratio out of range."""
    for seam in table.pattern.seams:
        if seam.kind not in ("gather", "elastic"):
            continue
        a, b = seam_lengths(table.pattern, seam)
        if LEAST_RATIO * b - TOLERANCE <= a <= MOST_RATIO * b + TOLERANCE:
            continue
        ratio = f"{a / b:.2f} times" if b > 0.0 else "far more than"
        message = (
            f"{run_words(seam.a)} is {mm(a)}, {ratio} the {mm(b)} of {run_words(seam.b)} that it is drawn in to; "
            f"{LEAST_RATIO:g} to {MOST_RATIO:g} times can be sewn."
        )
        fix = f"Make it {mm(LEAST_RATIO * b)} to {mm(MOST_RATIO * b)} long, or exchange the two sides of the seam."
        where = side_place(table.pattern, seam.a)
        spans = ((f"the seam {seam_words(seam.a, seam.b)}", seam.span),)
        yield finding("checks.fullness", message, fix, where, see=spans, severity=Severity.WARNING)
