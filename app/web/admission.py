"""How many forms are worked on at a time: the others wait at the door, holding neither a thread nor a connection."""

from __future__ import annotations

from collections.abc import AsyncIterator

from fastapi import Request

from app.web.csrf import SAFE
from app.web.turns import Turns

__all__ = ["MOST_AT_A_TIME", "MOST_WAITING", "admitted", "door"]

#: Forms worked on at a time. Well under the forty threads that answer pages, so that however many forms come at once,
#: there are threads left for whoever only looks.
MOST_AT_A_TIME = 16
#: And so many may wait at the door: a crowd, not an attack.
MOST_WAITING = 1000


def door() -> Turns:
    """The door of one application."""
    return Turns(MOST_AT_A_TIME, queue=MOST_WAITING)


async def admitted(request: Request) -> AsyncIterator[None]:
    """Let a request that changes something in when its turn has come; one that only looks goes straight on."""
    if request.method in SAFE:
        yield
        return
    async with request.app.state.door:
        yield
