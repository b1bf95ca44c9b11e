"""Reading the catalogue, and writing new listings and draft versions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from types import MappingProxyType
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Session, joinedload

from app.base.database import now
from app.pattern.problem import Problem, Refused
from app.shop.catalogue.cards import cannot_settle, card_of
from app.shop.catalogue.models import DraftVersion, Level, Listing
from app.shop.proofs.service import ask_for_proof, proof_of, why_not_sold

__all__ = [
    "ListingWords",
    "add_draft_version",
    "is_known",
    "listing_by_slug",
    "newest_version",
    "published_listings",
    "put_on_sale",
    "save_listing",
    "take_off_sale",
]

#: Every choice left to the customer.
_ALL_OPEN: Mapping[str, Any] = MappingProxyType({})


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


def is_known(session: Session, slug: str) -> bool:
    """True when there is a listing under this slug, on sale or not."""
    return session.scalar(sa.select(sa.exists().where(Listing.slug == slug))) is True


def save_listing(session: Session, words: ListingWords, settled: Mapping[str, Any] = _ALL_OPEN) -> Listing:
    """Add a listing (not yet published), or give the one with this slug new words; its draft stays.

    A new one settles the `settled` choices of its draft for good.
    """
    listing = session.scalar(_listings().where(Listing.slug == words.slug))
    if listing is None:
        listing = Listing(slug=words.slug, settled=dict(settled), created_at=now(session), current_version=None)
        listing.published = False
        session.add(listing)
    for name in ("title", "tagline", "description_md", "level", "price_cents", "currency", "picture", "position"):
        setattr(listing, name, getattr(words, name))
    session.flush()
    return listing


def add_draft_version(session: Session, listing: Listing, text: str) -> DraftVersion:
    """Keep `text` as the listing's newest draft version; the newest one itself when nothing changed.

    It is on trial: a worker proves it by itself, and new orders use it once it is put on sale. Raises ValueError for a
    text that lacks what the listing settles: ask `cards.cannot_settle` before.
    """
    if problems := cannot_settle(listing, text):
        raise ValueError(f"{listing.slug}: " + "\n".join(str(problem) for problem in problems))
    digest = sha256(text.encode()).hexdigest()
    newest = newest_version(session, listing)
    if newest is not None and newest.sha256 == digest:
        return newest
    number = newest.number + 1 if newest is not None else 1
    version = DraftVersion(listing=listing, number=number, text=text, sha256=digest, created_at=now(session))
    session.add(version)
    session.flush()
    ask_for_proof(session, listing.id, version.id)
    return version


def newest_version(session: Session, listing: Listing) -> DraftVersion | None:
    """The listing's newest draft version, on sale or on trial; None when it has none."""
    versions = sa.select(DraftVersion).where(DraftVersion.listing_id == listing.id)
    return session.scalar(versions.order_by(DraftVersion.number.desc()).limit(1))


def put_on_sale(session: Session, listing: Listing, version: DraftVersion) -> Listing | Refused:
    """Sell the listing, by this version of its draft from now on.

    Only a version that is proved on the share of bodies the designer accepts goes on
    sale. Orders that stand go on with the version they were placed with.
    """
    if problems := why_not_sold(proof_of(session, version.id)) or _no_pattern(listing, version):
        return Refused(problems)
    listing.current_version, listing.published = version, True
    session.flush()
    return listing


def _no_pattern(listing: Listing, version: DraftVersion) -> tuple[Problem, ...]:
    """Why a version gives nobody a pattern, whatever a proof of it may say; empty when it may."""
    card = card_of(version, listing)
    if card is not None and card.pieces:
        return ()
    lacks = "has no piece to cut" if card is not None else "cannot be read"
    said = f"Version {version.number} of this draft {lacks}, so that there is no pattern to sell."
    fix = "Open the draft and check it: what is wrong stands beside its lines."
    return (Problem("catalogue.no-pattern", said, fix),)


def take_off_sale(session: Session, listing: Listing) -> None:
    """Take no new orders for the listing; orders that stand go on, and the version stays the one to go back to."""
    listing.published = False
    session.flush()


def _listings() -> sa.Select[Listing]:
    return sa.select(Listing).options(joinedload(Listing.current_version))
