"""Seam walk: edges sewn together are as long as each other, or differ by the ease or the ratio the seam declares.

Why: it is the first thing a cutter does with a tape. `TOLERANCE` is what a tape shows:
half a millimetre.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding, run_words, seam_words, side_place
from app.pattern.pieces.measure import seam_lengths
from app.pattern.pieces.model import Pattern, Seam
from app.pattern.problem import Measured, Problem, Told
from app.pattern.units import mm

__all__ = ["CHECK", "TOLERANCE"]

#: Stitched lengths may differ by this much (mm) from what the seam declares.
TOLERANCE = 0.5
#: Kinds of seam whose sides stand in a ratio.
BY_RATIO = ("gather", "elastic")


_WALK = Told(
    "checks.seam-walk",
    "Edges that are sewn together would not be equally long: the seam would pucker, or not reach.",
)
_RATIO = Told(
    "checks.seam-ratio",
    "An edge that is gathered, or drawn in by elastic, would not fit the edge that it is sewn to.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every seam whose sides do not fit each other."""
    for seam in table.pattern.seams:
        if seam.kind in BY_RATIO:
            yield from _ratio(table.pattern, seam)
        else:
            yield from _ease(table.pattern, seam)


def _ease(pattern: Pattern, seam: Seam) -> Iterator[Problem]:
    a, b = seam_lengths(pattern, seam)
    least, most = seam.ease if seam.kind in ("ease", "short") else (0.0, 0.0)
    if least - TOLERANCE <= a - b <= most + TOLERANCE:
        return
    sides = f"{run_words(seam.a)} is {mm(a)} and {run_words(seam.b)} is {mm(b)}"
    if seam.kind == "ease":
        message = f"{sides}: an ease of {mm(a - b)}, where {_range(mm(least), mm(most))} is meant."
        over = a - b - (most if a - b > most else least)
        fix = (
            f"Make {run_words(seam.a)} {mm(abs(over))} {'shorter' if over > 0 else 'longer'}, or declare another ease."
        )
    elif seam.kind == "short":
        ends = f"it ends {mm(b - a)} short" if a <= b else f"it is {mm(a - b)} the longer"
        message = f"{sides}: {ends}, where {_range(mm(-most), mm(-least))} is meant."
        over = a - b - (most if a - b > most else least)
        way = "shorter" if over > 0 else "longer"
        fix = f"Make {run_words(seam.a)} {mm(abs(over))} {way}, or say how short it is to end."
    else:
        longer, shorter = (seam.a, seam.b) if a > b else (seam.b, seam.a)
        message = f"{sides}, and they are sewn together: {mm(abs(a - b))} apart."
        fix = (
            f"Lengthen {run_words(shorter)} or shorten {run_words(longer)} by {mm(abs(a - b))}, or declare it as ease."
        )
        fix = _dart_hint(pattern, seam, abs(a - b)) or fix
    yield _finding(pattern, seam, _WALK, message, fix, Measured(a, b + least, b + most))


def _dart_hint(pattern: Pattern, seam: Seam, off: float) -> str:
    """The remedy where the sides differ by just a dart's intake: most likely the dart was forgotten or counted."""
    names = dict.fromkeys(run.piece for run in (*seam.a, *seam.b))
    darts = [(name, dart) for name in names for dart in pattern.piece(name).darts]
    found = next(((name, dart) for name, dart in darts if abs(dart.intake - off) <= TOLERANCE), None)
    if found is None:
        return ""
    name, dart = found
    return (
        f"They differ by the intake of {name}.{dart.name}: draw the edge in two parts that end at the dart's legs, "
        f"so that the intake is not counted, or make the other side longer by it."
    )


def _ratio(pattern: Pattern, seam: Seam) -> Iterator[Problem]:
    a, b = seam_lengths(pattern, seam)
    least, most = seam.ratio
    if least * b - TOLERANCE <= a <= most * b + TOLERANCE:
        return
    ratio = f"{a / b:.2f}" if b > 0.0 else "no"
    meant = _range(f"{least:g}", f"{most:g}")
    sides = f"{run_words(seam.a)} is {mm(a)} and {run_words(seam.b)} is {mm(b)}"
    wanted = (most if a > most * b else least) * b
    fix = f"Make {run_words(seam.a)} {mm(wanted)} long, or declare another ratio."
    message = f"{sides}: a ratio of {ratio}, where {meant} is meant."
    yield _finding(pattern, seam, _RATIO, message, fix, Measured(a, least * b, most * b))


def _range(least: str, most: str) -> str:
    return least if least == most else f"{least} to {most}"


def _finding(pattern: Pattern, seam: Seam, told: Told, message: str, fix: str, measured: Measured) -> Problem:
    where, other = (side_place(pattern, side) for side in (seam.a, seam.b))
    see = ((f"the seam {seam_words(seam.a, seam.b)}", seam.span), ("the other side", other))
    return finding(told, message, fix, where, see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("seam_walk", "Seam walk", _run, (_WALK, _RATIO))
