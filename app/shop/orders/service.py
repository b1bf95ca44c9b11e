"""Fittings and orders as customers and pages see them; one call is part of one transaction of the caller."""

from __future__ import annotations

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from datetime import datetime
from typing import Any

import sqlalchemy as sa
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session, joinedload

from app.base.database import now, reread, rows_changed, take_lock
from app.base.jobs import BuildJob, JobQueue
from app.packs.request import PackFile, PrintChoices
from app.pattern.pieces.model import Cloth
from app.pattern.problem import Problem, Refused
from app.pattern.units import Unit
from app.shop.catalogue.models import Listing
from app.shop.orders.findings import only_not_proved, only_outside_proof, reason_of, stored_finding
from app.shop.orders.limits import NOBODY, Sender, orders_waiting, too_many_fittings, too_many_orders
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.payments.service import settle_payment
from app.shop.proofs.service import not_proved_for, proof_of

__all__ = [
    "CHANGED_SINCE",
    "Customer",
    "FittingEntry",
    "FoundOrders",
    "OrderSearch",
    "build_again",
    "build_current_draft",
    "enqueue_build",
    "cancel_order",
    "cloths_of",
    "delete_unordered_fittings",
    "fitting_by_token",
    "not_proved",
    "not_sold",
    "order_by_number",
    "order_by_token",
    "order_files",
    "place_order",
    "prints_of",
    "save_with_other_lay",
    "request_rebuild",
    "save_fitting",
    "search_orders",
    "status_words",
    "use_current_draft",
    "select_orders",
]

#: Signs of an order number: no vowels (no words by chance), nothing that is read as something else (0 O, 1 I L, U V).
NUMBER_SIGNS = "23456789BCDFGHJKMNPQRSTVWXZ"
_NUMBER_TRIES = 20
#: A fitting drawn by a version of the design that is not the one on sale.
CHANGED_SINCE = "orders.changed-since"
#: What the row of an order must say of a file of its pack.
_PACK_FILE = {"name": str, "title": str, "bytes": int, "sha256": str}
_ENDED = (OrderState.READY, OrderState.NEEDS_DESIGNER, OrderState.FAILED)
_TOLD = {
    OrderState.PLACED: "Your order is in the queue. Your pattern will be drafted in a moment.",
    OrderState.BUILDING: "Your pattern is being drafted for your measurements.",
    OrderState.READY: "Your pattern is ready to download.",
    OrderState.NEEDS_DESIGNER: (
        "Your pattern did not pass one of our checks for your measurements, so we have not given it out. "
        "The designer has been told and will look at it herself. You need not do anything."
    ),
    OrderState.FAILED: (
        "Your pattern could not be made because of a fault on our side. "
        "The designer has been told. Your order and your measurements are safe; you need not enter them again."
    ),
    OrderState.CANCELLED: "This order was cancelled.",
}
#: The same for a pattern that was given out before: it is made again, from the same draft and measurements.
_TOLD_AGAIN = {
    OrderState.PLACED: "Your pattern is in the queue to be made again.",
    OrderState.BUILDING: "Your pattern is being made again for your measurements.",
    OrderState.NEEDS_DESIGNER: (
        "Your pattern was to be made again, and this time it did not pass one of our checks, so its files are not "
        "given out. The designer has been told and will look at it herself. You need not do anything. If you have "
        "files from before, wait for her answer before you cut."
    ),
    OrderState.FAILED: (
        "Your pattern was to be made again, and that stopped because of a fault on our side. "
        "The designer has been told. Your order and your measurements are safe; you need not enter them again."
    ),
}
_TOLD_OUTSIDE = (
    "Your measurements lie outside those on which this design was proved, so that the designer looks at your pattern "
    "herself before it is built. You need not do anything, and nothing was charged."
)
_TOLD_UNPROVED = (
    "This version of the design is not proved for you yet, so that the designer looks at your pattern herself before "
    "it is built. You need not do anything, and nothing was charged."
)
_CLEARED: Mapping[str, str | float | list[Any] | None] = {
    "stage": "",
    "progress": 0.0,
    "reason": "",
    "findings": [],
    "claim": "",
    "worker": "",
    "heartbeat_at": None,
}


@dataclass(frozen=True, slots=True)
class FittingEntry:
    """What a customer entered, checked by the caller. `entered` as typed; `measurements` the same in mm, by name.

    `choices` by name as `app.pattern.make.Choice` describes them; `unit` is "cm" or
    "in"; `confirmed` are the codes of the warnings the customer has looked at and kept.
    """

    entered: Mapping[str, str]
    measurements: Mapping[str, float]
    choices: Mapping[str, float | str | bool]
    unit: str
    paper: str
    cloths: Mapping[str, Cloth]
    confirmed: tuple[str, ...] = ()
    prints: PrintChoices = field(default_factory=PrintChoices)


