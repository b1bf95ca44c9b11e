"""A second opinion on measurements beside one another: warnings that ask for confirmation and never refuse.

Honest bodies differ, so the bounds are wide. Bust, waist and hip are weighed by the
ratio rule and by fits pooled over three surveys, at 3 standard deviations. The other
measures are weighed by the US Army surveys of 1988 and 2012 only, so they are doubted
late: at 3.5 deviations for the group (women or men) that the body as a whole is
nearer to, and only when the other group's figures do not explain them either.
Large bodies get more room. Above a bust or hip of 130 cm no survey supports a
doubt, so none is raised but by the ratio rule and plain anatomy.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from statistics import median

from app.pattern.body.complete import BASIS, DERIVED, PREDICTORS, complete_body
from app.pattern.body.guess import guesses
from app.pattern.body.register import MEASURES
from app.pattern.body.rules import RatioRule, broken_orders, broken_ratios
from app.pattern.body.survey import GROUPS, POOLED_FITS, Fit, Group, fit, fits_2012
from app.pattern.problem import Place, Problem, Related, Severity
from app.pattern.units import MM_PER, Unit, show_length

__all__ = ["LARGEST_SURVEYED", "Doubt", "doubts", "room"]

#: mm. Beyond these no file that we fitted on has a body.
LARGEST_SURVEYED: Mapping[str, float] = {"bust_girth": 1300.0, "hip_girth": 1300.0}
#: mm. From here on residuals grow: the room for large bodies begins.
LARGE_FROM: Mapping[str, float] = {"bust_girth": 1100.0, "hip_girth": 1120.0}
#: Standard deviations at which an entry is doubted.
POOLED_AT, SURVEY_AT, OTHER_GROUP_AT = 3.0, 3.5, 2.5
#: From that many measures on, a body tells which group it is nearer to.
MEASURES_TO_TELL = 5
#: That many lengths all too long or all too short for the stature throw the doubt on the stature.
STATURE_VOTES = 3

#: Each of these two tells more of the other than stature and bust do.
_CLOSER: Mapping[str, tuple[str, ...]] = {
    "front_waist_length": ("back_waist_length", "bust_girth"),
    "back_waist_length": ("front_waist_length", "stature"),
}


@dataclass(frozen=True, slots=True)
class Doubt:
    """A measure that lies `off` standard deviations (signed) from its `likely` value in mm.

    `slope` is how many mm the likely value moves for one mm of the first measure it is held beside.
    """

    name: str
    likely: float
    off: float
    beside: tuple[str, ...]
    slope: float


def doubts(body: Mapping[str, float], unit: Unit) -> tuple[Problem, ...]:
    """Warnings on measures (mm) that are unlikely beside the others, at most one for each measure."""
    girths = [*_ratio_problems(body, unit)] or [_problem(d, body, unit) for d in _pooled_doubts(body)]
    girths += _order_problems(body, unit)
    suspects = {problem.where.point for problem in girths if isinstance(problem.where, Place)}
    trusted = {name: value for name, value in body.items() if name not in suspects}
    others = [_problem(doubt, body, unit) for doubt in _blamed(_survey_doubts(trusted), trusted)]
    problems = [*girths, *others]
    first: dict[str, Problem] = {}
    for problem in problems:
        first.setdefault(problem.where.point if isinstance(problem.where, Place) else "", problem)
    return tuple(first.values())


def room(body: Mapping[str, float]) -> float | None:
    """By how much the standard deviations are widened for a large body; None where no survey reaches."""
    if any(body.get(name, 0.0) > most for name, most in LARGEST_SURVEYED.items()):
        return None
    largest = max(body.get(name, 0.0) / start for name, start in LARGE_FROM.items())
    return 1.0 + 2.5 * max(0.0, largest - 1.0)


# --- bust, waist and hip -------------------------------------------------------------------------------------------


def _pooled_doubts(body: Mapping[str, float]) -> list[Doubt]:
    """At most one: of three figures that do not go together only the worst is named."""
    wider = room(body)
    if wider is None:
        return []
    known = [f for f in POOLED_FITS.values() if f.target in body and all(name in body for name in f.predictors)]
    found = [_weighed([f], body, wider) for f in known]
    return sorted((d for d in found if abs(d.off) > POOLED_AT), key=lambda d: -abs(d.off))[:1]


def _ratio_problems(body: Mapping[str, float], unit: Unit) -> Iterator[Problem]:
    broken = list(broken_ratios(body))
    if not broken:
        return
    swap = _swap(body, broken)
    if swap is not None:
        yield _swapped(swap, body, unit)
        return
    name = _suspect(broken, body)
    rule = broken[0]
    measure = MEASURES[name]
    beside = [other for other in ("bust_girth", "waist_girth", "hip_girth") if other != name and other in body]

    def fits(meant: float) -> bool:
        return not any(broken_ratios({**body, name: meant}))

    likely = guesses(measure, body[name], unit, fits)
    message = f"{measure.title}: {show_length(body[name], unit)} hardly goes with {_listed(beside, body, unit)}."
    causes = [guess.sentence for guess in likely[:2]] or _usual_trio(name, body, unit)
    fix = " ".join([*causes, _again(name, body, unit)])
    yield _warning("body.ratio", message, fix, name, [rule.under if rule.over == name else rule.over])


def _swap(body: Mapping[str, float], broken: list[RatioRule]) -> tuple[str, str] | None:
    """The two girths that set everything right when they change places, waist and hip first."""
    for one, other in (("waist_girth", "hip_girth"), ("waist_girth", "bust_girth")):
        if one not in body or other not in body or body[one] <= body[other]:
            continue
        turned = {**body, one: body[other], other: body[one]}
        if not any(broken_ratios(turned)):
            return one, other
    return None


def _suspect(broken: list[RatioRule], body: Mapping[str, float]) -> str:
    """The girth named by the most broken rules; among equals the one farthest from the usual."""
    named = [name for rule in broken for name in (rule.over, rule.under)]

    def guilt(name: str) -> tuple[int, float]:
        usual = POOLED_FITS[name]
        known = all(other in body for other in usual.predictors)
        return named.count(name), abs(body[name] - usual.predict(body)) if known else 0.0

    return max(sorted(set(named)), key=guilt)


def _usual_trio(name: str, body: Mapping[str, float], unit: Unit) -> list[str]:
    """What the other two girths suggest, when both are there and a survey reaches so far."""
    usual = POOLED_FITS[name]
    if room(body) is None or not all(other in body for other in usual.predictors):
        return []
    return [f"About {_about(usual.predict(body), unit)} would be usual."]


def _swapped(pair: tuple[str, str], body: Mapping[str, float], unit: Unit) -> Problem:
    one, other = (MEASURES[name].title for name in pair)
    message = (
        f"{one} ({show_length(body[pair[0]], unit)}) is far larger than {other.lower()} "
        f"({show_length(body[pair[1]], unit)}): perhaps the two changed places."
    )
    fix = (
        f"Look whether {one.lower()} and {other.lower()} stand in each other's field. If both are right, confirm them."
    )
    return _warning("body.swapped", message, fix, pair[0], [pair[1]])


# --- anatomy -------------------------------------------------------------------------------------------------------


def _order_problems(body: Mapping[str, float], unit: Unit) -> Iterator[Problem]:
    for larger, smaller in broken_orders(body):
        big, small = MEASURES[larger], MEASURES[smaller]
        message = (
            f"{big.title} ({show_length(body[larger], unit)}) is not larger than "
            f"{small.title.lower()} ({show_length(body[smaller], unit)}), as it is on nearly every body."
        )
        fix = "Look whether the two changed places, then measure both again. If both are right, confirm them."
        yield _warning("body.order", message, fix, smaller, [larger])


# --- everything else -----------------------------------------------------------------------------------------------


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


def _blamed(found: list[Doubt], body: Mapping[str, float]) -> list[Doubt]:
    """The doubts, with one on the stature in place of many on lengths that all say the same of it."""
    by_stature = [doubt for doubt in found if doubt.beside == ("stature",)]
    short = [doubt for doubt in by_stature if doubt.off < 0]
    for side in (short, [doubt for doubt in by_stature if doubt.off > 0]):
        if len(side) >= STATURE_VOTES:
            rest = [doubt for doubt in found if doubt not in side]
            return [_stature_doubt(side, body), *(doubt for doubt in rest if "stature" not in doubt.beside)]
    return found


def _stature_doubt(side: list[Doubt], body: Mapping[str, float]) -> Doubt:
    names = tuple(doubt.name for doubt in side)
    errors = [(body[doubt.name] - doubt.likely) / doubt.slope for doubt in side]
    return Doubt("stature", body["stature"] + sum(errors) / len(errors), -side[0].off, names, 1.0)


def _problem(doubt: Doubt, body: Mapping[str, float], unit: Unit) -> Problem:
    measure = MEASURES[doubt.name]
    way = "large" if doubt.off > 0 else "small"
    message = (
        f"{measure.title}: {show_length(body[doubt.name], unit)} is unusually {way} beside "
        f"{_listed(doubt.beside, body, unit)}. About {_about(doubt.likely, unit)} would be usual."
    )
    return _warning("body.unlikely", message, _again(doubt.name, body, unit), doubt.name, doubt.beside)


def _again(name: str, body: Mapping[str, float], unit: Unit) -> str:
    where = MEASURES[name].definition
    right = f"If {show_length(body[name], unit)} is right, confirm it and we use it as it is."
    return f"Measure once more: {where[0].lower()}{where[1:]} {right}"


def _about(mm: float, unit: Unit) -> str:
    """A likely figure to the half centimetre or half inch: it is not known more closely."""
    half = MM_PER[unit] / 2
    return show_length(round(mm / half) * half, unit)


def _listed(names: Iterable[str], body: Mapping[str, float], unit: Unit) -> str:
    shown = [f"{MEASURES[name].title.lower()} {show_length(body[name], unit)}" for name in names]
    return " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)


def _warning(code: str, message: str, fix: str, name: str, beside: Iterable[str]) -> Problem:
    related = tuple(Related(f"compare {MEASURES[other].title.lower()}", Place(point=other)) for other in beside)
    return Problem(code, message, fix, Place(point=name), Severity.WARNING, related)
