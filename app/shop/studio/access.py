"""A listing or one version of its draft by the address of a studio page, or the page that says nothing is there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends
from sqlalchemy.orm import Session
from starlette.exceptions import HTTPException

from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.studio.desk import service
from app.web.transactions import TheDatabase

__all__ = ["TheListing", "TheVersion", "ListingVersion", "read_positive_number"]


@dataclass(frozen=True, slots=True)
class ListingVersion:
    """One version of a listing's draft."""

    listing: Listing
    version: DraftVersion

    @property
    def address(self) -> str:
        """Where the studio shows this version."""
        return f"/studio/listings/{self.listing.slug}/versions/{self.version.number}"


def read_positive_number(text: str) -> int:
    """A number from 1 as an address or a form gives it; 0 when it is none."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 7 else 0


def _listing(database: TheDatabase, slug: str) -> Listing:
    return database.read(_listing_or_404, slug)


def _version(database: TheDatabase, slug: str, number: str) -> ListingVersion:
    return database.read(_version_or_404, slug, read_positive_number(number))


def _listing_or_404(session: Session, slug: str) -> Listing:
    listing = service.listing(session, slug)
    if listing is None:
        raise HTTPException(404)
    return listing


def _version_or_404(session: Session, slug: str, number: int) -> ListingVersion:
    listing = _listing_or_404(session, slug)
    version = service.version(session, listing, number)
    if version is None:
        raise HTTPException(404)
    return ListingVersion(listing, version)


#: The listing that the address names, on sale or not.
TheListing = Annotated[Listing, Depends(_listing)]
#: The version of a listing's draft that the address names.
TheVersion = Annotated[ListingVersion, Depends(_version)]
