"""One address cannot crowd out the others: limits on what waits, what is kept, and what is built first."""

from dataclasses import replace
from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.base.database import now
from app.pattern.problem import Refused
from app.shop.orders.limits import NOBODY, Sender, SenderLimits, orders_waiting
from app.shop.orders.models import Fitting, Order, OrderState
from app.shop.orders.service import (
    Customer,
    delete_unordered_fittings,
    fitting_by_token,
    place_order,
    save_fitting,
    save_with_other_lay,
)
from tests.shop.orders.conftest import ENTRY

SMALL = SenderLimits(fittings_an_hour=3, orders_waiting=2, orders_a_day=4, shop_waiting=6)
ONE, OTHER = Sender("one", SMALL), Sender("other", SMALL)


@pytest.fixture
def order_by(session, queue, listing):
    """Places an order from an address, with measurements that nobody counts."""

    def place(sender):
        return place_order(session, queue, save_fitting(session, listing, ENTRY), Customer(), sender=sender)

    return place


def older(session, table, **ago):
    session.execute(sa.update(table).values(created_at=now(session) - timedelta(**ago)))


def test_so_many_measurements_of_one_address_are_kept_within_an_hour(session, listing):
    for _ in range(3):
        assert isinstance(save_fitting(session, listing, ENTRY, ONE), Fitting)
    refused = save_fitting(session, listing, ENTRY, ONE)
    assert refused.problems[0].code == "orders.many-fittings"
    assert "At most 3 sets of measurements" in refused.problems[0].message
    assert isinstance(save_fitting(session, listing, ENTRY, OTHER), Fitting)
    older(session, Fitting, minutes=61)
    assert isinstance(save_fitting(session, listing, ENTRY, ONE), Fitting)


def test_laying_the_cloth_otherwise_counts_as_measurements_do(session, listing):
    made = [save_fitting(session, listing, ENTRY, ONE) for _ in range(3)]
    assert isinstance(save_with_other_lay(session, made[0], "main", ONE), Refused)
    assert save_with_other_lay(session, made[0], "main", OTHER).sender == "other"


def test_so_many_orders_of_one_address_wait_at_a_time(session, order_by):
    first, _ = order_by(ONE), order_by(ONE)
    refused = order_by(ONE)
    assert refused.problems[0].code == "orders.many-waiting"
    assert isinstance(order_by(OTHER), Order)
    first.state = OrderState.READY
    session.flush()
    assert isinstance(order_by(ONE), Order)


def test_so_many_orders_of_one_address_are_taken_within_a_day(session, order_by):
    for _ in range(4):
        order_by(ONE).state = OrderState.READY
        session.flush()
    assert order_by(ONE).problems[0].code == "orders.many-today"
    older(session, Order, hours=25)
    assert isinstance(order_by(ONE), Order)


def test_an_order_placed_twice_is_given_back_however_many_wait(session, queue, listing):
    fitting = save_fitting(session, listing, ENTRY)
    placed = [place_order(session, queue, fitting, Customer(), sender=ONE) for _ in range(5)]
    assert len(set(placed)) == 1


def test_the_whole_shop_takes_no_more_than_it_can_build(order_by):
    nobody = replace(NOBODY, limits=SMALL)
    assert all(isinstance(order_by(nobody), Order) for _ in range(6))
    assert order_by(nobody).problems[0].code == "orders.shop-full"


def test_nothing_is_counted_of_the_shops_own_machine(session, listing):
    for _ in range(5):
        assert isinstance(save_fitting(session, listing, ENTRY, replace(NOBODY, limits=SMALL)), Fitting)
    assert orders_waiting(session, NOBODY) == 0


def test_a_job_waits_behind_those_of_addresses_with_fewer(session, queue, order_by):
    orders = [order_by(ONE), order_by(ONE), order_by(OTHER)]
    session.commit()
    behind = {job.workflow_id.split("-")[1]: job.priority for job in queue.unfinished()}
    assert [behind[str(order.id)] for order in orders] == [1, 2, 1]


def test_measurements_that_nobody_ordered_by_are_dropped_after_a_while(session, queue, listing):
    ordered, old = save_fitting(session, listing, ENTRY), save_fitting(session, listing, ENTRY)
    place_order(session, queue, ordered, Customer())
    older(session, Fitting, days=31)
    fresh = save_fitting(session, listing, ENTRY)
    assert delete_unordered_fittings(session, now(session) - timedelta(days=30)) == 1
    kept = {each.id for each in session.scalars(sa.select(Fitting))}
    assert kept == {ordered.id, fresh.id}
    assert fitting_by_token(session, old.token) is None
