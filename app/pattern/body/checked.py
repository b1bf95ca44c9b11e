"""From what a person typed to a checked body: every entry read, ranged, and weighed beside the others."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from math import isfinite

from app.pattern.body.guess import guesses
from app.pattern.body.measures import ALSO_CALLED, Measure
from app.pattern.body.ranges import hard_range, usual_range
from app.pattern.body.register import MEASURES
from app.pattern.body.second_opinion import CHILD_UP_TO, doubts
from app.pattern.body.wording import measures_for
from app.pattern.problem import Place, Problem, Refused, has_errors
from app.pattern.units import LengthError, Unit, read_length, show_length

__all__ = ["CheckedBody", "check_body", "unknown_measure"]

Entry = str | float

#: A text that ends like this names its own unit: mm, cm, m, in, inch, inches or an inch sign.
UNIT_ENDS = frozenset('mnhs"”″MNHS')

_FEET = re.compile(r"^(\d{1,2})\s*(?:feet|foot|ft|['’′])\s*(\d{1,2})?(?:\s*(?:inches|inch|in|[\"”″]))?$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class CheckedBody:
    """A body as far as it could be read.

    `body` holds, in mm, every entry that could be read and lies in its hard range;
    `entries` holds everything as it was typed, so that a form loses nothing. Each
    problem's place has the measure's name as its `point`.
    """

    body: Mapping[str, float]
    problems: tuple[Problem, ...]
    entries: Mapping[str, Entry]

    @property
    def usable(self) -> bool:
        """True when no error stands in the way; warnings may remain to be confirmed."""
        return not has_errors(self.problems)


def check_body(
    values: Mapping[str, Entry], needs: Iterable[str], unit: Unit, group: str | None = "women"
) -> CheckedBody:
    """Read and check measurements; texts without a unit of their own are in `unit`, numbers are mm.

    `group` is whom they are of: women, men or children. None where that is not known: then somebody whose stature may
    be a child's is held against all of them, and everybody else against grown women and men.
    Errors: an unknown name, a needed entry missing, unreadable or outside its hard range. Warnings (never more): an
    entry unlikely beside the others.
    """
    stature = _stature_of(values, unit, group)
    may_be_child = stature is not None and stature < CHILD_UP_TO
    whom = _Whom("women" if group is None and not may_be_child else group, unit, stature)
    body: dict[str, float] = {}
    problems: list[Problem] = []
    for name, entry in values.items():
        if name in MEASURES and _left_empty(entry):
            continue
        read = _read(name, entry, whom)
        if isinstance(read, Refused):
            problems += read.problems
        else:
            body[name] = read
    problems += _missing(values, needs, whom)
    problems += doubts(body, unit, group)
    return CheckedBody(body, tuple(problems), dict(values))


@dataclass(frozen=True, slots=True)
class _Whom:
    """Whose measurements are read, in which unit, and how tall they are (mm) as far as that is known."""

    group: str | None
    unit: Unit
    stature: float | None

    def measure(self, name: str) -> Measure:
        """A measure in the words of the group, with what it may be there."""
        return replace(measures_for(self.group)[name], hard=hard_range(name, self.group))

    def told(self, measure: Measure) -> Measure:
        """The measure with what most of the group have: of children, those of this stature."""
        return replace(measure, typical=usual_range(measure.name, self.group, self.stature))


def _stature_of(values: Mapping[str, Entry], unit: Unit, group: str | None) -> float | None:
    """The stature in mm where it may be a child's: what a child mostly has goes by it."""
    if group not in (None, "children") or _left_empty(values.get("stature", "")):
        return None
    read = _read("stature", values["stature"], _Whom(group, unit, None))
    return None if isinstance(read, Refused) else read


def _left_empty(entry: Entry) -> bool:
    return isinstance(entry, str) and not entry.strip()


def _read(name: str, entry: Entry, whom: _Whom) -> float | Refused:
    """The entry in mm."""
    if name not in MEASURES:
        return Refused.of(unknown_measure(name))
    measure, unit = whom.measure(name), whom.unit
    try:
        mm = read_length(entry, unit) if isinstance(entry, str) else float(entry)
    except LengthError as error:
        return Refused.of(_unreadable(whom.told(measure), str(error), _FEET.match(str(entry).strip()), unit))
    if not isfinite(mm):
        return Refused.of(_unreadable(whom.told(measure), f"“{entry}” is not a length.", None, unit))
    least, most = measure.hard
    if least <= mm <= most:
        return mm
    return Refused.of(_out_of_range(whom.told(measure), mm, _shown(entry, mm, unit), whom))


def unknown_measure(name: str) -> Problem:
    """The problem for a name that is not in the register, with the nearest one that is."""
    # The registered name that someone who wrote `name` most likely means, or nothing
    plain = name.strip().lower().replace(" ", "_").replace("-", "_")
    begins = [known for known in MEASURES if len(plain) > 2 and known.startswith(plain)]
    close = get_close_matches(plain, [*MEASURES, *ALSO_CALLED], n=1)
    found = next(iter([*begins, *close]), "")
    near = ALSO_CALLED.get(found, found)
    fix = f"Did you mean {near}?" if near else "Use a name from the list of measurements."
    return Problem("body.unknown-measure", f"There is no measurement called “{name}”.", fix, Place(point=name))


def _unreadable(measure: Measure, why: str, feet: re.Match[str] | None, unit: Unit) -> Problem:
    example = show_length(sum(measure.typical) / 2, unit)
    fix = f"Write the {measure.title.lower()} as a number, such as {example}."
    if feet is not None:
        fix = f"Write feet as inches: {feet[0]} is {int(feet[1]) * 12 + int(feet[2] or 0)} in."
    return Problem("body.unreadable", f"{measure.title}: {why}", fix, Place(point=measure.name))


def _shown(entry: Entry, mm: float, unit: Unit) -> str:
    """The entry as it was typed, with the unit it was taken in."""
    if not isinstance(entry, str):
        return show_length(mm, unit)
    return entry.strip() if entry.strip()[-1] in UNIT_ENDS else f"{entry.strip()} {unit}"


def _out_of_range(measure: Measure, mm: float, shown: str, whom: _Whom) -> Problem:
    least, most = measure.hard
    unit = whom.unit
    likely = guesses(measure, mm, unit, lambda meant: least <= meant <= most)
    message = (
        f"{measure.title}: {shown} cannot be right. "
        f"It should lie between {show_length(least, unit)} and {show_length(most, unit)}."
    )
    usual = " to ".join(show_length(end, unit, named=end == measure.typical[1]) for end in measure.typical)
    most_people = "most adults have" if whom.group != "children" else "most children have"
    if whom.group == "children" and whom.stature is not None:
        most_people = f"most children who are {show_length(whom.stature, unit)} tall have"
    fix = " ".join([guess.sentence for guess in likely[:2]] or [f"Measure once more: {most_people} {usual}."])
    return Problem("body.out-of-range", message, fix, Place(point=measure.name))


def _missing(values: Mapping[str, Entry], needs: Iterable[str], whom: _Whom) -> Iterator[Problem]:
    for name in needs:
        if name not in MEASURES:
            yield unknown_measure(name)
        elif _left_empty(values.get(name, "")):
            yield _missing_one(whom.measure(name), whom.unit)


def _missing_one(measure: Measure, unit: Unit) -> Problem:
    words = "centimetres" if unit is Unit.CM else "inches"
    fix = f"{measure.definition} Measure it as the figure shows and write it in {words}."
    return Problem("body.missing", f"{measure.title} is needed for this pattern.", fix, Place(point=measure.name))
