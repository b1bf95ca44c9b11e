"""Turns at work that takes much memory: so many at a time, a short queue for the rest, and no thread for who waits."""

from __future__ import annotations

import asyncio

from app.base.errors import Busy

__all__ = ["Turns"]


class Turns:
    """`async with turns:` holds one of `most` turns; `Busy` at once when `queue` others wait already."""

    def __init__(self, most: int, *, queue: int) -> None:
        """So many turns, and places to wait for one."""
        self._free = asyncio.Semaphore(most)
        self._places = asyncio.BoundedSemaphore(most + queue)

    async def __aenter__(self) -> None:
        """Wait for a turn, or be told at once that there is no place to wait."""
        if self._places.locked():
            raise Busy("too many wait for a turn already")
        await self._places.acquire()
        try:
            await self._free.acquire()
        except BaseException:  # A visitor who gives up while she waits leaves her place.
            self._places.release()
            raise

    async def __aexit__(self, *_raised: object) -> None:
        """Give the turn on."""
        self._free.release()
        self._places.release()
