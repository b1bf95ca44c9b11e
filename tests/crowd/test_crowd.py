"""Two hundred customers at once at a real shop: all answered, every order there once, and others served meanwhile."""

import asyncio

import pytest

from app.shop.orders.models import Fitting, Order
from tests.crowd.__main__ import busy
from tests.crowd.customers import CLOTH_EVERY
from tests.crowd.shop import opened, postgres_here

pytestmark = pytest.mark.kills

CROWD = 200


@pytest.mark.parametrize("kind", ["sqlite", "postgresql"])
def test_a_crowd_is_answered_and_every_order_is_there_once(tmp_path, kind):
    if kind == "postgresql" and not postgres_here():
        pytest.skip("no PostgreSQL on loopback")
    with opened(tmp_path, kind) as shop:
        shop.open()
        crowd, others = asyncio.run(busy(shop, CROWD, 0.0))
        expected = {"form": 200, "measure": 303, "review": 200, "order": 303, "progress": 200}
        answered = dict.fromkeys(expected.items(), CROWD)
        assert crowd.statuses() == {**answered, ("cloth", 200): CROWD // CLOTH_EVERY}, shop.logs()
        assert set(others.statuses()) == {("look", 200)}
        assert len(set(crowd.orders)) == shop.count(Order) == shop.count(Fitting) == CROWD
