"""No form is taken that this shop did not hand out: a token in every form, checked for every POST."""

from __future__ import annotations

import hmac

from fastapi import Request

from app.web.posted import read_form
from app.web.sessions import form_token

__all__ = ["FIELD", "SAFE", "ForgedForm", "check_form_token"]

#: Name of the hidden field that carries the token.
FIELD = "form_token"

#: Methods that change nothing.
SAFE = frozenset({"GET", "HEAD", "OPTIONS"})


class ForgedForm(Exception):
    """A form came without the token of its session."""


async def check_form_token(request: Request) -> None:
    """Refuse a request that changes something unless its form carries the session's token.

    The application asks this of every route, so that no form can be forgotten.
    """
    if request.method in SAFE:
        return
    sent = (await read_form(request)).get(FIELD, "")
    if not hmac.compare_digest(sent.encode(), form_token(request).encode()):
        raise ForgedForm
