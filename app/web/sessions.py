"""Who is signed in, and one-time notices: the few things kept in the signed session cookie."""

from __future__ import annotations

import secrets
from dataclasses import dataclass

from starlette.requests import Request

__all__ = ["Notice", "SignedIn", "form_token", "leave_notice", "sign_in", "sign_out", "signed_in", "take_notices"]

_DESIGNER = "designer"
_TOKEN = "form"
_NOTICES = "notices"


@dataclass(frozen=True, slots=True)
class Notice:
    """One message at the top of the next page; `tone` is "good" or "wrong"."""

    words: str
    tone: str


@dataclass(frozen=True, slots=True)
class SignedIn:
    """Whose session this is: the designer's id, and the round of sessions it was begun in."""

    designer_id: int
    session_round: int


def signed_in(request: Request) -> SignedIn | None:
    """Who is signed in by the cookie alone, or None; whether that still holds, the database says."""
    found = request.session.get(_DESIGNER)
    return SignedIn(*found) if isinstance(found, list) and len(found) == 2 else None


def sign_in(request: Request, who: SignedIn) -> None:
    """Begin a new session for the designer: nothing of the old one is kept, so that nobody can plant a session."""
    request.session.clear()
    request.session[_DESIGNER] = [who.designer_id, who.session_round]


def sign_out(request: Request) -> None:
    """Forget everything about this visitor."""
    request.session.clear()


def form_token(request: Request) -> str:
    """The secret of this session that every form must send back; made when first asked for."""
    token = request.session.get(_TOKEN)
    if not isinstance(token, str):
        token = secrets.token_urlsafe(32)
        request.session[_TOKEN] = token
    return token


def leave_notice(request: Request, words: str, tone: str = "good") -> None:
    """Show a message at the top of the next page."""
    request.session[_NOTICES] = [*request.session.get(_NOTICES, []), [words, tone]]


def take_notices(request: Request) -> tuple[Notice, ...]:
    """The messages to show now; they are shown once."""
    if _NOTICES not in request.session:
        return ()
    return tuple(Notice(words, tone) for words, tone in request.session.pop(_NOTICES))
