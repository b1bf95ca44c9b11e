"""A draft of which some choices are settled beforehand: what then is left to choose, to cut and to buy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from app.pattern.drafting import Env, Given, Program, choose
from app.pattern.language import nodes as n
from app.pattern.language.walk import find_all
from app.pattern.make import DraftCard, compiled, read_draft
from app.pattern.problem import Place, Problem, Refused

__all__ = ["Decided", "Settled", "settle", "settled_card"]


@dataclass(frozen=True, slots=True)
class Settled:
    """A compiled draft with choices settled: `values` by name (lengths in mm), and the `card` of what is left.

    The card offers the open choices alone. Pieces, cloths and notions that cannot come
    up with the settled values are not on it; it asks for the same measurements.
    """

    program: Program
    card: DraftCard
    values: Mapping[str, Given]


def settle(text: str, name: str, settled: Mapping[str, Any]) -> Settled | Refused:
    """Settle some choices of a draft (as `make_pattern` takes them), or say what is wrong.

    A choice that the draft lacks and a value that it does not allow are problems; `name`
    is the draft's file name in messages.
    """
    program, card = compiled(text, name), read_draft(text, name)
    if isinstance(card, Refused):
        return card
    assert isinstance(program, Program)
    chosen, empty = choose(program.choices, settled), tuple(_empty(settled))
    if isinstance(chosen, Refused):
        return _told((*chosen.problems, *empty), settled)
    if empty:
        return _told(empty, settled)
    values = {name: chosen[name] for name in settled}
    return Settled(program, _card(card, program, values), values)


def settled_card(text: str, name: str, settled: Mapping[str, Any]) -> DraftCard | Refused:
    """The card of what is left when some choices are settled: a value that can go from one process to another."""
    held = settle(text, name, settled)
    return held if isinstance(held, Refused) else held.card


def _empty(settled: Mapping[str, Any]) -> Iterator[Problem]:
    """Choices settled as nothing, which among a customer's choices would stand for the default."""
    for name, value in settled.items():
        if value in (None, ""):
            yield Problem("choice.wrong", "No value is given.", "Name the value it is settled as.", Place(point=name))


def _told(problems: Iterable[Problem], settled: Mapping[str, Any]) -> Refused:
    """The problems, each with the choice that it is about and how that was to be settled."""

    def told(problem: Problem) -> Problem:
        name = problem.where.point if isinstance(problem.where, Place) else ""
        return replace(problem, message=f"“{name}” is to be settled{_as(settled[name])}. {problem.message}")

    return Refused(tuple(map(told, problems)))


def _as(value: Any) -> str:
    """A value in the words of the draft; a bare figure goes unsaid, since only the draft tells whether it is mm."""
    if isinstance(value, bool):
        return " as “yes”" if value else " as “no”"
    return "" if isinstance(value, float) else f" as “{value}”"


def _card(card: DraftCard, program: Program, values: Mapping[str, Given]) -> DraftCard:
    decided = Decided(program, values)

    def out(lines: Iterable[n.PieceNode | n.FabricLine | n.NotionLine]) -> tuple[bool, ...]:
        return tuple(decided.fails(line) for line in lines)

    draft = program.draft
    pieces, fabrics, notions = out(draft.pieces), out(draft.fabrics), out(draft.notions)
    return replace(
        card,
        choices=tuple(choice for choice in card.choices if choice.name not in values),
        pieces=tuple(piece for piece, gone in zip(card.pieces, pieces, strict=True) if not gone),
        fabrics=tuple(fabric for fabric, gone in zip(card.fabrics, fabrics, strict=True) if not gone),
        notions=tuple(notion for notion, gone in zip(card.notions, notions, strict=True) if not gone),
    )


@dataclass(frozen=True)
class Decided:
    """Which of a program's conditions are decided once the `values` of some or all of its choices are known."""

    program: Program
    values: Mapping[str, Given]

    def of(self, test: n.Expr) -> bool | None:
        """Whether a test holds; None when it hangs on more than the known values."""
        if not set(_names_in(test)) <= self._known:
            return None
        return bool(self.program.run_of(test)(self._env))

    def fails(self, node: Any) -> bool:
        """True when the node stands under a condition that is decided and does not hold."""
        test = node.test if isinstance(node, n.WhenBlock) else getattr(node, "when", None)
        return test is not None and self.of(test) is False

    @cached_property
    def _env(self) -> Env:
        return Env({f"choice.{name}": value for name, value in self.values.items()})

    @cached_property
    def _known(self) -> set[str]:
        choices = self.program.choices
        words = {option for choice in choices for option in choice.options} | {"yes", "no"}
        return words - {choice.name for choice in choices} | set(self.values)


def _names_in(test: n.Expr) -> Iterator[str]:
    """Every name of an expression; a dotted one or a shape counts as one that no choice has."""
    for node in find_all(test, n.Name, n.Dotted, n.Trace):
        yield node.name if isinstance(node, n.Name) else "."
