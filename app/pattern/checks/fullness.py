"""Fullness: gathers, shirring and elastic draw in by a ratio that cloth can take.

Why: under 1 there is nothing to gather, and over 4 the seam is too thick to sew; common
practice is 1.5 to 3 (4 for the sheerest cloth). A warning: swatches differ.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, run_words, seam_words, side_place
from app.pattern.pieces.measure import seam_lengths
from app.pattern.problem import Measured, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK"]

#: Ratios of flat length to finished length that can be sewn (common practice).
LEAST_RATIO, MOST_RATIO = 1.0, 4.0
#: Lengths may miss those ratios by this much (mm).
TOLERANCE = 0.5


_FULLNESS = Told(
    "checks.fullness",
    "An edge that is gathered has very much to gather, or next to nothing. Gather a scrap of your cloth as far "
    "before you cut.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
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
        measured = Measured(a, LEAST_RATIO * b, MOST_RATIO * b)
        yield finding(_FULLNESS, message, fix, where, see=spans, measured=measured)


#: The check as every room knows it.
CHECK = Check("fullness", "Fullness", _run, (_FULLNESS,))
