"""The plan of a proof: which bodies, at which settings of the choices, each with a fingerprint of what it hangs on.

`plan_proof` gives every unit of work of a draft version; the same draft gives the same
plan, so that a worker may plan again instead of storing it. Whatever result is stored
under a unit's fingerprint still holds and need not be worked out again.
"""

from __future__ import annotations

import json
from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from app.pattern.body.populations_standard import DRAWN, SEED, ProofBody, standard_bodies
from app.pattern.drafting import Given, Program, choose
from app.pattern.drafting.advice import advice_of
from app.pattern.pieces.assemble import nothing_to_cut
from app.pattern.problem import Place, Problem, Refused
from app.pattern.proof.behaviour import digest
from app.pattern.proof.fingerprint import code_mark, draft_mark
from app.pattern.proof.settings import Setting, moving_choices, settings_of
from app.pattern.settled import settle

__all__ = ["Population", "ProofPlan", "ProofUnit", "plan_proof", "shares"]

#: Units in a share: a minute's work or so, and one row to store.
SHARE = 256
#: Every choice left open.
_ALL_OPEN: Mapping[str, Any] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Population:
    """The bodies to prove on: `amount` drawn with `seed` besides sizes and corners, and those `given` from outside."""

    amount: int = DRAWN
    seed: int = SEED
    given: tuple[ProofBody, ...] = ()


@dataclass(frozen=True, slots=True)
class ProofUnit:
    """One body at one setting; `fingerprint` names all that its result hangs on."""

    fingerprint: str
    body: ProofBody
    setting: Setting


@dataclass(frozen=True, slots=True)
class ProofPlan:
    """All the work of proving a draft: `moving` and `still` are the open choices that do and do not change the pattern.

    `settled` are the others, by name, which every setting has alike.
    `units` go body by body, the bodies in order, each at every setting. `advice` is for
    the designer alone: what the draft leaves unsaid, so that no check can look at it.
    """

    text: str
    name: str
    group: str
    needs: tuple[str, ...]
    settled: Mapping[str, Given]
    moving: tuple[str, ...]
    still: tuple[str, ...]
    settings: tuple[Setting, ...]
    bodies: tuple[ProofBody, ...]
    units: tuple[ProofUnit, ...]
    advice: tuple[Problem, ...] = ()

    @property
    def fingerprint(self) -> str:
        """One name for the whole plan: equal when every unit is."""
        return digest(*(unit.fingerprint for unit in self.units))

    def left(self, done: Container[str]) -> tuple[ProofUnit, ...]:
        """The units whose fingerprints are not among `done`, in order."""
        return tuple(unit for unit in self.units if unit.fingerprint not in done)


def plan_proof(
    text: str, name: str, population: Population = Population(), settled: Mapping[str, Any] = _ALL_OPEN
) -> ProofPlan | Refused:
    """The plan for a draft's text, or what is wrong with it; `name` is its file name in messages.

    `settled` choices (as `make_pattern` takes them) hold throughout; only the others are varied.
    """
    held = settle(text, name, settled)
    if isinstance(held, Refused):
        return held
    program = held.program
    if not held.card.pieces:
        return Refused.of(nothing_to_cut(program))
    group = program.draft.group
    needs = tuple(need.name for need in program.draft.needs)
    drawn = standard_bodies(group, population.amount, population.seed, program.statures)
    bodies = (*drawn, *population.given)
    if problems := _unfit(group, bodies, needs):
        return Refused(problems)
    choices = held.card.choices
    moving = moving_choices(text, name, choices, bodies, held.values)
    settings = settings_of(moving, held.values)
    names = tuple(choice.name for choice in moving)
    still = tuple(choice.name for choice in choices if choice.name not in names)
    units = tuple(_units(program, needs, bodies, settings))
    advice = advice_of(program)
    return ProofPlan(text, name, group, needs, held.values, names, still, settings, bodies, units, advice)


def _unfit(group: str, bodies: Sequence[ProofBody], needs: Sequence[str]) -> tuple[Problem, ...]:
    if not bodies:
        said = f"There is nobody of these statures among {group} to prove this draft on."
        fix = "Widen the statures, or bring a table of bodies (CSV) that the garment is meant for."
        return (Problem("proof.no-bodies", said, fix, Place()),)
    lacking = {need: next((b.id for b in bodies if need not in b.body), "") for need in needs}
    return tuple(
        Problem("proof.body-lacks", f"The body {found} has no {need}.", "Measure it, or leave this body out.", Place())
        for need, found in lacking.items()
        if found
    )


def _units(
    program: Program, needs: Sequence[str], bodies: Sequence[ProofBody], settings: Sequence[Setting]
) -> Iterator[ProofUnit]:
    marks = [(setting, _setting_mark(program, setting.choices)) for setting in settings]
    # Where the garment touches the body a figure counts that nobody is asked for.
    read = sorted({*needs, *(line.measure.name for line in program.draft.fits)})
    for named in bodies:
        body_mark = json.dumps({name: named.body[name] for name in read if name in named.body})
        for setting, mark in marks:
            yield ProofUnit(digest(body_mark, mark), named, setting)


def _setting_mark(program: Program, choices: Mapping[str, Given]) -> str:
    chosen = choose(program.choices, choices)
    assert not isinstance(chosen, Refused)  # the settings are made of values that the draft itself allows
    return digest(code_mark(), draft_mark(program, chosen), json.dumps(chosen, sort_keys=True))


def shares(units: Sequence[ProofUnit], size: int = SHARE) -> Iterator[tuple[ProofUnit, ...]]:
    """The units in shares of at most `size`, for a queue that stores what each share found."""
    for start in range(0, len(units), size):
        yield tuple(units[start : start + size])
