"""How much work is done, counted as it is done and alike on every machine, so that too much of it can be ended.

A unit is about ten microseconds of one core. Whoever wants it counted opens `counted`; the places of this room that
can go on and on (halving, fitting, looking for the nearest) say what they do with `spend`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

__all__ = ["WorkLimit", "TooMuchWork", "counted", "spend"]


class TooMuchWork(Exception):
    """More work than was allowed: whatever was being worked out is dropped."""


@dataclass(slots=True)
class WorkLimit:
    """The work allowed and the work done so far, in units."""

    most: int
    spent: int = 0

    def spend(self, work: int) -> None:
        """Count some work; raises `TooMuchWork` once there is more than allowed."""
        self.spent += work
        if self.spent > self.most:
            raise TooMuchWork


_COUNTED: ContextVar[WorkLimit | None] = ContextVar("counted", default=None)


@contextmanager
def counted(limit: WorkLimit) -> Iterator[None]:
    """Count the work done inside the block; a block within another counts for itself."""
    token = _COUNTED.set(limit)
    try:
        yield
    finally:
        _COUNTED.reset(token)


def spend(work: int) -> None:
    """Say that some work is about to be done; raises `TooMuchWork` where that is more than whoever counts allows."""
    limit = _COUNTED.get()
    if limit is not None:
        limit.spend(work)
