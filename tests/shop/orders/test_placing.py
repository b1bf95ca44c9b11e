"""Placing and changing orders: what is kept with them, why none is taken, and what each person is told."""

from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.base.jobs import BuildJob, JobState
from app.packs.request import Cloth, PrintChoices
from app.pattern.problem import Place, Problem, Severity
from app.pattern.proof import Range, Region, region_values
from app.shop.catalogue.service import add_draft_version, put_on_sale, take_off_sale
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.orders.service import (
    Customer,
    FittingEntry,
    OrderSearch,
    build_current_draft,
    cancel_order,
    cloths_of,
    delete_unordered_fittings,
    fitting_by_token,
    not_sold,
    order_by_number,
    order_files,
    place_order,
    prints_of,
    request_rebuild,
    save_fitting,
    save_with_other_lay,
    search_orders,
    status_words,
    use_current_draft,
)
from app.shop.proofs.service import proof_of
from tests.proved import small_draft, stand_proved
from tests.shop.orders.conftest import ENTRY
from tests.shop.unsaved import MOMENT, a_fitting, a_listing, a_version, an_order

REFUSED = Problem("checks.seam-walk", "The sides differ by 4 mm.", "Lower the hem.", Place("panel", "side"))
ANA = Customer("Ana Quill", "ana@mail.example")


@pytest.fixture
def order(session, queue, fitting):
    return place_order(session, queue, fitting, ANA)


def stand(session, order, state, **values):
    session.execute(sa.update(Order).where(Order.id == order.id).values(state=state, **values))
    session.refresh(order, ["state", *values])
    return order


def outside(session, listing):
    """Let the listing stand proved on nobody like the fitting's body."""
    proof = proof_of(session, listing.current_version.id)
    region = Region((Range("hip_girth", 800.0, 900.0),))
    proof.summary = {**proof.summary, "region": region_values(region)}
    session.flush()


# ---- placed


def test_a_refused_pattern_is_ordered_and_goes_to_the_designer_with_every_reason(session, queue, fitting):
    order = place_order(session, queue, fitting, ANA, [REFUSED])
    assert order.state is OrderState.NEEDS_DESIGNER
    assert order.reason.startswith("Seam walk: ")
    assert "4 mm" not in order.reason, "none of her figures stand in the reason"
    assert [found["message"] for found in order.findings] == ["The sides differ by 4 mm."]
    assert order.ticket == 0


def test_nobody_is_called_to_build_what_the_designer_looks_at_first(session, queue, fitting):
    place_order(session, queue, fitting, ANA, [REFUSED])
    session.commit()
    assert queue.unfinished() == []


def test_a_body_outside_the_proof_goes_to_the_designer_with_each_place_and_the_refusal(
    session, queue, listing, fitting
):
    outside(session, listing)
    order = place_order(session, queue, fitting, ANA, [REFUSED])
    assert order.state is OrderState.NEEDS_DESIGNER
    assert [found["code"] for found in order.findings] == ["proof.outside", "checks.seam-walk"]
    assert order.reason.startswith("Seam walk: "), "what stops it is named before what is only unlike others"
    assert order.reason.endswith("(and 1 more)")


def test_a_warning_alone_is_a_reason_to_ask_her(session, queue, listing, fitting):
    outside(session, listing)
    order = place_order(session, queue, fitting, ANA)
    assert [found["severity"] for found in order.findings] == ["warning"]
    assert order.state is OrderState.NEEDS_DESIGNER


def test_a_name_is_kept_without_the_gaps_round_it(session, queue, fitting):
    order = place_order(session, queue, fitting, Customer("  Ana  ", " a@b.example "))
    assert (order.customer_name, order.customer_email) == ("Ana", "a@b.example")


def test_what_it_costs_is_settled_as_a_free_sample_whatever_the_price(session, queue, fitting, listing):
    assert listing.price_cents == 900
    order = place_order(session, queue, fitting, ANA)
    assert (order.price_cents, order.currency, order.payment_kind, order.payment_state) == (
        0, "EUR", "free sample", "settled",
    )  # fmt: skip


def test_off_sale_nothing_is_ordered(session, queue, fitting, listing):
    take_off_sale(session, listing)
    (problem,) = place_order(session, queue, fitting, ANA).problems
    assert problem.code == "orders.off-sale"
    assert problem.message == "Linnet apron is not on sale at the moment."
    assert session.scalar(sa.select(sa.func.count()).select_from(Order)) == 0


def test_what_was_ordered_while_it_was_on_sale_stays_ordered(session, queue, fitting, listing, order):
    take_off_sale(session, listing)
    assert place_order(session, queue, fitting, Customer()) is order


def test_a_design_that_was_changed_since_is_not_ordered_as_it_was(session, queue, fitting, listing):
    newer = stand_version(session, listing)
    (problem,) = place_order(session, queue, fitting, ANA).problems
    assert problem.code == "orders.changed-since"
    assert "nothing has to be typed again" in problem.fix
    assert fitting.draft_version_id != newer.id


