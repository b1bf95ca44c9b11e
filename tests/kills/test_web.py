"""A web process killed around an order: either the order and its job are both there, or neither."""

import pytest
import sqlalchemy as sa

from app.shop.orders.models import Fitting, Order, OrderState

pytestmark = pytest.mark.kills


def test_an_order_exists_exactly_when_its_transaction_was_committed(yard):
    yard.order(then="refuse")
    lost = yard.start("web_process.py", TEST_WAIT="before commit")
    lost_number = lost.stdout.readline().decode().strip()
    yard.kill(lost)
    kept = yard.start("web_process.py", TEST_WAIT="after commit")
    kept_number = kept.stdout.readline().decode().strip()
    yard.kill(kept)
    with yard.database.reading() as session:
        numbers = set(session.scalars(sa.select(Order.number)))
        fittings = session.scalar(sa.select(sa.func.count()).select_from(Fitting))
    assert kept_number in numbers
    assert lost_number not in numbers
    assert len(numbers) == fittings == len(yard.queue.unfinished()) == 2
    yard.worker()
    with yard.database.reading() as session:
        kept_id = session.scalars(sa.select(Order.id).where(Order.number == kept_number)).one()
    yard.wait(kept_id, OrderState.NEEDS_DESIGNER)


def test_an_order_whose_job_was_lost_is_found_by_the_sweep(yard):
    order_id = yard.order()
    for job in yard.queue.unfinished():
        yard.queue.client.delete_workflow(job.workflow_id)
    yard.worker()
    order = yard.wait(order_id, OrderState.READY)
    assert order.ticket == 2
