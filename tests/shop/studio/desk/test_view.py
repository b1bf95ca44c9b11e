"""What the designer's pages show: searches from any address, actions that fit the state."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.shop.orders.models import OrderState
from app.shop.orders.service import FoundOrders, OrderSearch
from app.shop.proofs.models import ProofState
from app.shop.studio.access import ListingVersion, read_positive_number
from app.shop.studio.desk.service import ListingRow, VersionRow
from app.shop.studio.desk.view import dashboard_page, read_search
from tests.places import APRON
from tests.shop.unsaved import MOMENT, a_fitting, a_listing, a_proof, a_version, an_order

NOTHING_FOUND = FoundOrders((), total=0, page=1, pages=1)


def line_of(row):
    """How the dashboard shows one listing."""
    [line] = dashboard_page([row], OrderSearch(), NOTHING_FOUND, somebody_works=True).listings
    return line


def version_row(number, proof=None):
    return VersionRow(number, MOMENT, proof)


# ---- the search


@given(st.dictionaries(st.sampled_from(["text", "state", "page", "other"]), st.text(max_size=200)))
def test_any_address_is_a_search(query):
    wanted = read_search(query)
    assert len(wanted.text) <= 100
    assert wanted.state is None or wanted.state in OrderState
    assert wanted.page >= 0


def test_a_search_is_read_from_its_address():
    assert read_search({"text": "rosa", "state": "ready", "page": "3"}) == OrderSearch("rosa", OrderState.READY, 3)


def test_the_pages_before_and_after_keep_the_search():
    found = FoundOrders((), total=80, page=2, pages=4, by_state={OrderState.READY: 80})
    page = dashboard_page([], OrderSearch("rosa & co", OrderState.READY, 2), found, somebody_works=True)
    assert [link.value for link in page.page_links] == [
        "/studio?text=rosa+%26+co&state=ready&page=1#orders",
        "/studio?text=rosa+%26+co&state=ready&page=3#orders",
    ]
    assert page.found == "80 orders, page 2 of 4."
    assert not page.nobody_builds


def test_the_filter_shows_how_many_orders_stand_in_each_state():
    found = FoundOrders((), total=3, page=1, pages=1, by_state={OrderState.READY: 2, OrderState.FAILED: 1})
    text, state = dashboard_page([], OrderSearch("x", OrderState.FAILED), found, somebody_works=False).filters
    assert text.value == "x"
    titles = [option.title for option in state.options]
    assert titles == [
        "all (3)", "placed (0)", "building (0)", "ready (2)", "needs you (0)", "failed (1)", "cancelled (0)",
    ]  # fmt: skip
    assert [option.value for option in state.options] == ["", *OrderState]
    assert [option.value for option in state.options if option.chosen] == ["failed"]


@pytest.mark.parametrize(
    ("total", "page", "pages", "words", "links"),
    [
        (0, 1, 1, "No order found.", []),
        (1, 1, 1, "1 order.", []),
        (25, 1, 1, "25 orders.", []),
        (26, 1, 2, "26 orders, page 1 of 2.", ["Older orders"]),
        (26, 2, 2, "26 orders, page 2 of 2.", ["Newer orders"]),
        (60, 2, 3, "60 orders, page 2 of 3.", ["Newer orders", "Older orders"]),
    ],
)
def test_it_is_told_how_many_were_found_and_only_pages_that_are_there_are_linked(total, page, pages, words, links):
    shown = dashboard_page([], OrderSearch(), FoundOrders((), total, page, pages), somebody_works=True)
    assert shown.found == words
    assert [link.title for link in shown.page_links] == links


def test_a_search_without_words_and_state_links_to_pages_without_them():
    shown = dashboard_page([], OrderSearch(), FoundOrders((), 60, 1, 3), somebody_works=True)
    assert [link.value for link in shown.page_links] == ["/studio?text=&state=&page=2#orders"]
    _, state = shown.filters
    assert [option.value for option in state.options if option.chosen] == [""]


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("1", 1), ("007", 7), ("999999", 999_999), ("0", 0), ("", 0), ("-1", 0), ("1.5", 0), ("1234567", 0),
        ("²", 0), ("٣", 0), (" 1", 0), ("1e3", 0), ("x", 0),
    ],
)  # fmt: skip
def test_a_number_in_an_address_is_read_or_none(typed, number):
    assert read_positive_number(typed) == number


def test_a_page_of_no_sense_is_the_first():
    for typed in ("0", "x", "-3", ""):
        assert read_search({"page": typed}).page == 1


# ---- the orders


@pytest.mark.parametrize(
    ("state", "words", "css"),
    [
        (OrderState.PLACED, "placed", "placed"),
        (OrderState.BUILDING, "building", "building"),
        (OrderState.READY, "ready", "ready"),
        (OrderState.NEEDS_DESIGNER, "needs you", "needs-designer"),
        (OrderState.FAILED, "failed", "failed"),
        (OrderState.CANCELLED, "cancelled", "cancelled"),
    ],
)
def test_an_order_stands_in_the_list_with_its_state_in_words(state, words, css):
    found = FoundOrders((an_order(state),), 1, 1, 1, {state: 1})
    [line] = dashboard_page([], OrderSearch(), found, somebody_works=True).orders
    assert (line.number, line.placed, line.title) == ("TL-2345", "5 March 2026", "Linnet apron")
    assert (line.state, line.css_class) == (words, css)


@pytest.mark.parametrize(
    ("name", "email", "shown"),
    [
        ("Ana Quill", "ana@mail.example", "Ana Quill"),
        ("", "ana@mail.example", "ana@mail.example"),
        ("Ana Quill", "", "Ana Quill"),
        ("", "", "–"),
    ],
)
def test_a_customer_is_shown_by_what_she_gave(name, email, shown):
    found = FoundOrders((an_order(customer_name=name, customer_email=email),), 1, 1, 1)
    [line] = dashboard_page([], OrderSearch(), found, somebody_works=True).orders
    assert line.customer == shown


def test_an_order_is_listed_under_the_design_it_is_for():
    fitting = a_fitting(listing=a_listing(title="Wren apron"))
    found = FoundOrders((an_order(fitting=fitting),), 1, 1, 1)
    [line] = dashboard_page([], OrderSearch(), found, somebody_works=True).orders
    assert line.title == "Wren apron"


def test_it_is_said_when_nobody_builds():
    assert dashboard_page([], OrderSearch(), NOTHING_FOUND, somebody_works=False).nobody_builds


# ---- the listings


def test_a_design_without_a_draft_has_no_button_to_sell_it():
    line = line_of(ListingRow(a_listing(), None, None, orders=0, needing_designer=0))
    assert (line.words, line.state, line.action) == ("No draft yet · 0 orders", "not on sale", "")
    assert line.versions == ()


def test_a_first_version_on_trial_can_be_put_on_sale_by_its_own_number():
    line = line_of(ListingRow(a_listing(), None, version_row(1, a_proof(ProofState.WAITING, summary={})), 0, 0))
    assert (line.action, line.action_words) == ("versions/1/sell", "Put on sale")
    [shown] = line.versions
    assert (shown.number, shown.words, shown.proof) == (1, "Version 1, on trial", "waits for a worker.")


def test_a_design_on_sale_can_be_taken_off_whatever_version_is_on_trial():
    version = a_version(2)
    row = ListingRow(a_listing(version), version_row(2, a_proof()), version_row(3), orders=4, needing_designer=1)
    line = line_of(row)
    assert (line.state, line.css_class, line.published) == ("on sale", "published", True)
    assert (line.action, line.action_words) == ("unpublish", "Take off sale")
    assert line.words == "4 orders, 1 waiting for you"
    assert [(each.words, each.proof) for each in line.versions] == [
        ("Version 2", "100 of 100 bodies hold (100 %)."),
        ("Version 3, on trial", "not asked for yet"),
    ]


def test_a_design_off_sale_goes_back_on_sale_by_the_version_it_was_sold_by():
    version = a_version(2)
    row = ListingRow(a_listing(version, published=False), version_row(2), version_row(3), 1, 0)
    line = line_of(row)
    assert (line.css_class, line.action, line.words) == ("unpublished", "versions/2/sell", "1 order")


@pytest.mark.parametrize(
    ("cents", "shown"), [(0, "0.00"), (5, "0.05"), (900, "9.00"), (1450, "14.50"), (100_000, "1000.00")]
)
def test_a_price_stands_in_its_field_as_it_can_be_typed_again(cents, shown):
    line = line_of(ListingRow(a_listing(price_cents=cents, currency="GBP"), None, None, 0, 0))
    assert (line.price, line.currency) == (shown, "GBP")


def test_what_a_design_settles_is_told_by_the_choices_of_its_newest_draft():
    listing = a_listing(settled={"length": 620.0, "gathering": 1.5})
    row = ListingRow(listing, None, version_row(1), 0, 0, newest=a_version(1, APRON))
    assert line_of(row).settled == "Settled: gathering 1.5, length 62 cm"
    assert line_of(ListingRow(a_listing(), None, None, 0, 0)).settled == ""


def test_a_version_has_one_address_wherever_it_is_linked():
    of = ListingVersion(a_listing(slug="wren"), a_version(12))
    assert of.address == "/studio/listings/wren/versions/12"
