"""What the measurement form shows: every field with its words, and everything as it was typed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from app.pattern.body.sizes import USUAL_SIZES, size_words, sizes_for
from app.pattern.body.wording import measures_for
from app.pattern.lay import FOLDED, OPEN
from app.pattern.make import Choice, DraftCard
from app.pattern.names import in_words
from app.pattern.units import Unit
from app.shop.catalogue.models import Listing
from app.shop.catalogue.view import choice_range
from app.shop.orders.measure.form import (
    CheckedForm,
    DoubtfulEntry,
    choice_field,
    cloth_field,
    length_fields,
    measure_field,
)
from app.shop.orders.measure.print_form import PAPER, is_usual, other_print_fields, paper_field
from app.shop.orders.measure.sides_form import side_fields
from app.shop.orders.measure.typed import TypedForm, exact_field
from app.web.fields import Field, FieldError, Option
from app.web.words import count

__all__ = ["FORM", "ClothFields", "MeasureField", "MeasurePage", "measure_page"]

#: The id of the form itself, for what is wrong with no field of it.
FORM = "measures"


@dataclass(frozen=True, slots=True)
class MeasureField:
    """One measurement: its field, its figure, how to take it, and what is wrong or doubtful about the entry."""

    name: str
    label: str
    value: str
    figure: str
    how: str
    exact_field: str
    exact: str
    from_size: str
    error: str
    doubts: tuple[DoubtfulEntry, ...]

    @property
    def described(self) -> str:
        """Ids of the elements that describe the field, in reading order."""
        ids = [f"{self.name}-from"] if self.from_size else []
        ids += [f"{self.name}-error"] if self.error else []
        ids += [f"{doubt.id}-words" for doubt in self.doubts]
        return " ".join([*ids, f"{self.name}-how"])


@dataclass(frozen=True, slots=True)
class ClothFields:
    """The fields of one cloth: width, how it is laid, and whether it has a direction."""

    title: str
    fields: tuple[Field, ...]


@dataclass(frozen=True, slots=True)
class MeasurePage:
    """The whole form. `errors` and `asks` (doubts) are each linked to its field; `mode` is the keyboard."""

    slug: str
    title: str
    unit: str
    units: tuple[Option, ...]
    mode: str
    sizes: tuple[Option, ...]
    sizes_hint: str
    choices: tuple[Field, ...]
    measures: tuple[MeasureField, ...]
    measures_intro: str
    sides: tuple[Field, ...]
    sides_open: bool
    cloths: tuple[ClothFields, ...]
    paper: tuple[Field, ...]
    prints: tuple[Field, ...]
    prints_open: bool
    hidden: tuple[Option, ...]
    errors_title: str
    errors: tuple[FieldError, ...]
    asks_title: str
    asks: tuple[FieldError, ...]


_INTRO = (
    "Measure over the underwear you will wear with the garment, tape level and close but not tight. Fractions are "
    "welcome: 38 1/2, 97.8 or 97,8."
)
_CHILDS_INTRO = (
    "Measure the child now, over thin clothes, and not from memory: children grow. Tape level and close but not tight, "
    "arms hanging. Fractions are welcome: 22 1/2, 56.5 or 56,5."
)
_NOTHING = CheckedForm({}, (), None)


def measure_page(listing: Listing, card: DraftCard, sent: TypedForm, checked: CheckedForm = _NOTHING) -> MeasurePage:
    """The form of a listing as it stands, with what a check found."""
    prints = other_print_fields(sent, checked.errors)
    sides = side_fields(card.needs, sent, checked.errors)
    open_doubts = [doubt for doubt in checked.doubts if not doubt.ticked]
    # Texts that the form itself wrote have an exact length behind them; the field of a measurement carries its own.
    measures = {measure_field(name) for name in card.needs}
    plain = [name for name in length_fields(card) if name not in measures]
    return MeasurePage(
        slug=listing.slug,
        title=listing.title,
        unit=sent.unit.value,
        units=(Option("cm", "Centimetres", sent.unit is Unit.CM), Option("in", "Inches", sent.unit is Unit.INCH)),
        # Fractions of an inch need a space and a slash, which a number pad does not have.
        mode="decimal" if sent.unit is Unit.CM else "text",
        sizes=_sizes(card, sent),
        sizes_hint=f"{size_words(card.group)} Fills what is still empty; then put in your own.",
        choices=tuple(_choice(choice, sent, checked) for choice in card.choices),
        measures=tuple(_measure(card, name, sent, checked) for name in card.needs),
        measures_intro=_CHILDS_INTRO if card.group == "children" else _INTRO,
        sides=sides,
        # What was answered, or is wrong, must be seen.
        sides_open=any(field.value or field.error for field in sides)
        or any(option.chosen and option.value for field in sides for option in field.options),
        cloths=tuple(_cloth(fabric, title, sent, checked) for fabric, title, _width in card.fabrics),
        paper=(paper_field(sent, checked.errors.get(PAPER, "")),),
        prints=prints,
        # What was chosen, or is wrong, must be seen.
        prints_open=not is_usual(sent) or any(field.error for field in prints),
        hidden=tuple(Option(exact_field(name), sent.texts.get(exact_field(name), "")) for name in plain),
        errors_title=f"Please look at {count(len(checked.errors), 'entry', 'entries')}",
        errors=tuple(FieldError(field, words) for field, words in checked.errors.items()),
        asks_title=f"Please measure {count(len(open_doubts), 'place')} once more",
        asks=tuple(FieldError(doubt.field, f"{doubt.words} {doubt.fix}") for doubt in open_doubts),
    )


def _sizes(card: DraftCard, sent: TypedForm) -> tuple[Option, ...]:
    names = tuple(sizes_for(card.group, card.statures))
    usual = USUAL_SIZES[card.group]
    chosen = sent.texts.get("size", usual if usual in names else "")
    return tuple(Option(size, size, size == chosen) for size in names)


def _choice(choice: Choice, sent: TypedForm, checked: CheckedForm) -> Field:
    name = choice_field(choice.name)
    value = sent.texts.get(name, "")
    plain = Field(name=name, label=choice.title, value=value, error=checked.errors.get(name, ""))
    if choice.kind == "yesno":
        return replace(plain, kind="tick", ticked=value == "yes")
    if choice.kind == "option":
        options = tuple(Option(option, in_words(option), option == value) for option in choice.options)
        return replace(plain, kind="select", options=options)
    unit = sent.unit.value if choice.kind == "length" else ""
    return replace(
        plain, hint=f"From {choice_range(choice, (sent.unit,))}", unit=unit, mode="text" if unit == "in" else "decimal"
    )


def _measure(card: DraftCard, name: str, sent: TypedForm, checked: CheckedForm) -> MeasureField:
    measure, field = measures_for(card.group)[name], measure_field(name)
    exact = sent.exact(field)
    sized = exact is not None and exact.origin in sizes_for(card.group, card.statures)
    from_size = f"As in size {exact.origin}: put in your own." if exact is not None and sized else ""
    return MeasureField(
        name=field,
        label=measure.title,
        value=sent.texts.get(field, ""),
        figure=f"figures/{measure.figure}",
        how=f"{measure.definition} {measure.how_text}",
        exact_field=exact_field(field),
        exact=sent.texts.get(exact_field(field), ""),
        from_size=from_size,
        error=checked.errors.get(field, ""),
        doubts=tuple(doubt for doubt in checked.doubts if doubt.field == field),
    )


def _cloth(fabric: str, title: str, sent: TypedForm, checked: CheckedForm) -> ClothFields:
    width, lay, oneway = (cloth_field(fabric, part) for part in ("width", "lay", "oneway"))
    laid = sent.texts.get(lay, "folded")
    return ClothFields(
        title,
        (
            Field(
                name=width,
                label="Usable width",
                value=sent.texts.get(width, ""),
                unit=sent.unit.value,
                mode="decimal" if sent.unit is Unit.CM else "text",
                error=checked.errors.get(width, ""),
            ),
            Field(
                name=lay,
                label="How you lay it",
                kind="select",
                options=(
                    Option("folded", FOLDED, laid == "folded"),
                    Option("open", f"{OPEN}, in one layer", laid == "open"),
                ),
            ),
            Field(
                name=oneway,
                label="It has a nap, or a print with a direction",
                kind="tick",
                ticked=sent.texts.get(oneway) == "yes",
            ),
        ),
    )
