"""Who may open the studio's back room: the designer of this session, or the way to the sign-in page."""

from __future__ import annotations

from collections.abc import AsyncIterator
from datetime import timedelta
from typing import Annotated

from fastapi import Depends, Request

from app.people import sign_ins
from app.people.models import Designer
from app.people.sign_ins import Lasting
from app.web.failures import SignInNeeded
from app.web.sessions import signed_in
from app.web.transactions import TheDatabase

__all__ = ["HASHES_AT_ONCE", "HASHES_WAITING", "HashingTurn", "SignedInDesigner", "lasting", "signed_in_designer"]

#: A password takes 64 MiB and a tenth of a second to hash. So many are hashed at a time, and so many may wait.
HASHES_AT_ONCE = 2
HASHES_WAITING = 8


def signed_in_designer(request: Request, database: TheDatabase) -> Designer:
    """The designer whose session this is and still holds; else the request ends at the sign-in page."""
    token = signed_in(request)
    held = database.read(sign_ins.held, token, lasting=lasting(request)) if token else None
    if token is None or held is None:
        raise SignInNeeded
    if held.unwritten:
        database.write(sign_ins.still_used, token)
    return held.designer


def lasting(request: Request) -> Lasting:
    """How long a sign-in lasts in this shop."""
    settings = request.app.state.settings
    return Lasting(timedelta(days=settings.session_days), timedelta(days=settings.session_idle_days))


async def _hashing_turn(request: Request) -> AsyncIterator[None]:
    async with request.app.state.hashing:
        yield


#: A handler that hashes a password waits for its turn before it takes a thread, and gives it on when it is done.
HashingTurn = Depends(_hashing_turn, scope="function")
SignedInDesigner = Annotated[Designer, Depends(signed_in_designer)]