@dataclass(frozen=True, slots=True)
class Customer:
    """Who orders; both may be left empty."""

    name: str = ""
    email: str = ""


@dataclass(frozen=True, slots=True)
class OrderSearch:
    """What to look for: words in number, title, name or e-mail; a state or any; a page counted from 1."""

    text: str = ""
    state: OrderState | None = None
    page: int = 1
    per_page: int = 25


@dataclass(frozen=True, slots=True)
class FoundOrders:
    """One page of found orders, newest first, and how many there are in all."""

    orders: tuple[Order, ...]
    total: int
    page: int
    pages: int
    by_state: Mapping[OrderState, int] = field(default_factory=dict)


def save_fitting(session: Session, listing: Listing, entry: FittingEntry, sender: Sender = NOBODY) -> Fitting | Refused:
    """Freeze what was entered against the listing's current draft version; its token opens it again.

    Refused when too many came from one address. A correction is a new fitting. `listing` comes from the catalogue's
    service, so its draft is loaded. What the design settles is kept among the choices, so that the fitting stands on
    its own.
    """
    if listing.current_version is None:
        raise ValueError(f"the listing {listing.slug} has no draft to fit")
    if crowded := too_many_fittings(session, sender):
        return Refused(crowded)
    fitting = Fitting(
        token=secrets.token_urlsafe(24),
        listing=listing,
        draft_version=listing.current_version,
        entered=dict(entry.entered),
        measurements=dict(entry.measurements),
        choices={**entry.choices, **listing.settled},
        unit=entry.unit,
        paper=entry.paper,
        cloths={
            name: {"width_mm": cloth.width, "folded": cloth.folded, "one_way": cloth.one_way}
            for name, cloth in entry.cloths.items()
        },
        confirmed=list(entry.confirmed),
        prints=asdict(entry.prints),
        sender=sender.mark,
        created_at=now(session),
    )
    session.add(fitting)
    session.flush()
    return fitting


def save_with_other_lay(session: Session, fitting: Fitting, fabric: str, sender: Sender = NOBODY) -> Fitting | Refused:
    """A fitting like this one in everything, but with one cloth laid the other way: open for folded, or back."""
    if crowded := too_many_fittings(session, sender):
        return Refused(crowded)
    columns = (column.key for column in sa.inspect(Fitting).column_attrs if column.key != "id")
    cloth = fitting.cloths[fabric]
    cloths = {**fitting.cloths, fabric: {**cloth, "folded": not cloth["folded"]}}
    anew = {"token": secrets.token_urlsafe(24), "cloths": cloths, "sender": sender.mark, "created_at": now(session)}
    other = Fitting(**{name: getattr(fitting, name) for name in columns} | anew)
    session.add(other)
    session.flush()
    return other


def fitting_by_token(session: Session, token: str) -> Fitting | None:
    """The fitting with this token, with its listing and draft version, or None."""
    query = sa.select(Fitting).where(Fitting.token == token)
    return session.scalar(query.options(joinedload(Fitting.listing), joinedload(Fitting.draft_version)))


def cloths_of(fitting: Fitting) -> dict[str, Cloth]:
    """The fitting's cloths by fabric, as values."""
    return {
        name: Cloth(kept["width_mm"], folded=kept["folded"], one_way=kept["one_way"])
        for name, kept in fitting.cloths.items()
    }


def prints_of(fitting: Fitting) -> PrintChoices:
    """How the fitting's pattern is printed; one saved before there was a choice is printed in the usual way."""
    return PrintChoices(**(fitting.prints or {}))


def delete_unordered_fittings(session: Session, before: datetime) -> int:
    """Delete up to five hundred fittings made before this moment that nobody ordered by; returns how many."""
    ordered = sa.select(Order.id).where(Order.fitting_id == Fitting.id).exists()
    old = sa.select(Fitting.id).where(Fitting.created_at < before, ~ordered).order_by(Fitting.id).limit(500)
    return rows_changed(session, sa.delete(Fitting).where(Fitting.id.in_(old)))


