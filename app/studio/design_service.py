"""Adding a design and changing its words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.catalogue.models import Listing
from app.catalogue.service import save_listing
from app.studio.design_forms import DesignEntry, read_design
from app.studio.service import listing as listing_of

__all__ = ["FIRST_CURRENCY", "add_design", "change_words", "shop_currency"]

#: The currency of a shop's first design.
FIRST_CURRENCY = "EUR"


def shop_currency(session: Session) -> str:
    """The currency of the shop's designs: that of the newest, since a shop keeps to one."""
    return session.scalar(sa.select(Listing.currency).order_by(Listing.id.desc()).limit(1)) or FIRST_CURRENCY


def add_design(session: Session, posted: Mapping[str, str]) -> Listing | DesignEntry:
    """A new design at the end of the shop, not on sale; or what was typed, with what is amiss."""
    last = session.scalar(sa.select(sa.func.max(Listing.position))) or 0
    entry = read_design(posted, None, shop_currency(session), last + 1)
    if entry.words is not None and listing_of(session, entry.words.slug) is not None:
        taken = "Another design has this address. Change it a little."
        entry = replace(entry, errors={"slug": taken}, words=None)
    return entry if entry.words is None else save_listing(session, entry.words)


def change_words(session: Session, listing: Listing, posted: Mapping[str, str]) -> Listing | DesignEntry:
    """New words for a design; its address, price, place and draft stay. Or what was typed, with what is amiss."""
    entry = read_design(posted, listing, listing.currency, listing.position)
    return entry if entry.words is None else save_listing(session, entry.words)
