"""The engine is launched by workers only, under pinned names, with nothing of any paid service around it."""

import ast
import subprocess
import sys
from pathlib import Path

from app.base.jobs import BuildJob, JobState
from app.base.jobs.dbos_engine import adopt_jobs, engine_config
from app.base.jobs.dbos_queue import VERSION

APP = Path(__file__).parents[3] / "app"


def modules_that_import(name):
    found = set()
    for path in APP.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            if any(each == name or each.startswith(f"{name}.") for each in names):
                found.add(str(path.relative_to(APP)))
    return found


def test_only_the_worker_can_launch_the_engine():
    assert modules_that_import("app.base.jobs.dbos_engine") == {"work/worker.py"}
    assert modules_that_import("dbos") == {"base/jobs/dbos_engine.py", "base/jobs/dbos_queue.py"}


def test_enqueuing_starts_no_threads_and_runs_nothing(settings, database):
    script = f"""
import threading
from app.base.database import Database, make_engine
from app.base.jobs import BuildJob
from app.base.jobs.dbos_queue import DbosQueue
database, queue = Database(make_engine({settings.database_address()!r})), DbosQueue({settings.database_address()!r})
with database.writing() as session:
    queue.enqueue(session, BuildJob(1, 1))
print([thread.name for thread in threading.enumerate()], queue.progress(BuildJob(1, 1)))
"""
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=APP.parent)
    assert done.stdout.strip() == f"['MainThread'] {JobState.WAITING.value}"


def test_the_engine_is_pinned_to_our_version_and_slot(settings):
    config = engine_config(settings.database_address(), "worker-3")
    assert config["application_version"] == VERSION == "builds-1"
    assert config["executor_id"] == "worker-3"
    assert config["system_database_url"] == settings.database_address()


def test_no_paid_service_is_configured(settings):
    config = engine_config(settings.database_address(), "worker-1")
    paid = ("conductor", "enterprise", "auto_upgrade", "sharding", "otlp")
    assert {key for key in config if any(word in key for word in paid)} == {"enable_otlp"}
    assert config["enable_otlp"] is False


def test_waiting_jobs_of_our_version_are_left_alone(database, queue):
    with database.writing() as session:
        queue.enqueue(session, BuildJob(1, 1))
    assert adopt_jobs(queue, "worker-1", set()) == 0
    assert queue.progress(BuildJob(1, 1)) is JobState.WAITING


def test_waiting_jobs_of_an_older_version_are_dropped(database, queue, monkeypatch):
    monkeypatch.setattr("app.base.jobs.dbos_queue.VERSION", "builds-0")
    with database.writing() as session:
        queue.enqueue(session, BuildJob(1, 1))
    assert adopt_jobs(queue, "worker-1", {"worker-1", "worker-2"}) == 1
    assert queue.progress(BuildJob(1, 1)) is JobState.ENDED
