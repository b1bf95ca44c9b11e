"""The designer at one order in the browser: every button in every state, pressed once, twice and too late."""

import pytest
import sqlalchemy as sa

from app.shop.catalogue.service import listing_by_slug
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import Customer, FittingEntry, order_by_number, place_order, save_fitting
from tests.standing import standing_shop
from tests.web.test_accessibility import assert_usable

ENTRY = FittingEntry({}, {"waist_girth": 760.0, "hip_girth": 1000.0, "waist_to_hip": 210.0}, {}, "cm", "a4", {})
REBUILT, CANCELLED = "The order is being built again.", "The order is cancelled."
MOVED = "The order is being built from the version now on sale."


@pytest.fixture(scope="module")
def shop(migrated, tmp_path_factory):
    """One shop for all tests here: each stands an order of its own."""
    with standing_shop(migrated, tmp_path_factory.mktemp("shop")) as shop:
        yield shop


@pytest.fixture
def database(shop):
    """The shop's database."""
    return shop.database


@pytest.fixture
def designer(shop):
    """The designer, signed in."""
    return shop.designer


@pytest.fixture
def number(shop, database):
    """The number of an order for the demo skirt."""
    with database.writing() as session:
        listing = listing_by_slug(session, "fernhill-skirt")
        return place_order(session, shop.app.state.queue, save_fitting(session, listing, ENTRY), Customer("Ana")).number


def stand(database, number, state, **values):
    with database.writing() as session:
        session.execute(sa.update(Order).where(Order.number == number).values(state=state, **values))


def state_of(database, number):
    with database.reading() as session:
        return order_by_number(session, number).state


def press(designer, number, action):
    """The button pressed from a page that was opened before, whatever the order's state is now."""
    token = designer.get("/studio").form("/studio/sign-out")
    return designer.post(f"/studio/orders/{number}/{action}", token)


@pytest.mark.parametrize(
    ("state", "action", "said", "then"),
    [
        (OrderState.READY, "rebuild", REBUILT, OrderState.PLACED),
        (OrderState.FAILED, "rebuild", REBUILT, OrderState.PLACED),
        (OrderState.NEEDS_DESIGNER, "rebuild", REBUILT, OrderState.PLACED),
        (OrderState.PLACED, "rebuild", "This order is being built.", OrderState.PLACED),
        (OrderState.BUILDING, "rebuild", "This order is being built.", OrderState.BUILDING),
        (OrderState.FAILED, "current-draft", MOVED, OrderState.PLACED),
        (OrderState.NEEDS_DESIGNER, "current-draft", MOVED, OrderState.PLACED),
        (OrderState.READY, "current-draft", "keeps the draft version it was placed with", OrderState.READY),
        (OrderState.CANCELLED, "current-draft", "keeps the draft version it was placed with", OrderState.CANCELLED),
        (OrderState.PLACED, "cancel", CANCELLED, OrderState.CANCELLED),
        (OrderState.BUILDING, "cancel", CANCELLED, OrderState.CANCELLED),
        (OrderState.FAILED, "cancel", CANCELLED, OrderState.CANCELLED),
        (OrderState.NEEDS_DESIGNER, "cancel", CANCELLED, OrderState.CANCELLED),
        (OrderState.READY, "cancel", "This order has ended already.", OrderState.READY),
        (OrderState.CANCELLED, "cancel", "This order has ended already.", OrderState.CANCELLED),
    ],
)
def test_a_button_does_what_it_says_or_says_why_not(designer, database, number, state, action, said, then):
    stand(database, number, state)
    page = press(designer, number, action)
    assert page.path == f"/studio/orders/{number}"
    assert said in page.words
    assert state_of(database, number) is then


@pytest.mark.parametrize("state", list(OrderState))
def test_only_the_buttons_that_can_work_stand_on_the_page(designer, database, number, state):
    stand(database, number, state)
    page = designer.get(f"/studio/orders/{number}")
    assert page.status == 200
    offered = {action.rpartition("/")[2] for action in page.forms if number in action}
    assert (
        offered
        == {
            OrderState.PLACED: {"cancel"},
            OrderState.BUILDING: {"cancel"},
            OrderState.READY: {"rebuild"},
            OrderState.NEEDS_DESIGNER: {"rebuild", "current-draft", "cancel"},
            OrderState.FAILED: {"rebuild", "current-draft", "cancel"},
            OrderState.CANCELLED: set(),
        }[state]
    )
    assert_usable(page)


def test_a_rebuild_pressed_twice_is_one_rebuild(designer, database, number):
    stand(database, number, OrderState.FAILED)
    assert REBUILT in press(designer, number, "rebuild").words
    assert "This order is being built." in press(designer, number, "rebuild").words
    with database.reading() as session:
        assert order_by_number(session, number).ticket == 2


def test_a_cancelled_order_cannot_be_brought_back_by_an_old_page(designer, database, number):
    stand(database, number, OrderState.CANCELLED)
    page = press(designer, number, "rebuild")
    assert state_of(database, number) is OrderState.CANCELLED
    assert "This order was cancelled. Ask the customer to order again" in page.words


def test_an_order_that_was_delivered_keeps_its_draft_though_its_rebuild_failed(designer, database, number):
    with database.reading() as session:
        moment = order_by_number(session, number).created_at
    stand(database, number, OrderState.FAILED, built_at=moment)
    page = press(designer, number, "current-draft")
    assert f"Order {number} keeps the draft version it was placed with." in page.words
    assert "Ask the customer to order again if she wants the new draft." in page.words
    assert state_of(database, number) is OrderState.FAILED


@pytest.mark.parametrize("typed", ["{0}", "{1}", "{2}", "%20{1}%20"])
def test_an_order_is_opened_by_its_number_however_it_is_written(designer, number, typed):
    written = typed.format(number, number.lower(), number.removeprefix("TL-"))
    assert designer.get(f"/studio/orders/{written}").status == 200


@pytest.mark.parametrize("action", ["", "/rebuild", "/cancel", "/current-draft"])
def test_an_order_that_is_not_there_is_not_found(designer, action):
    token = designer.get("/studio").form("/studio/sign-out")
    path = f"/studio/orders/TL-ZZZZ{action}"
    assert (designer.post(path, token) if action else designer.get(path)).status == 404


@pytest.mark.parametrize("action", ["rebuild", "cancel", "current-draft"])
def test_a_stranger_with_the_number_of_an_order_changes_nothing(shop, database, number, action):
    visitor = shop.visitor
    stand(database, number, OrderState.FAILED)
    token = visitor.get("/studio/sign-in").form()["form_token"]
    page = visitor.post(f"/studio/orders/{number}/{action}", {"form_token": token})
    assert page.path == "/studio/sign-in"
    assert state_of(database, number) is OrderState.FAILED


@pytest.mark.parametrize("action", ["rebuild", "cancel", "current-draft"])
def test_a_form_sent_from_another_site_changes_nothing(designer, database, number, action):
    stand(database, number, OrderState.FAILED)
    page = designer.post(f"/studio/orders/{number}/{action}", {"form_token": "planted"})
    assert page.status in (400, 403)
    assert state_of(database, number) is OrderState.FAILED


def test_a_customers_words_are_never_markup_on_the_designers_page(designer, database, number):
    hostile = '"><script>alert(1)</script>'
    stand(database, number, OrderState.FAILED, customer_name=hostile, customer_email="<b>@mail.example", reason=hostile)
    for path in (f"/studio/orders/{number}", "/studio"):
        page = designer.get(path)
        assert "<script>alert" not in page.html
        assert "&lt;script&gt;" in page.html
