"""A second opinion on measurements beside one another: warnings that ask for confirmation and never refuse.

Honest bodies differ, so the bounds are wide. What a body is held against is a `Yardstick`: women's, men's or children's
(`second_opinion_adults`, `second_opinion_children`). Bust, waist and hip are weighed first, by a ratio rule and by one
another; what is doubted among them is left out when the rest is weighed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from app.pattern.body.guess import guesses
from app.pattern.body.rules import RatioRule, broken_orders, broken_ratios
from app.pattern.body.second_opinion_adults import MEN, WOMEN
from app.pattern.body.second_opinion_children import CHILDREN
from app.pattern.body.weighing import Doubt, Yardstick
from app.pattern.body.wording import measures_for
from app.pattern.problem import Place, Problem, Related, Severity
from app.pattern.units import MM_PER, Unit, show_length

__all__ = ["CHILD_UP_TO", "doubts"]

#: That many lengths all too long or all too short for the stature throw the doubt on the stature.
STATURE_VOTES = 3
#: mm. Of somebody shorter it is not known whether it is a child, unless the draft says whom it is for.
CHILD_UP_TO = 1640.0

_GROUNDS: Mapping[str, Yardstick] = {yardstick.group: yardstick for yardstick in (WOMEN, MEN, CHILDREN)}


def doubts(body: Mapping[str, float], unit: Unit, group: str | None = "women") -> tuple[Problem, ...]:
    """Warnings on measures (mm) that are unlikely beside the others, at most one for each measure.

    With no group a body is held against every group it may be of, and the fewest doubts count.
    """
    if group is not None:
        return _doubts_of(_GROUNDS[group], body, unit)
    groups = ("women", "men", *(("children",) if body.get("stature", CHILD_UP_TO) < CHILD_UP_TO else ()))
    return min((_doubts_of(_GROUNDS[each], body, unit) for each in groups), key=len)


def _doubts_of(yardstick: Yardstick, body: Mapping[str, float], unit: Unit) -> tuple[Problem, ...]:
    girths = [*_ratio_problems(yardstick, body, unit)]
    girths = girths or [_problem(yardstick, doubt, body, unit) for doubt in yardstick.girth_doubts(body)]
    girths += _order_problems(yardstick, body, unit)
    suspects = {problem.where.point for problem in girths if isinstance(problem.where, Place)}
    trusted = {name: value for name, value in body.items() if name not in suspects}
    others = [_problem(yardstick, doubt, body, unit) for doubt in _blamed(yardstick.other_doubts(trusted), trusted)]
    problems = [*girths, *others]
    first: dict[str, Problem] = {}
    for problem in problems:
        first.setdefault(problem.where.point if isinstance(problem.where, Place) else "", problem)
    return tuple(first.values())


# --- bust, waist and hip -------------------------------------------------------------------------------------------


def _ratio_problems(yardstick: Yardstick, body: Mapping[str, float], unit: Unit) -> Iterator[Problem]:
    broken = list(broken_ratios(body, yardstick.ratios))
    if not broken:
        return
    swap = _swap(yardstick, body)
    if swap is not None:
        yield _swapped(yardstick, swap, body, unit)
        return
    name = _suspect(yardstick, broken, body)
    rule = broken[0]
    measure = measures_for(yardstick.group)[name]
    beside = [other for other in ("bust_girth", "waist_girth", "hip_girth") if other != name and other in body]

    def fits(meant: float) -> bool:
        return not any(broken_ratios({**body, name: meant}, yardstick.ratios))

    likely = guesses(measure, body[name], unit, fits)
    message = (
        f"{measure.title}: {show_length(body[name], unit)} hardly goes with {_listed(yardstick, beside, body, unit)}."
    )
    causes = [guess.sentence for guess in likely[:2]] or _usual_words(yardstick, name, body, unit)
    fix = " ".join([*causes, _again(yardstick, name, body, unit)])
    yield _warning(yardstick, "body.ratio", message, fix, name, [rule.under if rule.over == name else rule.over])


def _swap(yardstick: Yardstick, body: Mapping[str, float]) -> tuple[str, str] | None:
    """The two girths that set everything right when they change places, waist and hip first."""
    for one, other in (("waist_girth", "hip_girth"), ("waist_girth", "bust_girth")):
        if one not in body or other not in body or body[one] <= body[other]:
            continue
        turned = {**body, one: body[other], other: body[one]}
        if not any(broken_ratios(turned, yardstick.ratios)):
            return one, other
    return None


def _suspect(yardstick: Yardstick, broken: list[RatioRule], body: Mapping[str, float]) -> str:
    """The girth named by the most broken rules; among equals the one farthest from the usual."""
    named = [name for rule in broken for name in (rule.over, rule.under)]

    def guilt(name: str) -> tuple[int, float]:
        usual = yardstick.usual(name, body)
        return named.count(name), abs(body[name] - usual) if usual is not None else 0.0

    return max(sorted(set(named)), key=guilt)


def _usual_words(yardstick: Yardstick, name: str, body: Mapping[str, float], unit: Unit) -> list[str]:
    usual = yardstick.usual(name, body)
    return [f"About {_about(usual, unit)} would be usual."] if usual is not None else []


def _swapped(yardstick: Yardstick, pair: tuple[str, str], body: Mapping[str, float], unit: Unit) -> Problem:
    one, other = (measures_for(yardstick.group)[name].title for name in pair)
    message = (
        f"{one} ({show_length(body[pair[0]], unit)}) is far larger than {other.lower()} "
        f"({show_length(body[pair[1]], unit)}): perhaps the two changed places."
    )
    fix = (
        f"Look whether {one.lower()} and {other.lower()} stand in each other's field. If both are right, confirm them."
    )
    return _warning(yardstick, "body.swapped", message, fix, pair[0], [pair[1]])


# --- anatomy -------------------------------------------------------------------------------------------------------


def _order_problems(yardstick: Yardstick, body: Mapping[str, float], unit: Unit) -> Iterator[Problem]:
    for larger, smaller in broken_orders(body, yardstick.orders):
        known = measures_for(yardstick.group)
        big, small = known[larger], known[smaller]
        message = (
            f"{big.title} ({show_length(body[larger], unit)}) is not larger than "
            f"{small.title.lower()} ({show_length(body[smaller], unit)}), as it is on nearly every body."
        )
        fix = "Look whether the two changed places, then measure both again. If both are right, confirm them."
        yield _warning(yardstick, "body.order", message, fix, smaller, [larger])


# --- everything else -----------------------------------------------------------------------------------------------


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


def _problem(yardstick: Yardstick, doubt: Doubt, body: Mapping[str, float], unit: Unit) -> Problem:
    measure = measures_for(yardstick.group)[doubt.name]
    way = "large" if doubt.off > 0 else "small"
    message = (
        f"{measure.title}: {show_length(body[doubt.name], unit)} is unusually {way} beside "
        f"{_listed(yardstick, doubt.beside, body, unit)}. About {_about(doubt.likely, unit)} would be usual."
    )
    return _warning(
        yardstick, "body.unlikely", message, _again(yardstick, doubt.name, body, unit), doubt.name, doubt.beside
    )


def _again(yardstick: Yardstick, name: str, body: Mapping[str, float], unit: Unit) -> str:
    where = measures_for(yardstick.group)[name].definition
    right = f"If {show_length(body[name], unit)} is right, confirm it and we use it as it is."
    return f"Measure once more: {where[0].lower()}{where[1:]} {right}"


def _about(mm: float, unit: Unit) -> str:
    """A likely figure to the half centimetre or half inch: it is not known more closely."""
    half = MM_PER[unit] / 2
    return show_length(round(mm / half) * half, unit)


def _listed(yardstick: Yardstick, names: Iterable[str], body: Mapping[str, float], unit: Unit) -> str:
    known = measures_for(yardstick.group)
    shown = [f"{known[name].title.lower()} {show_length(body[name], unit)}" for name in names]
    return " and ".join([", ".join(shown[:-1]), shown[-1]] if len(shown) > 1 else shown)


def _warning(yardstick: Yardstick, code: str, message: str, fix: str, name: str, beside: Iterable[str]) -> Problem:
    known = measures_for(yardstick.group)
    related = tuple(Related(f"compare {known[other].title.lower()}", Place(point=other)) for other in beside)
    return Problem(code, message, fix, Place(point=name), Severity.WARNING, related)
