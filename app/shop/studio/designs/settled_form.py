"""What a new design settles of its draft's choices, as a designer picks and types it: read into values, or told."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.pattern.drafting import Given, choose
from app.pattern.make import Choice
from app.pattern.problem import Place, Refused, spelled_out
from app.pattern.units import Unit
from app.shop.orders.measure.form import choice_field, read_choice
from app.shop.orders.measure.typed import TypedForm

__all__ = ["SETTLED", "SettledEntry", "read_settled"]

#: How the field of every choice begins; its name in the draft follows.
SETTLED = choice_field("")


@dataclass(frozen=True, slots=True)
class SettledEntry:
    """What was picked or typed, by field, and what is amiss, by field; `values` by choice (lengths in mm)."""

    typed: Mapping[str, str]
    errors: Mapping[str, str]
    values: Mapping[str, Given]


def read_settled(posted: Mapping[str, str], choices: Sequence[Choice]) -> SettledEntry:
    """A posted form as settled values of these choices; a field left empty leaves its choice to the customer.

    Lengths are read in centimetres and within the limits, as in the customer's form.
    """
    typed = {field: text.strip() for field, text in posted.items() if field.startswith(SETTLED) and text.strip()}
    texts = {field.removeprefix(SETTLED): text for field, text in typed.items()}
    figures = {choice.name: choice for choice in choices if choice.kind in ("length", "number")}
    sent, errors = TypedForm(typed, Unit.CM), dict[str, str]()
    given = {
        name: read_choice(figures[name], sent, errors) if name in figures else text for name, text in texts.items()
    }
    chosen = choose(tuple(choices), given)
    if isinstance(chosen, Refused):
        for problem in chosen.problems:
            if isinstance(problem.where, Place):
                errors.setdefault(choice_field(problem.where.point), spelled_out([problem]))
        return SettledEntry(typed, errors, {})
    return SettledEntry(typed, errors, {} if errors else {name: chosen[name] for name in given})
