"""Jobs left by an older release are taken up by the next one: nothing waits for a version that never comes back."""

import pytest

from app.shop.orders.models import OrderState

pytestmark = pytest.mark.kills


def test_a_new_release_takes_up_running_and_waiting_jobs_of_the_old_one(yard, monkeypatch):
    monkeypatch.setattr("app.base.jobs.dbos_queue.VERSION", "builds-0")
    running, waiting = yard.order(steps=20), yard.order()
    old = yard.worker(TEST_VERSION="builds-0")
    yard.wait_for_steps(2)
    yard.kill(old)
    yard.worker()
    assert len(yard.pack(yard.wait(running, OrderState.READY))) == 20
    assert yard.wait(waiting, OrderState.READY).attempt == 1
