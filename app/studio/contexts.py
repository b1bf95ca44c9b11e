"""What the designer's pages show, ready to print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlencode

from markupsafe import Markup

from app.orders.again import rebuilt_words
from app.orders.contexts import Finding, Pair, entered_pairs, told_of_pack
from app.orders.findings import outside_the_proof
from app.orders.models import Order, OrderState
from app.orders.service import OrderPage, OrderSearch
from app.orders.standing import INSIDE, Standing
from app.proofs.words import proof_words
from app.studio.access import read_number
from app.studio.service import ListingRow, VersionRow
from app.studio.settled_contexts import settled_words
from app.web.fields import Field, Option
from app.web.words import count, day, money

__all__ = [
    "DashboardPage",
    "ListingLine",
    "OrderLine",
    "StudioOrderPage",
    "VersionLine",
    "dashboard_page",
    "read_search",
    "studio_order_page",
]

_STATES = {
    OrderState.PLACED: "placed",
    OrderState.BUILDING: "building",
    OrderState.READY: "ready",
    OrderState.NEEDS_DESIGNER: "needs you",
    OrderState.FAILED: "failed",
    OrderState.CANCELLED: "cancelled",
}
#: What can be done with an order in each state: the last part of the address, and the words on the button.
_REBUILD = Option("rebuild", "Build it again")
_NEW_DRAFT = Option("current-draft", "Take the version now on sale and build again")
_BUILD_OUTSIDE = Option("rebuild", "Build it all the same")
_OUTSIDE_FIX = "Look at her pieces. Then build it all the same, or write to her."
_CANCEL = Option("cancel", "Cancel the order")
_ACTIONS = {
    OrderState.PLACED: (_CANCEL,),
    OrderState.BUILDING: (_CANCEL,),
    OrderState.READY: (_REBUILD,),
    OrderState.NEEDS_DESIGNER: (_REBUILD, _NEW_DRAFT, _CANCEL),
    OrderState.FAILED: (_REBUILD, _NEW_DRAFT, _CANCEL),
    OrderState.CANCELLED: (),
}
#: More words than anyone types in a search.
LONGEST_SEARCH = 100


@dataclass(frozen=True, slots=True)
class VersionLine:
    """A draft version in a listing's row, with its proof."""

    number: int
    words: str
    proof: str


@dataclass(frozen=True, slots=True)
class ListingLine:
    """One listing with what can be done to it: `action` is the last part of its button's address, "" for no button."""

    slug: str
    title: str
    words: str
    settled: str
    state: str
    state_class: str
    published: bool
    price: str
    currency: str
    action: str
    action_words: str
    versions: tuple[VersionLine, ...]


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One order in the list."""

    number: str
    placed: str
    title: str
    customer: str
    state: str
    state_class: str


@dataclass(frozen=True, slots=True)
class DashboardPage:
    """Listings and orders: the search as typed, the orders found, links to the other pages of them.

    `nobody_builds`: no worker gives a sign of life, so that orders only wait.
    """

    listings: tuple[ListingLine, ...]
    filters: tuple[Field, ...]
    orders: tuple[OrderLine, ...]
    found: str
    page_links: tuple[Option, ...]
    nobody_builds: bool


@dataclass(frozen=True, slots=True)
class StudioOrderPage:
    """One order as the designer sees it, with the reason it stopped or waits, the findings and what she can do.

    `again` tells each time that its pack was found damaged; `notes` are what its customer is told of her pack, the
    files that are not there first.
    """

    number: str
    token: str
    fitting: str
    state: str
    state_class: str
    reason_title: str
    reason: str
    again: tuple[str, ...]
    findings: tuple[Finding, ...]
    notes: tuple[str, ...]
    facts: tuple[Pair, ...]
    actions: tuple[Option, ...]
    where: Markup


def read_search(query: Mapping[str, str]) -> OrderSearch:
    """What to look for, from the address; anything that makes no sense is left out."""
    state, page = query.get("state", ""), query.get("page", "1")
    return OrderSearch(
        text=query.get("text", "")[:LONGEST_SEARCH],
        state=OrderState(state) if state in set(OrderState) else None,
        page=read_number(page) or 1,
    )


def dashboard_page(
    rows: list[ListingRow], wanted: OrderSearch, found: OrderPage, *, somebody_works: bool
) -> DashboardPage:
    """The designer's first page; without a worker at work it says that orders only wait."""
    return DashboardPage(
        listings=tuple(_listing(row) for row in rows),
        filters=_filters(wanted, found),
        orders=tuple(_order(order) for order in found.orders),
        found=_found_words(found),
        page_links=_page_links(wanted, found),
        nobody_builds=not somebody_works,
    )


