"""Reading the catalogue, and writing new listings and draft versions."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256

import sqlalchemy as sa
from sqlalchemy.orm import Session, joinedload

from app.catalogue.models import DraftVersion, Level, Listing
from app.database import now
from app.proofs.service import ask_for_proof

__all__ = ["ListingWords", "add_draft_version", "listing_by_slug", "published_listings", "save_listing"]


@dataclass(frozen=True, slots=True)
class ListingWords:
    """What a designer says of a listing. The price is in the smallest unit of the currency."""

    slug: str
    title: str
    tagline: str
    description_md: str
    level: Level
    price_cents: int
    currency: str
    picture: str
    position: int = 0


def published_listings(session: Session) -> list[Listing]:
    """The listings on sale, in the shop's order, each with its current draft version."""
    query = _listings().where(Listing.published, Listing.current_version_id.is_not(None))
    return list(session.scalars(query.order_by(Listing.position, Listing.id)))


def listing_by_slug(session: Session, slug: str) -> Listing | None:
    """The listing on sale under this slug with its current draft version, or None."""
    query = _listings().where(Listing.slug == slug, Listing.published, Listing.current_version_id.is_not(None))
    return session.scalar(query)


def save_listing(session: Session, words: ListingWords) -> Listing:
    """Add a listing (not yet published), or give the one with this slug new words; its draft stays."""
    listing = session.scalar(_listings().where(Listing.slug == words.slug))
    if listing is None:
        listing = Listing(slug=words.slug, published=False, created_at=now(session), current_version=None)
        session.add(listing)
    for name in ("title", "tagline", "description_md", "level", "price_cents", "currency", "picture", "position"):
        setattr(listing, name, getattr(words, name))
    session.flush()
    return listing


def add_draft_version(session: Session, listing: Listing, text: str) -> DraftVersion:
    """Make `text` the listing's current draft: a new numbered version, or the current one when nothing changed.

    A worker proves the new version by itself.
    """
    digest = sha256(text.encode()).hexdigest()
    current = listing.current_version
    if current is not None and current.sha256 == digest:
        return current
    last = session.scalar(sa.select(sa.func.max(DraftVersion.number)).where(DraftVersion.listing_id == listing.id))
    version = DraftVersion(listing=listing, number=(last or 0) + 1, text=text, sha256=digest, created_at=now(session))
    session.add(version)
    listing.current_version = version
    session.flush()
    ask_for_proof(session, listing.id, version.id)
    return version


def _listings() -> sa.Select[Listing]:
    return sa.select(Listing).options(joinedload(Listing.current_version))
