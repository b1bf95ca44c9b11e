"""What the pages of a fitting and of an order show, ready to print."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from app.packs.sides import sides_words
from app.pattern.make import Failed, Made
from app.pattern.plain_words import errors_of, for_maker, in_plain_words, titles_of
from app.pattern.problem import Problem, Refused, spelled_out
from app.pattern.steps import SizeWords, sizes_in_words
from app.pattern.units import Unit
from app.shop.orders.coverage import ProofCoverage
from app.shop.orders.findings import only_not_proved
from app.shop.orders.measure.sides_form import kept_sides
from app.shop.orders.models import Fitting
from app.shop.orders.review.form import customer_fields
from app.shop.orders.review.narrow import TooNarrow, left_out, too_narrow
from app.shop.orders.review.preview import drawing_of, pattern_of
from app.shop.orders.review.service import ReviewState
from app.shop.orders.service import CHANGED_SINCE, not_sold
from app.shop.orders.shown import Finding, Pair, entered_pairs, findings_of, girths_caption
from app.web.fields import Field, FieldError
from app.web.words import count

__all__ = ["ReviewPage", "review_page"]

# How each sentence goes on after what the checks say: that all hold, or how many things there are to look at.
_HOLDS = ". Look at the sizes once more before you order."
_HOLDS_OUTSIDE = ", but your body is unlike those on which this design was proved."
_HOLDS_UNPROVED = ", but this version of the design is not proved for you yet."
_NARROW = ", but what you have is too narrow for the pieces, so it cannot be ordered yet."
_ORDERED = ", and you have ordered it."
#: So many orders (a pack takes seconds) are built within a few minutes.
_SOON = 10
_ALONE = ReviewState()
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


@dataclass(frozen=True, slots=True)
class OrderBox:
    """The words round the order button."""

    title: str
    words: str
    button: str


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """A fitting: its pieces, finished sizes and entries.

    `notes` are what she is to look at before she cuts, under `notes_title`; `sides` is what to do where her two sides
    are not alike.
    `refusals` say why no pattern comes out (`found` is the same for the designer in
    full), `outside` why this body lies outside the proof, with `where` as its picture.
    With either the order goes to the designer (`asks_designer`) instead of being built.
    `narrow` is what the pieces do not go on, cloth or paper: until they do nothing is ordered.
    `changed` says that another version of the design is sold now ("" when it is this one): until the fitting is drawn
    by that one nothing is ordered either.
    `order` is the address of the order for this very fitting, "" while there is none.
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
    sides: tuple[str, ...]
    entered: tuple[Pair, ...]
    refusals: tuple[str, ...]
    found: tuple[Finding, ...]
    outside_title: str
    outside: tuple[str, ...]
    outside_words: str
    where: Markup
    changed: str
    narrow_title: str
    narrow: tuple[TooNarrow, ...]
    left_out: tuple[str, ...]
    can_order: bool
    order: str
    asks_designer: bool
    box: OrderBox
    customer: tuple[Field, ...]
    errors_title: str
    errors: tuple[FieldError, ...]


