"""Builds in a fair order: one address with many orders does not keep another waiting for all of them."""

import pytest

from app.orders.limits import Sender
from app.orders.models import OrderState

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
