"""What grown women and men are weighed by: fits on surveys, and the ratio rule.

Bust, waist and hip of women are weighed by fits pooled over three surveys, at 3 standard deviations; those of men by
the survey of 1988 alone, its deviations widened by as much as three surveys stray more than soldiers among women. The
other measures are weighed by the US Army surveys of 1988 and 2012 only, so they are doubted late: at 3.5 deviations for
the group (women or men) that the body as a whole is nearer to, and only when the other group's figures do not explain
them either. Large bodies get more room. Above a bust or hip of 130 cm no survey supports a doubt, so none is raised.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache, partial
from statistics import median

from app.pattern.body.complete import BASIS, DERIVED, PREDICTORS, complete_body
from app.pattern.body.rules import MEN_RATIOS, ORDER_RULES, RATIO_RULES
from app.pattern.body.survey import GROUPS, POOLED_FITS, Fit, Group, fit, fits_2012
from app.pattern.body.weighing import Doubt, Yardstick

__all__ = ["LARGEST_SURVEYED", "MEN", "WOMEN", "room"]

#: mm. Beyond these no file that we fitted on has a body.
LARGEST_SURVEYED: Mapping[str, float] = {"bust_girth": 1300.0, "hip_girth": 1300.0}
#: mm. From here on residuals grow: the room for large bodies begins.
LARGE_FROM: Mapping[str, float] = {"bust_girth": 1100.0, "hip_girth": 1120.0}
#: Standard deviations at which an entry is doubted.
POOLED_AT, SURVEY_AT, OTHER_GROUP_AT = 3.0, 3.5, 2.5
#: From that many measures on, a body tells which group it is nearer to.
MEASURES_TO_TELL = 5

#: Each of these two tells more of the other than stature and bust do.
_CLOSER: Mapping[str, tuple[str, ...]] = {
    "front_waist_length": ("back_waist_length", "bust_girth"),
    "back_waist_length": ("front_waist_length", "stature"),
}


def room(body: Mapping[str, float]) -> float | None:
    """By how much the standard deviations are widened for a large body; None where no survey reaches."""
    if any(body.get(name, 0.0) > most for name, most in LARGEST_SURVEYED.items()):
        return None
    largest = max(body.get(name, 0.0) / start for name, start in LARGE_FROM.items())
    return 1.0 + 2.5 * max(0.0, largest - 1.0)


@cache
def _trio(group: Group) -> Mapping[str, Fit]:
    """The fits of bust, waist and hip on one another."""
    if group == "women":
        return POOLED_FITS
    found = {}
    for name, pooled in POOLED_FITS.items():
        own = fit(group, name, pooled.predictors)
        wider = pooled.sd / fit("women", name, pooled.predictors).sd
        found[name] = Fit(name, own.predictors, own.intercept, own.slopes, own.sd * wider, own.source)
    return found


def _usual(group: Group, name: str, body: Mapping[str, float]) -> float | None:
    """What the other two girths suggest, when both are there and a survey reaches so far."""
    usual = _trio(group)[name]
    if room(body) is None or not all(other in body for other in usual.predictors):
        return None
    return usual.predict(body)


def _trio_doubts(group: Group, body: Mapping[str, float]) -> list[Doubt]:
    """At most one: of three figures that do not go together only the worst is named."""
    wider = room(body)
    if wider is None:
        return []
    known = [f for f in _trio(group).values() if f.target in body and all(name in body for name in f.predictors)]
    found = [_weighed([f], body, wider) for f in known]
    return sorted((d for d in found if abs(d.off) > POOLED_AT), key=lambda d: -abs(d.off))[:1]


def _survey_doubts(body: Mapping[str, float]) -> list[Doubt]:
    """The measures that are unlikely for the group the body is nearer to, and no likelier for the other."""
    wider = room(body)
    if wider is None:
        return []
    weighed = [_weighed_for(group, body, wider) for group in GROUPS]
    own, other = sorted(weighed, key=_strangeness)
    enough = len(own) >= MEASURES_TO_TELL
    return [doubt for name, doubt in own.items() if _is_doubtful(doubt, other[name], enough=enough)]


def _strangeness(weighed: Mapping[str, Doubt]) -> float:
    """How ill a group's fits suit the whole body; the median, so that one slip does not change the group."""
    return median([abs(doubt.off) for doubt in weighed.values()] or [0.0])


def _is_doubtful(own: Doubt, other: Doubt, *, enough: bool) -> bool:
    if own.off * other.off < 0:
        return False
    if enough:
        return abs(own.off) > SURVEY_AT and abs(other.off) > OTHER_GROUP_AT
    return min(abs(own.off), abs(other.off)) > SURVEY_AT


def _weighed_for(group: Group, body: Mapping[str, float], wider: float) -> dict[str, Doubt]:
    found = {}
    for name, usual in PREDICTORS.items():
        closer = _CLOSER.get(name, usual)
        predictors = closer if all(other in body for other in closer) else usual
        if name in body and all(other in body for other in predictors):
            newer = [fits_2012(group)[name]] if predictors == usual and name in fits_2012(group) else []
            found[name] = _weighed([fit(group, name, predictors), *newer], body, wider)
    return found | _derived_for(group, body, wider)


def _derived_for(group: Group, body: Mapping[str, float], wider: float) -> dict[str, Doubt]:
    """The measures no survey has, beside what the four basic ones suggest."""
    names = [name for name in DERIVED if name in body]
    if not names or not all(name in body for name in BASIS):
        return {}
    likely = complete_body({name: body[name] for name in BASIS}, group)
    return {
        name: Doubt(name, likely[name], (body[name] - likely[name]) / (DERIVED[name].sd * wider), BASIS, 1.0)
        for name in names
    }


def _weighed(fits: Iterable[Fit], body: Mapping[str, float], wider: float) -> Doubt:
    """By the kindest of the fits."""
    weighed = [
        Doubt(f.target, likely, (body[f.target] - likely) / (f.sd * wider), f.predictors, f.slopes[0])
        for f in fits
        for likely in [f.predict(body)]
    ]
    return min(weighed, key=lambda doubt: abs(doubt.off))


WOMEN = Yardstick(
    "women", RATIO_RULES, ORDER_RULES, partial(_usual, "women"), partial(_trio_doubts, "women"), _survey_doubts
)
MEN = Yardstick("men", MEN_RATIOS, ORDER_RULES, partial(_usual, "men"), partial(_trio_doubts, "men"), _survey_doubts)
