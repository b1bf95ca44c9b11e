"""Packs kept as they were built: how a file differs is told as it is, and only the pack that was seen goes back.

What a browser gets of a damaged pack is tried in `tests/damages`; here the shelf itself is, in a transaction's time.
"""

from dataclasses import replace
from hashlib import sha256
from subprocess import run

import pytest
import sqlalchemy as sa
from hypothesis import given
from hypothesis import strategies as st

from app.base.database import now
from app.base.jobs import BuildJob, JobState
from app.base.storage import LocalPacks
from app.packs.request import PackFile, PackReady
from app.shop.orders import builds
from app.shop.orders.keeping import (
    Damage,
    PackIdentity,
    PackKeeper,
    damage_words,
    find_damages,
    pack_identity,
    pack_sha256,
    ready_orders_before,
    rebuild_damaged,
)
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import Customer, order_by_token, place_order, save_fitting
from tests.shop.orders.conftest import ENTRY

CONTENTS = {"a.pdf": b"to cut", "b.pdf": b"to sew", "report.json": b"{}"}
FILES = tuple(PackFile(name, name, len(data), sha256(data).hexdigest()) for name, data in CONTENTS.items())


@pytest.fixture
def store(tmp_path):
    """Where packs are kept."""
    return LocalPacks(tmp_path / "packs")


@pytest.fixture
def order(session, queue, listing, store):
    """A ready order with its pack on the shelf; the transaction that made it has ended."""
    placed = place_order(session, queue, save_fitting(session, listing, ENTRY), Customer("Ana Quill"))
    claim = builds.claim_build(session, placed.id, "worker-1", "Heron Yard")
    draft = store.begin(claim.pack_name, "c1")
    for name, data in CONTENTS.items():
        (draft / name).write_bytes(data)
    builds.finish_build(session, claim, PackReady(FILES, {"sheets": 2}))
    store.keep(draft, claim.pack_name)
    session.commit()
    session.close()
    return placed.token


@pytest.fixture
def shelf(database, queue, store):
    """The shelf of the shop."""
    return PackKeeper(database, queue, store)


def look(database, token):
    with database.reading() as session:
        return order_by_token(session, token)


def path_of(store, order, name="a.pdf"):
    return store.root / order.pack_folder / name


# ---- a whole pack and one file


def test_a_packs_digest_is_that_of_the_list_that_sha256sum_writes(tmp_path):
    """Held against the tool of GNU coreutils, whose output anybody can check a pack by."""
    for name, data in CONTENTS.items():
        (tmp_path / name).write_bytes(data)
    listed = run(["sha256sum", *CONTENTS], cwd=tmp_path, capture_output=True, check=True).stdout
    assert pack_sha256(FILES) == sha256(listed).hexdigest()


def test_a_packs_digest_minds_names_contents_and_order():
    first, second, third = FILES
    others = [(), (first, second), (second, first, third), (first, second, replace(third, name="report.txt"))]
    assert len({pack_sha256(files) for files in (FILES, *others)}) == 1 + len(others)
    assert pack_sha256([replace(file, title="Otherwise") for file in FILES]) == pack_sha256(FILES)


@pytest.mark.parametrize(
    ("content", "how"),
    [
        (b"to cut", None),
        (None, "is missing or cannot be read"),
        (b"", "holds 0 of the 6 bytes that were built"),
        (b"to cu", "holds 5 of the 6 bytes that were built"),
        (b"to cuts", "is longer than the 6 bytes that were built"),
        (b"to cuT", "holds other bytes than were built"),
    ],
)
def test_how_a_file_differs_is_told_as_it_is(content, how):
    assert damage_words(FILES[0], content) == how


@given(st.binary(max_size=20), st.binary(max_size=21))
def test_a_content_is_whole_only_if_it_is_the_one_that_was_built(built, found):
    file = PackFile("a.pdf", "A", len(built), sha256(built).hexdigest())
    assert (damage_words(file, found) is None) == (built == found)


# ---- what is found


def test_a_pack_as_it_was_built_has_no_damage(database, store, order):
    assert find_damages(store, look(database, order)) == ()


def test_the_file_that_is_damaged_is_named(database, store, order):
    found = look(database, order)
    for name, data in CONTENTS.items():
        path_of(store, found, name).write_bytes(b"x")
        assert find_damages(store, found) == (Damage(name, f"holds 1 of the {len(data)} bytes that were built"),)
        path_of(store, found, name).write_bytes(data)


def test_every_damaged_file_is_named(database, store, order):
    found = look(database, order)
    for name in ("a.pdf", "report.json"):
        path_of(store, found, name).unlink()
    assert find_damages(store, found) == (
        Damage("a.pdf", "is missing or cannot be read"),
        Damage("report.json", "is missing or cannot be read"),
    )


def test_a_row_that_lists_other_files_than_were_built_is_told_as_that(database, store, order):
    found = look(database, order)
    found.files = found.files[:2]
    assert find_damages(store, found) == (
        Damage("The list of files", "is not the one that was written when they were built"),
    )


def test_an_order_that_shows_no_files_has_none_that_are_damaged(database, store, order):
    found = look(database, order)
    path_of(store, found).unlink()
    for state in set(OrderState) - {OrderState.READY}:
        found.state = state
        assert find_damages(store, found) == ()