def studio_order_page(order: Order, standing: Standing = INSIDE) -> StudioOrderPage:
    """One order; `standing` is how its body stands to the proof of its draft."""
    fitting = order.fitting
    facts = (
        Pair("Pattern", f"{fitting.listing.title}, draft version {order.draft_version.number}"),
        Pair("Placed", day(order.created_at)),
        Pair("Customer", order.customer_name or "no name given"),
        Pair("E-mail", order.customer_email or "none given"),
        Pair("Price", f"{money(order.price_cents, order.currency)} ({order.payment_kind})"),
        *entered_pairs(fitting, order.draft_version),
    )
    return StudioOrderPage(
        number=order.number,
        token=order.token,
        fitting=fitting.token,
        state=_STATES[order.state],
        state_class=_state_class(order.state),
        reason_title="Why it waits" if order.state in (OrderState.PLACED, OrderState.BUILDING) else "Why it stopped",
        reason=order.reason,
        again=rebuilt_words(order),
        findings=tuple(_finding(one) for one in order.findings),
        notes=(*told_of_pack(order, "left_out"), *told_of_pack(order, "notes")),
        facts=facts,
        actions=_actions(order),
        where=Markup(standing.chart),
    )


def _finding(found: Mapping[str, Any]) -> Finding:
    # What a customer outside the proof is told to do is not what the designer does about it.
    outside = outside_the_proof([found])
    return Finding(str(found.get("message", "")), _OUTSIDE_FIX if outside else str(found.get("fix", "")))


def _actions(order: Order) -> tuple[Option, ...]:
    actions = _ACTIONS[order.state]
    if order.state is not OrderState.NEEDS_DESIGNER or not outside_the_proof(order.findings):
        return actions
    return tuple(_BUILD_OUTSIDE if action is _REBUILD else action for action in actions)


def _state_class(state: OrderState) -> str:
    return state.value.replace("_", "-")


def _listing(row: ListingRow) -> ListingLine:
    listing = row.listing
    waiting = f", {row.needing_designer} waiting for you" if row.needing_designer else ""
    orders = f"{count(row.orders, 'order')}{waiting}"
    sold = row.current or row.trial
    return ListingLine(
        slug=listing.slug,
        title=listing.title,
        words=orders if sold else f"No draft yet · {orders}",
        settled=settled_words(listing, row.offered),
        state="on sale" if listing.published else "not on sale",
        state_class="published" if listing.published else "unpublished",
        published=listing.published,
        price=f"{listing.price_cents // 100}.{listing.price_cents % 100:02d}",
        currency=listing.currency,
        action="unpublish" if listing.published else f"versions/{sold.number}/sell" if sold else "",
        action_words="Take off sale" if listing.published else "Put on sale",
        versions=tuple(_version(each, row.current) for each in (row.current, row.trial) if each is not None),
    )


def _version(row: VersionRow, current: VersionRow | None) -> VersionLine:
    return VersionLine(
        row.number, f"Version {row.number}{'' if row is current else ', on trial'}", proof_words(row.proof)
    )


def _order(order: Order) -> OrderLine:
    return OrderLine(
        number=order.number,
        placed=day(order.created_at),
        title=order.fitting.listing.title,
        customer=order.customer_name or order.customer_email or "–",
        state=_STATES[order.state],
        state_class=_state_class(order.state),
    )


def _filters(wanted: OrderSearch, found: OrderPage) -> tuple[Field, ...]:
    everything = Option("", f"all ({sum(found.by_state.values())})", wanted.state is None)
    states = tuple(
        Option(state.value, f"{words} ({found.by_state.get(state, 0)})", state is wanted.state)
        for state, words in _STATES.items()
    )
    return (
        Field(name="text", label="Number, pattern, name or e-mail", kind="search", value=wanted.text),
        Field(name="state", label="State", kind="select", options=(everything, *states)),
    )


def _found_words(found: OrderPage) -> str:
    if not found.total:
        return "No order found."
    pages = f", page {found.page} of {found.pages}" if found.pages > 1 else ""
    return f"{count(found.total, 'order')}{pages}."


def _page_links(wanted: OrderSearch, found: OrderPage) -> tuple[Option, ...]:
    near = (("Newer orders", found.page - 1), ("Older orders", found.page + 1))
    state = wanted.state.value if wanted.state else ""
    return tuple(
        Option(f"/studio?{urlencode({'text': wanted.text, 'state': state, 'page': page})}#orders", title)
        for title, page in near
        if 1 <= page <= found.pages
    )
