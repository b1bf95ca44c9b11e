"""No damaged byte leaves the shop: the customer is told, the designer is told, and the pack is made again by itself."""

from contextlib import ExitStack
from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.base.jobs import BuildJob, JobState
from app.pattern.problem import Problem, Refused
from app.shop.catalogue.models import DraftVersion
from app.shop.catalogue.service import add_draft_version, listing_by_slug
from app.shop.orders.keeping import Damage, pack_identity, rebuild_damaged
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import order_by_token
from tests.damages.packs import DAMAGES, FILE
from tests.damages.shop import GivenOut, quick_builder

AGAIN = "A file of your pattern was found damaged on our side, so it is not given out. The whole pattern is being made"
WHOLE = "print the whole of the new one, and put none of its sheets together with any that you printed before."
CUT = DAMAGES[0]


@pytest.fixture
def shop(settings):
    with ExitStack() as opened:
        yield GivenOut(settings, opened)


def heals(shop):
    """The worker builds; the order is ready again, every file as it was built, and both people are told."""
    assert shop.queue.progress(BuildJob(shop.first.id, shop.first.ticket + 1)) is JobState.WAITING
    shop.work()
    assert shop.as_built(FILE)
    assert shop.as_built("everything.zip")
    page = shop.order_page()
    assert "Ready to print" in page
    assert "because a file of it was found damaged on our side. If you have printed from it before, " + WHOLE in page
    assert "The pack was made again from draft version 1 and the same entries" in shop.studio_page()
    assert shop.row().pack_folder == shop.first.pack_folder
    assert [path.name for path in shop.settings.packs_dir().iterdir()] == [shop.first.pack_folder]


@pytest.mark.parametrize("damage", DAMAGES, ids=lambda damage: damage.title)
def test_an_order_page_shows_no_damaged_pack_as_ready(shop, damage):
    damage.do(shop)
    page = shop.order_page()
    assert (page.status, "Your pattern is being made again" in page, "Ready to print" in page) == (200, True, False)
    assert AGAIN in page
    assert WHOLE in page
    studio = shop.studio_page()
    assert "placed" in studio
    assert damage.how in studio
    assert "The pack is being made again from draft version 1 and the same entries" in studio
    heals(shop)


@pytest.mark.parametrize("damage", DAMAGES, ids=lambda damage: damage.title)
def test_no_damaged_byte_is_sent_from_a_files_own_address(shop, damage):
    damage.do(shop)
    for name in (FILE, FILE, "everything.zip"):
        page = shop.file_page(name)
        assert (page.status, "This pattern is being made again" in page, AGAIN in page) == (503, True, True)
    heals(shop)


@pytest.mark.parametrize("damage", DAMAGES, ids=lambda damage: damage.title)
def test_the_worker_finds_and_heals_a_damaged_pack_before_anybody_asks(shop, damage):
    damage.do(shop)
    shop.worker.check_kept_packs()
    assert shop.row().state is OrderState.PLACED
    heals(shop)


def test_a_sound_pack_is_sent_byte_for_byte_and_left_alone(shop):
    for _ in range(3):
        shop.worker.check_kept_packs()
        assert shop.as_built(FILE)
        assert "Ready to print" in shop.order_page()
    assert shop.row().updated_at == shop.first.updated_at
    assert "damaged" not in shop.order_page().words + shop.studio_page().words


def test_many_who_ask_at_once_send_the_order_back_once(shop):
    CUT.do(shop)
    for _ in range(4):
        shop.order_page()
        shop.file_page()
        shop.worker.check_kept_packs()
    order = shop.row()
    assert (order.ticket, len(order.damages)) == (shop.first.ticket + 1, 1)


def test_what_was_made_again_meanwhile_is_not_sent_back_by_whoever_looked_before(shop):
    CUT.do(shop)
    with shop.database.reading() as session:
        before = order_by_token(session, shop.first.token)
    shop.worker.check_kept_packs()
    shop.work()
    seen, found = pack_identity(before), [Damage(FILE, "is missing")]
    assert shop.database.write(rebuild_damaged, shop.queue, before, seen, found) is False
    assert shop.row().state is OrderState.READY


def test_the_scrub_goes_round_through_all_ready_orders(shop, monkeypatch):
    monkeypatch.setattr("app.work.worker._SCRUBBED", 1)
    shop.worker.check_kept_packs()
    assert shop.row().state is OrderState.READY
    CUT.do(shop)
    shop.worker.check_kept_packs()
    assert shop.row().state is OrderState.READY
    shop.worker.check_kept_packs()
    assert shop.row().state is OrderState.PLACED


