"""Who is signed in, and one-time notices: the few things kept in the signed session cookie."""

from __future__ import annotations

import secrets
from dataclasses import dataclass

from starlette.requests import Request

from app.pattern.problem import Refused, spelled_out

__all__ = [
    "Notice",
    "forget_sign_in",
    "form_token",
    "leave_notice",
    "leave_outcome",
    "leave_refused",
    "sign_in",
    "sign_out",
    "signed_in",
    "take_notices",
]

_DESIGNER = "designer"
_TOKEN = "form"
_NOTICES = "notices"


@dataclass(frozen=True, slots=True)
class Notice:
    """One message at the top of the next page; `tone` is "good" or "wrong"."""

    words: str
    tone: str


def signed_in(request: Request) -> str | None:
    """The token of the sign-in that this browser holds, or None; whether that still holds, the database says."""
    found = request.session.get(_DESIGNER)
    return found if isinstance(found, str) else None


def sign_in(request: Request, token: str) -> None:
    """Begin a new session for the designer: nothing of the old one is kept, so that nobody can plant a session."""
    request.session.clear()
    request.session[_DESIGNER] = token


def sign_out(request: Request) -> None:
    """Forget everything about this visitor."""
    request.session.clear()


def forget_sign_in(request: Request) -> None:
    """Forget a sign-in that does not hold any more, so that no page says she is signed in; open forms stay good."""
    request.session.pop(_DESIGNER, None)


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


def leave_refused(request: Request, refused: Refused, before: str = "") -> None:
    """Show at the top of the next page what was not done, and what to do instead."""
    leave_notice(request, before + spelled_out(refused.problems), "wrong")


def leave_outcome(request: Request, outcome: object, done: str) -> None:
    """Show at the top of the next page that something was done, or why not, by what a service handed back."""
    if isinstance(outcome, Refused):
        leave_refused(request, outcome)
    else:
        leave_notice(request, done)


def take_notices(request: Request) -> tuple[Notice, ...]:
    """The messages to show now; they are shown once."""
    if _NOTICES not in request.session:
        return ()
    return tuple(Notice(words, tone) for words, tone in request.session.pop(_NOTICES))
