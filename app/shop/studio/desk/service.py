"""What the designer sees and does: her listings, their prices, and the orders that need her."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import sqlalchemy as sa
from sqlalchemy.orm import Session, defer, joinedload

from app.pattern.make import Choice
from app.pattern.problem import Problem, Refused
from app.shop.catalogue.cards import draft_name
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.catalogue.service import newest_version
from app.shop.orders.builds import live_slots
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.proofs.models import Proof
from app.shop.proofs.service import proofs_of
from app.shop.studio.drafts.findings import choices_of

__all__ = [
    "MOST_PRICE_CENTS",
    "ListingRow",
    "VersionRow",
    "listing",
    "listings",
    "newest_versions",
    "choices_offered",
    "price_problems",
    "set_price",
    "any_worker_alive",
    "version",
    "versions",
]

#: The dearest price that can be set, in the smallest unit of the currency: catches a slipped finger.
MOST_PRICE_CENTS = 100_000


@dataclass(frozen=True, slots=True)
class VersionRow:
    """A draft version without its text: its number, when it was kept, how its proof stands."""

    number: int
    kept_at: datetime
    proof: Proof | None


@dataclass(frozen=True, slots=True)
class ListingRow:
    """A listing as the designer's list shows it, with its orders.

    `current` is the version that new orders use, `trial` a newer one that was never put on sale; None for none.
    `newest` is its newest version with its text, for a listing that settles some of its choices.
    """

    listing: Listing
    current: VersionRow | None
    trial: VersionRow | None
    orders: int
    needing_designer: int
    newest: DraftVersion | None = None

    @property
    def offered(self) -> tuple[Choice, ...]:
        """The choices of its newest draft, where it settles some of them; read outside any transaction."""
        return choices_offered(self.listing, self.newest)


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
    newest = sa.select(sa.func.max(DraftVersion.id)).group_by(DraftVersion.listing_id)
    trials = {
        each.listing_id: each for each in session.scalars(_select_without_text().where(DraftVersion.id.in_(newest)))
    }
    found = list(session.scalars(query))
    proofs = proofs_of(session, [*(each.current_version_id for each in found), *(each.id for each in trials.values())])
    rows = (_row(each, trials.get(each.id), counts.get(each.id, (0, 0)), proofs) for each in found)
    return [replace(row, newest=newest_version(session, row.listing)) if row.listing.settled else row for row in rows]


def versions(session: Session, listing: Listing) -> list[VersionRow]:
    """Every version of the listing's draft, newest first."""
    query = _select_without_text().where(DraftVersion.listing_id == listing.id).order_by(DraftVersion.number.desc())
    found = list(session.scalars(query))
    proofs = proofs_of(session, [each.id for each in found])
    return [_version_row(each, proofs) for each in found]


def newest_versions(session: Session, listing: Listing) -> list[DraftVersion]:
    """The newest ten versions of the listing's draft with their texts, newest first."""
    query = sa.select(DraftVersion).where(DraftVersion.listing_id == listing.id)
    return list(session.scalars(query.order_by(DraftVersion.number.desc()).limit(10)))


def version(session: Session, listing: Listing, number: int) -> DraftVersion | None:
    """The version of the listing's draft with this number, with its text, or None."""
    query = sa.select(DraftVersion).where(DraftVersion.listing_id == listing.id, DraftVersion.number == number)
    return session.scalar(query)


def choices_offered(listing: Listing, version: DraftVersion | None) -> tuple[Choice, ...]:
    """The choices of a version of the listing's draft, settled ones too; none where it has none or cannot be read."""
    return choices_of(version.text, draft_name(listing)) if version is not None else ()


def listing(session: Session, slug: str) -> Listing | None:
    """The listing under this slug, on sale or not, with its current draft version, or None."""
    return session.scalar(sa.select(Listing).options(joinedload(Listing.current_version)).where(Listing.slug == slug))


def price_problems(price_cents: int, currency: str) -> tuple[Problem, ...]:
    """Why a price, in the smallest unit of its currency, cannot be asked; empty when it can."""
    if 0 <= price_cents <= MOST_PRICE_CENTS:
        return ()
    said = f"{price_cents / 100:.2f} {currency} is not a price this shop takes."
    fix = f"Choose a price from 0 to {MOST_PRICE_CENTS / 100:.2f} {currency}."
    return (Problem("studio.price-out-of-range", said, fix),)


def set_price(session: Session, listing: Listing, price_cents: int) -> Listing | Refused:
    """Set a listing's price for orders from now on, in the smallest unit of its currency."""
    if problems := price_problems(price_cents, listing.currency):
        return Refused(problems)
    listing.price_cents = price_cents
    session.flush()
    return listing


def any_worker_alive(session: Session, silence: timedelta) -> bool:
    """True when at least one worker gave a sign of life within `silence`; without one, orders only wait."""
    return bool(live_slots(session, silence))


def _select_without_text() -> sa.Select[DraftVersion]:
    """A query for versions without their texts, which are long."""
    return sa.select(DraftVersion).options(defer(DraftVersion.text, raiseload=True))


def _version_row(version: DraftVersion, proofs: Mapping[int, Proof]) -> VersionRow:
    return VersionRow(version.number, version.created_at, proofs.get(version.id))


def _row(
    listing: Listing, newest: DraftVersion | None, counts: tuple[int, int], proofs: Mapping[int, Proof]
) -> ListingRow:
    current = listing.current_version
    trial = newest if newest is not None and (current is None or newest.number > current.number) else None
    return ListingRow(
        listing,
        _version_row(current, proofs) if current is not None else None,
        _version_row(trial, proofs) if trial is not None else None,
        orders=counts[0],
        needing_designer=counts[1],
    )
