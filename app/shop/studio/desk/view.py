"""What the designer's pages show, ready to print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from app.shop.orders.models import OrderState
from app.shop.orders.service import FoundOrders, OrderSearch
from app.shop.proofs.words import proof_words
from app.shop.studio.access import read_positive_number
from app.shop.studio.designs.settled_view import settled_words
from app.shop.studio.desk.service import ListingRow
from app.shop.studio.orders.view import STATES, css_class
from app.web.fields import Field, Option
from app.web.words import count, day

__all__ = ["DashboardPage", "ListingLine", "OrderLine", "VersionLine", "dashboard_page", "read_search"]

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
    css_class: str
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
    css_class: str


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


def read_search(query: Mapping[str, str]) -> OrderSearch:
    """What to look for, from the address; anything that makes no sense is left out."""
    state, page = query.get("state", ""), query.get("page", "1")
    return OrderSearch(
        text=query.get("text", "")[:LONGEST_SEARCH],
        state=OrderState(state) if state in set(OrderState) else None,
        page=read_positive_number(page) or 1,
    )


def dashboard_page(
    rows: list[ListingRow], wanted: OrderSearch, found: FoundOrders, *, somebody_works: bool
) -> DashboardPage:
    """The designer's first page; without a worker at work it says that orders only wait."""
    return DashboardPage(
        listings=tuple(_listing(row) for row in rows),
        filters=_filters(wanted, found),
        orders=tuple(
            OrderLine(
                number=order.number,
                placed=day(order.created_at),
                title=order.fitting.listing.title,
                customer=order.customer_name or order.customer_email or "–",
                state=STATES[order.state],
                css_class=css_class(order.state),
            )
            for order in found.orders
        ),
        found=_found_words(found),
        page_links=_page_links(wanted, found),
        nobody_builds=not somebody_works,
    )


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
        css_class="published" if listing.published else "unpublished",
        published=listing.published,
        price=f"{listing.price_cents // 100}.{listing.price_cents % 100:02d}",
        currency=listing.currency,
        action="unpublish" if listing.published else f"versions/{sold.number}/sell" if sold else "",
        action_words="Take off sale" if listing.published else "Put on sale",
        versions=tuple(
            VersionLine(each.number, f"Version {each.number}{trial}", proof_words(each.proof))
            for each, trial in ((row.current, ""), (row.trial, ", on trial"))
            if each is not None
        ),
    )


def _filters(wanted: OrderSearch, found: FoundOrders) -> tuple[Field, ...]:
    everything = Option("", f"all ({sum(found.by_state.values())})", wanted.state is None)
    states = tuple(
        Option(state.value, f"{words} ({found.by_state.get(state, 0)})", state is wanted.state)
        for state, words in STATES.items()
    )
    return (
        Field(name="text", label="Number, pattern, name or e-mail", kind="search", value=wanted.text),
        Field(name="state", label="State", kind="select", options=(everything, *states)),
    )


def _found_words(found: FoundOrders) -> str:
    if not found.total:
        return "No order found."
    pages = f", page {found.page} of {found.pages}" if found.pages > 1 else ""
    return f"{count(found.total, 'order')}{pages}."


def _page_links(wanted: OrderSearch, found: FoundOrders) -> tuple[Option, ...]:
    near = (("Newer orders", found.page - 1), ("Older orders", found.page + 1))
    state = wanted.state.value if wanted.state else ""
    return tuple(
        Option(f"/studio?{urlencode({'text': wanted.text, 'state': state, 'page': page})}#orders", title)
        for title, page in near
        if 1 <= page <= found.pages
    )
