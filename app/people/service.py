"""Signing in, first passwords by one-time link, and the studio's name."""

from __future__ import annotations

from datetime import timedelta

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.database import now
from app.pattern.problem import Problem
from app.people.models import Designer, FailedSignIn, Studio
from app.people.passwords import check_password, hash_password, new_token, password_matches, token_digest

__all__ = [
    "SIGN_IN_WINDOW",
    "by_id",
    "designer_by_token",
    "ensure_designer",
    "ensure_studio",
    "password_link",
    "password_link_token",
    "set_password",
    "sign_in",
    "studio",
]

#: Failed tries older than this no longer count.
SIGN_IN_WINDOW = timedelta(minutes=15)
#: Failed tries allowed within the window: for one e-mail, and for one network address.
TRIES_PER_EMAIL = 10
TRIES_PER_ADDRESS = 20
#: How long a one-time password link holds.
LINK_HOLDS = timedelta(hours=24)

_REFUSED = Problem(
    "people.sign-in-refused",
    "The e-mail and password do not belong together.",
    "Check both. To set a new password, ask the studio keeper to run `tapeline password`.",
)
_TOO_MANY = Problem(
    "people.too-many-tries",
    "There were too many failed tries.",
    f"Wait {SIGN_IN_WINDOW.seconds // 60} minutes, then try again.",
)


def sign_in(session: Session, email: str, password: str, *, address: str = "") -> Designer | Problem:
    """The designer with this e-mail and password; `address` is the network address that asks.

    Takes as long for an unknown e-mail as for a wrong password. Commit also after a
    refusal: failed tries are counted.
    """
    keys = {_key("email", _tidy(email)): TRIES_PER_EMAIL, _key("address", address): TRIES_PER_ADDRESS}
    if any(_failed_tries(session, key) >= most for key, most in keys.items()):
        return _TOO_MANY
    designer = session.scalar(sa.select(Designer).where(Designer.email == _tidy(email)))
    if not password_matches(designer.password_hash if designer else None, password) or designer is None:
        session.add_all(FailedSignIn(key=key, at=now(session)) for key in keys)
        session.flush()
        return _REFUSED
    session.execute(sa.delete(FailedSignIn).where(FailedSignIn.key == _key("email", _tidy(email))))
    return designer


def by_id(session: Session, designer_id: int, *, session_round: int) -> Designer | None:
    """The designer a session belongs to, or None when she is gone or her password changed since."""
    designer = session.get(Designer, designer_id)
    return designer if designer is not None and designer.session_round == session_round else None


def password_link_token(session: Session, designer: Designer) -> str:
    """A fresh token for a link with which the designer sets her password once, within a day; older links end."""
    token = new_token()
    designer.password_token_sha256 = token_digest(token)
    designer.password_token_until = now(session) + LINK_HOLDS
    session.flush()
    return token


def password_link(session: Session, public_url: str, email: str) -> str | Problem:
    """A one-time link for the designer with this e-mail, for the keeper to hand to her."""
    designer = session.scalar(sa.select(Designer).where(Designer.email == _tidy(email)))
    if designer is None:
        return Problem("people.unknown-email", f"Nobody signs in with {email}.", "Check the e-mail.")
    return f"{public_url.rstrip('/')}/password/{password_link_token(session, designer)}"


def designer_by_token(session: Session, token: str) -> Designer | None:
    """The designer whose one-time password link this is, while it holds."""
    designer = session.scalar(sa.select(Designer).where(Designer.password_token_sha256 == token_digest(token)))
    if designer is None or designer.password_token_until is None or designer.password_token_until < now(session):
        return None
    return designer


def set_password(session: Session, token: str, password: str) -> Designer | Problem:
    """Set a password by a one-time link; ends the link and every older session."""
    designer = designer_by_token(session, token)
    if designer is None:
        return Problem(
            "people.link-ended",
            "This link has been used or is too old.",
            "Ask the studio keeper for a new one: `tapeline password`.",
        )
    wrong = check_password(password)
    if wrong is not None:
        return wrong
    designer.password_hash = hash_password(password)
    designer.password_token_sha256 = designer.password_token_until = None
    designer.session_round += 1
    session.flush()
    return designer


def ensure_designer(session: Session, email: str, name: str) -> Designer:
    """The designer with this e-mail, added without a password when she is not there yet."""
    designer = session.scalar(sa.select(Designer).where(Designer.email == _tidy(email)))
    if designer is None:
        designer = Designer(email=_tidy(email), name=name, session_round=0, created_at=now(session))
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


def _failed_tries(session: Session, key: str) -> int:
    oldest = now(session) - SIGN_IN_WINDOW
    session.execute(sa.delete(FailedSignIn).where(FailedSignIn.at < oldest))
    return session.scalar(sa.select(sa.func.count()).where(FailedSignIn.key == key)) or 0


def _key(kind: str, value: str) -> str:
    return token_digest(f"{kind}:{value}")


def _tidy(email: str) -> str:
    return email.strip().lower()