def place_order(
    session: Session,
    queue: JobQueue,
    fitting: Fitting,
    customer: Customer,
    refused: Sequence[Problem] = (),
    *,
    sender: Sender = NOBODY,
) -> Order | Refused:
    """Order the pack for a fitting and queue its build in the same transaction.

    A body outside what its draft was proved on, or one whose pattern was `refused`, is
    never built by itself: that order goes to the designer with every reason. One
    fitting makes one order: pressing the button twice gives the first order back. None is taken
    where the design is off sale or another version of it is sold now, or too many orders wait.
    """
    take_lock(session, "orders")
    for _ in range(_NUMBER_TRIES):
        existing = session.scalar(select_orders().where(Order.fitting_id == fitting.id))
        if existing is not None:
            return existing
        reread(session, fitting.listing)
        if problems := not_sold(fitting) or too_many_orders(session, sender):
            return Refused(problems)
        order = _new_order(session, fitting, customer, (*not_proved(session, fitting), *refused))
        order.sender = sender.mark
        waiting = orders_waiting(session, sender)
        try:
            with session.begin_nested():
                session.add(order)
        except IntegrityError:
            # Another request placed this fitting, or drew the same number, in the same moment: look again.
            continue
        if order.state is OrderState.PLACED:
            enqueue_build(session, queue, order, behind=waiting)
        return order
    raise RuntimeError("no free order number was found")


def not_sold(fitting: Fitting) -> tuple[Problem, ...]:
    """Why the fitting cannot be ordered as it is: off sale, or another version is sold now; empty when it can."""
    listing = fitting.listing
    if not listing.published:
        said = f"{listing.title} is not on sale at the moment."
        fix = "Keep the address of this page: your measurements stay, in case it comes back."
        return (Problem("orders.off-sale", said, fix),)
    if listing.current_version_id != fitting.draft_version_id:
        said = f"The designer has changed {listing.title} since you entered your measurements."
        return (Problem(CHANGED_SINCE, said, "Have it drawn once more, as it is now; nothing has to be typed again."),)
    return ()


def not_proved(session: Session, fitting: Fitting) -> tuple[Problem, ...]:
    """Why the fitting's draft is not proved for its body; empty when it is."""
    proof = proof_of(session, fitting.draft_version_id)
    return not_proved_for(proof, fitting.measurements, Unit(fitting.unit))


def order_by_token(session: Session, token: str) -> Order | None:
    """The order behind a customer's download link, with fitting, listing and draft version, or None."""
    return session.scalar(select_orders().where(Order.token == token))


def order_by_number(session: Session, number: str) -> Order | None:
    """The order with this number as people type it (any case, with or without `TL-`), or None."""
    tidy = "TL-" + number.strip().upper().removeprefix("TL").lstrip("-\N{EN DASH} ")
    return session.scalar(select_orders().where(Order.number == tidy))


def order_files(order: Order) -> tuple[PackFile, ...]:
    """The files to download: those of a ready order, else none."""
    if order.state is not OrderState.READY:
        return ()
    # A row that was damaged may say anything of a file.
    rows = [values for values in order.files if isinstance(values, dict)]
    whole = (row for row in rows if {name: type(value) for name, value in row.items()} == _PACK_FILE)
    return tuple(PackFile(**values) for values in whole)


def request_rebuild(session: Session, queue: JobQueue, order: Order) -> Order | Refused:
    """Build an order that has ended once more, from the same inputs."""
    done = build_again(session, queue, order, Order.state.in_(_ENDED))
    reread(session, order)
    if done:
        return order
    if order.state is OrderState.CANCELLED:
        fix = "Ask the customer to order again if she wants it after all."
        return Refused.of(Problem("orders.rebuild-not-now", "This order was cancelled.", fix))
    fix = "Wait until the build has ended."
    return Refused.of(Problem("orders.rebuild-not-now", "This order is being built.", fix))


def build_again(session: Session, queue: JobQueue, order: Order, still: sa.ColumnElement[bool], **values: Any) -> bool:
    """Put an order back to wait for a build and queue it, if its row is `still` so; False when it is not any more.

    `values` are written with it. The tries begin anew.
    """
    restart = sa.update(Order).where(Order.id == order.id, still)
    anew = {"attempt": 0, "state": OrderState.PLACED, "updated_at": now(session), **_CLEARED, **values}
    if rows_changed(session, restart.values(**anew)) != 1:
        return False
    enqueue_build(session, queue, order)
    return True


def use_current_draft(session: Session, order: Order) -> Order | Refused:
    """Move an order that was never delivered to its listing's current draft version; rebuild it afterwards.

    A delivered order keeps the draft it was built from for good.
    """
    if order.state not in (OrderState.NEEDS_DESIGNER, OrderState.FAILED) or order.built_at is not None:
        said = f"Order {order.number} keeps the draft version it was placed with."
        fix = "Ask the customer to order again if she wants the new draft."
        return Refused.of(Problem("orders.draft-is-fixed", said, fix))
    order.draft_version_id = (
        session.scalars(sa.select(Listing.current_version_id).where(Listing.id == order.fitting.listing_id)).one()
        or order.draft_version_id
    )
    order.updated_at = now(session)
    session.flush()
    session.refresh(order, ["draft_version"])
    return order


