"""A pack is there whole or not at all, at whatever moment its worker dies, and its build can be repeated."""

import pytest

from app.shop.orders.models import OrderState
from app.shop.orders.service import order_files

pytestmark = pytest.mark.kills


@pytest.mark.parametrize("moment", ["before rename", "after rename"])
def test_death_around_the_final_rename_leaves_no_order_ready_and_no_second_pack(yard, moment):
    order_id = yard.order()
    yard.worker(TEST_DIE_AT=moment).wait(20)
    cut_short = yard.look(order_id)
    assert cut_short.state is OrderState.BUILDING
    assert order_files(cut_short) == ()
    yard.worker()
    order = yard.wait(order_id, OrderState.READY)
    assert len(yard.pack(order)) == len(order_files(order)) == 4
    assert [path.name for path in (yard.folder / "packs").iterdir()] == [order.pack_folder]
