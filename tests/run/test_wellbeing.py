"""The health page of a whole shop: true about each thing, and 503 where people cannot be served."""

import shutil

import pytest
import sqlalchemy as sa

from app.shop.orders.builds import MOST_STARTS, record_worker_start


@pytest.fixture
def worked(database):
    with database.writing() as session:
        record_worker_start(session, "worker-1")


@pytest.fixture
def told(visitor):
    def ask():
        answer = visitor.get("/healthz").answer
        told = answer.json()
        return (
            answer.status_code,
            told.pop("status"),
            {name: line["status"] for name, line in told.items()},
            answer.text,
        )

    return ask


def test_a_shop_that_is_well_says_so_line_by_line(told, worked):
    status, worst, lines, _ = told()
    assert (status, worst) == (200, "ok")
    assert lines == dict.fromkeys(("database", "tables", "workers", "packs"), "ok")


def test_a_shop_without_a_worker_serves_its_pages_and_warns(told):
    status, worst, lines, text = told()
    assert (status, worst, lines["workers"]) == (200, "warning", "warning")
    assert "orders wait" in text


def test_a_worker_that_begins_again_and_again_is_told_of(told, database, worked):
    with database.writing() as session:
        for _ in range(MOST_STARTS):
            record_worker_start(session, "worker-1")
    status, worst, lines, text = told()
    assert (status, worst, lines["workers"]) == (200, "warning", "warning")
    assert "began again and again" in text


def test_a_database_that_can_only_be_read_is_failing(app, told, worked):
    sa.event.listen(app.state.database.engine, "checkout", lambda raw, *_: raw.execute("PRAGMA query_only=1"))
    status, worst, lines, _ = told()
    assert (status, worst, lines["database"], lines["packs"]) == (503, "failing", "failing", "ok")


def test_tables_of_another_version_are_failing(database, told, worked):
    with database.writing() as session:
        session.execute(sa.text("UPDATE alembic_version SET version_num = '0001'"))
    status, _, lines, _ = told()
    assert (status, lines["tables"]) == (503, "failing")


def test_packs_that_cannot_be_written_are_failing_and_no_path_is_told(settings, told, worked):
    shutil.rmtree(settings.packs_dir())
    settings.packs_dir().write_text("a file in its place")
    status, _, lines, text = told()
    assert (status, lines["packs"]) == (503, "failing")
    assert str(settings.data_dir) not in text


@pytest.mark.parametrize(
    ("limit", "status", "standing"), [("_LITTLE_ROOM", 200, "warning"), ("LEAST_ROOM", 503, "failing")]
)
def test_a_disk_that_fills_up_warns_first_and_fails_then(told, worked, monkeypatch, limit, status, standing):
    monkeypatch.setattr(f"app.run.wellbeing.{limit}", 10**18)
    found = told()
    assert (found[0], found[2]["packs"]) == (status, standing)
