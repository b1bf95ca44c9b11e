"""How much room a draft leaves over many bodies at each place where it touches them, beside what is wanted there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean, pstdev
from typing import TypedDict

from app.pattern.body.register import MEASURES
from app.pattern.checks.fit import TOLERANCE
from app.pattern.drafting import Program
from app.pattern.language import nodes as n
from app.pattern.names import titled
from app.pattern.pieces.model import Pattern

__all__ = ["AS_OFFERED", "FitFound", "FitTally", "FitTallyValues", "fit_tallies", "fit_tally_values", "fits_found"]

#: At one place of one pattern: its ease, and the least and the most that is wanted there, mm.
FitFound = tuple[float, float, float]
#: The name of the setting at which nothing is chosen otherwise than offered.
AS_OFFERED = "as offered"


@dataclass(frozen=True, slots=True)
class FitTally:
    """The ease at one place over the bodies, mm: `mean`, standard deviation `sd`, `least` and `most`.

    `at` is the setting told: as offered, or the first at which there is such a place. `wanted` is the range that the
    designer declared (where it differs from body to body, from the least to the most of it). `outside` of the
    `bodies` lie off it by more than the check lets pass, and `outside_anywhere` of all `patterns` at whatever setting.
    """

    name: str
    title: str
    measure: str
    at: str
    bodies: int
    mean: float
    sd: float
    least: float
    most: float
    wanted: tuple[float, float]
    outside: int
    patterns: int
    outside_anywhere: int


class FitTallyValues(TypedDict):
    """A tally as JSON, eases in mm."""

    name: str
    title: str
    measure: str
    at: str
    bodies: int
    mean: float
    sd: float
    least: float
    most: float
    wanted: list[float]
    outside: int
    patterns: int
    outside_anywhere: int


def fits_found(pattern: Pattern) -> dict[str, FitFound]:
    """The ease at each place of a pattern and the range wanted there, by the place's name; mm to a hundredth.

    A girth that states its ease over a body is such a place too, at which just that is wanted.
    """
    girths = ((g.name, (g.measured - g.body, g.ease, g.ease)) for g in pattern.girths if g.measure)
    places = ((place.name, (place.ease, place.least, place.most)) for place in pattern.fits)
    return {name: (round(ease, 2), round(low, 2), round(high, 2)) for name, (ease, low, high) in (*girths, *places)}


def _lines(draft: n.Draft) -> Iterator[tuple[str, str, str]]:
    """Name, title and measure of every line that states an ease: the girths, then the fit lines of other names."""
    fits = {line.name for line in draft.fits}
    for girth in draft.girths:
        if isinstance(girth.body, n.Name) and girth.body.name in MEASURES and girth.name not in fits:
            yield girth.name, titled(girth.title, girth.name), girth.body.name
    for line in draft.fits:
        yield line.name, titled(line.title, line.name), line.measure.name


def fit_tallies(program: Program, found: Sequence[tuple[str, Mapping[str, FitFound]]]) -> tuple[FitTally, ...]:
    """A tally for each girth and fit line over the body that some pattern has, from (setting, places) of each."""
    tallies = []
    for name, title, measure in _lines(program.draft):
        here = [(setting, places[name]) for setting, places in found if name in places]
        if not here:
            continue
        settings = [setting for setting, _ in here]
        at = AS_OFFERED if AS_OFFERED in settings else settings[0]
        shown = [one for setting, one in here if setting == at]
        eases = [ease for ease, _, _ in shown]
        tallies.append(
            FitTally(
                name,
                title,
                measure,
                at,
                len(shown),
                fmean(eases),
                pstdev(eases),
                min(eases),
                max(eases),
                (min(least for _, least, _ in shown), max(most for _, _, most in shown)),
                sum(map(_is_outside, shown)),
                len(here),
                sum(_is_outside(one) for _, one in here),
            )
        )
    return tuple(tallies)


def _is_outside(found: FitFound) -> bool:
    ease, least, most = found
    return not least - TOLERANCE <= ease <= most + TOLERANCE


def fit_tally_values(tally: FitTally) -> FitTallyValues:
    """A tally as JSON, eases in mm to a tenth."""
    return FitTallyValues(
        name=tally.name,
        title=tally.title,
        measure=MEASURES[tally.measure].title,
        at=tally.at,
        bodies=tally.bodies,
        mean=round(tally.mean, 1),
        sd=round(tally.sd, 1),
        least=round(tally.least, 1),
        most=round(tally.most, 1),
        wanted=[round(end, 1) for end in tally.wanted],
        outside=tally.outside,
        patterns=tally.patterns,
        outside_anywhere=tally.outside_anywhere,
    )
