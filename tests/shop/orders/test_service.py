"""Fittings and orders as customers and the designer see them."""

import re
from dataclasses import replace

import pytest
import sqlalchemy as sa

from app.base.errors import Immutable
from app.base.jobs import BuildJob, JobState
from app.packs.request import PackFile
from app.pattern.pieces.model import Cloth
from app.pattern.problem import Refused
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, put_on_sale, save_listing
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import (
    NUMBER_SIGNS,
    Customer,
    FittingEntry,
    OrderSearch,
    cancel_order,
    cloths_of,
    fitting_by_token,
    order_by_number,
    order_by_token,
    order_files,
    place_order,
    request_rebuild,
    save_fitting,
    search_orders,
    status_words,
    use_current_draft,
)
from tests.proved import small_draft, stand_proved

ANA = Customer(" Ana Quill ", " ana@mail.example ")
FILE = {"name": "sheet.pdf", "title": "Sheet", "bytes": 3, "sha256": "ab"}
EMPTY = FittingEntry({}, {"bust_girth": 900.0}, {}, "cm", "A4", {})


@pytest.fixture
def order(session, queue, fitting):
    return place_order(session, queue, fitting, ANA)


def end(session, order, state, **values):
    session.execute(sa.update(Order).where(Order.id == order.id).values(state=state, **values))
    session.refresh(order, ["state", *values])


def test_a_fitting_comes_back_by_its_token_as_it_was_entered(database, session, fitting):
    session.commit()
    with database.reading() as reading:
        found = fitting_by_token(reading, fitting.token)
    assert found.entered == {"bust_girth": "36 1/4", "hip_girth": "98"}
    assert found.measurements["bust_girth"] == 920.75
    assert found.choices == {"length": 680.0, "lined": True, "collar": "stand"}
    assert (found.unit, found.paper, found.confirmed) == ("in", "A4", ["body.unlikely"])
    assert cloths_of(found) == {"main": Cloth(1400.0, True, True), "lining": Cloth(900.0, False, False)}
    assert found.draft_version.text.startswith("draft")
    assert found.listing.slug == "linnet-apron"


def test_a_fitting_cannot_be_changed_once_saved(session, fitting):
    fitting.measurements = {"bust_girth": 1.0}
    with pytest.raises(Immutable, match="fitting was changed; write a new one"):
        session.flush()
    session.rollback()


def test_tokens_cannot_be_guessed_or_found_by_part(session, listing):
    tokens = {save_fitting(session, listing, EMPTY).token for _ in range(20)}
    assert len(tokens) == 20
    assert min(map(len, tokens)) >= 32
    assert fitting_by_token(session, "") is None
    assert fitting_by_token(session, next(iter(tokens))[:-1]) is None


def test_a_listing_without_a_draft_takes_no_fitting(session):
    words = ListingWords("empty", "Empty", "", "", Level.CONFIDENT, 0, "EUR", "")
    with pytest.raises(ValueError, match="empty has no draft"):
        save_fitting(session, save_listing(session, words), EMPTY)


def test_a_placed_order_waits_with_a_job_and_its_exact_draft(order, fitting, queue, session):
    session.commit()
    assert (order.state, order.ticket, order.attempt) == (OrderState.PLACED, 1, 0)
    assert (order.customer_name, order.customer_email) == ("Ana Quill", "ana@mail.example")
    assert (order.price_cents, order.payment_kind, order.payment_state) == (0, "free sample", "settled")
    assert order.draft_version is fitting.draft_version
    assert queue.progress(BuildJob(order.id, 1)) is JobState.WAITING


def test_an_order_rolled_back_leaves_no_job(database, session, queue, fitting):
    session.commit()
    with pytest.raises(RuntimeError), database.writing() as doomed:
        place_order(doomed, queue, fitting_by_token(doomed, fitting.token), ANA)
        raise RuntimeError("before the commit")
    with database.reading() as reading:
        assert reading.scalar(sa.select(sa.func.count()).select_from(Order)) == 0
    assert queue.unfinished() == []


