"""Adding a design, from an empty page or from another one's draft, and changing its words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import Database
from app.pattern.make import Choice
from app.shop.catalogue.cards import cannot_settle_so, draft_name
from app.shop.catalogue.models import DraftVersion, Listing
from app.shop.catalogue.service import add_draft_version, save_listing
from app.shop.studio.designs.form import DesignEntry, read_design
from app.shop.studio.designs.settled_form import read_settled
from app.shop.studio.desk import service
from app.shop.studio.drafts.check import draft_source
from app.shop.studio.drafts.findings import reading_of

__all__ = ["FIRST_CURRENCY", "Origin", "add_design", "add_design_from", "change_words", "origin_of", "shop_currency"]

#: The currency of a shop's first design.
FIRST_CURRENCY = "EUR"


@dataclass(frozen=True, slots=True)
class Origin:
    """The draft that another design is made from: whose it is, the version taken, and all choices of its text."""

    listing: Listing
    version: DraftVersion
    choices: tuple[Choice, ...]


def shop_currency(session: Session) -> str:
    """The currency of the shop's designs: that of the newest, since a shop keeps to one."""
    return session.scalar(sa.select(Listing.currency).order_by(Listing.id.desc()).limit(1)) or FIRST_CURRENCY


def origin_of(listing: Listing, versions: Sequence[DraftVersion]) -> Origin | None:
    """The first of the versions of the listing's draft that can be read, to make another design from; None without one.

    Reading takes its time, so it is done with the versions that were looked up before (`service.newest_texts`).
    """
    for version in versions:
        if not reading_of(draft_source(version.text, draft_name(listing), {})).problems:
            return Origin(listing, version, service.choices_offered(listing, version))
    return None


def add_design_from(database: Database, posted: Mapping[str, str], origin: Origin) -> Listing | DesignEntry:
    """`add_design` from another's draft: whether the text can be settled so is found out before anything is written."""
    cannot_settle_so(origin.version.text, read_settled(posted, origin.choices).values)
    return database.write(add_design, posted, origin)


def add_design(session: Session, posted: Mapping[str, str], origin: Origin | None = None) -> Listing | DesignEntry:
    """A new design at the end of the shop, not on sale; or what was typed, with what is amiss.

    One made from another's draft settles what was posted for its choices, and has that text as its first version.
    """
    last = session.scalar(sa.select(sa.func.max(Listing.position))) or 0
    entry = read_design(posted, None, shop_currency(session), last + 1)
    if entry.words is not None and service.listing(session, entry.words.slug) is not None:
        entry = replace(entry, errors={"slug": "Another design has this address. Change it a little."}, words=None)
    settled = read_settled(posted, origin.choices if origin is not None else ())
    if entry.words is None or settled.errors:
        return DesignEntry({**entry.typed, **settled.typed}, {**entry.errors, **settled.errors})
    made = save_listing(session, entry.words, settled.values)
    if origin is not None:
        add_draft_version(session, made, origin.version.text)
    return made


def change_words(session: Session, listing: Listing, posted: Mapping[str, str]) -> Listing | DesignEntry:
    """New words for a design; its address, price, place and draft stay. Or what was typed, with what is amiss."""
    entry = read_design(posted, listing, listing.currency, listing.position)
    return entry if entry.words is None else save_listing(session, entry.words)
