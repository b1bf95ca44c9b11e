"""One worker's handling of one build, without the engine: every end of it, and what is left on disk."""

import logging
import re
import threading
from dataclasses import replace
from datetime import timedelta
from hashlib import sha256

import pytest
import sqlalchemy as sa

from app.base.database import now
from app.base.errors import WorkerBroken
from app.base.jobs import BuildJob, JobState
from app.base.settings import Settings
from app.base.storage import LocalPacks
from app.packs.request import PackFile, PackReady
from app.pattern.problem import Problem, Refused
from app.shop.catalogue.models import DraftVersion, Level
from app.shop.catalogue.service import ListingWords, add_draft_version, listing_by_slug, put_on_sale, save_listing
from app.shop.orders import builds
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.orders.service import (
    Customer,
    FittingEntry,
    cancel_order,
    order_by_token,
    order_files,
    place_order,
    request_rebuild,
    save_fitting,
)
from app.shop.people.service import ensure_studio
from app.work.worker import BuildWorker, _again_next_turn, _in_thread
from tests.proved import SMALL_DRAFT, stand_proved

ENTRY = FittingEntry({"bust_girth": "91.7"}, {"bust_girth": 917.0}, {}, "cm", "A4", {})
REFUSED = Refused.of(Problem("checks.seam-walk", "Front 412.0 mm, back 415.5 mm.", "Move the hem."))


def write_two(request, folder, progress):
    files = []
    for number, title in enumerate(("Pattern", "Instructions")):
        progress(f"Writing: {title}", number / 2)
        content = f"{request.order_number} {request.studio} {title}".encode()
        (folder / f"{number}.pdf").write_bytes(content)
        files.append(PackFile(f"{number}.pdf", title, len(content), sha256(content).hexdigest()))
    return PackReady(tuple(files), {"sheets": 2})


@pytest.fixture
def shop(settings, database, queue):
    quick = Settings(**{**settings.model_dump(), "build_attempts": 2, "retry_seconds": 0.0, "sweep_seconds": 0.001})
    return BuildWorker(quick, database, queue, LocalPacks(settings.packs_dir()), write_two)


@pytest.fixture
def order(database, queue):
    with database.writing() as session:
        ensure_studio(session, "Heron Yard", "", "")
        listing = save_listing(session, ListingWords("apron", "Apron", "", "", Level.CONFIDENT, 0, "EUR", ""))
        version = add_draft_version(session, listing, SMALL_DRAFT)
        stand_proved(session, version)
        put_on_sale(session, listing, version)
        return place_order(session, queue, save_fitting(session, listing, ENTRY), Customer("Ana"))


def look(shop, order):
    with shop.database.reading() as session:
        return order_by_token(session, order.token)


def on_disk(shop):
    return sorted(path.name for path in shop.store.root.iterdir())


def test_a_good_build_is_ready_with_the_files_it_lists(shop, order):
    shop.run_job(BuildJob(order.id, 1))
    done = look(shop, order)
    assert (done.state, done.attempt, done.summary) == (OrderState.READY, 1, {"sheets": 2})
    for file in order_files(done):
        content = shop.store.read(done.pack_folder, file.name, file.bytes + 1)
        assert sha256(content).hexdigest() == file.sha256
        assert b"Heron Yard" in content
    assert on_disk(shop) == [done.pack_folder]
    assert (shop.building, shop.running) == (set(), {})


def test_a_job_that_comes_twice_builds_once(shop, order):
    shop.run_job(BuildJob(order.id, 1))
    first = look(shop, order)
    shop.run_job(BuildJob(order.id, 1))
    assert look(shop, order).updated_at == first.updated_at


def test_a_build_again_gives_the_same_pack_in_the_same_place(shop, order):
    shop.run_job(BuildJob(order.id, 1))
    first = look(shop, order)
    with shop.database.writing() as session:
        request_rebuild(session, shop.queue, order_by_token(session, order.token))
    assert order_files(look(shop, order)) == ()
    shop.run_job(BuildJob(order.id, 2))
    second = look(shop, order)
    assert (second.pack_sha256, second.pack_folder) == (first.pack_sha256, first.pack_folder)
    assert on_disk(shop) == [first.pack_folder]


def test_a_pack_of_other_inputs_takes_the_older_ones_place(shop, order):
    shop.run_job(BuildJob(order.id, 1))
    older = look(shop, order).pack_folder
    with shop.database.writing() as session:
        ensure_studio(session, "", "", "").name = "Renamed Yard"
        request_rebuild(session, shop.queue, order_by_token(session, order.token))
    shop.run_job(BuildJob(order.id, 2))
    newer = look(shop, order).pack_folder
    assert newer != older
    assert on_disk(shop) == [newer]


def test_a_check_that_does_not_hold_calls_the_designer_and_leaves_no_file(shop, order):
    def refuse(request, folder, progress):
        (folder / "half.pdf").write_bytes(b"half")
        return REFUSED

    shop.builder = refuse
    shop.run_job(BuildJob(order.id, 1))
    stopped = look(shop, order)
    assert (stopped.state, stopped.attempt) == (OrderState.NEEDS_DESIGNER, 1)
    assert stopped.findings[0]["message"] == "Front 412.0 mm, back 415.5 mm."
    assert on_disk(shop) == []


