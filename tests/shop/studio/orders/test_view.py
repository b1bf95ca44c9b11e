"""The designer's page of an order: in every state the reason, what was found, and just what can be done."""

from datetime import timedelta

import pytest

from app.pattern.problem import Place, Problem, Severity
from app.shop.orders.coverage import COVERED, ProofCoverage
from app.shop.orders.findings import stored_finding
from app.shop.orders.models import OrderState
from app.shop.studio.orders.view import STATES, css_class, order_page
from tests.shop.unsaved import MOMENT, a_fitting, a_listing, a_version, an_order

OUTSIDE = Problem("proof.outside", "The hip girth is 145 cm.", "Measure.", Place(point="hip_girth"), Severity.WARNING)
NOT_YET = Problem("proof.not-yet", "This version is still being proved.", "Wait.", None, Severity.WARNING)
CAP = Problem("checks.seam-walk", "The cap is 9 mm short.", "Raise the cap.", Place("sleeve", "cap"))
DAMAGED = {"found_at": (MOMENT + timedelta(days=1)).isoformat(), "files": [{"name": "a.pdf", "how": "is missing"}]}

BUILD_AGAIN = ("rebuild", "Build it again")
TAKE_DRAFT = ("current-draft", "Take the version now on sale and build again")
CANCEL = ("cancel", "Cancel the order")
ALL_THE_SAME = ("rebuild", "Build it all the same")


def actions(order):
    return [(action.value, action.title) for action in order_page(order).actions]


@pytest.mark.parametrize(
    ("state", "offered"),
    [
        (OrderState.PLACED, [CANCEL]),
        (OrderState.BUILDING, [CANCEL]),
        (OrderState.READY, [BUILD_AGAIN]),
        (OrderState.NEEDS_DESIGNER, [BUILD_AGAIN, TAKE_DRAFT, CANCEL]),
        (OrderState.FAILED, [BUILD_AGAIN, TAKE_DRAFT, CANCEL]),
        (OrderState.CANCELLED, []),
    ],
)
def test_what_can_be_done_fits_the_state(state, offered):
    assert actions(an_order(state)) == offered


@pytest.mark.parametrize("found", [[OUTSIDE], [NOT_YET], [OUTSIDE, NOT_YET]])
def test_an_order_held_back_by_its_proof_alone_is_built_all_the_same_with_open_eyes(found):
    order = an_order(OrderState.NEEDS_DESIGNER, findings=[stored_finding(problem) for problem in found])
    assert actions(order) == [ALL_THE_SAME, TAKE_DRAFT, CANCEL]
    assert {shown.fix for shown in order_page(order).findings} == {
        "Look at her pieces. Then build it all the same, or write to her."
    }


def test_an_order_that_also_failed_a_check_is_not_built_all_the_same():
    order = an_order(OrderState.NEEDS_DESIGNER, findings=[stored_finding(OUTSIDE), stored_finding(CAP)])
    assert actions(order) == [BUILD_AGAIN, TAKE_DRAFT, CANCEL]
    fixes = [shown.fix for shown in order_page(order).findings]
    assert fixes == ["Look at her pieces. Then build it all the same, or write to her.", "Raise the cap."]


def test_a_build_that_failed_is_tried_again_and_never_all_the_same():
    order = an_order(OrderState.FAILED, findings=[stored_finding(OUTSIDE)])
    assert ALL_THE_SAME not in actions(order)


def test_findings_keep_their_figures_for_the_designer():
    [shown] = order_page(an_order(OrderState.NEEDS_DESIGNER, findings=[stored_finding(CAP)])).findings
    assert (shown.words, shown.fix) == ("The cap is 9 mm short.", "Raise the cap.")


def test_findings_of_a_damaged_row_are_shown_as_far_as_they_go():
    [shown] = order_page(an_order(OrderState.FAILED, findings=[{"code": "x"}])).findings
    assert (shown.words, shown.fix) == ("", "")


@pytest.mark.parametrize("state", list(OrderState))
def test_a_reason_is_told_as_what_it_is(state):
    page = order_page(an_order(state, reason="The disk is full."))
    waits = state in (OrderState.PLACED, OrderState.BUILDING)
    assert page.reason_title == ("Why it waits" if waits else "Why it stopped")
    assert page.reason == "The disk is full."


def test_every_state_has_words_and_a_class_of_its_own():
    assert set(STATES) == set(OrderState)
    assert len(set(STATES.values())) == len(OrderState)
    assert [css_class(state) for state in OrderState] == [
        "placed", "building", "ready", "needs-designer", "failed", "cancelled",
    ]  # fmt: skip


def test_the_facts_are_those_of_the_order_and_not_of_what_is_on_sale_now():
    old, new = a_version(1), a_version(4)
    fitting = a_fitting(old, a_listing(new, title="Wren apron", price_cents=5000))
    facts = {pair.title: pair.words for pair in order_page(an_order(fitting=fitting)).facts}
    assert facts["Pattern"] == "Wren apron, draft version 1"
    assert facts["Placed"] == "5 March 2026"
    assert (facts["Customer"], facts["E-mail"]) == ("Ana Quill", "ana@mail.example")
    assert facts["Price"] == "free (free sample)"
    assert facts["Hip girth"] == "98 cm"


def test_an_order_without_name_and_mail_says_so():
    facts = {pair.title: pair.words for pair in order_page(an_order(customer_name="", customer_email="")).facts}
    assert (facts["Customer"], facts["E-mail"]) == ("no name given", "none given")


def test_an_order_that_was_paid_for_says_what_and_how():
    facts = {
        pair.title: pair.words
        for pair in order_page(an_order(price_cents=1450, currency="GBP", payment_kind="card")).facts
    }
    assert facts["Price"] == "£14.50 (card)"


def test_what_a_customer_is_told_of_a_ready_pack_is_told_the_designer_files_that_are_missing_first():
    summary = {"left_out": ["No projector file."], "notes": ["The hem is shaped."]}
    assert order_page(an_order(OrderState.READY, summary=summary)).notes == ("No projector file.", "The hem is shaped.")
    assert order_page(an_order(OrderState.FAILED, summary=summary)).notes == ()


def test_the_page_leads_to_the_customers_own_pages():
    page = order_page(an_order(OrderState.READY))
    assert (page.number, page.token, page.fitting) == ("TL-2345", "order-token", "fitting-token")


def test_the_place_of_the_body_in_the_proof_is_drawn_where_there_is_a_chart():
    assert order_page(an_order(), COVERED).where == ""
    assert order_page(an_order(), ProofCoverage((OUTSIDE,), "<svg></svg>")).where == "<svg></svg>"


def test_each_damage_is_told_with_its_moment_newest_first():
    earlier = {**DAMAGED, "found_at": MOMENT.isoformat(), "files": [{"name": "b.pdf", "how": "is missing"}]}
    order = an_order(OrderState.READY, damages=[earlier, DAMAGED])
    newest, oldest = order_page(order).again
    assert newest.startswith("6 March 2026, 09:30 UTC: a.pdf is missing. The pack was made again from draft version 1")
    assert oldest == "5 March 2026, 09:30 UTC: b.pdf is missing. The pack was made again."
