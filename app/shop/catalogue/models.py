"""Tables of the catalogue: listings and the versions of their drafts."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Mapped, mapped_column, relationship

from app.base.database import Base, words_column, written_once

__all__ = ["DraftVersion", "Level", "Listing"]


class Level(StrEnum):
    """How much sewing a garment asks for."""

    FIRST_GARMENT = "first garment"
    CONFIDENT = "confident"
    PRACTISED = "practised"


class Listing(Base):
    """A design for sale: words, price, picture and the draft version that new orders use.

    `settled` are choices of the draft that are made for good (name to value), so that one
    draft can be sold as several designs. They never change: proofs and old orders stand on them.
    """

    __tablename__ = "listing"
    __table_args__ = (sa.CheckConstraint("price_cents >= 0", name="price_not_negative"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    slug: Mapped[str] = mapped_column(sa.String(80), unique=True)
    title: Mapped[str] = mapped_column(sa.String(120))
    tagline: Mapped[str] = mapped_column(sa.String(200), default="")
    description_md: Mapped[str] = mapped_column(sa.Text, default="")
    level: Mapped[Level] = mapped_column(words_column(Level))
    price_cents: Mapped[int]
    currency: Mapped[str] = mapped_column(sa.String(3))
    picture: Mapped[str] = mapped_column(sa.String(80), default="")
    published: Mapped[bool] = mapped_column(default=False)
    position: Mapped[int] = mapped_column(default=0)
    settled: Mapped[dict[str, Any]] = mapped_column(default=dict, server_default="{}")
    current_version_id: Mapped[int | None] = mapped_column(
        sa.ForeignKey("draft_version.id", use_alter=True, ondelete="RESTRICT")
    )
    created_at: Mapped[datetime]
    current_version: Mapped[DraftVersion | None] = relationship(
        foreign_keys=[current_version_id], lazy="raise", post_update=True
    )


@written_once
class DraftVersion(Base):
    """One numbered text of a listing's draft; never changed once written, since old orders stand on it."""

    __tablename__ = "draft_version"
    __table_args__ = (sa.UniqueConstraint("listing_id", "number"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    listing_id: Mapped[int] = mapped_column(sa.ForeignKey("listing.id", ondelete="RESTRICT"))
    number: Mapped[int]
    text: Mapped[str] = mapped_column(sa.Text)
    sha256: Mapped[str] = mapped_column(sa.String(64))
    created_at: Mapped[datetime]
    listing: Mapped[Listing] = relationship(foreign_keys=[listing_id], lazy="raise")