def review_page(
    fitting: Fitting, posted: Mapping[str, str], errors: Mapping[str, str], state: ReviewState = _ALONE
) -> ReviewPage:
    """The review of a fitting, with the customer's fields as `posted` and what is wrong with them.

    One that was ordered is not ordered again, whatever is sold now: it says so, and leads to its order.
    """
    coverage = state.coverage
    made = pattern_of(fitting)
    unit = Unit(fitting.unit)
    held = isinstance(made, Made)
    unsold = () if state.order else not_sold(fitting)
    pattern = made.pattern if isinstance(made, Made | Failed) else None
    problems = () if isinstance(made, Made) else made.problems
    pieces = count(len(pattern.pieces), "piece").capitalize() if pattern else ""
    asks, narrow = bool(problems or coverage.outside), too_narrow(fitting)
    titles = titles_of(pattern)
    notes = in_plain_words(for_maker(made.findings), titles) if isinstance(made, Made) else ()
    return ReviewPage(
        token=fitting.token,
        slug=fitting.listing.slug,
        title=fitting.listing.title,
        heading=f"Your {fitting.listing.title}" if held else "This needs the designer",
        lead=_lead(made, notes, unsold, state, narrow=bool(narrow)),
        drawing=Markup(drawing_of(pattern, fitting.listing.title, unit)) if pattern else Markup(),
        drawing_words=f"{pieces}, all to one scale, drawn for your measurements." if pieces else "",
        girths=sizes_in_words(pattern, unit) if pattern and held else (),
        girths_words=girths_caption(unit),
        notes_title=notes_title(notes),
        notes=notes,
        sides=sides_words(kept_sides(fitting.entered), unit),
        entered=entered_pairs(fitting, fitting.draft_version),
        refusals=in_plain_words(errors_of(problems), titles),
        found=findings_of(problems),
        outside_title=_NOT_PROVED_TITLE if _unproved(coverage) else _OUTSIDE_TITLE,
        outside=tuple(problem.message for problem in coverage.outside),
        outside_words=_NOT_PROVED_WORDS if _unproved(coverage) else _OUTSIDE_WORDS,
        where=Markup(coverage.chart),
        changed=spelled_out(unsold) if _changed_since(unsold) else "",
        narrow_title=_narrow_title(narrow),
        narrow=narrow,
        left_out=left_out(fitting),
        can_order=not unsold and not narrow and not state.order,
        order=f"/orders/{state.order}" if state.order else "",
        asks_designer=asks,
        box=_ASK_BOX if asks else _order_box(state.waiting),
        customer=customer_fields(posted, errors),
        errors_title=f"Please look at {count(len(errors), 'entry', 'entries')}",
        errors=tuple(FieldError(field, words) for field, words in errors.items()),
    )


def _lead(
    made: Made | Refused, notes: Sequence[str], unsold: Sequence[Problem], state: ReviewState, *, narrow: bool
) -> str:
    if not isinstance(made, Made):
        return _FAILS
    things = count(len(notes), "thing")
    checked = f"This pattern can be cut and sewn, with {things} to look at first" if notes else "Every check holds"
    if state.order:
        return checked + _ORDERED
    if unsold:
        return checked + (_CHANGED if _changed_since(unsold) else _OFF_SALE)
    if narrow:
        return checked + _NARROW
    if not state.coverage.outside:
        return checked + _HOLDS
    return checked + (_HOLDS_UNPROVED if _unproved(state.coverage) else _HOLDS_OUTSIDE)


def _changed_since(unsold: Sequence[Problem]) -> bool:
    return any(problem.code == CHANGED_SINCE for problem in unsold)


def _unproved(coverage: ProofCoverage) -> bool:
    return only_not_proved(problem.code for problem in coverage.outside)


def notes_title(notes: Sequence[str]) -> str:
    """The heading over what is to be looked at before the cloth is cut."""
    return f"{count(len(notes), 'thing').capitalize()} to look at before you cut" if notes else ""


def _narrow_title(narrow: tuple[TooNarrow, ...]) -> str:
    if any(each.name for each in narrow):
        return "Your cloth is too narrow"
    return "Your paper is too narrow" if narrow else ""


def _order_box(waiting: int) -> OrderBox:
    """The words to order by; `waiting` is how many orders of anybody wait."""
    when = (
        "Your pattern is built in a few minutes"
        if waiting <= _SOON
        else f"{waiting} orders wait at the moment, and your pattern takes its turn among them"
    )
    words = f"It is a free sample: nothing is charged. {when}; its page stays open to you by its link."
    return OrderBox("Order this pattern", words, "Order my free sample")


_ASK_BOX = OrderBox(
    "Ask the designer",
    "Your order goes to the designer before anything is built: she looks at your pattern herself. Nothing is charged. "
    "Leave your e-mail so that she can answer you.",
    "Send it to the designer",
)
