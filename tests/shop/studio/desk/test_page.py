"""The designer's back room: who may enter, and what she can do there."""

import pytest

from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, listing_by_slug, put_on_sale, save_listing
from app.shop.orders.models import OrderState
from app.shop.orders.service import Customer, FittingEntry, order_by_token, place_order, save_fitting
from app.shop.people.service import ensure_designer, password_link_token
from tests.proved import stand_proved

EMAIL = "ottilie@cotter-row.example"
PASSWORD = "four quiet unrelated words"


@pytest.fixture
def ordered(visitor, fitted):
    return visitor.submit(fitted, to=f"{fitted.path}/order", name="Rosa Quill", email="rosa@example.org")


def in_database(database, page):
    with database.reading() as session:
        return order_by_token(session, page.path.rpartition("/")[2])


def change(database, page, **values):
    with database.writing() as session:
        order = order_by_token(session, page.path.rpartition("/")[2])
        for name, value in values.items():
            setattr(order, name, value)


@pytest.mark.parametrize("path", ["/studio", "/studio/orders/TL-2222"])
def test_nobody_enters_without_signing_in(visitor, path):
    assert visitor.get(path).path == "/studio/sign-in"


def test_a_form_of_the_back_room_sent_by_a_stranger_changes_nothing(visitor, database):
    token = visitor.get("/studio/sign-in").form()["form_token"]
    page = visitor.post("/studio/listings/fernhill-skirt/unpublish", {"form_token": token})
    assert page.path == "/studio/sign-in"
    with database.reading() as session:
        assert listing_by_slug(session, "fernhill-skirt") is not None


def test_the_first_password_is_set_by_a_link_that_works_once(visitor, database):
    with database.writing() as session:
        token = password_link_token(session, ensure_designer(session, EMAIL, ""))
    path = f"/password/{token}"
    page = visitor.get(path)
    assert EMAIL in page.words
    refused = visitor.submit(page, password="short")
    assert refused.status == 422
    assert "it needs at least 15" in refused.words
    inside = visitor.submit(refused, password=PASSWORD)
    assert inside.path == "/studio"
    assert "Welcome, Ottilie Brack." in inside.words
    assert "Welcome" not in visitor.get("/studio").words
    used = visitor.get(path)
    assert used.status == 404
    assert "This link does not open any more" in used.words
    assert "tapeline password" in used.words
    assert visitor.post(path, {**visitor.get("/studio").form("/studio/sign-out"), "password": PASSWORD}).status == 404


def test_a_wrong_password_keeps_the_email_and_never_the_password(visitor):
    page = visitor.submit(visitor.get("/studio/sign-in"), email=EMAIL, password="let me in")
    assert page.status == 422
    assert "do not belong together" in page.words
    assert page.form()["email"] == EMAIL
    assert "let me in" not in page.html


def test_a_new_password_ends_older_sessions(designer, visitor, database):
    with database.writing() as session:
        token = password_link_token(session, ensure_designer(session, EMAIL, ""))
    visitor.submit(visitor.get(f"/password/{token}"), password="another four quiet words")
    assert designer.get("/studio").path == "/studio/sign-in"


def test_a_session_begun_before_signing_in_is_not_carried_over(visitor, database):
    page = visitor.get("/studio/sign-in")
    planted = page.form()["form_token"]
    with database.writing() as session:
        token = password_link_token(session, ensure_designer(session, EMAIL, ""))
    inside = visitor.submit(visitor.get(f"/password/{token}"), password=PASSWORD)
    assert inside.form("/studio/sign-out")["form_token"] != planted


def test_a_listing_is_taken_off_sale_and_put_back(designer, visitor):
    page = designer.submit(designer.get("/studio"), to="/studio/listings/larkspur-tunic/unpublish")
    assert "Larkspur tunic is no longer on sale." in page.words
    assert "Larkspur" not in visitor.get("/").words
    page = designer.submit(page, to="/studio/listings/larkspur-tunic/versions/1/sell")
    assert "Larkspur tunic is on sale." in page.words
    assert "Larkspur" in visitor.get("/").words


def test_a_listing_without_a_draft_cannot_go_on_sale(designer, database):
    with database.writing() as session:
        save_listing(session, ListingWords("heron-coat", "Heron coat", "", "", Level.PRACTISED, 100, "EUR", ""))
    page = designer.get("/studio")
    assert 'href="/studio/listings/heron-coat/draft"' in page.html
    assert not any("heron-coat/versions" in action for action in page.forms)
    sold = designer.post("/studio/listings/heron-coat/versions/1/sell", page.form("/studio/sign-out"))
    assert sold.status == 404


