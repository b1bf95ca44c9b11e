"""A disk that is full to the last byte at every stage of an order: when there is room again, the order gets ready.

The disk is a small one in memory that these tests mount; where that is not allowed they are skipped.
"""

import os
import secrets
import subprocess

import pytest
import sqlalchemy as sa

from app.shop.orders.models import OrderState
from tests.kills.conftest import Yard, address_of

pytestmark = pytest.mark.kills

STAGES = ["claim", "begin", "progress", "files", "seal", "finish", "keep"]


@pytest.fixture
def disk(tmp_path):
    """A disk of its own, of 96 MB."""
    place = tmp_path / "disk"
    place.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=96m,mode=0755", "tmpfs", place], capture_output=True)
    if mounted.returncode:
        pytest.skip("no disk can be mounted here")
    yield place
    subprocess.run(["umount", "-l", place], check=True)


@pytest.fixture
def small(disk, tmp_path):
    """A shop with everything it has on the small disk."""
    made = Yard(disk / "data", "", beside=tmp_path)
    yield made
    made.close()


def until_full(yard, ballast):
    """Wait for the disk to be full, and a few signs of life longer."""
    yard.wait_for(lambda: ballast.exists() and os.statvfs(ballast).f_bavail == 0)
    for _ in range(60):
        yard.pause()


@pytest.mark.parametrize("stage", STAGES)
def test_an_order_gets_ready_by_itself_once_there_is_room_again(small, stage, disk):
    ballast = disk / "ballast"
    order_id = small.order()
    worker = small.worker(TEST_FILL_AT=stage, TEST_BALLAST=str(ballast))
    until_full(small, ballast)
    assert small.look(order_id).state in (OrderState.PLACED, OrderState.BUILDING)
    os.truncate(ballast, 0)
    order = small.wait(order_id, OrderState.READY)
    assert len(small.pack(order)) == 4
    assert worker.poll() is None
    assert set(small.builders(order.number)) <= {worker.pid}
    small.wait_for(lambda: small.leftovers() == [])
    # Whoever orders next is served as ever, by the same worker.
    small.wait(small.order(), OrderState.READY)


def test_an_order_that_finds_no_room_is_not_half_placed_and_goes_through_later(small, disk):
    token = small.unordered_fitting(steps=4, pause=0, then="ready")
    ballast = disk / "ballast"
    fill(ballast)
    with pytest.raises(sa.exc.OperationalError, match="full"):
        for _ in range(200):
            small.save_one_more_fitting()
    ballast.unlink()
    worker = small.worker()
    small.wait(small.order_fitting(token), OrderState.READY)
    assert worker.poll() is None


def test_packs_that_find_no_room_wait_for_it_and_tell_the_designer(disk, tmp_path, postgres):
    name = f"tapeline_kills_{secrets.token_hex(6)}"
    postgres.execute(sa.text(f"CREATE DATABASE {name} TEMPLATE {postgres.info['template']}"))
    yard = Yard(disk / "data", address_of(name), beside=tmp_path)
    try:
        ballast = disk / "ballast"
        first = yard.order()
        yard.worker()
        yard.wait(first, OrderState.READY)
        fill(ballast)
        order_id = yard.order()
        yard.wait_for(lambda: "no room left on the disk" in yard.look(order_id).reason)
        # More tries than a build may fail go by, and none of them counts.
        before = yard.look(order_id).ticket
        yard.wait_for(lambda: yard.look(order_id).ticket >= before + 5)
        assert yard.look(order_id).state in (OrderState.PLACED, OrderState.BUILDING)
        ballast.unlink()
        order = yard.wait(order_id, OrderState.READY)
        assert order.reason == ""
        assert len(yard.pack(order)) == 4
    finally:
        yard.close()
        postgres.execute(sa.text(f"DROP DATABASE {name} WITH (FORCE)"))


def fill(ballast):
    """Fill the disk to the last byte."""
    with ballast.open("wb", buffering=0) as file:
        for size in (1 << 20, 1 << 12, 1 << 9):
            try:
                while True:
                    file.write(b"\0" * size)
            except OSError:
                continue
