"""What a measurement most likely is on a body of which only some others are known, and how far it may stray from that.

Adults: least squares on every known measure that the survey of 1988 has (`survey.fit`); bust, waist and hip from each
other by the fits pooled over three surveys; where the survey of 2012 has the measure, moved by what it expects beyond
that of 1988. A measure the survey has not follows by its rule of the register. Children: the estimate for the
stature (see `children`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from app.pattern.body.children import child, child_spread
from app.pattern.body.measures import Derived
from app.pattern.body.register import MEASURES
from app.pattern.body.survey import POOLED_FITS, Fit, Group, fit, fits_2012, moments

__all__ = ["Likely", "likely", "tells"]

_GROUPS: Mapping[str, Group] = MappingProxyType({"women": "women", "men": "men"})


@dataclass(frozen=True, slots=True)
class Likely:
    """How a measure is told from the known ones: `of` gives it in mm for a body that has all of these.

    `spread` gives, for such a body, how far the true figure strays from it (mm, standard deviation), 0 for a measure
    that is known itself. `source` says where that comes from.
    """

    measure: str
    of: Callable[[Mapping[str, float]], float]
    spread: Callable[[Mapping[str, float]], float]
    source: str


def tells(group: str, known: tuple[str, ...], measure: str) -> bool:
    """True when the known measures tell what another is: of children only the stature does."""
    return group in _GROUPS or measure in known or "stature" in known


@cache
def likely(group: str, known: tuple[str, ...], measure: str) -> Likely:
    """The likely value of a measure of the register for women, men or children of whom the `known` measures are taken.

    Raises ValueError for children whose stature is not known.
    """
    if measure in known:
        return Likely(measure, lambda body: body[measure], lambda body: 0.0, "measured")
    if group in _GROUPS:
        return _adult(_GROUPS[group], known, measure)
    if not tells(group, known, measure):
        raise ValueError(f"the {measure} of a child is told by its stature")
    return Likely(
        measure,
        lambda body: child(body["stature"])[measure],
        lambda body: child_spread(measure, body["stature"]),
        "children by stature: a survey of 1977, and our own estimate of what it lacks",
    )


def _adult(group: Group, known: tuple[str, ...], measure: str) -> Likely:
    rule = MEASURES[measure].likely
    if isinstance(rule, Derived):
        derived = rule
        source = f"worked out from neighbouring measurements, {group}"
        return Likely(measure, lambda body: derived.rule(_Filled(group, known, body)), lambda body: derived.sd, source)
    found = _fit_for(group, known, measure)
    newer = fits_2012(group).get(measure)
    if newer is None:
        return Likely(measure, found.predict, lambda body: found.sd, found.source)
    older = fit(group, measure, newer.predictors)

    def moved(body: Mapping[str, float]) -> float:
        causes = _Filled(group, known, body)
        return found.predict(body) + newer.predict(causes) - older.predict(causes)

    return Likely(measure, moved, lambda body: found.sd, f"{found.source}, moved to that of 2012")


def _fit_for(group: Group, known: tuple[str, ...], measure: str) -> Fit:
    pooled = POOLED_FITS.get(measure) if group == "women" else None
    if pooled is not None and set(pooled.predictors) <= set(known):
        return pooled
    surveyed = moments(group).names
    return fit(group, measure, tuple(name for name in known if name in surveyed))


class _Filled(Mapping[str, float]):
    """A body with every measure of the register: the known ones as they are, every other as it is likely."""

    def __init__(self, group: Group, known: tuple[str, ...], body: Mapping[str, float]) -> None:
        self._group, self._known, self._body = group, known, body

    def __getitem__(self, name: str) -> float:
        return likely(self._group, self._known, name).of(self._body)

    def __iter__(self) -> Iterator[str]:
        return iter(MEASURES)

    def __len__(self) -> int:
        return len(MEASURES)
