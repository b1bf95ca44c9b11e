"""What the shop asks of a queue, whatever engine stands behind it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from sqlalchemy.orm import Session

__all__ = ["BuildJob", "JobQueue", "JobState"]


@dataclass(frozen=True, slots=True)
class BuildJob:
    """One call to build one order's pack. The ticket grows with each call; the same ticket asked twice is one job."""

    order_id: int
    ticket: int


class JobState(StrEnum):
    """Where the engine says a job stands. Only a hint: the order row is the truth."""

    UNKNOWN = "unknown"  # never enqueued, or cleared away
    WAITING = "waiting"
    RUNNING = "running"
    ENDED = "ended"  # returned, failed or cancelled


class JobQueue(Protocol):
    """The three calls."""

    def enqueue(self, session: Session, job: BuildJob, *, delay_seconds: float = 0.0, behind: int = 0) -> None:
        """Queue the job inside the session's transaction: it exists exactly if that transaction commits.

        Jobs that stand `behind` fewer others go first, and in their order of coming where that is alike.
        """

    def progress(self, job: BuildJob) -> JobState:
        """Where the job stands in the engine."""

    def cancel(self, session: Session, job: BuildJob) -> None:
        """Take the job out of the queue once the session's transaction has committed."""
