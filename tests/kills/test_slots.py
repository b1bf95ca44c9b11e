"""A worker's name belongs to one live process: a second one refuses to start, and death frees the name."""

import pytest

from app.shop.orders.models import OrderState

pytestmark = pytest.mark.kills


def test_a_second_worker_of_the_same_name_refuses_to_start_until_the_first_is_dead(yard):
    first = yard.worker("bench")
    yard.wait(yard.order(), OrderState.READY)
    second = yard.worker("bench")
    assert second.wait(20) == 3
    assert "Another live worker holds the slot “bench”" in yard.logs()
    yard.kill(first)
    yard.worker("bench")
    yard.wait(yard.order(), OrderState.READY)