@pytest.mark.parametrize(("typed", "shown"), [("15", "€15.00"), ("15,50", "€15.50"), ("0", "Free")])
def test_a_price_is_set_as_typed(designer, visitor, typed, shown):
    page = designer.submit(designer.get("/studio"), to="/studio/listings/fernhill-skirt/price", price=typed)
    assert "The price of Fernhill skirt is set." in page.words
    assert shown in visitor.get("/patterns/fernhill-skirt").words


@pytest.mark.parametrize(
    ("typed", "words"), [("a lot", "This is not a price."), ("99999", "not a price this shop takes")]
)
def test_a_price_that_makes_no_sense_is_refused(designer, visitor, typed, words):
    page = designer.submit(designer.get("/studio"), to="/studio/listings/fernhill-skirt/price", price=typed)
    assert words in page.words
    assert "€12.00" in visitor.get("/patterns/fernhill-skirt").words


def test_orders_are_found_by_words_and_by_state(designer, database, ordered):
    number = in_database(database, ordered).number
    assert number in designer.get("/studio").words
    for query in (f"text={number}", "text=quill", "text=rosa%40example.org", "text=fernhill&state=placed"):
        assert number in designer.get(f"/studio?{query}").words
    for query in ("text=nobody", "state=ready"):
        page = designer.get(f"/studio?{query}")
        assert number not in page.words
        assert "No order found." in page.words


def test_the_designer_is_told_when_nobody_builds(designer):
    assert "Nobody is building" in designer.get("/studio").words


def test_a_search_that_makes_no_sense_shows_everything(designer, database, ordered):
    assert in_database(database, ordered).number in designer.get("/studio?state=lost&page=minus").words


def test_many_orders_come_in_pages(designer, visitor, app, database):
    entry = FittingEntry({}, {"waist_girth": 760.0, "hip_girth": 1000.0, "waist_to_hip": 210.0}, {}, "cm", "a4", {})
    with database.writing() as session:
        listing = listing_by_slug(session, "fernhill-skirt")
        for _ in range(27):
            place_order(session, app.state.queue, save_fitting(session, listing, entry), Customer())
    first = designer.get("/studio")
    assert "27 orders, page 1 of 2." in first.words
    assert "Older orders" in first.words
    second = designer.get("/studio?page=2")
    assert "page 2 of 2" in second.words
    assert "Newer orders" in second.words
    assert second.html.count("<tr>") == 3


def test_an_order_that_stopped_shows_why_and_can_be_built_again(designer, database, ordered):
    finding = {"code": "x", "message": "The cap is 9 mm short.", "fix": "Raise the cap."}
    change(database, ordered, state=OrderState.NEEDS_DESIGNER, reason="A check failed.", findings=[finding])
    order = in_database(database, ordered)
    page = designer.get(f"/studio/orders/{order.number}")
    for words in ("A check failed.", "The cap is 9 mm short. Raise the cap.", "Rosa Quill", "needs you"):
        assert words in page.words
    again = designer.submit(page, to=f"/studio/orders/{order.number}/rebuild")
    assert "The order is being built again." in again.words
    assert in_database(database, ordered).state is OrderState.PLACED


def test_a_stopped_order_can_move_to_the_current_draft(designer, database, ordered):
    change(database, ordered, state=OrderState.NEEDS_DESIGNER)
    with database.writing() as session:
        listing = listing_by_slug(session, "fernhill-skirt")
        version = add_draft_version(session, listing, listing.current_version.text + "\n# eased\n")
        stand_proved(session, version)
        put_on_sale(session, listing, version)
    order = in_database(database, ordered)
    page = designer.get(f"/studio/orders/{order.number}")
    designer.submit(page, to=f"/studio/orders/{order.number}/current-draft")
    moved = in_database(database, ordered)
    assert moved.draft_version.number == version.number
    assert moved.state is OrderState.PLACED


def test_an_order_is_cancelled_once(designer, database, ordered):
    path = f"/studio/orders/{in_database(database, ordered).number}"
    page = designer.get(path)
    assert "The order is cancelled." in designer.submit(page, to=f"{path}/cancel").words
    assert "This order has ended already." in designer.submit(page, to=f"{path}/cancel").words


def test_what_is_not_there_is_not_found(designer):
    token = designer.get("/studio").form("/studio/sign-out")
    assert designer.get("/studio/orders/TL-ZZZZ").status == 404
    assert designer.post("/studio/listings/no-such/unpublish", token).status == 404
