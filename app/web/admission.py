"""How much is worked on at a time: the rest waits at a door, holding neither a thread nor a connection.

Forty threads answer pages. Whoever waits inside one (for the database, for a helper that draws) keeps it from all the
others, so that a crowd that wants the same slow thing would hold up even those who only look. So each kind of slow work
has a door before it, and the doors together let in fewer than there are threads.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from dataclasses import dataclass
from typing import Any

from fastapi import Depends, Request

from app.web.csrf import SAFE
from app.web.turns import Turns

__all__ = ["DraftTurn", "DrawingTurn", "HashingTurn", "LayingTurn", "Doors", "admitted", "doors_for"]

#: So many may wait at a door: a crowd, not an attack.
_CROWD = 1000


@dataclass(frozen=True, slots=True)
class Doors:
    """The doors of one application, each for one kind of work.

    `forms` are those of customers, `studio` those of designers; `drawings` are patterns drawn for a customer, `lays`
    plans of her cloth, `drafts` what a designer's text is read and drawn for; `hashes` are passwords.
    """

    forms: Turns
    studio: Turns
    drawings: Turns
    lays: Turns
    drafts: Turns
    hashes: Turns


def doors_for(helpers: int) -> Doors:
    """The doors of an application for which so many helpers draw: a plan of cloth, which takes longest, leaves one."""
    return Doors(
        forms=Turns(12, queue=_CROWD),
        studio=Turns(6, queue=60),
        drawings=Turns(10, queue=_CROWD),
        lays=Turns(max(1, min(helpers - 1, 4)), queue=_CROWD),
        drafts=Turns(3, queue=60),
        # A password takes 64 MiB and a tenth of a second to hash.
        hashes=Turns(2, queue=8),
    )


async def admitted(request: Request) -> AsyncIterator[None]:
    """Let a request that changes something in when its turn has come; one that only looks goes straight on."""
    if request.method in SAFE:
        yield
        return
    doors: Doors = request.app.state.doors
    async with doors.studio if request.scope["path"].startswith(("/studio", "/password")) else doors.forms:
        yield


def _turn_at(door: str) -> Any:
    """What a route asks for so that it waits at a door before it takes a thread, and gives its turn on when done."""

    async def wait(request: Request) -> AsyncIterator[None]:
        async with getattr(request.app.state.doors, door):
            yield

    return Depends(wait, scope="function")


DrawingTurn = _turn_at("drawings")
LayingTurn = _turn_at("lays")
DraftTurn = _turn_at("drafts")
HashingTurn = _turn_at("hashes")
