"""The three calls on the dbos engine, for web processes and workers alike: it only enqueues, it never runs a job.

dbos keeps its queue in our own database, so a job can be queued in the same
transaction as its order.
"""

from __future__ import annotations

import logging
from datetime import datetime

from dbos import DBOS, DBOSClient, EnqueueOptions, WorkflowStatus
from sqlalchemy import event
from sqlalchemy.orm import Session

from app.base.jobs.queue import BuildJob, JobState

__all__ = ["APPLICATION", "QUEUE", "VERSION", "WORKFLOW", "DbosQueue", "create_tables", "job_id"]

APPLICATION = "tapeline"
QUEUE = "builds"
WORKFLOW = "build-pack"
#: Pinned by hand: jobs of another version are not picked up by dbos itself. Change it only when the order of
#: the steps inside a job changes; workers take up unfinished jobs of older versions when they start.
VERSION = "builds-1"

_STATES = {
    "ENQUEUED": JobState.WAITING,
    "DELAYED": JobState.WAITING,
    "PENDING": JobState.RUNNING,
    "SUCCESS": JobState.ENDED,
    "ERROR": JobState.ENDED,
    "CANCELLED": JobState.ENDED,
    "MAX_RECOVERY_ATTEMPTS_EXCEEDED": JobState.ENDED,
}


def job_id(job: BuildJob) -> str:
    """The name under which the engine knows a job."""
    return f"order-{job.order_id}-{job.ticket}"


def create_tables(address: str) -> None:
    """Create or bring up to date the engine's own tables in our database."""
    _hush()
    DBOS.migrate(address)


class DbosQueue:
    """The job queue on dbos's client."""

    def __init__(self, address: str) -> None:
        """Talk to the engine's tables in the database at `address`; connects at the first use."""
        _hush()
        self.client = DBOSClient(system_database_url=address, application_name=APPLICATION, lazy=True)

    def enqueue(self, session: Session, job: BuildJob, *, delay_seconds: float = 0.0, behind: int = 0) -> None:
        """Queue the job inside the session's transaction; the engine takes the lowest priority number first."""
        options = EnqueueOptions(
            workflow_name=WORKFLOW, queue_name=QUEUE, workflow_id=job_id(job), app_version=VERSION, priority=1 + behind
        )
        if delay_seconds > 0:
            options["delay_seconds"] = delay_seconds
        self.client.enqueue_in_transaction(session, options, job.order_id, job.ticket)

    def progress(self, job: BuildJob) -> JobState:
        """Where the engine says the job stands."""
        found = self.client.list_workflows(workflow_ids=[job_id(job)], load_input=False, load_output=False)
        return _STATES[found[0].status] if found else JobState.UNKNOWN

    def cancel(self, session: Session, job: BuildJob) -> None:
        """Cancel the job once the session has committed; losing this hint does no harm, the row says it too."""
        # The engine writes on a connection of its own, which must not wait for our open transaction.
        event.listen(session, "after_commit", lambda _session: self.client.cancel_workflow(job_id(job)), once=True)

    def unfinished(self) -> list[WorkflowStatus]:
        """Every job that has not ended, of any version of the application."""
        return self.client.list_workflows(
            status=["ENQUEUED", "DELAYED", "PENDING"], load_input=False, load_output=False
        )

    def begun_by(self, slot: str) -> set[str]:
        """The names of the jobs that the worker in `slot` has begun and not ended, as the engine wrote it down."""
        return {job.workflow_id for job in self.unfinished() if job.status == "PENDING" and job.executor_id == slot}

    def forget(self, before: datetime) -> int:
        """Clear away up to a thousand jobs that ended before this moment; returns how many."""
        ended = [status for status, state in _STATES.items() if state is JobState.ENDED]
        found = self.client.list_workflows(
            status=ended, completed_before=before.isoformat(), limit=1000, load_input=False, load_output=False
        )
        self.client.delete_workflows([job.workflow_id for job in found])
        return len(found)

    def close(self) -> None:
        """Close the engine's connections."""
        self.client.destroy()


def _hush() -> None:
    # The engine tells its settings, database address and all, at level INFO; only its warnings are news.
    logging.getLogger("dbos").setLevel(logging.WARNING)
