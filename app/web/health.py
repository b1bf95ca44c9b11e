"""A page for whoever watches over the server: is the shop well, line by line?"""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import JSONResponse

__all__ = ["Health", "HealthLine", "HealthStatus", "router"]

#: An answer is good for so long (seconds): anybody may ask, and asking costs a write.
_GOOD_SECONDS = 2.0


class HealthStatus(StrEnum):
    """How well one thing is: `warning` tells of what will fail or only makes people wait."""

    OK = "ok"
    WARNING = "warning"
    FAILING = "failing"


_WORST_LAST = list(HealthStatus)


@dataclass(frozen=True, slots=True)
class HealthLine:
    """What was looked at, how it is, and that in words: no path, no address, nobody's name."""

    name: str
    status: HealthStatus
    words: str


@dataclass
class Health:
    """The last look at the shop, and a fresh one when that is old. One looks at a time; the others hear the last."""

    look: Callable[[], Iterable[HealthLine]]
    _lines: tuple[HealthLine, ...] = (
        HealthLine("shop", HealthStatus.FAILING, "It is being looked at for the first time."),
    )
    _until: float = 0.0
    _looking: threading.Lock = field(default_factory=threading.Lock)

    def lines(self) -> tuple[HealthLine, ...]:
        """How everything is, at most a few seconds ago or while a look goes on."""
        if time.monotonic() >= self._until and self._looking.acquire(blocking=False):
            try:
                self._lines = tuple(self.look())
                self._until = time.monotonic() + _GOOD_SECONDS
            finally:
                self._looking.release()
        return self._lines


router = APIRouter()


@router.get("/healthz")
def healthz(request: Request) -> JSONResponse:
    """A line for each thing looked at; status 503 when one of them is failing, 200 with warnings as without."""
    health: Health = request.app.state.health
    lines = health.lines()
    worst = max((line.status for line in lines), key=_WORST_LAST.index)
    told: dict[str, Any] = {line.name: {"status": line.status, "words": line.words} for line in lines}
    return JSONResponse({"status": worst, **told}, 503 if worst is HealthStatus.FAILING else 200)
