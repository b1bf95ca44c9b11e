"""Builds in a fair order: one address with many orders does not keep another waiting for all of them."""

from concurrent.futures import ThreadPoolExecutor

import pytest

from app.shop.orders.limits import Sender, SenderLimits
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import Customer, fitting_by_token, place_order

pytestmark = pytest.mark.kills


def test_somebody_elses_order_is_built_before_the_rest_of_a_crowd(yard):
    crowd = [yard.order(steps=1, sender=Sender("one")) for _ in range(6)]
    late = yard.order(steps=1, sender=Sender("other"))
    yard.worker()
    for order_id in (*crowd, late):
        yard.wait(order_id, OrderState.READY)
    built = [order for _, _, order in yard.steps()]
    assert sorted(built) == sorted(yard.look(order_id).number for order_id in (*crowd, late))
    assert built.index(yard.look(late).number) <= 1


def test_an_address_has_no_more_orders_waiting_than_it_may_however_many_come_at_once(yard):
    few = Sender("one", SenderLimits(orders_waiting=2))
    tokens = [yard.unordered_fitting() for _ in range(8)]

    def order(token):
        fitting = yard.database.read(fitting_by_token, token)
        return yard.database.write(place_order, yard.queue, fitting, Customer(), sender=few)

    with ThreadPoolExecutor(8) as crowd:
        placed = list(crowd.map(order, tokens))
    assert sum(isinstance(each, Order) for each in placed) == 2
