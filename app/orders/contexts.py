"""What the pages of a fitting and of an order show, ready to print."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from app.catalogue.cards import card_of
from app.catalogue.models import DraftVersion
from app.orders.again import again_lead, made_again_words
from app.orders.customer import customer_fields
from app.orders.findings import not_proved_yet, told_plainly
from app.orders.models import Fitting, Order, OrderState
from app.orders.narrow import Narrow, left_out, narrow_cloths, too_narrow
from app.orders.preview import ClothNeeded, drawing_of, pattern_of, with_other_folds
from app.orders.print_form import PAPERS, prints_in_words
from app.orders.service import CHANGED_SINCE, cloths_of, not_sold, order_files, prints_of, told_customer
from app.orders.standing import INSIDE, Standing
from app.pattern.body import MEASURES
from app.pattern.lay import Cloth, LayPlan, lay_svg
from app.pattern.make import Choice, Made, Refused
from app.pattern.names import in_words, titled
from app.pattern.pieces.model import Pattern
from app.pattern.plain_words import errors_of, for_maker, in_plain_words, titles_of
from app.pattern.problem import Problem
from app.pattern.steps import SizeWords, notions_list, sizes_in_words
from app.pattern.units import Unit, show_cloth_length, show_length
from app.web.fields import Field, Slip
from app.web.words import count, day

__all__ = [
    "ClothShown",
    "FabricPage",
    "Finding",
    "Pair",
    "ProgressPage",
    "ReviewPage",
    "chosen_words",
    "entered_pairs",
    "fabric_page",
    "findings_of",
    "progress_page",
    "progress_state",
    "review_page",
    "told_of_pack",
]

# How each sentence goes on after what the checks say: that all hold, or how many things there are to look at.
_HOLDS = ". Look at the sizes once more before you order."
_HOLDS_OUTSIDE = ", but your body is unlike those on which this design was proved."
_HOLDS_UNPROVED = ", but this version of the design is not proved for you yet."
_NARROW = ", but what you have is too narrow for the pieces, so it cannot be ordered yet."
_OFF_SALE = ", but this pattern is not on sale at the moment, so it cannot be ordered now."
_FAILS = "Drawn to your measurements, this pattern does not hold every check, so it is not sold as it stands."
_CHANGED = ", but the design has been changed meanwhile: this is how it was."
_OUTSIDE_TITLE = "Outside what this design was proved on"
_OUTSIDE_WORDS = (
    "Measure these places once more. If the numbers are right, your order goes to the designer first: she looks at "
    "your pattern herself before it is built, and nothing is charged."
)
_NOT_PROVED_TITLE = "Not proved for you yet"
_NOT_PROVED_WORDS = (
    "Nothing was found wrong with your numbers. Your order goes to the designer first: she looks at your pattern "
    "herself before it is built, and nothing is charged."
)
_UNITS = {Unit.CM: "centimetres", Unit.INCH: "inches"}
_WAITING = (OrderState.PLACED, OrderState.BUILDING)


@dataclass(frozen=True, slots=True)
class Pair:
    """A name and its value."""

    title: str
    words: str


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check found, and what to do about it."""

    words: str
    fix: str


@dataclass(frozen=True, slots=True)
class OrderBox:
    """The words round the order button."""

    title: str
    words: str
    button: str


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """A fitting: its pieces, finished sizes and entries.

    `notes` are what she is to look at before she cuts, under `notes_title`.
    `refusals` say why no pattern comes out (`found` is the same for the designer in
    full), `outside` why this body lies outside the proof, with `where` as its picture.
    With either the order goes to the designer (`asks_designer`) instead of being built.
    `narrow` is what the pieces do not go on, cloth or paper: until they do nothing is ordered.
    `changed` says that another version of the design is sold now ("" when it is this one): until the fitting is drawn
    by that one nothing is ordered either.
    `left_out` says which file the pack will be without all the same.
    """

    token: str
    slug: str
    title: str
    heading: str
    lead: str
    drawing: Markup
    drawing_words: str
    girths: tuple[SizeWords, ...]
    girths_words: str
    notes_title: str
    notes: tuple[str, ...]
    entered: tuple[Pair, ...]
    refusals: tuple[str, ...]
    found: tuple[Finding, ...]
    outside_title: str
    outside: tuple[str, ...]
    outside_words: str
    where: Markup
    changed: str
    narrow_title: str
    narrow: tuple[Narrow, ...]
    left_out: tuple[str, ...]
    can_order: bool
    asks_designer: bool
    box: OrderBox
    customer: tuple[Field, ...]
    slips_title: str
    slips: tuple[Slip, ...]


