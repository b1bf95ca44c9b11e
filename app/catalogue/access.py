"""A listing on sale by the name in its address, with its draft's card, or the page that says there is nothing there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends
from sqlalchemy.orm import Session
from starlette.exceptions import HTTPException

from app.catalogue import service
from app.catalogue.cards import sellable
from app.catalogue.models import Listing
from app.pattern.make import DraftCard
from app.web.transactions import Transaction

__all__ = ["ListingOnSale", "OnSale", "listing_on_sale"]


@dataclass(frozen=True, slots=True)
class OnSale:
    """A listing that can be bought, and what its draft says of itself."""

    listing: Listing
    card: DraftCard


def listing_on_sale(session: Session, slug: str) -> OnSale:
    """The listing under this slug; raises 404 when it is not on sale or its draft cannot be read."""
    listing = service.listing_by_slug(session, slug)
    for found, card in sellable([listing] if listing else []):
        return OnSale(found, card)
    raise HTTPException(404)


def _by_path(session: Transaction, slug: str) -> OnSale:
    return listing_on_sale(session, slug)


ListingOnSale = Annotated[OnSale, Depends(_by_path)]
