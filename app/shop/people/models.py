"""Tables of people who sign in, their studio, where they are signed in, and failed tries to sign in."""

from __future__ import annotations

from datetime import datetime

import sqlalchemy as sa
from sqlalchemy.orm import Mapped, mapped_column

from app.base.database import Base

__all__ = ["Designer", "FailedSignIn", "SignIn", "Studio"]


class Studio(Base):
    """The studio's public name; one row."""

    __tablename__ = "studio"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(sa.String(120))
    contact_email: Mapped[str] = mapped_column(sa.String(254), default="")
    about_md: Mapped[str] = mapped_column(sa.Text, default="")


class Designer(Base):
    """Someone who may open the studio's back room.

    The one-time password token is kept as its SHA-256.
    """

    __tablename__ = "designer"

    id: Mapped[int] = mapped_column(primary_key=True)
    email: Mapped[str] = mapped_column(sa.String(254), unique=True)
    name: Mapped[str] = mapped_column(sa.String(120))
    password_hash: Mapped[str | None] = mapped_column(sa.String(255))
    password_token_sha256: Mapped[str | None] = mapped_column(sa.String(64), unique=True)
    password_token_until: Mapped[datetime | None]
    created_at: Mapped[datetime]


class SignIn(Base):
    """One device on which a designer is signed in, from its beginning to its end; then the row goes.

    The token that the device holds is kept as its SHA-256. `used_at` is true to the hour, `ends_at` is when it ends
    however busy it is.
    """

    __tablename__ = "sign_in"

    id: Mapped[int] = mapped_column(primary_key=True)
    designer_id: Mapped[int] = mapped_column(sa.ForeignKey("designer.id", ondelete="CASCADE"), index=True)
    token_sha256: Mapped[str] = mapped_column(sa.String(64), unique=True)
    begun_at: Mapped[datetime]
    used_at: Mapped[datetime]
    ends_at: Mapped[datetime]


class FailedSignIn(Base):
    """One failed try to sign in under one of the keys it counts for, kept for as long as it counts.

    A key is a digest: nobody's e-mail or address can be read from it, or found by trying them all without the
    shop's secret.
    """

    __tablename__ = "failed_sign_in"

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(sa.String(64), index=True)
    at: Mapped[datetime]
