"""Designers, their one-time links for a password, and the studio's name."""

from __future__ import annotations

from datetime import timedelta

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import now
from app.pattern.problem import Problem, Refused
from app.shop.people.models import Designer, Studio
from app.shop.people.passwords import new_token, token_digest

__all__ = [
    "LINK_HOLDS",
    "designer_by_token",
    "ensure_designer",
    "ensure_studio",
    "password_link",
    "password_link_token",
    "studio",
    "tidy_email",
]

#: How long a one-time password link holds.
LINK_HOLDS = timedelta(hours=24)


def password_link_token(session: Session, designer: Designer) -> str:
    """A fresh token for a link with which the designer sets her password once, within a day; older links end."""
    token = new_token()
    designer.password_token_sha256 = token_digest(token)
    designer.password_token_until = now(session) + LINK_HOLDS
    session.flush()
    return token


def password_link(session: Session, public_url: str, email: str) -> str | Refused:
    """A one-time link for the designer with this e-mail, for the keeper to hand to her."""
    designer = session.scalar(sa.select(Designer).where(Designer.email == tidy_email(email)))
    if designer is None:
        return Refused.of(Problem("people.unknown-email", f"Nobody signs in with {email}.", "Check the e-mail."))
    return f"{public_url.rstrip('/')}/password/{password_link_token(session, designer)}"


def designer_by_token(session: Session, token: str) -> Designer | None:
    """The designer whose one-time password link this is, while it holds."""
    designer = session.scalar(sa.select(Designer).where(Designer.password_token_sha256 == token_digest(token)))
    if designer is None or designer.password_token_until is None or designer.password_token_until < now(session):
        return None
    return designer


def ensure_designer(session: Session, email: str, name: str) -> Designer:
    """The designer with this e-mail, added without a password when she is not there yet."""
    designer = session.scalar(sa.select(Designer).where(Designer.email == tidy_email(email)))
    if designer is None:
        designer = Designer(email=tidy_email(email), name=name, created_at=now(session))
        session.add(designer)
        session.flush()
    return designer


def studio(session: Session) -> Studio | None:
    """The studio's public name and words, or None before it has any."""
    return session.get(Studio, 1)


def ensure_studio(session: Session, name: str, contact_email: str, about_md: str) -> Studio:
    """The studio's row, added with these words when there is none yet."""
    row = studio(session)
    if row is None:
        row = Studio(id=1, name=name, contact_email=contact_email, about_md=about_md)
        session.add(row)
        session.flush()
    return row


def tidy_email(email: str) -> str:
    """An e-mail as it is kept and compared: without case and outer spaces."""
    return email.strip().lower()