@dataclass(frozen=True, slots=True)
class ClothShown:
    """One cloth: how much to buy, how it is laid, and the lay plan; or the problem that forbids one.

    `offer` says what laying it the other way would save, `offer_action` is the words of the button that does so.
    """

    name: str
    title: str
    buy: str
    words: str
    drawing: Markup
    problem: str
    offer: str
    offer_action: str


@dataclass(frozen=True, slots=True)
class FabricPage:
    """All the cloth and notions for a fitting."""

    token: str
    title: str
    cloths: tuple[ClothShown, ...]
    notions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FileShown:
    """One file to download."""

    name: str
    title: str
    words: str


@dataclass(frozen=True, slots=True)
class ProgressPage:
    """An order as its customer sees it: waiting with its stage, ready with files, or stopped with the findings.

    `again` tells that a ready pattern is another than the one given out first; `left_out` says which files of a ready
    pack are not there and why; `one_sheet` and `projector`: there is one for a copy shop, and one for a projector.
    """

    token: str
    number: str
    placed: str
    heading: str
    lead: str
    waiting: bool
    stage: str
    percent: int
    again: str
    files: tuple[FileShown, ...]
    paper: str
    findings: tuple[str, ...]
    facts: tuple[Pair, ...]
    left_out: tuple[str, ...]
    notes_title: str
    notes: tuple[str, ...]
    one_sheet: bool
    projector: bool
    fitting: str


def review_page(
    fitting: Fitting, posted: Mapping[str, str], errors: Mapping[str, str], standing: Standing = INSIDE
) -> ReviewPage:
    """The review of a fitting, with the customer's fields as `posted` and what is wrong with them.

    `standing` is how her body stands to the proof of the design.
    """
    made = pattern_of(fitting)
    unit = Unit(fitting.unit)
    held = isinstance(made, Made)
    unsold = not_sold(fitting)
    pattern = made.pattern
    problems = () if isinstance(made, Made) else made.problems
    asks, narrow = bool(problems or standing.outside), too_narrow(fitting)
    titles = titles_of(pattern)
    notes = in_plain_words(for_maker(made.findings), titles) if isinstance(made, Made) else ()
    return ReviewPage(
        token=fitting.token,
        slug=fitting.listing.slug,
        title=fitting.listing.title,
        heading=f"Your {fitting.listing.title}" if held else "This needs the designer",
        lead=_lead(fitting, made, notes, standing, narrow=bool(narrow)),
        drawing=Markup(drawing_of(pattern, fitting.listing.title, unit)) if pattern else Markup(),
        drawing_words=_drawing_words(pattern),
        girths=sizes_in_words(pattern, unit) if pattern and held else (),
        girths_words=f"Measured on your pieces, along the stitching lines, in {_UNITS[unit]}",
        notes_title=_notes_title(notes),
        notes=notes,
        entered=entered_pairs(fitting, fitting.draft_version),
        refusals=in_plain_words(errors_of(problems), titles),
        found=findings_of(problems),
        outside_title=_NOT_PROVED_TITLE if _unproved(standing) else _OUTSIDE_TITLE,
        outside=tuple(problem.message for problem in standing.outside),
        outside_words=_NOT_PROVED_WORDS if _unproved(standing) else _OUTSIDE_WORDS,
        where=Markup(standing.chart),
        changed=f"{unsold.message} {unsold.fix}" if unsold and unsold.code == CHANGED_SINCE else "",
        narrow_title=_narrow_title(narrow),
        narrow=narrow,
        left_out=left_out(fitting),
        can_order=unsold is None and not narrow,
        asks_designer=asks,
        box=_ASK_BOX if asks else _ORDER_BOX,
        customer=customer_fields(posted, errors),
        slips_title=f"Please look at {count(len(errors), 'entry', 'entries')}",
        slips=tuple(Slip(field, words) for field, words in errors.items()),
    )


def _lead(fitting: Fitting, made: Made | Refused, notes: Sequence[str], standing: Standing, *, narrow: bool) -> str:
    if not isinstance(made, Made):
        return _FAILS
    things = count(len(notes), "thing")
    checked = f"This pattern can be cut and sewn, with {things} to look at first" if notes else "Every check holds"
    unsold = not_sold(fitting)
    if unsold is not None:
        return checked + (_CHANGED if unsold.code == CHANGED_SINCE else _OFF_SALE)
    if narrow:
        return checked + _NARROW
    if not standing.outside:
        return checked + _HOLDS
    return checked + (_HOLDS_UNPROVED if _unproved(standing) else _HOLDS_OUTSIDE)


def _unproved(standing: Standing) -> bool:
    return not_proved_yet(problem.code for problem in standing.outside)


def _notes_title(notes: Sequence[str]) -> str:
    """The heading over what is to be looked at before the cloth is cut."""
    return f"{count(len(notes), 'thing').capitalize()} to look at before you cut" if notes else ""


