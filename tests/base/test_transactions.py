"""Transactions as services meet them: what a row in hand holds afterwards, what damaged rows give, and who waits."""

import threading

import pytest
import sqlalchemy as sa

from app.base import database as base
from app.base.database import Database, make_engine, now, reread, rows_changed, take_lock
from app.base.errors import Busy, Gone
from app.shop.catalogue.models import Level, Listing
from app.shop.catalogue.service import ListingWords, save_listing
from app.shop.studio.desk.service import listing as listing_of


@pytest.fixture
def wren(database):
    """A listing looked up before, as a page handler has it in hand."""
    with database.writing() as session:
        save_listing(session, ListingWords("wren", "Wren", "", "", Level.CONFIDENT, 700, "EUR", ""))
    return database.read(listing_of, "wren")


def price(session, listing, cents):
    before, listing.price_cents = listing.price_cents, cents
    return before


def price_of(database):
    return database.read(listing_of, "wren").price_cents


# ---- what a row in hand holds


def test_a_row_in_hand_is_read_anew_inside_a_change(database, wren):
    with database.writing() as session:
        session.execute(sa.update(Listing).values(price_cents=900))
    assert wren.price_cents == 700, "it is as it was last read"
    assert database.write(price, wren, 1100) == 900, "the change begins from what is there now"
    assert price_of(database) == 1100


def test_a_row_in_hand_is_whole_after_a_change(database, wren):
    database.write(price, wren, 1100)
    assert (wren.title, wren.price_cents, wren.settled) == ("Wren", 1100, {})


def fail(session, listing):
    listing.price_cents = 1
    session.flush()
    raise RuntimeError("in the middle")


def test_a_change_that_fails_leaves_nothing_behind_and_the_row_can_be_used_again(database, wren):
    with pytest.raises(RuntimeError):
        database.write(fail, wren)
    assert price_of(database) == 700
    assert wren.title == "Wren"
    database.write(price, wren, 800)
    assert price_of(database) == 800


def test_a_row_that_was_deleted_meanwhile_is_gone(database, wren):
    with database.writing() as session:
        session.execute(sa.delete(Listing))
    with pytest.raises(Gone, match="a row of listing is no more"):
        database.write(price, wren, 800)


def test_what_is_changed_while_looking_only_is_not_kept(database, wren):
    def look(session):
        listing_of(session, "wren").price_cents = 1

    database.read(look)
    assert price_of(database) == 700


def test_a_block_of_writing_is_kept_whole_or_not_at_all(database, wren):
    with pytest.raises(RuntimeError), database.writing() as session:
        session.execute(sa.update(Listing).values(price_cents=1))
        raise RuntimeError("before the end")
    assert price_of(database) == 700


def test_only_what_was_loaded_is_read_anew(database, wren):
    with database.writing() as session:
        session.execute(sa.update(Listing).values(title="Other", price_cents=1))
    with database.reading() as session:
        bare = session.scalar(sa.select(Listing).options(sa.orm.load_only(Listing.slug, Listing.price_cents)))
        reread(session, bare)
        assert "title" not in sa.inspect(bare).dict
        assert bare.price_cents == 1


# ---- damaged rows


@pytest.mark.parametrize("written", ["[1, 2", '"text"', "null", "[1]", "7", "not json"])
def test_a_damaged_value_is_read_as_an_empty_one_and_told_in_the_log(database, wren, caplog, written):
    with database.engine.connect() as connection:
        connection.exec_driver_sql("UPDATE listing SET settled = ?", (written,))
        connection.commit()
    assert database.read(listing_of, "wren").settled == {}
    if written != "null":
        assert "a stored value is no dict and is read as an empty one" in caplog.text
        assert written not in caplog.text, "nobody's figures stand in a log"


def test_an_error_of_the_database_quotes_no_value(database, wren):
    with pytest.raises(sa.exc.IntegrityError) as told, database.writing() as session:
        save_listing(session, ListingWords("wren-2", "Secret words", "", "", Level.CONFIDENT, -5, "EUR", ""))
    assert "Secret words" not in str(told.value)
    assert "-5" not in str(told.value)


# ---- taking turns


def test_many_who_add_at_once_lose_nothing(database, wren):
    def add_one(session, listing):
        listing.price_cents += 1

    rows = [database.read(listing_of, "wren") for _ in range(8)]
    threads = [threading.Thread(target=database.write, args=(add_one, row)) for row in rows]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert price_of(database) == 708


def test_whoever_never_gets_a_turn_is_told_that_the_shop_is_busy(database, monkeypatch):
    monkeypatch.setattr(base, "BUSY_MS", 1)
    with database.writing(), pytest.raises(Busy, match="no turn to write came up in time"):
        database.write(price, None, 0)


def test_looking_waits_for_no_writer(database, wren):
    with database.writing() as session:
        session.execute(sa.update(Listing).values(price_cents=1))
        assert price_of(database) == 700


# ---- small things


def test_nobody_has_to_be_alone_where_every_writer_is(session):
    take_lock(session, "orders")
    assert rows_changed(session, sa.delete(Listing)) == 0


def test_the_clock_goes_forward_within_a_transaction(session):
    first = now(session)
    assert now(session) >= first
    assert first.tzinfo is not None


def test_a_database_in_a_folder_that_is_not_there_makes_it(tmp_path):
    opened = Database(make_engine(f"sqlite:///{tmp_path / 'new' / 'deep' / 'a.db'}"))
    with opened.engine.connect() as connection:
        assert connection.exec_driver_sql("PRAGMA journal_mode").scalar() == "wal"
        assert connection.exec_driver_sql("PRAGMA synchronous").scalar() == 2, "what is committed survives a power cut"
    opened.close()