def test_pressing_the_button_twice_makes_one_order_and_one_job(session, queue, fitting, order):
    assert place_order(session, queue, fitting, Customer()) is order
    session.commit()
    assert len(queue.unfinished()) == 1


def test_numbers_have_four_signs_that_cannot_be_misread(session, queue, listing):
    orders = [place_order(session, queue, save_fitting(session, listing, EMPTY), Customer()) for _ in range(30)]
    assert all(re.fullmatch(rf"TL-[{NUMBER_SIGNS}]{{4}}", order.number) for order in orders)
    assert len({order.number for order in orders}) == 30
    assert not set("01ILOUAEY") & set(NUMBER_SIGNS)


def test_a_number_that_is_taken_is_drawn_again(session, queue, listing, order, monkeypatch):
    drawn = iter(order.number.removeprefix("TL-") + "9999")
    monkeypatch.setattr("app.shop.orders.service.secrets.choice", lambda signs: next(drawn))
    second = place_order(session, queue, save_fitting(session, listing, EMPTY), Customer())
    assert second.number == "TL-9999"


@pytest.mark.parametrize("typed", ["{0}", " {1} ", "{2}", "tl {2}", "TL–{2}"])
def test_an_order_is_found_by_its_number_however_it_is_typed(session, order, typed):
    forms = (order.number, order.number.lower(), order.number.removeprefix("TL-"))
    assert order_by_number(session, typed.format(*forms)) is order


def test_an_order_is_found_by_token_with_all_it_was_placed_with(database, session, order):
    session.commit()
    with database.reading() as reading:
        found = order_by_token(reading, order.token)
        assert order_by_token(reading, "x") is None
    assert found.fitting.measurements["hip_girth"] == 980.0
    assert found.fitting.listing.title == "Linnet apron"
    assert found.draft_version.number == 1


@pytest.mark.parametrize("state", [state for state in OrderState if state is not OrderState.READY])
def test_files_are_offered_only_when_ready(session, order, state):
    end(session, order, state, files=[FILE])
    assert order_files(order) == ()
    end(session, order, OrderState.READY)
    assert order_files(order) == (PackFile("sheet.pdf", "Sheet", 3, "ab"),)


@pytest.mark.parametrize("state", [OrderState.READY, OrderState.NEEDS_DESIGNER, OrderState.FAILED])
def test_an_ended_order_can_be_built_again_with_a_fresh_job(session, queue, order, state):
    end(session, order, state, attempt=3, reason="why", findings=[{"code": "x"}])
    assert request_rebuild(session, queue, order) is order
    session.commit()
    assert (order.state, order.attempt, order.ticket) == (OrderState.PLACED, 0, 2)
    assert (order.reason, order.findings, order.progress) == ("", [], 0.0)
    assert queue.progress(BuildJob(order.id, 2)) is JobState.WAITING
    assert order.fitting.listing.title == "Linnet apron"


@pytest.mark.parametrize("state", [OrderState.PLACED, OrderState.BUILDING, OrderState.CANCELLED])
def test_an_order_under_way_or_cancelled_is_not_built_again(session, queue, order, state):
    end(session, order, state)
    assert request_rebuild(session, queue, order).problems[0].code == "orders.rebuild-not-now"
    assert order.ticket == 1


def test_a_cancelled_order_and_its_job_end(database, session, queue, order):
    session.commit()
    with database.writing() as later:
        cancelled = cancel_order(later, queue, order_by_token(later, order.token))
        # The engine is told after the commit: until then the job stands.
        assert queue.progress(BuildJob(order.id, 1)) is JobState.WAITING
    assert cancelled.state is OrderState.CANCELLED
    assert queue.progress(BuildJob(order.id, 1)) is JobState.ENDED
    with database.writing() as later:
        assert cancel_order(later, queue, order_by_token(later, order.token)).problems[0].code == "orders.cannot-cancel"


def test_a_cancellation_rolled_back_keeps_the_job(database, session, queue, order):
    session.commit()
    with pytest.raises(RuntimeError), database.writing() as doomed:
        cancel_order(doomed, queue, order_by_token(doomed, order.token))
        raise RuntimeError("before the commit")
    assert queue.progress(BuildJob(order.id, 1)) is JobState.WAITING


