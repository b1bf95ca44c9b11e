"""Many at once, and one address too often: everybody is answered, nothing typed is lost, and the words are true."""

import asyncio

import httpx
import pytest
import sqlalchemy as sa

from app.shop.orders.models import Fitting, Order
from tests.visitor import FORM, MEASURES, Page, Visitor

STRANGER = {"X-Forwarded-For": "203.0.113.9"}


@pytest.fixture
def behind_a_proxy(open_app, settings, opened):
    """A visitor whose requests come through the shop's own proxy, to a shop that takes little of one address."""
    small = settings.model_copy(
        update={"proxies": "127.0.0.1", "address_fittings": 2, "address_waiting": 1, "address_orders": 3}
    )
    person = Visitor(open_app(small))
    opened.callback(person.close)
    return person


def measured(person, **headers):
    form = person.get(FORM)
    return person.post(FORM, {**form.form(), **MEASURES}, headers=headers)


def test_measurements_of_an_address_that_sends_too_many_stay_in_their_form(behind_a_proxy):
    for _ in range(2):
        assert measured(behind_a_proxy, **STRANGER).path.startswith("/fittings/")
    page = measured(behind_a_proxy, **STRANGER)
    assert page.status == 429
    assert "At most 2 sets of measurements can come from one network address within an hour" in page.words
    assert page.form(FORM)["measure-waist_girth"] == MEASURES["measure-waist_girth"]
    assert measured(behind_a_proxy, **{"X-Forwarded-For": "203.0.113.10"}).path.startswith("/fittings/")


def test_an_order_too_many_is_told_on_the_review_and_can_be_sent_later(behind_a_proxy, database):
    first, second = (measured(behind_a_proxy, **STRANGER) for _ in range(2))
    for page in (first, second):
        placed = behind_a_proxy.post(f"{page.path}/order", page.form(f"{page.path}/order"), headers=STRANGER)
    assert placed.path == second.path
    assert "At most 1 order of one network address can wait at a time, and so many do." in placed.words
    with database.writing() as session:
        assert session.scalar(sa.select(sa.func.count()).select_from(Order)) == 1
        session.execute(sa.update(Order).values(state="ready"))
    again = behind_a_proxy.post(f"{second.path}/order", placed.form(f"{second.path}/order"), headers=STRANGER)
    assert again.path.startswith("/orders/")


def test_addresses_are_kept_as_marks_only(behind_a_proxy, database):
    measured(behind_a_proxy, **STRANGER)
    with database.reading() as session:
        (sender,) = session.scalars(sa.select(Fitting.sender))
    assert len(sender) == 64
    assert "203" not in sender[:3] or "113" not in sender


def test_many_customers_at_once_are_all_answered_and_all_kept(app, database):
    """Far more than there are threads, or connections, or places at the door."""

    async def one(client):
        form = Page(await client.get(FORM))
        return await client.post(FORM, data={**form.form(), **MEASURES}, headers={"cookie": cookie_of(form)})

    async def all_at_once(number):
        transport = httpx.ASGITransport(app=app)
        async with httpx.AsyncClient(transport=transport, base_url="http://shop.test") as client:
            return await asyncio.gather(*(one(client) for _ in range(number)))

    answers = asyncio.run(all_at_once(90))
    assert {answer.status_code for answer in answers} == {303}
    assert len({answer.headers["location"] for answer in answers}) == 90
    with database.reading() as session:
        assert session.scalar(sa.select(sa.func.count()).select_from(Fitting)) == 90


def cookie_of(page):
    return page.headers["set-cookie"].partition(";")[0]