# ---- sent back


def test_a_damaged_pack_goes_back_to_be_built_with_what_was_found(database, queue, order):
    found = look(database, order)
    damage = (Damage("a.pdf", "is missing or cannot be read"),)
    assert database.write(rebuild_damaged, queue, found, pack_identity(found), damage)
    again = look(database, order)
    assert (again.state, again.ticket, again.attempt) == (OrderState.PLACED, 2, 0)
    assert [each["files"] for each in again.damages] == [
        [{"name": "a.pdf", "how": "is missing or cannot be read"}],
    ]
    assert again.built_at == found.built_at, "that it was given out before is not forgotten"
    assert queue.progress(BuildJob(again.id, 2)) is JobState.WAITING


def test_of_two_who_find_the_same_damage_one_sends_it_back(database, queue, order):
    found = look(database, order)
    damage = (Damage("a.pdf", "is missing or cannot be read"),)
    assert database.write(rebuild_damaged, queue, found, pack_identity(found), damage)
    assert not database.write(rebuild_damaged, queue, look(database, order), pack_identity(found), damage)
    again = look(database, order)
    assert (again.ticket, len(again.damages)) == (2, 1)


def test_a_pack_that_was_made_again_meanwhile_is_not_sent_back(database, queue, order):
    found = look(database, order)
    for seen in ({"sha256": "0" * 64}, {"built_at": None}):
        old = replace(pack_identity(found), **seen)
        assert not database.write(rebuild_damaged, queue, found, old, (Damage("a.pdf", "x"),))
    assert look(database, order).state is OrderState.READY


def test_a_pack_is_known_by_its_checksum_and_its_moment(database, order):
    found = look(database, order)
    assert pack_identity(found) == PackIdentity(found.pack_sha256, found.built_at)


def test_so_many_turns_of_bad_luck_keep_the_last_twenty(database, queue, order):
    for number in range(22):
        with database.writing() as session:
            session.execute(sa.update(Order).values(state=OrderState.READY))
        found = look(database, order)
        database.write(rebuild_damaged, queue, found, pack_identity(found), (Damage(f"{number}.pdf", "x"),))
    kept = look(database, order).damages
    assert [each["files"][0]["name"] for each in kept] == [f"{number}.pdf" for number in range(2, 22)]


# ---- as it is shown and taken


def test_a_whole_pack_is_shown_and_each_file_given_out_byte_for_byte(database, shelf, order):
    found = look(database, order)
    assert shelf.verified(found) is found
    for name, data in CONTENTS.items():
        told, content = shelf.read_file(found, name)
        assert (told, content) == (found, data)


def test_a_file_that_is_not_in_the_pack_is_not_given_out_and_harms_nothing(database, shelf, order):
    found = look(database, order)
    for name in ("", "c.pdf", "../a.pdf", "A.PDF", "a.pdf\x00", "/etc/passwd"):
        assert shelf.read_file(found, name) == (found, None)
    assert look(database, order).state is OrderState.READY


def test_a_damaged_file_is_not_given_out_and_its_order_goes_back(database, shelf, store, order):
    found = look(database, order)
    path_of(store, found).write_bytes(b"to cuT")
    told, content = shelf.read_file(found, "a.pdf")
    assert content is None
    assert (told.state, told.damages[0]["files"][0]["name"]) == (OrderState.PLACED, "a.pdf")


def test_a_whole_file_of_a_damaged_pack_is_still_the_one_that_was_built(database, shelf, store, order):
    found = look(database, order)
    path_of(store, found, "b.pdf").unlink()
    assert shelf.read_file(found, "a.pdf") == (found, CONTENTS["a.pdf"])


def test_an_order_whose_pack_is_damaged_is_shown_as_being_made_again(database, shelf, store, order):
    found = look(database, order)
    path_of(store, found).unlink()
    shown = shelf.verified(found)
    assert shown.state is OrderState.PLACED
    assert look(database, order).state is OrderState.PLACED


def test_an_order_in_the_queue_is_shown_as_it_is(database, shelf, order):
    with database.writing() as session:
        session.execute(sa.update(Order).values(state=OrderState.PLACED))
    found = look(database, order)
    assert shelf.verified(found) is found
    assert shelf.read_file(found, "a.pdf") == (found, None)


def test_a_lost_folder_is_found_before_anybody_asks(database, shelf, store, order):
    found = look(database, order)
    assert shelf.rebuild_all_damaged([found]) == 0
    store.remove(found.pack_folder)
    assert shelf.rebuild_all_damaged([found, found]) == 1
    assert look(database, order).state is OrderState.PLACED


def test_ready_orders_are_looked_through_newest_first_in_shares(session, queue, listing):
    placed = [place_order(session, queue, save_fitting(session, listing, ENTRY), Customer()) for _ in range(5)]
    for each in placed[:4]:
        session.execute(
            sa.update(Order).where(Order.id == each.id).values(state=OrderState.READY, built_at=now(session))
        )
    session.expire_all()
    ids = [each.id for each in placed]
    share = ready_orders_before(session, ids[-1] + 1, 3)
    assert [each.id for each in share] == [ids[3], ids[2], ids[1]]
    assert [each.id for each in ready_orders_before(session, share[-1].id, 3)] == [ids[0]]
    assert ready_orders_before(session, ids[0], 3) == []
