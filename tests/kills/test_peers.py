"""Two workers: a living one takes up what a dead or frozen one left, and they never build one order at once."""

import signal

import pytest

from app.shop.orders.models import OrderState

pytestmark = pytest.mark.kills


def test_a_peer_finishes_what_a_killed_worker_began(yard):
    order_id = yard.order(steps=20)
    first = yard.worker("worker-1")
    yard.wait_for_steps(3)
    yard.worker("worker-2")
    yard.kill(first)
    order = yard.wait(order_id, OrderState.READY)
    assert len(yard.pack(order)) == 20
    assert len(yard.builders(order.number)) == 2
    assert yard.leftovers() == []


def test_a_frozen_worker_that_wakes_up_changes_nothing(yard):
    order_id = yard.order(steps=30)
    frozen = yard.worker("worker-1")
    yard.wait_for_steps(3)
    frozen.send_signal(signal.SIGSTOP)
    yard.worker("worker-2")
    order = yard.wait(order_id, OrderState.READY)
    frozen.send_signal(signal.SIGCONT)
    # The woken worker is alive again once it has built another order, or its peer has.
    after = yard.wait(yard.order(), OrderState.READY)
    assert yard.look(order_id).updated_at == order.updated_at
    assert yard.pack(yard.look(order_id)) == yard.pack(order)
    # It may have been inside one step when it was frozen; it never gets to another.
    assert [process for _, process, number in yard.steps() if number == order.number].count(frozen.pid) <= 4
    assert after.state is OrderState.READY


def test_many_orders_are_shared_and_each_is_built_once(yard):
    yard.worker("worker-1", TAPELINE_WORKER_BUILDS="2")
    yard.worker("worker-2", TAPELINE_WORKER_BUILDS="2")
    orders = [yard.wait(order_id, OrderState.READY) for order_id in [yard.order() for _ in range(8)]]
    assert [order.attempt for order in orders] == [1] * 8
    assert [len(yard.builders(order.number)) for order in orders] == [1] * 8
    assert len(yard.steps()) == 8 * 4
