"""Wearing ease: room enough to breathe, sit and reach; in stretch cloth not drawn tighter than is comfortable.

Why: a woven garment as large as the body can be closed and not worn. The least room in woven cloth is
common practice, the small end of what drafting books give: 5 cm at the bust, 0.5 cm at a waistband, 2.5 cm at the hip
and at the thigh, 4 cm at the upper arm (a sewing magazine of 2021 asks for 2 in, 5 cm, there). A cloth that stretches
needs less, by `USED` of what it gives over the body (common practice: half, so that seams and cloth recover). A
warning: how close is close is the designer's.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.pieces.model import Girth
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "LEAST_WOVEN", "TOLERANCE", "USED", "least_ease"]

#: Least wearing ease in woven cloth, mm, by the girth of the body under it.
LEAST_WOVEN = {
    "bust_girth": 50.0,
    "waist_girth": 5.0,
    "hip_girth": 25.0,
    "thigh_girth": 25.0,
    "upper_arm_girth": 40.0,
}
#: The share of its stretch that a cloth may be drawn by in wear.
USED = 0.5
#: Ease may fall short by this much (mm).
TOLERANCE = 1.0


_ROOM = Told(
    "checks.wearing-ease",
    "The garment sits close, with less room than most people find easy to sit and reach in. Look at the ease in "
    "the table of finished sizes; choose more where the design offers it.",
    Severity.WARNING,
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every girth over a known part of the body with less room than is worn with comfort."""
    stretch = max((fabric.stretch for fabric in table.pattern.fabrics), default=0.0)
    for girth in table.pattern.girths:
        if girth.measure in LEAST_WOVEN and girth.body > 0.0:
            yield from _room(girth, stretch)


def least_ease(measure: str, body: float, stretch: float) -> float:
    """The least ease in mm over a girth of the body (mm) in cloth of that stretch (a share of its length)."""
    return LEAST_WOVEN[measure] - USED * stretch * body


def _room(girth: Girth, stretch: float) -> Iterator[Problem]:
    least = least_ease(girth.measure, girth.body, stretch)
    # The ease that is meant: where the pieces miss it, or the cloth cannot give it, the finished size speaks already.
    room = girth.ease
    if room >= least - TOLERANCE or room < -stretch * girth.body - TOLERANCE:
        return
    cloth = f"cloth that stretches by {stretch:.0%}" if stretch > 0.0 else "cloth that does not stretch"
    message = (
        f"{girth.title or girth.name} has {mm(room)} of room over a body of {mm(girth.body)}; "
        f"{mm(least)} is the least that is worn with comfort in {cloth}."
    )
    fix = f"Give it {mm(least - room)} more ease, or a cloth that stretches further."
    spans = (("the girth", girth.span),)
    where = Place(point=girth.name)
    yield finding(_ROOM, message, fix, where, see=spans, measured=Measured(room, least))


#: The check as every room knows it.
CHECK = Check("wearing_ease", "Wearing ease", _run, (_ROOM,))
