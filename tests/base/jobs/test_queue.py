"""The three calls: queued with the transaction, asked once for each ticket, cancelled after the commit."""

from datetime import UTC, datetime, timedelta

import pytest

from app.base.jobs import BuildJob, JobState
from app.base.jobs.dbos_queue import VERSION, job_id

JOB = BuildJob(7, 1)


def test_a_job_is_queued_exactly_if_the_transaction_commits(database, queue):
    with pytest.raises(RuntimeError), database.writing() as session:
        queue.enqueue(session, JOB)
        raise RuntimeError("rolled back")
    assert queue.progress(JOB) is JobState.UNKNOWN
    with database.writing() as session:
        queue.enqueue(session, JOB)
    assert queue.progress(JOB) is JobState.WAITING


def test_the_same_ticket_is_one_job_and_another_ticket_another(database, queue):
    for job in (JOB, JOB, BuildJob(7, 2)):
        with database.writing() as session:
            queue.enqueue(session, job)
    assert sorted(job.workflow_id for job in queue.unfinished()) == ["order-7-1", "order-7-2"]


def test_a_delayed_job_waits(database, queue):
    with database.writing() as session:
        queue.enqueue(session, JOB, delay_seconds=60)
    assert queue.progress(JOB) is JobState.WAITING
    assert [job.status for job in queue.unfinished()] == ["DELAYED"]


def test_jobs_carry_our_version_and_no_measurements(database, queue):
    with database.writing() as session:
        queue.enqueue(session, JOB)
    found = queue.client.list_workflows(workflow_ids=[job_id(JOB)])[0]
    assert found.app_version == VERSION
    assert found.input["args"] == (7, 1)


def test_a_cancelled_job_has_ended(database, queue):
    with database.writing() as session:
        queue.enqueue(session, JOB)
    with database.writing() as session:
        queue.cancel(session, JOB)
        assert queue.progress(JOB) is JobState.WAITING
    assert queue.progress(JOB) is JobState.ENDED
    assert queue.unfinished() == []


def test_only_jobs_that_ended_long_ago_are_forgotten(database, queue):
    for job in (JOB, BuildJob(8, 1)):
        with database.writing() as session:
            queue.enqueue(session, job)
    with database.writing() as session:
        queue.cancel(session, JOB)
    later = datetime.now(UTC) + timedelta(seconds=1)
    assert queue.forget(later - timedelta(days=1)) == 0
    assert queue.forget(later) == 1
    assert queue.forget(later) == 0
    assert queue.progress(JOB) is JobState.UNKNOWN
    assert queue.progress(BuildJob(8, 1)) is JobState.WAITING
