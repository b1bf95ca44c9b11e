"""A build as its worker sees it: one claim at a time, and nothing can be changed without it."""

from dataclasses import replace
from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.base.errors import BuildLost
from app.packs.request import PackFile, PackReady, PrintChoices
from app.pattern.pieces.model import Cloth
from app.pattern.problem import Place, Problem, Related, Severity, Span
from app.shop.orders import builds
from app.shop.orders.models import Order, OrderState, Worker
from app.shop.orders.service import Customer, order_by_token, place_order
from tests.proved import SMALL_DRAFT

PACK = PackReady((PackFile("a.pdf", "A", 3, "aa"), PackFile("b.pdf", "B", 4, "bb")), {"sheets": 12})
SILENCE = timedelta(seconds=30)


@pytest.fixture
def order(session, queue, fitting):
    return place_order(session, queue, fitting, Customer("Ana Quill"))


@pytest.fixture
def claim(session, order):
    return builds.claim_build(session, order.id, "worker-1", "Heron Yard")


def look(session, order):
    session.expire(order)
    return order_by_token(session, order.token)


def make_silent(session, order, by=SILENCE + timedelta(seconds=1)):
    order = look(session, order)
    order.heartbeat_at -= by
    session.flush()


def test_a_claim_carries_everything_the_pack_is_made_from(claim, order):
    request = claim.request
    assert request.draft_text == SMALL_DRAFT
    assert request.draft_name == "linnet-apron.draft"
    assert request.measurements == {"bust_girth": 920.75, "hip_girth": 980.0}
    assert request.choices == {"length": 680.0, "lined": True, "collar": "stand"}
    assert request.cloths["main"] == Cloth(1400.0, folded=True, one_way=True)
    assert request.prints == PrintChoices(join="butt", lines="without", roll_mm=914.4)
    assert (request.unit, request.paper, request.title) == ("in", "A4", "Linnet apron")
    assert (request.order_number, request.customer, request.studio) == (order.number, "Ana Quill", "Heron Yard")
    assert "-" not in claim.secret


def test_only_a_waiting_order_can_be_claimed_and_only_once(session, order, claim):
    assert claim.attempt == 1
    assert builds.claim_build(session, order.id, "worker-2", "") is None
    assert builds.claim_build(session, 999, "worker-2", "") is None
    assert look(session, order).worker == "worker-1"


@pytest.mark.parametrize("state", [state for state in OrderState if state is not OrderState.PLACED])
def test_no_other_state_can_be_claimed(session, order, state):
    session.execute(sa.update(Order).values(state=state))
    assert builds.claim_build(session, order.id, "worker-1", "") is None


def test_the_packs_name_tells_order_draft_and_inputs(session, order, claim):
    number, version, digest = claim.pack_name.rsplit("-", 2)
    assert (number, version, len(digest)) == (order.number, "v1", 16)
    order = look(session, order)
    assert builds.pack_name(order, claim.request) == claim.pack_name
    for change in (
        {"measurements": {"bust_girth": 920.8}},
        {"paper": "letter"},
        {"cloths": {"main": Cloth(1500.0)}},
        {"choices": {}},
        {"studio": "Other"},
        {"prints": PrintChoices()},
    ):
        assert builds.pack_name(order, replace(claim.request, **change)) != claim.pack_name


@pytest.mark.parametrize(("given", "kept"), [(0.25, 0.25), (-1.0, 0.0), (7.0, 1.0)])
def test_progress_is_a_share(session, order, claim, given, kept):
    builds.record_progress(session, claim, "Laying the pieces", given)
    assert (look(session, order).stage, order.progress) == ("Laying the pieces", kept)


def test_finishing_turns_the_order_ready_with_its_files(session, order, claim):
    assert builds.finish_build(session, claim, PACK) == ""
    done = look(session, order)
    assert (done.state, done.progress, done.worker, done.claim) == (OrderState.READY, 1.0, "", "")
    assert done.pack_folder == claim.pack_name
    assert [file["name"] for file in done.files] == ["a.pdf", "b.pdf"]
    assert done.summary == {"sheets": 12}
    assert done.built_at is not None
    assert len(done.pack_sha256) == 64


