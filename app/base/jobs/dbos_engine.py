"""Running jobs on dbos. Only a worker imports this: web processes enqueue and never launch the engine."""

from __future__ import annotations

import logging
import math
from collections.abc import Callable, Set

from dbos import DBOS, DBOSConfig

from app.base.jobs.dbos_queue import APPLICATION, QUEUE, VERSION, WORKFLOW, DbosQueue
from app.base.jobs.queue import BuildJob

__all__ = ["RunJob", "adopt_jobs", "engine_config", "start_engine", "stop_engine"]

#: Runs one job to its end; called again from the start when a worker died in the middle.
RunJob = Callable[[BuildJob], None]

#: More recoveries of one job than any run of crashes can ask for: tries are counted in the order's row instead.
_RECOVERIES = 1_000_000

_log = logging.getLogger(__name__)


def engine_config(address: str, slot: str) -> DBOSConfig:
    """The engine's whole configuration; no key or address of any paid service is ever set."""
    return DBOSConfig(
        name=APPLICATION,
        system_database_url=address,
        application_version=VERSION,
        executor_id=slot,
        log_level="WARNING",
        run_migrations=False,
        enable_otlp=False,
    )


def start_engine(address: str, slot: str, builds: int, run: RunJob) -> None:
    """Launch the engine under the stable name `slot` and run up to `builds` jobs at the same time.

    Jobs that this slot had begun when it died are begun again.
    """
    DBOS(config=engine_config(address, slot))

    @DBOS.step(name="build")
    def step(order_id: int, ticket: int) -> None:
        run(BuildJob(order_id, ticket))

    @DBOS.workflow(name=WORKFLOW, max_recovery_attempts=_RECOVERIES)
    def build_pack(order_id: int, ticket: int) -> None:
        step(order_id, ticket)

    DBOS.launch()
    DBOS.register_queue(QUEUE, worker_concurrency=builds, polling_interval_sec=0.5, on_conflict="always_update")


def stop_engine(seconds: float) -> None:
    """Stop taking jobs, give running ones `seconds` to end, and shut the engine down."""
    DBOS.destroy(destroy_registry=True, workflow_completion_timeout_sec=math.ceil(seconds))


def adopt_jobs(queue: DbosQueue, slot: str, live_slots: Set[str], dropped: Set[str] = frozenset()) -> int:
    """Put jobs that nobody is left to run back into the queue; returns how many.

    A job of our version that a dead worker had begun is resumed, and so are those that the caller itself has `dropped`:
    the engine says that they run here, and they do not. (It says so of a job whose end it could not write down.) Each
    live worker tells this of its own jobs. A job of an older version, unless a live worker is at it, is cancelled: the
    sweep of the orders then queues it afresh under our version. `slot` is the caller's own: what an older version began
    in it is dead, since the caller holds it now.
    """
    adopted = 0
    for job in queue.unfinished():
        if job.app_version != VERSION:
            if job.status == "PENDING" and job.executor_id in live_slots - {slot}:
                continue
            _log.info("job %s: queued under the older version %s, queueing it afresh", job.workflow_id, job.app_version)
            queue.client.cancel_workflow(job.workflow_id)
            adopted += 1
        elif job.status == "PENDING" and (job.executor_id not in live_slots or job.workflow_id in dropped):
            _log.info("job %s: its worker %s is not at it any more, resuming it", job.workflow_id, job.executor_id)
            queue.client.resume_workflow(job.workflow_id, queue_name=QUEUE)
            adopted += 1
    return adopted
