"""Tables of people who sign in, their studio, and failed tries to sign in."""

from __future__ import annotations

from datetime import datetime

import sqlalchemy as sa
from sqlalchemy.orm import Mapped, mapped_column

from app.database import Base

__all__ = ["Designer", "FailedSignIn", "Studio"]


class Studio(Base):
    """The studio's public name; one row."""

    __tablename__ = "studio"

    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str] = mapped_column(sa.String(120))
    contact_email: Mapped[str] = mapped_column(sa.String(254), default="")
    about_md: Mapped[str] = mapped_column(sa.Text, default="")


class Designer(Base):
    """Someone who may open the studio's back room.

    `session_round` is carried in each session and grows when the password changes,
    so that older sessions end. The one-time password token is kept as its SHA-256.
    """

    __tablename__ = "designer"

    id: Mapped[int] = mapped_column(primary_key=True)
    email: Mapped[str] = mapped_column(sa.String(254), unique=True)
    name: Mapped[str] = mapped_column(sa.String(120))
    password_hash: Mapped[str | None] = mapped_column(sa.String(255))
    password_token_sha256: Mapped[str | None] = mapped_column(sa.String(64), unique=True)
    password_token_until: Mapped[datetime | None]
    session_round: Mapped[int] = mapped_column(default=0)
    created_at: Mapped[datetime]


class FailedSignIn(Base):
    """One failed try to sign in, kept for as long as it counts; e-mail and address only as keyed hashes."""

    __tablename__ = "failed_sign_in"

    id: Mapped[int] = mapped_column(primary_key=True)
    key: Mapped[str] = mapped_column(sa.String(64), index=True)
    at: Mapped[datetime]