def stand_version(session, listing, note="mended"):
    """Another version of the listing's draft, proved and on sale."""
    version = add_draft_version(session, listing, small_draft(note))
    stand_proved(session, version)
    assert put_on_sale(session, listing, version) is listing
    return version


@pytest.mark.parametrize(
    ("listing", "codes"),
    [
        (a_listing(a_version(1)), []),
        (a_listing(a_version(1), published=False), ["orders.off-sale"]),
        (a_listing(a_version(2)), ["orders.changed-since"]),
        (a_listing(a_version(2), published=False), ["orders.off-sale"]),
    ],
)
def test_why_a_fitting_cannot_be_ordered(listing, codes):
    assert [problem.code for problem in not_sold(a_fitting(a_version(1), listing))] == codes


# ---- laid the other way


def test_a_fitting_laid_otherwise_is_another_one_alike_in_everything_else(session, fitting):
    other = save_with_other_lay(session, fitting, "main")
    session.expire_all()
    other = fitting_by_token(session, other.token)
    assert other.token != fitting.token
    assert (cloths_of(fitting)["main"].folded, cloths_of(other)["main"].folded) == (True, False)
    assert cloths_of(other)["lining"] == cloths_of(fitting)["lining"]
    for name in ("entered", "measurements", "choices", "unit", "paper", "confirmed", "prints", "draft_version_id"):
        assert getattr(other, name) == getattr(fitting, name), name


def test_laid_twice_the_other_way_it_lies_as_at_first(session, fitting):
    again = save_with_other_lay(session, save_with_other_lay(session, fitting, "lining"), "lining")
    assert cloths_of(again) == cloths_of(fitting)


def test_every_column_of_a_fitting_is_carried_over(session, fitting):
    """A column that is added later must not be forgotten here."""
    other = save_with_other_lay(session, fitting, "main")
    columns = {column.key for column in sa.inspect(Fitting).column_attrs}
    unlike = {name for name in columns if getattr(other, name) != getattr(fitting, name)}
    assert unlike <= {"id", "token", "cloths", "created_at"}


def test_a_fitting_of_before_there_was_a_choice_of_printing_is_printed_in_the_usual_way():
    assert prints_of(a_fitting(prints={})) == PrintChoices()
    assert prints_of(a_fitting(prints=None)) == PrintChoices()
    assert prints_of(a_fitting(prints={"join": "butt"})) == PrintChoices(join="butt")


def test_what_a_design_settles_is_kept_with_the_fitting_whatever_was_sent(session, listing):
    listing.settled = {"collar": "stand"}
    entry = FittingEntry({}, {"hip_girth": 980.0}, {"collar": "flat", "length": 620.0}, "cm", "a4", {})
    assert save_fitting(session, listing, entry).choices == {"collar": "stand", "length": 620.0}


def test_cloths_come_back_as_they_were_entered(session, listing):
    entry = FittingEntry({}, {}, {}, "cm", "a4", {"main": Cloth(1125.0, folded=False, one_way=True)})
    assert cloths_of(save_fitting(session, listing, entry)) == {"main": Cloth(1125.0, folded=False, one_way=True)}


# ---- thrown away


def test_only_so_many_old_fittings_are_thrown_away_at_once(session, listing):
    for number in range(503):
        session.add(a_fitting(listing.current_version, listing, token=f"token-{number}"))
    session.flush()
    moment = MOMENT + timedelta(days=1)
    assert delete_unordered_fittings(session, moment) == 500
    assert delete_unordered_fittings(session, moment) == 3
    assert delete_unordered_fittings(session, moment) == 0


# ---- changed


def test_a_rebuild_of_a_stopped_order_forgets_why_it_stopped(session, queue, order):
    stand(session, order, OrderState.FAILED, reason="why", findings=[{"code": "x"}], attempt=3, stage="x", progress=0.5)
    request_rebuild(session, queue, order)
    assert (order.state, order.reason, order.findings) == (OrderState.PLACED, "", [])
    assert (order.attempt, order.stage, order.progress) == (0, "", 0.0)


def test_a_cancelled_order_is_told_from_one_that_ended(session, queue, order):
    assert cancel_order(session, queue, order).state is OrderState.CANCELLED
    assert cancel_order(session, queue, order).problems[0].message == "This order has ended already."
    assert request_rebuild(session, queue, order).problems[0].message == "This order was cancelled."


@pytest.mark.parametrize("state", [OrderState.PLACED, OrderState.BUILDING])
def test_an_order_under_way_is_told_as_that(session, queue, order, state):
    stand(session, order, state)
    (told,) = request_rebuild(session, queue, order).problems
    assert (told.message, told.fix) == ("This order is being built.", "Wait until the build has ended.")


