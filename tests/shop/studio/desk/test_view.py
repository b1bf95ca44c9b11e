"""What the designer's pages show: searches from any address, actions that fit the state."""

from hypothesis import given
from hypothesis import strategies as st

from app.shop.orders.models import OrderState
from app.shop.orders.service import FoundOrders, OrderSearch
from app.shop.studio.desk.view import dashboard_page, read_search


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
    assert "all (3)" in titles
    assert "ready (2)" in titles
    assert [option.value for option in state.options if option.chosen] == ["failed"]
