"""Every connection to the database cut in the middle of a build: the worker takes its slot again and goes on."""

import pytest
import sqlalchemy as sa

from app.shop.orders.models import OrderState

pytestmark = pytest.mark.kills


def test_a_worker_outlives_the_loss_of_its_connections(yard):
    if yard.database.engine.dialect.name == "sqlite":
        pytest.skip("SQLite has no connections that could be cut")
    order_id = yard.order(steps=20)
    worker = yard.worker()
    yard.wait_for_steps(3)
    with yard.database.reading() as session:
        cut = "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = current_database()"
        session.execute(sa.text(f"{cut} AND pid <> pg_backend_pid()"))
    order = yard.wait(order_id, OrderState.READY)
    assert len(yard.pack(order)) == 20
    assert set(yard.builders(order.number)) == {worker.pid}
    # The slot is held again: no second worker gets in.
    assert yard.worker().wait(20) == 3
