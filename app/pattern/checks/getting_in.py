"""Getting in: every closed girth, opened and stretched as far as it goes, passes over what must go through it.

Why: a garment that fits once on and cannot be put on is found out only when it is sewn. A slit
of length L lets the edge open by both its sides, so it adds 2 L to the girth (plane geometry:
the rim of the opening is the girth and the two sides of the slit). Cloth that stretches gives by
its stretch; the stretchiest of the pattern's fabrics counts, as for the finished size. What must go
through is the designer's to say (`passes hip_girth`): over the head or from the feet, whichever way it goes on.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.pieces.model import Girth
from app.pattern.problem import Measured, Place, Problem, Told
from app.pattern.units import mm

__all__ = ["CHECK", "TOLERANCE", "widest"]

#: An opening may be this much (mm) smaller than what goes through: a body gives more than that.
TOLERANCE = 1.0


_TIGHT = Told(
    "checks.getting-in",
    "The garment could not be put on: opened and stretched as far as it goes, it is narrower than the part of the "
    "body that must go through it.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every girth that what must go through it cannot pass."""
    stretch = max((fabric.stretch for fabric in table.pattern.fabrics), default=0.0)
    for girth in table.pattern.girths:
        open_to = widest(girth, stretch)
        if not girth.opens_fully and girth.passes > open_to + TOLERANCE:
            yield _tight(girth, open_to)


def widest(girth: Girth, stretch: float) -> float:
    """How wide a girth becomes, mm: pulled out by elastic or by the cloth's stretch (a share), and its slit open."""
    pulled = max(girth.measured * (1.0 + stretch), girth.stretches_to)
    return pulled + 2.0 * girth.opens


def _tight(girth: Girth, open_to: float) -> Problem:
    short = girth.passes - open_to
    ways = [f"a slit of {mm(girth.opens)}"] if girth.opens > 0.0 else []
    ways += [f"stretching to {mm(girth.stretches_to)}"] if girth.stretches_to > girth.measured else []
    how = f"with {' and '.join(ways)} it opens to" if ways else "nothing opens it, so it stays at"
    message = (
        f"{girth.title or girth.name} measures {mm(girth.measured)}, and {mm(girth.passes)} of the body must go "
        f"through it: {how} {mm(open_to)}, {mm(short)} too little."
    )
    fix = f"Lengthen its opening by {mm(short / 2.0)}, make it {mm(short)} wider, or let it open fully."
    see = (("the girth", girth.span),)
    return finding(_TIGHT, message, fix, Place(point=girth.name), see=see, measured=Measured(open_to, girth.passes))


#: The check as every room knows it.
CHECK = Check("getting_in", "Getting in", _run, (_TIGHT,))
