"""Devices on which a designer has signed in before: a signed cookie that opens nothing.

All it does is give the device a count of failed tries of its own, so that strangers who guess elsewhere hold nobody
up on it: see `tries`.
"""

from __future__ import annotations

from fastapi import Request
from itsdangerous import BadSignature, URLSafeTimedSerializer
from starlette.responses import Response

from app.shop.people.passwords import new_token
from app.shop.people.service import tidy_email
from app.shop.people.tries import SignInAttempt
from app.web.addresses import address_mark, keyed_mark

__all__ = ["attempt_from", "remember_device"]

#: How long a device is known after its last sign-in.
KNOWN_SECONDS = 365 * 86_400
#: As many designers as share one device.
MOST_EMAILS = 4
#: The only page that asks for the cookie.
_PAGE = "/studio/sign-in"


def attempt_from(request: Request, email: str) -> SignInAttempt:
    """Who tries to sign in with this e-mail, from where, and whether she has done so on this device."""
    who = _mark(request, email)
    nonce, emails = _read(request)
    return SignInAttempt(
        who, address_mark(request), keyed_mark(request, "device", f"{nonce} {who}") if who in emails else ""
    )


def remember_device(request: Request, response: Response, email: str) -> None:
    """Know this device again: the designer with this e-mail has signed in on it."""
    who = _mark(request, email)
    nonce, emails = _read(request)
    known = [who, *(each for each in emails if each != who)][:MOST_EMAILS]
    response.set_cookie(
        _name(request),
        _signer(request).dumps([nonce or new_token(), known]),
        max_age=KNOWN_SECONDS,
        path=_PAGE,
        secure=_https_only(request),
        httponly=True,
        samesite="strict",
    )


def _read(request: Request) -> tuple[str, list[str]]:
    try:
        nonce, emails = _signer(request).loads(request.cookies.get(_name(request), ""), max_age=KNOWN_SECONDS)
    except BadSignature:
        return "", []
    return nonce, emails


def _mark(request: Request, email: str) -> str:
    return keyed_mark(request, "email", tidy_email(email))


def _name(request: Request) -> str:
    # The prefix makes browsers refuse the cookie from a page that was not encrypted (RFC 6265bis, 4.1.3.1).
    return "__Secure-tapeline-device" if _https_only(request) else "tapeline-device"


def _https_only(request: Request) -> bool:
    return bool(request.app.state.settings.https_only)


def _signer(request: Request) -> URLSafeTimedSerializer:
    return URLSafeTimedSerializer(request.app.state.settings.session_secret(), salt="device")