def test_a_builder_that_fails_is_tried_again_and_then_given_up(shop, order, caplog):
    def fail(request, folder, progress):
        (folder / "half.pdf").write_bytes(b"half")
        raise KeyError(f"bust {request.measurements['bust_girth']}")

    shop.builder = fail
    with caplog.at_level(logging.INFO):
        shop.run_job(BuildJob(order.id, 1))
        waiting = look(shop, order)
        assert (waiting.state, waiting.attempt, waiting.ticket) == (OrderState.PLACED, 1, 2)
        assert shop.queue.progress(BuildJob(order.id, 2)) is JobState.WAITING
        shop.run_job(BuildJob(order.id, 2))
    failed = look(shop, order)
    assert failed.state is OrderState.FAILED
    told = r"The build failed 2 times, at last with KeyError at test_worker\.py:\d+: 'bust 917\.0'"
    assert re.fullmatch(told, failed.reason)
    assert on_disk(shop) == []
    assert "917" not in caplog.text
    assert f"order {order.number}: try 2 failed with KeyError at test_worker.py:" in caplog.text


def test_a_store_that_cannot_be_written_puts_the_build_off_and_says_what_it_waits_for(shop, order):
    shop.store.root.rmdir()
    shop.store.root.write_text("a file where the folder should be")
    for ticket in range(1, 5):
        shop.run_job(BuildJob(order.id, ticket))
    waiting = look(shop, order)
    assert (waiting.state, waiting.attempt, waiting.ticket) == (OrderState.PLACED, 0, 5)
    assert "there is no folder where packs are kept" in waiting.reason
    shop.store.root.unlink()
    shop.store.root.mkdir()
    shop.run_job(BuildJob(order.id, 2))
    assert look(shop, order).state is OrderState.READY


def test_logs_hold_nothing_personal(shop, order, caplog):
    with caplog.at_level(logging.DEBUG, logger="app"):
        shop.run_job(BuildJob(order.id, 1))
    assert order.number in caplog.text
    assert "Ana" not in caplog.text
    assert "917" not in caplog.text
    assert order.token not in caplog.text


@pytest.mark.parametrize(
    "damage",
    [
        lambda path: path.write_bytes(b"shorter"),
        lambda path: path.write_bytes(path.read_bytes().swapcase()),
        lambda path: path.unlink(),
    ],
    ids=["length", "content", "missing"],
)
def test_a_file_that_is_not_as_the_builder_says_is_never_given_out(shop, order, damage):
    def damaged(request, folder, progress):
        pack = write_two(request, folder, progress)
        damage(folder / "1.pdf")
        return pack

    shop.builder = damaged
    shop.run_job(BuildJob(order.id, 1))
    assert look(shop, order).state is OrderState.PLACED
    assert on_disk(shop) == []


def test_a_build_cancelled_on_the_way_stops_at_its_next_step(shop, order):
    steps = []

    def cancelled_meanwhile(request, folder, progress):
        with shop.database.writing() as session:
            cancel_order(session, shop.queue, order_by_token(session, order.token))
        for step in range(3):
            progress(f"step {step}", 0.1)
            steps.append(step)
        return write_two(request, folder, progress)

    shop.builder = cancelled_meanwhile
    shop.run_job(BuildJob(order.id, 1))
    assert steps == []
    assert look(shop, order).state is OrderState.CANCELLED
    assert on_disk(shop) == []
    assert (shop.building, shop.running) == (set(), {})


def test_progress_is_written_for_each_stage_and_seldom_within_one(shop, order):
    seen = []

    def watched(request, folder, progress):
        for stage, share in (("Drafting", 0.0), ("Laying", 0.1), ("Laying", 0.2), ("Laying", 0.3), ("Printing", 0.4)):
            progress(stage, share)
            building = look(shop, order)
            seen.append((building.stage, building.progress))
        return write_two(request, folder, progress)

    shop.builder = watched
    shop.run_job(BuildJob(order.id, 1))
    assert seen == [("Drafting", 0.0), ("Laying", 0.1), ("Laying", 0.1), ("Laying", 0.1), ("Printing", 0.4)]


def test_a_build_that_stopped_its_worker_too_often_is_given_up_before_it_starts(shop, order):
    with shop.database.writing() as session:
        session.execute(sa.update(Order).values(attempt=2))
    shop.builder = None
    shop.run_job(BuildJob(order.id, 1))
    failed = look(shop, order)
    assert (failed.state, failed.reason) == (
        OrderState.FAILED,
        "The worker stopped in the middle of this build 2 times.",
    )


def test_the_sweep_queues_an_order_again_only_when_it_has_no_job(shop, order):
    shop.recover_lost()
    assert look(shop, order).ticket == 1
    shop.queue.client.delete_workflow(f"order-{order.id}-1")
    shop.recover_lost()
    assert look(shop, order).ticket == 2
    assert shop.queue.progress(BuildJob(order.id, 2)) is JobState.WAITING
    shop.recover_lost()
    assert look(shop, order).ticket == 2


