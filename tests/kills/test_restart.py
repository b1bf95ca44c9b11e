"""A worker killed in the middle of a build loses nothing: started again, it does the job again by itself."""


import pytest

from app.orders.models import OrderState

from conftest import kill

pytestmark = pytest.mark.kills


def test_a_build_cut_short_is_done_again_when_the_worker_restarts(yard):
    order_id = yard.order(steps=20)
    first = yard.worker()
    yard.wait_for_steps(5)
    assert yard.look(order_id).state is OrderState.BUILDING
    kill(first)
    assert yard.look(order_id).files == []
    yard.worker()
    order = yard.wait(order_id, OrderState.READY)
    assert len(yard.pack(order)) == 20
    assert order.attempt == 2
    assert len(yard.builders(order.number)) == 2
