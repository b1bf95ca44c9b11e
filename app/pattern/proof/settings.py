"""The settings of its choices at which a draft is proved: every pair of limits, defaults and options that moves it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from app.pattern.body.populations_standard import ProofBody
from app.pattern.drafting import Given
from app.pattern.make import Choice, Failed, Made, make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.proof.pairs import pairwise
from app.pattern.units import Unit, show_length

__all__ = ["Setting", "levels", "moving_choices", "settings_of"]

#: So many bodies are drafted with each value to see whether a choice moves anything.
_LOOKED_AT = 2


@dataclass(frozen=True, slots=True)
class Setting:
    """One setting of the choices: the settled ones and those that move the pattern; the others keep their default."""

    name: str
    choices: Mapping[str, Given]


def levels(choice: Choice) -> tuple[Given, ...]:
    """The values to prove a choice at, its default first: limits, options, or yes and no."""
    if choice.kind == "yesno":
        return (choice.default, not choice.default)
    if choice.kind == "option":
        return tuple(dict.fromkeys((choice.default, *choice.options)))
    limits = (choice.default, choice.least, choice.most)
    return tuple(dict.fromkeys(value for value in limits if value is not None))


def settings_of(moving: Sequence[Choice], settled: Mapping[str, Given]) -> tuple[Setting, ...]:
    """A pairwise cover over the choices that move the pattern; the first setting is the default.

    Each has the `settled` choices besides, which are the same for everybody and go unsaid.
    """
    rows = pairwise({choice.name: levels(choice) for choice in moving}) if moving else [{}]
    return tuple(Setting(_words(moving, row), {**settled, **row}) for row in rows)


def _words(moving: Sequence[Choice], row: Mapping[str, Given]) -> str:
    """What is set otherwise than offered: `length 45 cm, lined no`."""
    changed = [(c, row[c.name]) for c in moving if row[c.name] != c.default]
    return ", ".join(f"{c.name} {_value(c, value)}" for c, value in changed) or "as offered"


def _value(choice: Choice, value: Given) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return show_length(value, Unit.CM) if choice.kind == "length" else f"{value:g}"
    return value.replace("_", " ")


def moving_choices(
    text: str, name: str, choices: Sequence[Choice], bodies: Sequence[ProofBody], settled: Mapping[str, Given]
) -> tuple[Choice, ...]:
    """The choices that change an outline, a mark, a seam, a cloth or a girth of some body, seen beside the defaults.

    A choice may only matter beside another, so each is also tried with every other yes/no and option turned. The
    `settled` ones hold throughout and are not among `choices`.
    """
    found = _Look(text, name, tuple(bodies[:_LOOKED_AT]))
    bases = [{**settled, **base} for base in _bases(choices)]
    return tuple(choice for choice in choices if any(found.moves(choice, base) for base in bases))


def _bases(choices: Sequence[Choice]) -> Iterator[dict[str, Given]]:
    yield {}
    for choice in choices:
        if choice.kind in ("yesno", "option"):
            yield from ({choice.name: value} for value in levels(choice)[1:])


@dataclass(frozen=True, slots=True)
class _Look:
    text: str
    name: str
    bodies: tuple[ProofBody, ...]

    def moves(self, choice: Choice, base: Mapping[str, Given]) -> bool:
        """True when some value of the choice gives another pattern than its default does."""
        default, *others = levels(choice)
        return any(
            self._shape(named, {**base, choice.name: default}) != self._shape(named, {**base, choice.name: value})
            for named in self.bodies
            for value in others
        )

    def _shape(self, named: ProofBody, choices: Mapping[str, Given]) -> Pattern | tuple[str, ...]:
        """What of a pattern can be cut and sewn wrong: no words, no notions, no girth without a body under it."""
        made = make_pattern(self.text, self.name, named.body, choices)
        if not isinstance(made, Made | Failed):
            return tuple(problem.message for problem in made.problems)
        girths = tuple(girth for girth in made.pattern.girths if girth.body > 0.0 or girth.passes > 0.0)
        return replace(made.pattern, title="", girths=girths, notions=(), steps=(), figures={})
