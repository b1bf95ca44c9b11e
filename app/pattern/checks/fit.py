"""Fit: at every place where the garment touches the body it leaves what the designer says, and it binds nowhere.

Why: a seam walks and a girth comes to its figure, and the armhole still cuts into the arm. What a garment leaves
at a place is what it measures there less the body; the designer says how much that should be.

A girth smaller than the body under it, pulled as far as its cloth or its elastic gives, cannot be worn. A length or a
width is not closed round the body: skin and posture give about `YIELDS` (common practice: a centimetre is what a cutter
lets pass at a fitting), and a garment that is meant to be shorter than the body says so by an ease below nothing. A
figure that was told from others strays by its spread; within `SPREADS` of them nobody can say that it binds.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from app.pattern.body import MEASURES, MeasureKind
from app.pattern.checks.check import Check
from app.pattern.checks.table import CuttingTable, finding
from app.pattern.pieces.model import FitPlace
from app.pattern.problem import Measured, Place, Problem, Severity, Told
from app.pattern.units import mm

__all__ = ["CHECK", "SPREADS", "TOLERANCE", "YIELDS", "binds_by"]

#: Ease may miss its range by this much (mm): half of what a tape is read to.
TOLERANCE = 2.5
#: By so much (mm) a length or width may be less than wanted before it pulls.
YIELDS = 10.0
#: A girth may be less than the body by this (mm), as a finished girth may miss its figure.
_CLOSE = 1.0
#: So many standard deviations of a figure that was not taken are allowed for.
SPREADS = 2.0


_OFF = Told(
    "checks.fit-off",
    "At this place the garment leaves more or less room than its design is meant to. Look at it on a toile before you "
    "cut your good cloth.",
    Severity.WARNING,
)
_BINDS = Told(
    "checks.fit-binds",
    "At this place the garment would come out smaller than the body in it, and its cloth does not give that much.",
)


def _run(table: CuttingTable) -> Iterator[Problem]:
    """Every place at which the garment binds, or leaves what nobody wanted."""
    pattern = table.pattern
    stretch = max((fabric.stretch for fabric in pattern.fabrics), default=0.0)
    for place in pattern.fits:
        elastic = [girth.stretches_to for girth in pattern.girths if girth.measure == place.measure]
        short = binds_by(place, stretch, elastic)
        if short > 0.0:
            yield _binding(place, short, stretch)
        else:
            yield from _missing(place)


def _is_girth(place: FitPlace) -> bool:
    return MEASURES[place.measure].kind is MeasureKind.GIRTH


def binds_by(place: FitPlace, stretch: float, elastic: Iterable[float]) -> float:
    """By how much (mm) the body is too large for the garment there; 0 where it has room.

    The cloth gives a share of its length (`stretch`), and `elastic` are full widths it may be pulled out to.
    """
    pulled = max(place.measured * (1.0 + stretch), *elastic, 0.0)
    shorter, lacks = (0.0, _CLOSE) if _is_girth(place) else (min(place.least, 0.0), YIELDS)
    short = place.body - SPREADS * place.spread + shorter - pulled
    return short if short > lacks else 0.0


def _binding(place: FitPlace, short: float, stretch: float) -> Problem:
    """What is said of a place at which the garment is so much (mm) too small."""
    gives = f" and its cloth gives {stretch:.0%}," if stretch > 0.0 else ""
    message = (
        f"{place.title} measures {mm(place.measured)}{gives} over {_body(place)}: {mm(short)} too {_small(place)}."
    )
    fix = f"Draw it {mm(short)} {'wider' if _is_girth(place) else 'longer'} there, or correct what is measured."
    return _finding(place, _BINDS, message, fix)


def _missing(place: FitPlace) -> Iterator[Problem]:
    """What is said of a place at which the ease lies outside what was declared."""
    low, high = place.least - place.ease, place.ease - place.most
    off = max(low, high)
    if off <= TOLERANCE:
        return
    message = (
        f"{place.title} measures {mm(place.measured)} over {_body(place)}: an ease of {mm(place.ease)}, where "
        f"{mm(place.least)} to {mm(place.most)} are wanted."
    )
    way = "more" if low > high else "less"
    fix = f"Draw {mm(off)} {way} there, to the body's own figure or its likely one, or correct the range."
    yield _finding(place, _OFF, message, fix)


def _small(place: FitPlace) -> str:
    return "narrow" if _is_girth(place) else "short"


def _body(place: FitPlace) -> str:
    """The body's own figure in words."""
    title = MEASURES[place.measure].title.lower()
    if place.spread == 0.0:
        return f"the body's {title} of {mm(place.body)}"
    return f"the body's {title}, likely {mm(place.body)} give or take {mm(SPREADS * place.spread)}"


def _finding(place: FitPlace, told: Told, message: str, fix: str) -> Problem:
    measured = Measured(place.ease, place.least, place.most)
    see = (("the fit line", place.span),)
    return finding(told, message, fix, Place(point=place.name), see=see, measured=measured)


#: The check as every room knows it.
CHECK = Check("fit", "Fit", _run, (_OFF, _BINDS))
