"""Tables of the catalogue: listings and the versions of their drafts."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum

import sqlalchemy as sa
from sqlalchemy import event
from sqlalchemy.orm import Mapped, Mapper, mapped_column, object_session, relationship

from app.database import Base
from app.errors import Immutable

__all__ = ["DraftVersion", "Level", "Listing"]


class Level(StrEnum):
    """How much sewing a garment asks for."""

    FIRST_GARMENT = "first garment"
    CONFIDENT = "confident"
    PRACTISED = "practised"


class Listing(Base):
    """A design for sale: words, price, picture and the draft version that new orders use."""

    __tablename__ = "listing"
    __table_args__ = (sa.CheckConstraint("price_cents >= 0", name="price_not_negative"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    slug: Mapped[str] = mapped_column(sa.String(80), unique=True)
    title: Mapped[str] = mapped_column(sa.String(120))
    tagline: Mapped[str] = mapped_column(sa.String(200), default="")
    description_md: Mapped[str] = mapped_column(sa.Text, default="")
    level: Mapped[Level] = mapped_column(
        sa.Enum(
            Level,
            native_enum=False,
            create_constraint=True,
            length=30,
            values_callable=lambda kind: [item.value for item in kind],
        )
    )
    price_cents: Mapped[int]
    currency: Mapped[str] = mapped_column(sa.String(3))
    picture: Mapped[str] = mapped_column(sa.String(80), default="")
    published: Mapped[bool] = mapped_column(default=False)
    position: Mapped[int] = mapped_column(default=0)
    current_version_id: Mapped[int | None] = mapped_column(
        sa.ForeignKey("draft_version.id", use_alter=True, ondelete="RESTRICT")
    )
    created_at: Mapped[datetime]
    current_version: Mapped[DraftVersion | None] = relationship(
        foreign_keys=[current_version_id], lazy="raise", post_update=True
    )


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


@event.listens_for(DraftVersion, "before_update")
def _refuse_change(_mapper: Mapper[DraftVersion], _connection: sa.Connection, version: DraftVersion) -> None:
    session = object_session(version)
    if session is not None and session.is_modified(version):
        raise Immutable(f"version {version.number} of a draft was changed; write a new version instead")