def test_the_packs_hash_tells_other_files_apart(session, order, claim):
    builds.finish_build(session, claim, PACK)
    first = look(session, order).pack_sha256
    session.execute(sa.update(Order).values(state=OrderState.PLACED))
    again = builds.claim_build(session, order.id, "worker-1", "Heron Yard")
    assert builds.finish_build(session, again, replace(PACK, files=PACK.files[:1])) == ""
    assert look(session, order).pack_sha256 != first


def test_finishing_under_another_name_gives_the_older_pack_back(session, order, claim):
    builds.finish_build(session, claim, PACK)
    session.execute(sa.update(Order).values(state=OrderState.PLACED))
    again = builds.claim_build(session, order.id, "worker-1", "New name")
    assert builds.finish_build(session, again, PACK) == claim.pack_name


def test_a_failed_check_reaches_the_designer_with_figures_place_and_remedy(session, order, claim):
    problems = (
        Problem(
            "checks.seam-walk", "Front 412.0 mm, back 415.5 mm.", "Move the hem.", Place("front", "side", at=(1, 2))
        ),
        Problem("drafting.arc", "Odd.", "Mend.", Span("a.draft", 3, 5, 9), excerpt="x = 1"),
        Problem("lay.too-wide", "Wide.", "Wider.", related=(Related("sewn to this", Place("back")), Related("so"))),
    )
    builds.refer_to_designer(session, claim, problems)
    stopped = look(session, order)
    assert stopped.state is OrderState.NEEDS_DESIGNER
    assert stopped.reason.startswith("Seam walk: Edges that are sewn together")
    assert stopped.reason.endswith("(and 2 more)")
    assert "412" not in stopped.reason, "the customer's figures stand in the findings alone"
    assert stopped.findings[0]["message"] == "Front 412.0 mm, back 415.5 mm."
    assert [found["where"] for found in stopped.findings] == ["front, edge side", "a.draft:3:5", ""]
    assert [found["at"] for found in stopped.findings] == [[1, 2], None, None]
    assert stopped.findings[1]["excerpt"] == "x = 1"
    assert stopped.findings[2]["related"] == ["back: sewn to this", "so"]
    assert stopped.files == []


def test_the_reason_is_an_error_and_never_a_mere_warning(session, order, claim):
    warning = Problem("body.unlikely", "Unlikely.", "Look.", severity=Severity.WARNING)
    with pytest.raises(ValueError, match="without an error"):
        builds.refer_to_designer(session, claim, [warning])
    builds.refer_to_designer(session, claim, [warning, Problem("checks.outline-crosses", "Crosses itself.", "Mend.")])
    assert look(session, order).reason.startswith("Outline: The line to sew along would cross itself")


