"""Signing in and out: each device's sign-in is a row that the shop can end, whatever the device still holds.

A password is hashed for a tenth of a second with 64 MiB, so never inside a transaction: look, hash, then write.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import Database, now, rows_changed
from app.pattern.problem import Problem, Refused
from app.shop.people.models import Designer, SignIn
from app.shop.people.passwords import check_password, hash_password, new_token, password_matches, token_digest
from app.shop.people.service import designer_by_token, studio, tidy_email
from app.shop.people.tries import SignInAttempt, count_failure, forget_failures, pause

__all__ = [
    "NewSignIn",
    "OpenSignIn",
    "SignInLifetime",
    "end_sign_in",
    "end_sign_ins",
    "open_sign_in",
    "open_sign_ins",
    "set_password",
    "sign_in",
    "record_use",
]

#: `used_at` is written at most once in so long, so that a look stays a look.
USED_STEP = timedelta(hours=1)

_REFUSED = Refused.of(
    Problem(
        "people.sign-in-refused",
        "The e-mail and password do not belong together.",
        "Check both. To set a new password, ask the studio keeper to run `tapeline password`.",
    )
)
_LINK_ENDED = Refused.of(
    Problem(
        "people.link-ended",
        "This link has been used or is too old.",
        "Ask the studio keeper for a new one: `tapeline password`.",
    )
)


@dataclass(frozen=True, slots=True)
class SignInLifetime:
    """How long a sign-in lasts: at most, and without being used."""

    most: timedelta
    idle: timedelta


@dataclass(frozen=True, slots=True)
class NewSignIn:
    """A designer who has just signed in, and the token that her device keeps."""

    designer: Designer
    token: str


@dataclass(frozen=True, slots=True)
class OpenSignIn:
    """A sign-in that holds: whose it is, and whether it is time to write down that it is used."""

    designer: Designer
    sign_in: SignIn
    unwritten: bool


@dataclass(frozen=True, slots=True)
class _Credentials:
    designer_id: int
    password_hash: str | None


def sign_in(
    database: Database,
    attempt: SignInAttempt,
    email: str,
    password: str,
    *,
    lifetime: SignInLifetime,
    instead_of: str = "",
) -> NewSignIn | Refused:
    """Sign the designer with this e-mail and password in; `instead_of` is the sign-in that her browser had before.

    Takes as long for an unknown e-mail as for a wrong password, and counts what fails.
    """
    if waits := database.read(pause, attempt):
        return Refused(waits)
    found = database.read(_credentials_of, tidy_email(email))
    if not password_matches(found.password_hash if found else None, password) or found is None:
        database.write(count_failure, attempt)
        return _REFUSED
    return database.write(_admit, found, attempt, lifetime, instead_of) or _REFUSED


def set_password(database: Database, token: str, password: str, *, lifetime: SignInLifetime) -> NewSignIn | Refused:
    """Set a password by a one-time link and sign in; ends the link and every older sign-in of hers."""
    known = database.read(_guessable_words, token)
    if isinstance(known, Refused):
        return known
    if wrong := check_password(password, known):
        return Refused(wrong)
    return database.write(_store_password, token, hash_password(password), lifetime)


def open_sign_in(session: Session, token: str, *, lifetime: SignInLifetime) -> OpenSignIn | None:
    """The sign-in whose token this is and its designer, while it holds."""
    this = now(session)
    holds = (SignIn.token_sha256 == token_digest(token), SignIn.ends_at > this, SignIn.used_at > this - lifetime.idle)
    found = session.execute(sa.select(Designer, SignIn).join_from(SignIn, Designer).where(*holds)).one_or_none()
    return OpenSignIn(*found, unwritten=found[1].used_at < this - USED_STEP) if found else None


def record_use(session: Session, token: str) -> None:
    """Write down that a sign-in is used; one that was ended meanwhile stays so."""
    this = now(session)
    session.execute(sa.update(SignIn).where(SignIn.token_sha256 == token_digest(token)).values(used_at=this))


def open_sign_ins(session: Session, designer: Designer, *, lifetime: SignInLifetime) -> list[SignIn]:
    """Where the designer is signed in, the newest first."""
    this = now(session)
    holds = (SignIn.designer_id == designer.id, SignIn.ends_at > this, SignIn.used_at > this - lifetime.idle)
    return list(session.scalars(sa.select(SignIn).where(*holds).order_by(SignIn.begun_at.desc(), SignIn.id.desc())))


def end_sign_in(session: Session, token: str) -> None:
    """End one sign-in for good."""
    session.execute(sa.delete(SignIn).where(SignIn.token_sha256 == token_digest(token)))


def end_sign_ins(session: Session, designer: Designer) -> None:
    """End every sign-in of the designer."""
    session.execute(sa.delete(SignIn).where(SignIn.designer_id == designer.id))


def _credentials_of(session: Session, email: str) -> _Credentials | None:
    row = session.execute(sa.select(Designer.id, Designer.password_hash).where(Designer.email == email)).one_or_none()
    return _Credentials(*row) if row else None


def _admit(
    session: Session, found: _Credentials, attempt: SignInAttempt, lifetime: SignInLifetime, instead_of: str
) -> NewSignIn | None:
    # Locked, so that a new password that ends all sign-ins ends this one too.
    designer = session.get(Designer, found.designer_id, with_for_update=True)
    if designer is None or designer.password_hash != found.password_hash:
        return None  # A new password was set while this one was looked at.
    forget_failures(session, attempt)
    if instead_of:
        end_sign_in(session, instead_of)
    return _begin_sign_in(session, designer, lifetime)


def _begin_sign_in(session: Session, designer: Designer, lifetime: SignInLifetime) -> NewSignIn:
    this, token = now(session), new_token()
    over = sa.or_(SignIn.ends_at <= this, SignIn.used_at <= this - lifetime.idle)
    session.execute(sa.delete(SignIn).where(over))
    session.add(
        SignIn(
            designer_id=designer.id,
            token_sha256=token_digest(token),
            begun_at=this,
            used_at=this,
            ends_at=this + lifetime.most,
        )
    )
    session.flush()
    return NewSignIn(designer, token)


def _guessable_words(session: Session, token: str) -> tuple[str, ...] | Refused:
    """What strangers know of the designer whose link this is."""
    designer = designer_by_token(session, token)
    if designer is None:
        return _LINK_ENDED
    house = studio(session)
    return (designer.email, designer.name, house.name if house else "")


def _store_password(session: Session, token: str, password_hash: str, lifetime: SignInLifetime) -> NewSignIn | Refused:
    designer = designer_by_token(session, token)
    # Of two who use the link at once one sets a password; the link was still open when both began.
    mine = sa.update(Designer).where(Designer.password_token_sha256 == token_digest(token))
    used = {"password_hash": password_hash, "password_token_sha256": None, "password_token_until": None}
    if designer is None or not rows_changed(session, mine.values(used)):
        return _LINK_ENDED
    end_sign_ins(session, designer)
    return _begin_sign_in(session, designer, lifetime)
