"""Finished size: at every declared level the garment measures body + ease, and the ease can be worn.

Why: a girth that comes out wrong is a garment that does not fit. In cloth that does not
stretch the least ease is nothing: the garment is never smaller than the body. Stretch
cloth may be smaller by as much as it gives; the stretchiest of the pattern's fabrics counts,
for a girth does not say which cloth goes round it.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.pieces.model import Girth
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm

__all__ = ["CHECK"]

#: The finished girth may differ from body + ease by this much (mm).
TOLERANCE = 1.0


_SIZE = Told(
    "checks.finished-size",
    "The finished garment would come out wider or narrower than the body and its ease together.",
)
_EASE = Told(
    "checks.ease-minimum",
    "The finished garment would be narrower than the body in it, and its cloth does not stretch that far.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every girth that misses its figure or cannot be worn."""
    stretch = max((fabric.stretch for fabric in table.pattern.fabrics), default=0.0)
    for girth in table.pattern.girths:
        yield from _size(girth)
        yield from _ease(girth, stretch)


def _size(girth: Girth) -> Iterator[Problem]:
    wanted = girth.body + girth.ease
    off = girth.measured - wanted
    if abs(off) <= TOLERANCE:
        return
    message = (
        f"{girth.title or girth.name} measures {mm(girth.measured)} on the pieces, and body {mm(girth.body)} + ease "
        f"{mm(girth.ease)} is {mm(wanted)}: {mm(abs(off))} too {'wide' if off > 0 else 'narrow'}."
    )
    fix = f"Take {mm(abs(off))} {'out' if off > 0 else 'more'} over all the pieces it goes round, or correct the ease."
    yield _finding(girth, _SIZE, message, fix, Measured(girth.measured, wanted, wanted))


def _ease(girth: Girth, stretch: float) -> Iterator[Problem]:
    least = -stretch * girth.body
    # Elastic is drawn in to less than the body, and gives
    if girth.body <= 0.0 or girth.ease >= least - TOLERANCE or girth.stretches_to >= girth.body:
        return
    gives = f"the cloth gives {mm(-least)} at most" if stretch > 0.0 else "the cloth does not stretch"
    message = f"{girth.title or girth.name} has an ease of {mm(girth.ease)} on a body of {mm(girth.body)}, and {gives}."
    fix = f"Give it an ease of {mm(least + 0.0)} or more, or choose a cloth that stretches further."
    yield _finding(girth, _EASE, message, fix, Measured(girth.ease, least + 0.0))


def _finding(girth: Girth, told: Told, message: str, fix: str, measured: Measured) -> Problem:
    see = (("the girth", girth.span),)
    return finding(told, message, fix, Place(point=girth.name), see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("finished_size", "Finished size", _run, (_SIZE, _EASE))
