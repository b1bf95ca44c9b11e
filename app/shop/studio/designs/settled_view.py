"""What a design settles of its draft's choices: in words, and as the fields in which a new design settles them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from app.pattern.make import Choice
from app.pattern.names import in_words
from app.pattern.units import Unit
from app.shop.catalogue.models import Listing
from app.shop.catalogue.view import choice_range
from app.shop.orders.measure.form import choice_field
from app.shop.orders.shown import chosen_words
from app.shop.studio.designs.settled_form import SETTLED
from app.web.fields import Field, Option

__all__ = ["settled_fields", "settled_words"]

_OPEN = "leave it to the customer"
_YES_NO = ("yes", "no")


def settled_words(listing: Listing, offered: Sequence[Choice]) -> str:
    """What a listing settles, such as `Settled: line princess, length 62 cm`; "" when nothing is.

    `offered` are the choices of its draft, which alone say whether a figure is a length.
    """
    if not listing.settled:
        return ""
    kinds = {choice.name: choice.kind for choice in offered}
    made = []
    for name, value in sorted(listing.settled.items()):
        kind = kinds.get(name, "")
        words = chosen_words(value, Unit.CM, measured=kind == "length")
        made.append(in_words(name) if isinstance(value, float) and not kind else f"{in_words(name)} {words}")
    return f"Settled: {', '.join(made)}"


def settled_fields(
    choices: Sequence[Choice], origin: Listing, typed: Mapping[str, str], errors: Mapping[str, str]
) -> tuple[Field, ...]:
    """A field for each choice, as typed; and one for whatever was sent for a choice that the draft lacks.

    `origin` is the design whose draft it is: what that one settles stands beside the field.
    """
    fields = [_field(choice, origin, typed, errors) for choice in choices]
    known = {field.name for field in fields}
    for name, value in typed.items():
        if name.startswith(SETTLED) and name not in known:
            label, options = in_words(name.removeprefix(SETTLED)).capitalize(), _options((), value)
            fields.append(Field(name=name, label=label, kind="select", options=options, error=errors.get(name, "")))
    return tuple(fields)


def _field(choice: Choice, origin: Listing, typed: Mapping[str, str], errors: Mapping[str, str]) -> Field:
    name = choice_field(choice.name)
    value, error = typed.get(name, ""), errors.get(name, "")
    beside = ""
    if choice.name in origin.settled:
        words = chosen_words(origin.settled[choice.name], Unit.CM, measured=choice.kind == "length")
        beside = f"{origin.title} settles it: {words}."
    if choice.kind in ("yesno", "option"):
        options = _options(_YES_NO if choice.kind == "yesno" else choice.options, value)
        return Field(name=name, label=choice.title, kind="select", options=options, hint=beside, error=error)
    hint = f"From {choice_range(choice, (Unit.CM,))}; empty, it is left to the customer. {beside}".strip()
    unit = Unit.CM.value if choice.kind == "length" else ""
    return Field(name=name, label=choice.title, value=value, hint=hint, unit=unit, mode="decimal", error=error)


def _options(values: Sequence[str], picked: str) -> tuple[Option, ...]:
    """The values to pick from; one that was sent and is none of them stands among them, so that it is not lost."""
    sent = (picked,) if picked and picked not in values else ()
    return (
        Option("", _OPEN, not picked),
        *(Option(value, in_words(value), value == picked) for value in (*values, *sent)),
    )
