"""The measurement form: first values, changes of unit and size, and from what was sent to a checked entry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import isfinite, nan

from app.packs.request import PrintChoices
from app.pattern.body import MEASURES, CheckedBody, check_body
from app.pattern.body.sizes import sizes_for
from app.pattern.lay import CLOTH_WIDTHS
from app.pattern.make import Choice, DraftCard
from app.pattern.pieces.model import Cloth
from app.pattern.problem import Place, Problem, Severity
from app.pattern.units import LengthError, Unit, show_length
from app.shop.catalogue.view import choice_range
from app.shop.orders.measure.print_form import MARGIN, PAPER, USUAL_PAPERS, read_paper, read_prints, with_prints
from app.shop.orders.measure.sides_form import kept_sides, read_sides, side_lengths, with_sides
from app.shop.orders.measure.typed import ROUNDING, TypedForm
from app.shop.orders.models import Fitting
from app.shop.orders.service import FittingEntry, cloths_of, prints_of

__all__ = [
    "CheckedForm",
    "DoubtfulEntry",
    "blank",
    "after_button",
    "check",
    "choice_field",
    "read_choice",
    "cloth_field",
    "length_fields",
    "measure_field",
    "read_sent",
    "reopened",
]


@dataclass(frozen=True, slots=True)
class DoubtfulEntry:
    """A warning beside a measurement. `value` names what was doubted, so that a tick stands for that number only."""

    id: str
    field: str
    words: str
    fix: str
    value: str
    ticked: bool


@dataclass(frozen=True, slots=True)
class CheckedForm:
    """A form that was sent, checked: what is wrong by field, what is doubtful, and the entry when it can be saved."""

    errors: Mapping[str, str]
    doubts: tuple[DoubtfulEntry, ...]
    entry: FittingEntry | None


def measure_field(name: str) -> str:
    """The field of a measurement."""
    return f"measure-{name}"


def choice_field(name: str) -> str:
    """The field of a choice."""
    return f"choice-{name}"


def cloth_field(fabric: str, part: str) -> str:
    """A field of a fabric: `part` is "width", "lay" or "oneway"."""
    return f"cloth-{fabric}-{part}"


def read_sent(texts: Mapping[str, str]) -> TypedForm:
    """The form as it came from the browser."""
    return TypedForm(texts, Unit.INCH if texts.get("unit") == Unit.INCH.value else Unit.CM)


def blank(card: DraftCard, suggested: Mapping[str, Cloth], unit: Unit) -> TypedForm:
    """The form before anything was typed: choices and cloth at the designer's values, measurements empty.

    `suggested` are the designer's cloths by fabric, where a sample pattern tells them.
    """
    sent = with_prints(TypedForm({}, unit), USUAL_PAPERS[unit], PrintChoices())
    for choice in card.choices:
        sent = _with_choice(sent, choice, choice.default)
    for fabric, _title, width in card.fabrics:
        sent = _with_cloth(sent, fabric, suggested.get(fabric, Cloth(width)))
    return sent


def reopened(card: DraftCard, suggested: Mapping[str, Cloth], fitting: Fitting) -> TypedForm:
    """The form as it stood when the fitting was saved."""
    sent = blank(card, suggested, Unit(fitting.unit))
    for choice in card.choices:
        sent = _with_choice(sent, choice, fitting.choices.get(choice.name, choice.default))
    for fabric, cloth in cloths_of(fitting).items():
        sent = _with_cloth(sent, fabric, cloth)
    for name, mm in fitting.measurements.items():
        typed = str(fitting.entered.get(name, ""))
        field = measure_field(name)
        sent = sent.with_text(field, typed, mm) if typed else sent.with_length(field, mm)
    sent = with_sides(sent, kept_sides(fitting.entered))
    sure = dict(mark.split("=", 1) for mark in fitting.confirmed)
    return with_prints(TypedForm({**sent.texts, **sure}, sent.unit), fitting.paper, prints_of(fitting))


def after_button(card: DraftCard, sent: TypedForm) -> TypedForm | None:
    """The form after one of its helper buttons: another unit, or a size filled in; None when none was pressed."""
    action = sent.texts.get("action", "")
    if action in set(Unit):
        turned = sent.in_unit(length_fields(card), Unit(action))
        if sent.texts.get(PAPER) != USUAL_PAPERS[sent.unit]:
            return turned
        return TypedForm({**turned.texts, PAPER: USUAL_PAPERS[turned.unit]}, turned.unit)
    if action == "size":
        return _with_size(card, sent, sent.texts.get("size", ""))
    return None


def check(card: DraftCard, sent: TypedForm) -> CheckedForm:
    """Check everything that was sent, and gather all that is wrong at once."""
    errors: dict[str, str] = {}
    choices = {choice.name: read_choice(choice, sent, errors) for choice in card.choices}
    values = {name: sent.length_or_text(measure_field(name)) for name in card.needs}
    body = check_body(values, card.needs, sent.unit, card.group)
    for problem in body.problems:
        if problem.severity is Severity.ERROR:
            # The remedy for an empty field is the how-to that stands beside it.
            remedy = "" if problem.code == "body.missing" else f" {problem.fix}"
            errors.setdefault(measure_field(_measure_of(problem)), f"{problem.message}{remedy}")
    _check_stature(card, body, sent.unit, errors)
    doubts = tuple(
        _doubtful_entry(problem, body.body, sent) for problem in body.problems if problem.severity is Severity.WARNING
    )
    cloths = {fabric: _read_cloth(fabric, sent, errors) for fabric, _title, _width in card.fabrics}
    paper, prints = read_paper(sent, errors), read_prints(sent, errors)
    sides = read_sides(card.needs, sent, errors)
    if errors or not all(doubt.ticked for doubt in doubts):
        return CheckedForm(errors, doubts, None)
    entry = FittingEntry(
        entered={name: sent.text(measure_field(name)) for name in card.needs} | sides,
        measurements={name: body.body[name] for name in card.needs},
        choices=choices,
        unit=sent.unit.value,
        paper=paper,
        cloths=cloths,
        confirmed=tuple(f"{doubt.id}={doubt.value}" for doubt in doubts),
        prints=prints,
    )
    return CheckedForm(errors, doubts, entry)


def _check_stature(card: DraftCard, body: CheckedBody, unit: Unit, errors: dict[str, str]) -> None:
    """Refuse a body whose height the design is not offered for, as a garment of one age is not for another.

    That is told instead of any height that nobody could have: those of adults say nothing to a child.
    """
    if card.statures is None:
        return
    least, most = card.statures
    beyond = any(problem.code == "body.out-of-range" and _measure_of(problem) == "stature" for problem in body.problems)
    if beyond or not least <= body.body.get("stature", least) <= most:
        errors[measure_field("stature")] = (
            f"This design is drawn for {card.group} from {show_length(least, unit)} to {show_length(most, unit)} tall. "
            "Check the height, or choose another design."
        )


def length_fields(card: DraftCard) -> tuple[str, ...]:
    """The names of all fields that hold a length: of choices, measurements and sides, of cloths, and the margin."""
    choices = tuple(choice_field(choice.name) for choice in card.choices if choice.kind == "length")
    cloths = tuple(cloth_field(fabric, "width") for fabric, _title, _width in card.fabrics)
    measures = (measure_field(name) for name in card.needs)
    return (*choices, *measures, *side_lengths(card.needs), *cloths, MARGIN)


def _with_size(card: DraftCard, sent: TypedForm, size: str) -> TypedForm:
    sizes = sizes_for(card.group, card.statures)
    if size not in sizes:
        return sent
    body = sizes[size]
    for name in card.needs:
        field = measure_field(name)
        exact = sent.exact(field)
        # What the person typed stays; an empty field, or one still as another size filled it, takes the new size.
        if not sent.text(field).strip() or (exact is not None and exact.origin in sizes):
            sent = sent.with_length(field, body[name], size)
    return sent


def _with_choice(sent: TypedForm, choice: Choice, value: float | str | bool) -> TypedForm:
    field = choice_field(choice.name)
    if choice.kind == "length":
        return sent.with_length(field, float(value))
    if choice.kind == "yesno":
        text = "yes" if value else ""
    else:
        text = f"{value:g}" if choice.kind == "number" else str(value)
    return TypedForm({**sent.texts, field: text}, sent.unit)


def _with_cloth(sent: TypedForm, fabric: str, cloth: Cloth) -> TypedForm:
    parts = {
        cloth_field(fabric, "lay"): "folded" if cloth.folded else "open",
        cloth_field(fabric, "oneway"): "yes" if cloth.one_way else "",
    }
    return TypedForm({**sent.texts, **parts}, sent.unit).with_length(cloth_field(fabric, "width"), cloth.width)


def read_choice(choice: Choice, sent: TypedForm, errors: dict[str, str]) -> float | str | bool:
    """The value of a choice as sent (lengths in mm); what is wrong with it goes into `errors` by its field."""
    field = choice_field(choice.name)
    if choice.kind == "yesno":
        return sent.texts.get(field) == "yes"
    if choice.kind == "option":
        text = sent.texts.get(field, "")
        if text not in choice.options:
            errors[field] = f"{choice.title}: choose one of the list."
        return text
    try:
        value = sent.length(field) if choice.kind == "length" else _read_number(sent.text(field))
    except LengthError as error:
        errors[field] = f"{choice.title}: {error}"
        return choice.default
    least = value if choice.least is None else choice.least
    most = value if choice.most is None else choice.most
    nearest = min(max(value, least), most)
    # A bound shown in inches is rounded: typing it as shown must be taken, as the bound itself.
    if abs(nearest - value) > (ROUNDING if choice.kind == "length" else 0.0):
        errors[field] = f"{choice.title}: choose from {choice_range(choice, (sent.unit,))}."
    return nearest


def _read_number(text: str) -> float:
    try:
        number = float(text.strip().replace(",", "."))
    except ValueError:
        number = nan
    if not isfinite(number):
        raise LengthError(f"“{text.strip()}” is not a number. Write it like 2 or 1.5.")
    return number


def _read_cloth(fabric: str, sent: TypedForm, errors: dict[str, str]) -> Cloth:
    field = cloth_field(fabric, "width")
    least, most = CLOTH_WIDTHS
    width = least
    try:
        width = sent.length(field)
        if not least <= width <= most:
            errors[field] = f"Cloth is {show_length(least, sent.unit)} to {show_length(most, sent.unit)} wide."
    except LengthError as error:
        errors[field] = f"Width of the cloth: {error}"
    folded = sent.texts.get(cloth_field(fabric, "lay"), "folded") != "open"
    return Cloth(width, folded=folded, one_way=sent.texts.get(cloth_field(fabric, "oneway")) == "yes")


def _measure_of(problem: Problem) -> str:
    return problem.where.point if isinstance(problem.where, Place) else next(iter(MEASURES))


def _doubtful_entry(problem: Problem, body: Mapping[str, float], sent: TypedForm) -> DoubtfulEntry:
    name = _measure_of(problem)
    doubt_id = f"sure-{name}-{problem.code.rpartition('.')[2]}"
    # The tick holds for these words: with another number the warning reads otherwise and must be answered again.
    value = f"{body.get(name, 0.0):.1f}"
    ticked = sent.texts.get(doubt_id) == value
    return DoubtfulEntry(doubt_id, measure_field(name), problem.message, problem.fix, value, ticked)