def test_a_pack_made_again_is_drawn_from_the_draft_it_was_sold_with(shop):
    with shop.database.writing() as session:
        add_draft_version(session, listing_by_slug(session, "fernhill-skirt"), 'draft "Other"\n')
    drawn = []
    shop.worker.builder = lambda request, *more: (drawn.append(request), quick_builder(request, *more))[1]
    CUT.do(shop)
    shop.order_page()
    shop.work()
    with shop.database.reading() as session:
        sold = session.get_one(DraftVersion, shop.first.draft_version_id)
    assert [request.draft_text for request in drawn] == [sold.text]
    assert drawn[0].measurements["hip_girth"] == 1000.0
    assert shop.as_built(FILE)


def test_a_pattern_that_can_no_longer_be_built_is_told_as_what_it_is(shop):
    CUT.do(shop)
    shop.order_page()
    shop.worker.builder = lambda *_: Refused.of(Problem("checks.seam-walk", "412.0 mm, 415.5 mm.", "Move it."))
    shop.work()
    page, file = shop.order_page(), shop.file_page()
    for told in (page, file):
        assert "this time it did not pass one of our checks, so its files are not given out" in told
        assert "If you have files from before, wait for her answer before you cut." in told
    assert (page.status, file.status) == (200, 503)
    assert "and was not: no file is given out" in shop.studio_page()


def test_a_pattern_whose_making_again_fails_is_told_as_that(shop):
    CUT.do(shop)
    shop.order_page()

    def broken(*_):
        raise KeyError("font")

    shop.worker.builder = broken
    for _ in range(shop.settings.build_attempts):
        shop.work()
    assert shop.row().state is OrderState.FAILED
    assert "Your pattern was to be made again, and that stopped because of a fault on our side." in shop.order_page()
    assert shop.file_page().status == 503


def test_power_cut_between_the_two_renames_leaves_an_order_that_heals(shop):
    CUT.do(shop)
    shop.order_page()

    class PowerCutError(BaseException):
        pass

    def between(draft, name):
        (shop.worker.store.root / name).rename(draft.with_name(f"{draft.name}.old"))
        raise PowerCutError

    keep, shop.worker.store.keep = shop.worker.store.keep, between
    discard, shop.worker.store.discard = shop.worker.store.discard, lambda _: None
    with pytest.raises(PowerCutError):
        shop.work()
    assert (shop.row().state, shop.pack.exists()) == (OrderState.BUILDING, False)
    assert "Ready to print" not in shop.order_page()
    shop.worker.store.keep, shop.worker.store.discard = keep, discard
    with shop.database.writing() as session:
        session.execute(sa.update(Order).values(heartbeat_at=shop.first.built_at - timedelta(hours=1)))
    shop.worker.recover_lost()
    shop.worker.discard_leftovers()
    shop.work()
    assert shop.as_built(FILE)
    assert [path.name for path in shop.settings.packs_dir().iterdir()] == [shop.first.pack_folder]


def test_with_a_database_that_cannot_be_written_nothing_damaged_is_shown_either(shop):
    CUT.do(shop)
    engine = shop.app.state.database.engine
    sa.event.listen(engine, "checkout", lambda raw, *_: raw.execute("PRAGMA query_only=1"))
    for _ in range(2):
        assert AGAIN in shop.order_page()
        assert AGAIN in shop.file_page()
        # The page that follows the order goes on asking: it is not told that the pack is ready.
        assert shop.customer.get(f"{shop.path}/state").answer.json()["waiting"] is True
    shop.worker.check_kept_packs()
    assert shop.row().state is OrderState.PLACED


@pytest.mark.parametrize("written", ["null", '[{"name": "x"}]', "not json", '{"a": 1}', '[null, 7, {"name": 1}]'])
def test_a_row_that_says_nothing_of_its_files_is_mended_and_harms_nobody_else(shop, written):
    with shop.database.writing() as session:
        session.execute(sa.text('UPDATE "order" SET files = :written'), {"written": written})
    page = shop.order_page()
    assert page.status == 200
    assert "Ready to print" not in page.words
    shop.worker.check_kept_packs()
    shop.work()
    assert shop.row().state is OrderState.READY
    assert shop.designer.get("/studio").status == 200
