"""A listing on sale by the name in its address, with its draft's card, or the page that says there is nothing there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends
from sqlalchemy.orm import Session
from starlette.exceptions import HTTPException

from app.pattern.make import DraftCard
from app.shop.catalogue import service
from app.shop.catalogue.cards import readable_listings
from app.shop.catalogue.models import Listing
from app.web.failures import FailurePage, NothingHere
from app.web.transactions import TheDatabase

__all__ = ["ListingOnSale", "OnSale", "listing_on_sale"]


# Of a design that is not on sale nothing is told, not even its name: it may be one that is being drawn.
_NOT_SOLD = FailurePage(
    "This pattern is not sold at present",
    "The designer has taken it off sale, perhaps to work on it. It may come back under this address. "
    "A pattern you ordered before is not touched: its own link still opens it.",
    "/",
    "See what is on sale",
)


@dataclass(frozen=True, slots=True)
class OnSale:
    """A listing that can be bought, and what its draft says of itself."""

    listing: Listing
    card: DraftCard


def listing_on_sale(session: Session, slug: str) -> OnSale:
    """The listing under this slug; raises 404 when it is not on sale or its draft cannot be read, and says which."""
    listing = service.listing_by_slug(session, slug)
    for found, card in readable_listings([listing] if listing else []):
        return OnSale(found, card)
    raise NothingHere(_NOT_SOLD) if service.is_known(session, slug) else HTTPException(404)


def _by_path(database: TheDatabase, slug: str) -> OnSale:
    return database.read(listing_on_sale, slug)


ListingOnSale = Annotated[OnSale, Depends(_by_path)]
