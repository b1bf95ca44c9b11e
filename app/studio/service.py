"""What the designer sees and does: her listings, their prices, and the orders that need her."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

import sqlalchemy as sa
from sqlalchemy.orm import Session, joinedload

from app.catalogue.models import Listing
from app.orders import service as orders
from app.orders.builds import live_slots
from app.orders.models import Fitting, Order, OrderState
from app.orders.service import OrderPage, OrderSearch
from app.pattern.problem import Problem
from app.proofs.models import Proof
from app.proofs.service import proof_of, proofs_of, why_not_sold

__all__ = ["ListingRow", "find_orders", "listing", "listings", "order", "set_price", "set_published", "somebody_works"]

#: The dearest price that can be set, in the smallest unit of the currency: catches a slipped finger.
MOST_PRICE_CENTS = 100_000


@dataclass(frozen=True, slots=True)
class ListingRow:
    """A listing as the designer's list shows it: its draft's version number (0 for none), its proof and its orders."""

    listing: Listing
    version: int
    orders: int
    needing_designer: int
    proof: Proof | None = None


def listings(session: Session) -> list[ListingRow]:
    """Every listing, on sale or not, in the shop's order, with the orders placed for it."""
    waiting = sa.func.count(Order.id).filter(Order.state.in_((OrderState.NEEDS_DESIGNER, OrderState.FAILED)))
    placed = (
        sa.select(Fitting.listing_id, sa.func.count(Order.id), waiting)
        .join(Order, Order.fitting_id == Fitting.id)
        .group_by(Fitting.listing_id)
    )
    counts = {listing_id: (total, needing) for listing_id, total, needing in session.execute(placed)}
    query = sa.select(Listing).options(joinedload(Listing.current_version)).order_by(Listing.position, Listing.id)
    found = list(session.scalars(query))
    proofs = proofs_of(session, [listing.current_version_id for listing in found])
    return [
        _row(listing, counts.get(listing.id, (0, 0)), proofs.get(listing.current_version_id or 0)) for listing in found
    ]


def listing(session: Session, slug: str) -> Listing | None:
    """The listing under this slug, on sale or not, with its current draft version, or None."""
    return session.scalar(sa.select(Listing).options(joinedload(Listing.current_version)).where(Listing.slug == slug))


def set_published(session: Session, listing: Listing, published: bool) -> Problem | None:
    """Put a listing on sale or take it off. None means done.

    Only one whose current draft is proved on the share of bodies that the designer accepts can go on sale.
    """
    if published and listing.current_version_id is None:
        return Problem("studio.no-draft", f"“{listing.title}” has no draft yet.", "Add its draft, then publish it.")
    if published and (problem := why_not_sold(proof_of(session, listing.current_version_id))) is not None:
        return problem
    listing.published = published
    session.flush()
    return None


def set_price(session: Session, listing: Listing, price_cents: int) -> Problem | None:
    """Set a listing's price for orders from now on, in the smallest unit of its currency. None means done."""
    if not 0 <= price_cents <= MOST_PRICE_CENTS:
        return Problem(
            "studio.price-out-of-range",
            f"{price_cents / 100:.2f} {listing.currency} is not a price this shop takes.",
            f"Choose a price from 0 to {MOST_PRICE_CENTS / 100:.2f} {listing.currency}.",
        )
    listing.price_cents = price_cents
    session.flush()
    return None


def find_orders(session: Session, wanted: OrderSearch) -> OrderPage:
    """Orders by words and state, newest first, one page at a time."""
    return orders.search(session, wanted)


def order(session: Session, number: str) -> Order | None:
    """The order with this number, with its fitting, listing and draft version, or None."""
    return orders.order_by_number(session, number)


def somebody_works(session: Session, silence: timedelta) -> bool:
    """True when at least one worker gave a sign of life within `silence`; without one, orders only wait."""
    return bool(live_slots(session, silence))


def _row(listing: Listing, counts: tuple[int, int], proof: Proof | None) -> ListingRow:
    version = listing.current_version.number if listing.current_version else 0
    return ListingRow(listing, version, orders=counts[0], needing_designer=counts[1], proof=proof)
