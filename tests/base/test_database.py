"""The database: what a transaction keeps, how SQLite is set up, and moments in time."""

import threading
from datetime import UTC, datetime, timedelta, timezone

import pytest
import sqlalchemy as sa
from sqlalchemy.orm import joinedload

from app.base.database import now, rows_changed
from app.base.errors import Gone, Immutable
from app.shop.catalogue.models import Listing
from app.shop.people.models import Studio


def test_writing_commits_when_the_block_ends_and_not_when_it_raises(database):
    with database.writing() as session:
        session.add(Studio(id=1, name="Kept"))
    with pytest.raises(RuntimeError, match="in the middle"), database.writing() as session:
        session.get_one(Studio, 1).name = "Lost"
        session.flush()
        raise RuntimeError("in the middle")
    with database.reading() as session:
        assert session.get_one(Studio, 1).name == "Kept"


def test_reading_keeps_nothing(database):
    with database.reading() as session:
        session.add(Studio(id=1, name="Nobody"))
        session.flush()
    with database.reading() as session:
        assert session.get(Studio, 1) is None


@pytest.mark.parametrize(("pragma", "value"), [("journal_mode", "wal"), ("busy_timeout", 30_000), ("foreign_keys", 1)])
def test_sqlite_is_set_up_for_several_processes(database, pragma, value):
    with database.reading() as session:
        assert session.execute(sa.text(f"PRAGMA {pragma}")).scalar_one() == value


def test_foreign_keys_hold(database, listing, session):
    with pytest.raises(sa.exc.IntegrityError, match="FOREIGN KEY"), session.begin_nested():
        session.execute(sa.text("DELETE FROM draft_version"))


def test_writers_that_read_first_wait_for_each_other(database):
    with database.writing() as session:
        session.add(Studio(id=1, name="0"))

    def count_up():
        for _ in range(20):
            with database.writing() as session:
                row = session.get_one(Studio, 1)
                row.name = str(int(row.name) + 1)

    threads = [threading.Thread(target=count_up) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    with database.reading() as session:
        assert session.get_one(Studio, 1).name == "80"


def test_moments_come_back_in_utc_whatever_zone_they_were_written_in(database, listing, session):
    summer = datetime(2031, 7, 1, 14, 30, tzinfo=timezone(timedelta(hours=2)))
    listing.created_at = summer
    session.flush()
    session.refresh(listing, ["created_at"])
    assert listing.created_at == summer
    assert listing.created_at.tzinfo is UTC


def test_a_moment_without_a_zone_is_refused(listing, session):
    listing.created_at = datetime(2031, 7, 1, 14, 30)
    with pytest.raises(sa.exc.StatementError, match="a moment needs a time zone"), session.begin_nested():
        session.flush()


def test_now_is_the_present_in_utc(session):
    before = datetime.now(UTC)
    assert before <= now(session) <= datetime.now(UTC)


def test_changed_counts_the_rows_touched(session):
    session.add(Studio(id=1, name="One"))
    session.flush()
    assert rows_changed(session, sa.update(Studio).where(Studio.name == "One").values(name="Two")) == 1
    assert rows_changed(session, sa.update(Studio).where(Studio.name == "One").values(name="Two")) == 0


def test_nothing_beside_a_row_is_loaded_by_surprise(listing, session):
    session.flush()
    session.expire(listing)
    with pytest.raises(sa.exc.InvalidRequestError, match="lazy='raise'"):
        _ = listing.current_version


def test_words_columns_take_no_other_words(listing, session):
    with pytest.raises(sa.exc.IntegrityError, match="CHECK"), session.begin_nested():
        session.execute(sa.text("UPDATE listing SET level = 'easy'"))


def test_errors_never_quote_what_was_to_be_written(session):
    session.add(Studio(id=1, name="Heron Yard"))
    session.flush()
    with pytest.raises(sa.exc.IntegrityError) as caught, session.begin_nested():
        session.execute(sa.insert(Studio).values(id=1, name="bust girth 917", contact_email="", about_md=""))
    assert "917" not in str(caught.value)


def test_a_draft_version_cannot_be_changed(listing, session):
    listing.current_version.text = "other"
    with pytest.raises(Immutable, match="draft_version was changed; write a new one"):
        session.flush()
    session.rollback()


def test_rows_handed_to_a_change_are_read_anew_inside_it(database, stored_listing):
    before = database.read(listing_row, stored_listing)
    with database.writing() as session:
        session.execute(sa.update(Listing).values(price_cents=4321))
    assert database.write(lambda session, row: row.price_cents, before) == 4321


def test_rows_in_hand_stay_whole_when_a_change_fails(database, stored_listing):
    row = database.read(listing_row, stored_listing)
    with pytest.raises(ZeroDivisionError):
        database.write(lambda session, given: 1 // 0, row)
    assert (row.slug, row.current_version.number) == ("linnet-apron", 1)


def test_a_row_that_is_gone_is_told_as_gone(database, stored_listing):
    row = database.read(listing_row, stored_listing)
    with database.writing() as session:
        session.execute(sa.update(Listing).values(current_version_id=None))
        for table in ("proof", "draft_version", "listing"):
            session.execute(sa.text(f"DELETE FROM {table}"))
    with pytest.raises(Gone):
        database.write(lambda session, given: None, row)


def listing_row(session, slug):
    return session.scalar(sa.select(Listing).options(joinedload(Listing.current_version)).where(Listing.slug == slug))


@pytest.fixture
def stored_listing(session, listing):
    """The slug of a listing that stands in the database."""
    slug = listing.slug
    session.commit()
    session.close()
    return slug
