"""Two requests for the same thing in the same moment, on both databases."""

import threading

import pytest
import sqlalchemy as sa

from app.base.errors import SlotTaken
from app.base.jobs.slots import take_slot
from app.shop.orders import builds
from app.shop.orders.models import Order
from app.shop.orders.service import Customer, fitting_by_token, place_order

pytestmark = pytest.mark.kills


def at_once(count, task):
    """Run the task in `count` threads that start together; returns what each gave."""
    start, given = threading.Barrier(count), []

    def run():
        start.wait()
        given.append(task())

    threads = [threading.Thread(target=run) for _ in range(count)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert len(given) == count
    return given


def test_a_fitting_ordered_by_several_requests_at_once_is_one_order(yard):
    token = yard.unordered_fitting()

    def place():
        with yard.database.writing() as session:
            return place_order(session, yard.queue, fitting_by_token(session, token), Customer()).number

    assert len(set(at_once(6, place))) == 1
    with yard.database.reading() as session:
        assert session.scalar(sa.select(sa.func.count()).select_from(Order)) == 1
    assert len(yard.queue.unfinished()) == 1


def test_an_order_claimed_by_several_workers_at_once_goes_to_one(yard):
    order_id = yard.order()

    def claim():
        with yard.database.writing() as session:
            return builds.claim_build(session, order_id, threading.current_thread().name, "")

    assert sum(claim is not None for claim in at_once(6, claim)) == 1


def test_a_slot_is_held_until_it_is_released(yard):
    held = take_slot(yard.database.engine, "worker-1", yard.folder)
    with pytest.raises(SlotTaken):
        take_slot(yard.database.engine, "worker-1", yard.folder)
    assert held.still_held()
    held.release()
    take_slot(yard.database.engine, "worker-1", yard.folder).release()