def build_current_draft(session: Session, queue: JobQueue, order: Order) -> Order | Refused:
    """Move an order that was never delivered to its listing's current draft version, and build it."""
    moved = use_current_draft(session, order)
    return moved if isinstance(moved, Refused) else request_rebuild(session, queue, moved)


def cancel_order(session: Session, queue: JobQueue, order: Order) -> Order | Refused:
    """Stop an order that has not been delivered; a build under way stops at its next step."""
    stop = sa.update(Order).where(Order.id == order.id, Order.state.not_in((OrderState.READY, OrderState.CANCELLED)))
    if rows_changed(session, stop.values(state=OrderState.CANCELLED, updated_at=now(session), **_CLEARED)) != 1:
        said = "This order has ended already."
        return Refused.of(Problem("orders.cannot-cancel", said, "Nothing needs to be done."))
    reread(session, order)
    queue.cancel(session, BuildJob(order.id, order.ticket))
    return order


def status_words(order: Order) -> str:
    """Where the order stands, in plain words for the customer; never the designer's technical reason."""
    if order.state is OrderState.NEEDS_DESIGNER and only_outside_proof(order.findings):
        unproved = only_not_proved(str(found["code"]) for found in order.findings)
        return _TOLD_UNPROVED if unproved else _TOLD_OUTSIDE
    given_out = order.built_at is not None
    return _TOLD_AGAIN.get(order.state, _TOLD[order.state]) if given_out else _TOLD[order.state]


def enqueue_build(
    session: Session, queue: JobQueue, order: Order, *, delay_seconds: float = 0.0, behind: int = 0
) -> None:
    """Queue a job for the order under a fresh ticket, in the session's transaction.

    `behind` is how many orders of the same address wait already: those of others that wait behind fewer go first.
    """
    ticket = session.scalars(
        sa.update(Order).where(Order.id == order.id).values(ticket=Order.ticket + 1).returning(Order.ticket)
    ).one()
    order.ticket = ticket
    queue.enqueue(session, BuildJob(order.id, ticket), delay_seconds=delay_seconds, behind=behind)


def search_orders(session: Session, wanted: OrderSearch) -> FoundOrders:
    """Orders that match, newest first, one page of them, with the count of each state for the same words."""
    matching = _matching(wanted.text)
    counts = session.execute(
        sa.select(Order.state, sa.func.count())
        .join(Order.fitting)
        .join(Fitting.listing)
        .where(matching)
        .group_by(Order.state)
    )
    by_state = dict(counts.all())
    total = sum(by_state.values()) if wanted.state is None else by_state.get(wanted.state, 0)
    pages = max(1, -(-total // wanted.per_page))
    page = min(max(1, wanted.page), pages)
    query = select_orders().join(Order.fitting).join(Fitting.listing).where(matching)
    query = query if wanted.state is None else query.where(Order.state == wanted.state)
    query = query.order_by(Order.id.desc()).limit(wanted.per_page).offset((page - 1) * wanted.per_page)
    return FoundOrders(tuple(session.scalars(query)), total, page, pages, by_state)


def _new_order(session: Session, fitting: Fitting, customer: Customer, doubts: Sequence[Problem]) -> Order:
    payment = settle_payment(fitting.listing.currency)
    moment = now(session)
    return Order(
        number="TL-" + "".join(secrets.choice(NUMBER_SIGNS) for _ in range(4)),
        token=secrets.token_urlsafe(24),
        fitting=fitting,
        draft_version=fitting.draft_version,
        customer_name=customer.name.strip(),
        customer_email=customer.email.strip(),
        price_cents=payment.price_cents,
        currency=payment.currency,
        payment_kind=payment.kind,
        payment_state=payment.state,
        state=OrderState.NEEDS_DESIGNER if doubts else OrderState.PLACED,
        reason=reason_of(doubts) if doubts else "",
        findings=[stored_finding(problem) for problem in doubts],
        ticket=0,
        created_at=moment,
        updated_at=moment,
    )


def select_orders() -> sa.Select[Order]:
    """A query for orders with everything they are made from: fitting, listing and draft version."""
    return sa.select(Order).options(
        joinedload(Order.fitting).joinedload(Fitting.listing), joinedload(Order.draft_version)
    )


def _matching(text: str) -> sa.ColumnElement[bool]:
    fields = (Order.number, Order.customer_name, Order.customer_email, Listing.title)
    words = [sa.or_(*(field.icontains(word, autoescape=True) for field in fields)) for word in text.split()]
    return sa.and_(sa.true(), *words)