def _narrow_title(narrow: tuple[Narrow, ...]) -> str:
    if any(each.name for each in narrow):
        return "Your cloth is too narrow"
    return "Your paper is too narrow" if narrow else ""


def fabric_page(fitting: Fitting) -> FabricPage:
    """The cloth and notions of a fitting."""
    made = pattern_of(fitting)
    unit = Unit(fitting.unit)
    notions = notions_list(made.pattern, unit) if isinstance(made, Made) else ()
    narrow = {cloth.name: cloth.words for cloth in narrow_cloths(fitting)}
    titles = titles_of(made.pattern)
    return FabricPage(
        token=fitting.token,
        title=fitting.listing.title,
        cloths=tuple(
            _cloth(needed, narrow.get(needed.fabric.name), titles, unit) for needed in with_other_folds(fitting)
        ),
        notions=tuple(f"{row.title}: {row.amount}" if row.amount else row.title for row in notions),
    )


def progress_page(order: Order) -> ProgressPage:
    """An order for its customer."""
    state = progress_state(order)
    notes = told_of_pack(order, "notes")
    return ProgressPage(
        token=order.token,
        number=order.number,
        placed=day(order.created_at),
        heading=_AGAIN if again_lead(order) else _HEADINGS[order.state],
        lead=again_lead(order) or (_WHILE_WAITING if order.state in _WAITING else told_customer(order)),
        waiting=order.state in _WAITING,
        stage=str(state["stage"]),
        percent=int(state["percent"]),
        again=made_again_words(order),
        files=tuple(
            FileShown(file.name, file.title, _file_words(file.name, file.bytes)) for file in order_files(order)
        ),
        paper=PAPERS.get(order.fitting.paper, order.fitting.paper),
        findings=told_plainly(order.findings, _titles(order)) if order.state is OrderState.NEEDS_DESIGNER else (),
        facts=(
            Pair("Pattern", order.fitting.listing.title),
            *_built_pairs(order),
            *entered_pairs(order.fitting, order.draft_version),
        ),
        left_out=told_of_pack(order, "left_out"),
        notes_title=_notes_title(notes),
        notes=notes,
        one_sheet=_has_file(order, "pattern-one-sheet.pdf"),
        projector=_has_file(order, "pattern-projector.pdf"),
        fitting=order.fitting.token,
    )


def _titles(order: Order) -> Mapping[str, str]:
    """What the pieces of an order's pattern are called, by name; none where its draft cannot be read."""
    card = card_of(order.draft_version, order.fitting.listing)
    return {name: titled(title, name) for name, title in card.pieces} if card is not None else {}


def told_of_pack(order: Order, what: str) -> tuple[str, ...]:
    """What the build of a ready pack wrote down for people: "left_out" or "notes"."""
    return tuple(order.summary.get(what, ())) if order.state is OrderState.READY else ()


def _has_file(order: Order, name: str) -> bool:
    return any(file.name == name for file in order_files(order))


def progress_state(order: Order) -> dict[str, Any]:
    """What the order's page asks for while it waits."""
    stage = order.stage or ("Waiting for a free worker" if order.state is OrderState.PLACED else "Beginning")
    return {"waiting": order.state in _WAITING, "stage": stage, "percent": round(100 * order.progress)}


def findings_of(problems: Iterable[Problem]) -> tuple[Finding, ...]:
    """Problems as people read them: what is wrong and what to do."""
    return tuple(Finding(problem.message, problem.fix) for problem in problems)


def entered_pairs(fitting: Fitting, version: DraftVersion) -> tuple[Pair, ...]:
    """Everything a customer entered, in words; the version of the draft tells the titles.

    What the design settles is no choice of hers, and goes unsaid.
    """
    card = card_of(version, fitting.listing)
    unit = Unit(fitting.unit)
    choices = {choice.name: choice for choice in card.choices} if card else {}
    titles = {name: title for name, title, _width in card.fabrics} if card else {}
    typed = fitting.entered
    measures = (
        Pair(MEASURES[name].title, _as_typed(str(typed.get(name, "")), mm, unit))
        for name, mm in fitting.measurements.items()
    )
    hers = {name: value for name, value in fitting.choices.items() if name not in fitting.listing.settled}
    chosen = (Pair(*_chosen(name, value, choices.get(name), unit)) for name, value in hers.items())
    cloths = (
        Pair(
            titles.get(name, in_words(name)),
            ", ".join(
                [
                    f"{show_length(cloth.width_mm, unit)} wide",
                    "folded" if cloth.folded else "laid open",
                    *(["one way"] if cloth.one_way else []),
                ]
            ),
        )
        for name, cloth in cloths_of(fitting).items()
    )
    prints = prints_in_words(prints_of(fitting), unit)
    printing = (Pair("Printing", prints),) if prints else ()
    return (*measures, *chosen, *cloths, Pair("Paper", PAPERS.get(fitting.paper, fitting.paper)), *printing)


