"""A worker killed in the middle of a build loses nothing: started again, it does the job again by itself."""

import pytest

from app.shop.orders.models import OrderState
from app.work.worker import EXIT_STUCK

pytestmark = pytest.mark.kills
#: How a worker ends has nothing to do with the database behind it.
on_sqlite = pytest.mark.parametrize("yard", ["sqlite"], indirect=True)


def test_a_build_cut_short_is_done_again_when_the_worker_restarts(yard):
    order_id = yard.order(steps=20)
    first = yard.worker()
    yard.wait_for_steps(5)
    assert yard.look(order_id).state is OrderState.BUILDING
    yard.kill(first)
    assert yard.look(order_id).files == []
    yard.worker()
    order = yard.wait(order_id, OrderState.READY)
    assert len(yard.pack(order)) == 20
    assert order.attempt == 2
    assert len(yard.builders(order.number)) == 2
    assert yard.leftovers() == []


@on_sqlite
def test_a_build_that_kills_every_worker_is_given_up_and_others_go_on(yard):
    deadly, good = yard.order(then="die"), yard.order()
    for _ in range(3):
        worker = yard.worker(TAPELINE_BUILD_ATTEMPTS="2", TAPELINE_WORKER_BUILDS="1")
        while worker.poll() is None and yard.look(good).state is not OrderState.READY:
            yard.pause()
    failed = yard.wait(deadly, OrderState.FAILED)
    assert failed.reason == "The worker stopped in the middle of this build 2 times."
    assert yard.wait(good, OrderState.READY).attempt >= 1


@on_sqlite
def test_a_build_that_hangs_ends_its_worker_and_is_given_up(yard):
    order_id = yard.order(then="hang")
    for _ in range(2):
        worker = yard.worker(TAPELINE_BUILD_ATTEMPTS="1", TEST_LONGEST_BUILD="0.8")
        while worker.poll() is None and yard.look(order_id).state is not OrderState.FAILED:
            yard.pause()
    assert yard.processes[0].returncode == EXIT_STUCK
    assert yard.wait(order_id, OrderState.FAILED).attempt == 2


@on_sqlite
def test_a_worker_asked_to_stop_puts_its_build_back_uncounted(yard):
    order_id = yard.order(steps=400)
    worker = yard.worker()
    yard.wait_for_steps(2)
    worker.terminate()
    order = yard.wait(order_id, OrderState.PLACED)
    assert order.attempt == 0
    assert worker.wait(10) == 0
    assert yard.leftovers() == []