def mend(session, listing):
    """Another version of the draft, on sale."""
    mended = add_draft_version(session, listing, small_draft("mended"))
    stand_proved(session, mended)
    put_on_sale(session, listing, mended)
    return mended


def test_a_version_on_trial_moves_no_order(session, order, listing):
    add_draft_version(session, listing, "on trial")
    end(session, order, OrderState.NEEDS_DESIGNER)
    assert use_current_draft(session, order).draft_version.number == 1


def test_an_undelivered_order_can_move_to_the_mended_draft(session, queue, order, listing):
    mended = mend(session, listing)
    end(session, order, OrderState.NEEDS_DESIGNER)
    assert use_current_draft(session, order) is order
    assert order.draft_version is mended
    assert order.fitting.draft_version.number == 1


@pytest.mark.parametrize("state", [OrderState.READY, OrderState.PLACED])
def test_an_order_keeps_the_draft_it_was_placed_with(session, order, listing, state):
    mend(session, listing)
    end(session, order, state)
    assert isinstance(use_current_draft(session, order), Refused)
    assert order.draft_version.number == 1


def test_a_delivered_order_that_failed_to_rebuild_keeps_its_draft_too(session, order, listing):
    mend(session, listing)
    end(session, order, OrderState.FAILED, built_at=order.created_at)
    assert use_current_draft(session, order).problems[0].code == "orders.draft-is-fixed"


@pytest.mark.parametrize("state", list(OrderState))
def test_the_customer_is_told_plainly_and_never_the_technical_reason(session, order, state):
    end(session, order, state, reason="ZeroDivisionError: bust girth 920")
    told = status_words(order)
    assert told.endswith(".")
    assert "Zero" not in told
    assert "920" not in told


@pytest.fixture
def shelf(session, queue, listing):
    """Five orders: two ready, one needing the designer, two placed."""
    names = ["Ana Quill", "Bo 100%", "Cy_Reed", "Dee Vale", "Eve Quill"]
    orders = [
        place_order(session, queue, save_fitting(session, listing, EMPTY), Customer(name, f"{name[:2]}@mail.example"))
        for name in names
    ]
    end(session, orders[0], OrderState.READY)
    end(session, orders[1], OrderState.READY)
    end(session, orders[2], OrderState.NEEDS_DESIGNER)
    return orders


def names(page):
    return [order.customer_name for order in page.orders]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("quill", ["Eve Quill", "Ana Quill"]),
        ("QUILL ana", ["Ana Quill"]),
        ("dee@mail", []),
        ("de@mail", ["Dee Vale"]),
        ("linnet cy", ["Cy_Reed"]),
        ("%", ["Bo 100%"]),
        ("_", ["Cy_Reed"]),
        ("nobody", []),
    ],
)
def test_orders_are_found_by_words(session, shelf, text, found):
    assert names(search_orders(session, OrderSearch(text))) == found


def test_orders_are_found_by_number_and_state(session, shelf):
    assert names(search_orders(session, OrderSearch(shelf[3].number.lower()))) == ["Dee Vale"]
    page = search_orders(session, OrderSearch(state=OrderState.READY))
    assert names(page) == ["Bo 100%", "Ana Quill"]
    assert page.total == 2
    assert page.by_state == {OrderState.READY: 2, OrderState.NEEDS_DESIGNER: 1, OrderState.PLACED: 2}


def test_orders_come_newest_first_in_pages(session, shelf):
    wanted = OrderSearch(per_page=2)
    assert names(search_orders(session, wanted)) == ["Eve Quill", "Dee Vale"]
    last = search_orders(session, replace(wanted, page=3))
    assert (names(last), last.pages, last.total) == (["Ana Quill"], 3, 5)
    assert search_orders(session, replace(wanted, page=99)).page == 3
    assert search_orders(session, replace(wanted, page=-1)).page == 1


def test_finding_nothing_is_one_empty_page(session):
    page = search_orders(session, OrderSearch("anything"))
    assert (page.orders, page.total, page.page, page.pages) == ((), 0, 1, 1)