_ORDER_BOX = OrderBox(
    "Order this pattern",
    "It is a free sample: nothing is charged. Your pattern is built in a few minutes, and its page stays open to you "
    "by its link.",
    "Order my free sample",
)
_ASK_BOX = OrderBox(
    "Ask the designer",
    "Your order goes to the designer before anything is built: she looks at your pattern herself. Nothing is charged. "
    "Leave your e-mail so that she can answer you.",
    "Send it to the designer",
)
_HEADINGS = {
    OrderState.PLACED: "Your pattern is being made",
    OrderState.BUILDING: "Your pattern is being made",
    OrderState.READY: "Ready to print",
    OrderState.NEEDS_DESIGNER: "This needs the designer",
    OrderState.FAILED: "The build stopped",
    OrderState.CANCELLED: "This order was cancelled",
}
_AGAIN = "Your pattern is being made again"
# One sentence for the whole wait: the page stays open while the order goes from the queue to its last step.
_WHILE_WAITING = "It is drafted, checked, laid out and written to files, one after the other."


def _drawing_words(pattern: Pattern | None) -> str:
    if pattern is None:
        return ""
    return f"{count(len(pattern.pieces), 'piece').capitalize()}, all to one scale, drawn for your measurements."


def _cloth(needed: ClothNeeded, narrow: str | None, titles: Mapping[str, str], unit: Unit) -> ClothShown:
    offer, action = _offer(needed, unit)
    laid = needed.plan if isinstance(needed.plan, LayPlan) else None
    return ClothShown(
        name=needed.fabric.name,
        title=needed.fabric.title,
        buy=show_cloth_length(laid.buy, unit) if laid else "",
        words=_laid_words(laid.cloth, unit) if laid else "",
        drawing=Markup(lay_svg(laid, unit)) if laid else Markup(),
        problem=narrow or " ".join(in_plain_words(needed.problems, titles)),
        offer=offer,
        offer_action=action,
    )


def _laid_words(cloth: Cloth, unit: Unit) -> str:
    laid = "folded along its length" if cloth.folded else "laid open"
    direction = ", all pieces one way" if cloth.one_way else ""
    return f"of cloth {show_length(cloth.width, unit)} wide, {laid}{direction}"


def _offer(needed: ClothNeeded, unit: Unit) -> tuple[str, str]:
    """What the other way to lay a cloth would save, and the words on its button; both "" when it saves nothing."""
    better = needed.better
    if better is None:
        return "", ""
    how, action = ("Folded", "Lay it folded") if better.cloth.folded else ("Laid open", "Lay it open")
    buy = show_cloth_length(better.buy, unit)
    if not isinstance(needed.plan, LayPlan):
        return f"{how}, the pieces do go on it: you would need {buy}.", action
    return f"{how} you would need {buy} instead of {show_cloth_length(needed.plan.buy, unit)}.", action


def _as_typed(text: str, mm: float, unit: Unit) -> str:
    """The entry in the customer's own figures, with the unit it was taken in; never rounded again."""
    if not text.strip():
        return show_length(mm, unit)
    return f"{text.strip()} {unit}" if text.strip()[-1].isnumeric() else text.strip()


def _chosen(name: str, value: float | str | bool, choice: Choice | None, unit: Unit) -> tuple[str, str]:
    measured = choice is None or choice.kind == "length"
    return choice.title if choice else in_words(name), chosen_words(value, unit, measured=measured)


def chosen_words(value: float | str | bool, unit: Unit, *, measured: bool) -> str:
    """The value of a choice in words; a figure is a length in mm where it is `measured`, else a plain number."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return in_words(value)
    return show_length(value, unit) if measured else f"{value:g}"


def _built_pairs(order: Order) -> tuple[Pair, ...]:
    """What a ready pack holds and what to buy for it, by the figures that the build wrote down."""
    if order.state is not OrderState.READY:
        return ()
    unit = Unit(order.fitting.unit)
    sheets = order.summary.get("sheets")
    printed = [Pair("To print", count(int(sheets), "sheet"))] if sheets else []
    cloths = (
        Pair(f"{cloth['title']} to buy", f"{cloth['buy']}, {show_length(cloth['width_mm'], unit)} wide")
        for cloth in order.summary.get("cloths", ())
    )
    return (*printed, *cloths)


def _file_words(name: str, size: int) -> str:
    kind = name.rpartition(".")[2].upper()
    return f"{kind}, {size / 1_000_000:.1f} MB" if size >= 1_000_000 else f"{kind}, {max(1, round(size / 1000))} kB"