def test_the_sweep_of_files_keeps_those_of_running_builds(shop, order):
    stale = shop.store.begin("TL-XXXX-v1-ab", "dead")
    seen = []

    def sweep_meanwhile(request, folder, progress):
        pack = write_two(request, folder, progress)
        shop.discard_leftovers()
        shop.clean_up()
        seen.extend([folder.exists(), stale.exists()])
        return pack

    shop.builder = sweep_meanwhile
    shop.run_job(BuildJob(order.id, 1))
    assert seen == [True, False]
    assert look(shop, order).state is OrderState.READY


def test_tidying_removes_what_no_order_shows(shop, order):
    shop.run_job(BuildJob(order.id, 1))
    shop.store.keep(shop.store.begin("TL-9999-v1-ab", "c"), "TL-9999-v1-ab")
    shop.clean_up()
    assert on_disk(shop) == [look(shop, order).pack_folder]


def test_a_worker_signs_its_row_and_its_builds(shop, order):
    beats = []

    def beating(request, folder, progress):
        with shop.database.writing() as session:
            session.get_one(Order, order.id).heartbeat_at = order.created_at
        shop.record_heartbeat()
        beats.append(look(shop, order).heartbeat_at > order.created_at)
        return replace(write_two(request, folder, progress))

    shop.builder = beating
    shop.run_job(BuildJob(order.id, 1))
    assert beats == [True]


def test_measurements_that_nobody_ordered_by_are_thrown_away_after_their_days(shop, database, order):
    with database.writing() as session:
        listing = listing_by_slug(session, "apron")
        session.add_all(save_fitting(session, listing, ENTRY) for _ in range(2))
        session.flush()
        session.execute(sa.update(Fitting).values(created_at=now(session) - timedelta(days=31)))
        save_fitting(session, listing, ENTRY)
    shop.clean_up()
    with database.reading() as session:
        assert session.scalar(sa.select(sa.func.count()).select_from(Fitting)) == 2
        assert order_by_token(session, order.token) is not None


def test_a_build_whose_end_cannot_be_written_down_is_put_back_once_it_can(shop, order):
    def unwritable(request, folder, progress):
        sa.event.listen(shop.database.engine, "checkout", refuse)
        return write_two(request, folder, progress)

    def refuse(raw, *_):
        raw.execute("PRAGMA query_only=1")

    def allow(raw, *_):
        raw.execute("PRAGMA query_only=0")

    shop.builder = unwritable
    shop.run_job(BuildJob(order.id, 1))
    assert (look(shop, order).state, shop.building, len(shop.owed)) == (OrderState.BUILDING, set(), 1)
    sa.event.remove(shop.database.engine, "checkout", refuse)
    sa.event.listen(shop.database.engine, "checkout", allow)
    shop.recover_lost()
    waiting = look(shop, order)
    assert (waiting.state, waiting.attempt, waiting.ticket, shop.owed) == (OrderState.PLACED, 0, 2, {})
    assert "the database cannot be written" in waiting.reason
    shop.builder = write_two
    shop.run_job(BuildJob(order.id, 2))
    done = look(shop, order)
    assert (done.state, done.reason) == (OrderState.READY, "")


def test_a_build_that_is_owed_and_was_put_back_by_somebody_else_is_forgotten(shop, order):
    shop.builder = lambda *_: sa.event.listen(shop.database.engine, "checkout", refuse) or write_two(*_)

    def refuse(raw, *_):
        raise sa.exc.OperationalError("BEGIN", {}, OSError("disk I/O error"))

    shop.run_job(BuildJob(order.id, 1))
    sa.event.remove(shop.database.engine, "checkout", refuse)
    with shop.database.writing() as session:
        builds.release_builds_of(session, shop.settings.worker_slot)
    shop.recover_lost()
    assert (look(shop, order).state, look(shop, order).attempt, shop.owed) == (OrderState.PLACED, 1, {})


def test_housekeeping_outlives_trouble_of_the_machine_and_not_a_fault_of_ours(shop):
    shop.store.root.rmdir()
    shop.store.root.write_text("a file where the folder should be")
    _again_next_turn(shop.clean_up)
    _again_next_turn(shop.discard_leftovers)
    with pytest.raises(ZeroDivisionError):
        _again_next_turn(lambda: 1 // 0)


def test_a_part_of_the_worker_that_breaks_takes_the_worker_along(caplog):
    stop, ended = threading.Event(), threading.Event()
    with pytest.raises(WorkerBroken, match="heart broke"), _in_thread("heart", lambda: 1 // 0, stop, ended):
        assert stop.wait(10)
    assert "heart broke with ZeroDivisionError" in caplog.text


def test_a_draft_whose_text_was_altered_where_it_is_kept_is_never_built(shop, order):
    with shop.database.writing() as session:
        session.execute(sa.update(DraftVersion).values(text="draft with 4 cm where 14 cm stood"))
    shop.run_job(BuildJob(order.id, 1))
    stopped = look(shop, order)
    assert stopped.state is OrderState.NEEDS_DESIGNER
    assert stopped.findings[0]["code"] == "orders.draft-altered"
    assert on_disk(shop) == []