def test_a_cancelled_orders_job_is_ended_with_its_last_ticket(session, queue, order):
    stand(session, order, OrderState.FAILED)
    request_rebuild(session, queue, order)
    cancel_order(session, queue, order)
    session.commit()
    assert queue.progress(BuildJob(order.id, 2)) is JobState.ENDED


def test_a_stopped_order_moves_to_the_version_on_sale_and_is_built_in_one_step(session, queue, order, listing):
    newer = stand_version(session, listing)
    stand(session, order, OrderState.NEEDS_DESIGNER)
    moved = build_current_draft(session, queue, order)
    assert (moved.draft_version_id, moved.state, moved.ticket) == (newer.id, OrderState.PLACED, 2)


def test_an_order_that_must_keep_its_draft_is_not_built_by_the_way(session, queue, order, listing):
    stand_version(session, listing)
    stand(session, order, OrderState.READY)
    (problem,) = build_current_draft(session, queue, order).problems
    assert problem.code == "orders.draft-is-fixed"
    assert problem.message == f"Order {order.number} keeps the draft version it was placed with."
    assert (order.state, order.ticket, order.draft_version.number) == (OrderState.READY, 1, 1)


def test_without_a_version_on_sale_an_order_keeps_its_own(session, queue, order, listing):
    listing.current_version = None
    session.flush()
    stand(session, order, OrderState.FAILED)
    assert use_current_draft(session, order).draft_version.number == 1


# ---- told


@pytest.mark.parametrize(
    ("state", "built", "begins"),
    [
        (OrderState.PLACED, False, "Your order is in the queue."),
        (OrderState.PLACED, True, "Your pattern is in the queue to be made again."),
        (OrderState.BUILDING, False, "Your pattern is being drafted for your measurements."),
        (OrderState.BUILDING, True, "Your pattern is being made again for your measurements."),
        (OrderState.READY, True, "Your pattern is ready to download."),
        (OrderState.NEEDS_DESIGNER, False, "Your pattern did not pass one of our checks for your measurements, so"),
        (OrderState.NEEDS_DESIGNER, True, "Your pattern was to be made again, and this time it did not pass"),
        (OrderState.FAILED, False, "Your pattern could not be made because of a fault on our side."),
        (OrderState.FAILED, True, "Your pattern was to be made again, and that stopped because of a fault"),
        (OrderState.CANCELLED, False, "This order was cancelled."),
        (OrderState.CANCELLED, True, "This order was cancelled."),
    ],
)
def test_a_customer_is_told_where_her_order_stands(state, built, begins):
    assert status_words(an_order(state, built_at=MOMENT if built else None)).startswith(begins)


@pytest.mark.parametrize("state", [OrderState.NEEDS_DESIGNER, OrderState.FAILED])
@pytest.mark.parametrize("built", [None, MOMENT])
def test_whoever_waits_for_us_is_told_that_she_need_not_do_anything_again(state, built):
    told = status_words(an_order(state, built_at=built))
    assert "The designer has been told" in told
    assert "You need not do anything" in told or "you need not enter them again" in told


@pytest.mark.parametrize("state", [state for state in OrderState if state is not OrderState.NEEDS_DESIGNER])
def test_a_finding_that_was_kept_says_nothing_once_the_order_went_on(state):
    found = [{"code": "proof.outside", "message": "x", "severity": str(Severity.WARNING)}]
    assert "outside those" not in status_words(an_order(state, findings=found))


# ---- found


def test_an_empty_search_finds_all_and_gaps_are_no_words(session, order):
    for text in ("", "   ", "\t"):
        assert search_orders(session, OrderSearch(text)).total == 1


def test_every_word_must_be_found_somewhere_in_any_order(session, order):
    for text in ("ana linnet", "linnet ANA", f"{order.number} quill", "mail.example apron"):
        assert search_orders(session, OrderSearch(text)).total == 1, text
    for text in ("ana wren", f"{order.number}x", "linnet quilt"):
        assert search_orders(session, OrderSearch(text)).total == 0, text


@pytest.mark.parametrize("typed", ["", "TL-", "tl", "-", "TL-ÄÖÜ", "x" * 300])
def test_a_number_that_is_none_finds_no_order(session, order, typed):
    assert order_by_number(session, typed) is None


def test_a_state_that_nothing_is_in_finds_nothing_and_still_counts_the_others(session, order):
    page = search_orders(session, OrderSearch(state=OrderState.FAILED))
    assert (page.orders, page.total, page.pages) == ((), 0, 1)
    assert page.by_state == {OrderState.PLACED: 1}


def test_files_of_a_ready_order_are_those_of_its_row_in_their_order():
    files = [{"name": f"{name}.pdf", "title": name, "bytes": 1, "sha256": "ab"} for name in "bac"]
    assert [file.name for file in order_files(an_order(OrderState.READY, files=files))] == ["b.pdf", "a.pdf", "c.pdf"]
    assert ENTRY.prints.join == "butt"
