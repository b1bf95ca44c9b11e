"""The studio's back room: listings with their orders, prices, and what is on sale."""

from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.pattern.problem import Refused
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import (
    ListingWords,
    add_draft_version,
    published_listings,
    put_on_sale,
    save_listing,
    take_off_sale,
)
from app.shop.orders.builds import record_worker_heartbeat
from app.shop.orders.models import Order, OrderState, Worker
from app.shop.orders.service import (
    Customer,
    FittingEntry,
    OrderSearch,
    order_by_number,
    place_order,
    save_fitting,
    search_orders,
)
from app.shop.proofs.models import ProofState
from app.shop.studio.desk import service

EMPTY = FittingEntry({}, {"bust_girth": 900.0}, {}, "cm", "A4", {})


@pytest.fixture
def orders(session, queue, listing):
    placed = [place_order(session, queue, save_fitting(session, listing, EMPTY), Customer()) for _ in range(3)]
    for order, state in zip(placed, (OrderState.READY, OrderState.NEEDS_DESIGNER, OrderState.FAILED), strict=True):
        session.execute(sa.update(Order).where(Order.id == order.id).values(state=state))
    return placed


@pytest.fixture
def bare(session):
    return save_listing(session, ListingWords("bare", "Bare", "", "", Level.CONFIDENT, 500, "EUR", "", position=5))


def test_every_listing_is_shown_with_version_and_orders(session, orders, bare):
    rows = {row.listing.slug: row for row in service.listings(session)}
    assert list(rows) == ["linnet-apron", "bare"]
    assert [(row.orders, row.needing_designer) for row in rows.values()] == [(3, 2), (0, 0)]
    assert (rows["linnet-apron"].current.number, rows["linnet-apron"].trial) == (1, None)
    assert (rows["bare"].current, rows["bare"].trial) == (None, None)


def test_a_newer_version_is_shown_beside_the_one_on_sale(session, listing):
    add_draft_version(session, listing, "another")
    [row] = service.listings(session)
    assert (row.current.number, row.trial.number) == (1, 2)
    assert row.trial.proof.state is ProofState.WAITING
    assert [each.number for each in service.versions(session, listing)] == [2, 1]
    assert service.version(session, listing, 2).text == "another"
    assert service.version(session, listing, 3) is None


def test_a_listing_is_found_on_sale_or_not(session, bare):
    assert service.listing(session, "bare") is bare
    assert service.listing(session, "missing") is None


def test_a_listing_goes_off_sale_and_on_again(session, listing):
    take_off_sale(session, listing)
    assert published_listings(session) == []
    assert not isinstance(put_on_sale(session, listing, listing.current_version), Refused)
    assert published_listings(session) == [listing]


@pytest.mark.parametrize("cents", [0, 1250, service.MOST_PRICE_CENTS])
def test_a_price_can_be_set(session, listing, cents):
    assert not isinstance(service.set_price(session, listing, cents), Refused)
    assert listing.price_cents == cents


@pytest.mark.parametrize("cents", [-1, service.MOST_PRICE_CENTS + 1])
def test_a_price_out_of_range_is_refused_with_the_range(session, listing, cents):
    (problem,) = service.set_price(session, listing, cents).problems
    assert problem.code == "studio.price-out-of-range"
    assert "1000.00 EUR" in problem.fix
    assert listing.price_cents == 900


def test_orders_are_found_by_state_and_by_number(session, orders):
    found = search_orders(session, OrderSearch(state=OrderState.NEEDS_DESIGNER))
    assert [order.id for order in found.orders] == [orders[1].id]
    assert order_by_number(session, orders[2].number).id == orders[2].id
    assert order_by_number(session, "TL-0000") is None


def test_the_studio_knows_whether_anybody_builds(session):
    silence = timedelta(seconds=30)
    assert not service.any_worker_alive(session, silence)
    record_worker_heartbeat(session, "worker-1")
    assert service.any_worker_alive(session, silence)
    session.get_one(Worker, "worker-1").heartbeat_at -= silence + timedelta(seconds=1)
    session.flush()
    assert not service.any_worker_alive(session, silence)