CHANGES = {
    "progress": lambda session, claim: builds.record_progress(session, claim, "x", 0.5),
    "finish": lambda session, claim: builds.finish_build(session, claim, PACK),
    "refuse": lambda session, claim: builds.refer_to_designer(session, claim, [Problem("a.b", "m", "f")]),
    "give back": builds.return_for_retry,
    "give up": lambda session, claim: builds.fail_build(session, claim, "why"),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_a_worker_that_lost_its_claim_changes_nothing(session, order, claim, change):
    make_silent(session, order)
    builds.release_silent_builds(session, SILENCE)
    second = builds.claim_build(session, order.id, "worker-2", "")
    with pytest.raises(BuildLost, match=order.number):
        change(session, claim)
    now_held = look(session, order)
    assert (now_held.state, now_held.claim, now_held.attempt) == (OrderState.BUILDING, second.secret, 2)


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_a_cancelled_order_stays_cancelled(session, order, claim, change):
    session.execute(sa.update(Order).values(state=OrderState.CANCELLED, claim=""))
    with pytest.raises(BuildLost):
        change(session, claim)
    assert look(session, order).state is OrderState.CANCELLED


def test_giving_back_keeps_the_count_of_tries(session, order, claim):
    builds.return_for_retry(session, claim)
    assert (look(session, order).state, order.attempt, order.claim) == (OrderState.PLACED, 1, "")


def test_giving_up_tells_the_designer_why(session, order, claim):
    builds.fail_build(session, claim, "The cloth file was empty.")
    assert (look(session, order).state, order.reason) == (OrderState.FAILED, "The cloth file was empty.")


def test_only_builds_silent_for_too_long_are_released(session, order, claim):
    assert builds.release_silent_builds(session, SILENCE) == 0
    make_silent(session, order)
    builds.record_build_heartbeats(session, [claim.secret])
    assert builds.release_silent_builds(session, SILENCE) == 0
    make_silent(session, order)
    assert builds.release_silent_builds(session, SILENCE) == 1
    assert (look(session, order).state, order.attempt) == (OrderState.PLACED, 1)


def test_a_restarted_worker_releases_the_builds_of_its_own_slot_only(session, order, claim):
    assert builds.release_builds_of(session, "worker-2") == 0
    assert builds.release_builds_of(session, "worker-1") == 1
    assert look(session, order).state is OrderState.PLACED


def test_signing_off_puts_builds_back_uncounted_and_ends_the_sign_of_life(session, order, claim):
    builds.record_worker_heartbeat(session, "worker-1")
    builds.sign_off_worker(session, "worker-1")
    assert (look(session, order).state, order.attempt) == (OrderState.PLACED, 0)
    assert builds.live_slots(session, SILENCE) == set()


def test_slots_are_live_while_they_give_signs(session):
    builds.record_worker_heartbeat(session, "worker-1")
    builds.record_worker_heartbeat(session, "worker-2")
    session.get_one(Worker, "worker-2").heartbeat_at -= SILENCE + timedelta(seconds=1)
    assert builds.live_slots(session, SILENCE) == {"worker-1"}
    builds.record_worker_heartbeat(session, "worker-2")
    assert builds.live_slots(session, SILENCE) == {"worker-1", "worker-2"}


def test_a_worker_that_is_killed_again_and_again_is_failing_until_it_stands(session):
    for _ in range(builds.MOST_STARTS):
        builds.record_worker_start(session, "worker-1")
    assert builds.failing_slots(session) == set()
    builds.record_worker_start(session, "worker-1")
    assert builds.failing_slots(session) == {"worker-1"}
    row = session.get_one(Worker, "worker-1")
    session.refresh(row)
    row.started_at -= builds.STOOD
    session.flush()
    builds.record_worker_heartbeat(session, "worker-1")
    builds.record_worker_start(session, "worker-1")
    assert builds.failing_slots(session) == set()


def test_a_worker_that_ends_broken_again_and_again_is_failing_and_gives_no_sign(session):
    for _ in range(builds.MOST_STARTS + 1):
        builds.record_worker_start(session, "worker-1")
        builds.sign_off_worker(session, "worker-1", broken=True)
    assert builds.live_slots(session, SILENCE) == set()
    assert builds.failing_slots(session) == {"worker-1"}


def test_a_worker_that_is_stopped_and_started_is_not_failing(session):
    for _ in range(builds.MOST_STARTS + 1):
        builds.record_worker_start(session, "worker-1")
        builds.sign_off_worker(session, "worker-1")
    assert builds.failing_slots(session) == set()


def test_orders_left_behind_are_those_that_wait_too_long(session, order):
    assert builds.overdue_orders(session, SILENCE) == []
    order.updated_at -= SILENCE
    session.flush()
    assert builds.overdue_orders(session, SILENCE) == [order]
    builds.claim_build(session, order.id, "worker-1", "")
    assert builds.overdue_orders(session, timedelta(seconds=-1)) == []


def test_claims_are_live_while_their_build_runs(session, claim):
    assert builds.live_claims(session) == {claim.secret}
    builds.fail_build(session, claim, "why")
    assert builds.live_claims(session) == set()


def test_packs_nobody_shows_are_known_but_never_those_of_a_build_under_way(session, order, claim):
    stray, older = "TL-9999-v1-0123456789abcdef", f"{order.number}-v0-0123456789abcdef"
    kept = [stray, older, claim.pack_name]
    assert builds.orphaned_packs(session, kept) == [stray]
    builds.finish_build(session, claim, PACK)
    assert builds.orphaned_packs(session, kept) == [stray, older]
