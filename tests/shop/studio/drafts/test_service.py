"""Keeping a text as a version: what is kept, what is not, and what the draft page knows of a listing afterwards."""

import pytest

from app.pattern.problem import Refused
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, newest_version, put_on_sale, save_listing
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import proof_of
from app.shop.studio.desk.service import listing as listing_of
from app.shop.studio.drafts.service import KeptText, draft_history, keep_text, source_for
from tests.places import APRON
from tests.proved import SMALL_DRAFT, small_draft, stand_proved

NO_PIECE = SMALL_DRAFT[: SMALL_DRAFT.index("piece panel")]


def wren_of(database, **settled):
    with database.writing() as session:
        return save_listing(session, ListingWords("wren", "Wren", "", "", Level.CONFIDENT, 700, "EUR", ""), settled)


@pytest.fixture
def wren(database):
    """A design without a draft."""
    return wren_of(database)


@pytest.fixture
def long_wren(database):
    """A design that settles a length."""
    return wren_of(database, length=620.0)


def desk(database, listing):
    with database.reading() as session:
        return draft_history(session, listing)


def test_a_design_without_a_draft_has_an_empty_desk(database, wren):
    found = desk(database, wren)
    assert (found.newest, list(found.rows), found.offered) == (None, [], ())


def test_a_first_text_is_version_one_and_waits_for_its_proof(database, wren):
    kept = keep_text(database, wren, SMALL_DRAFT)
    assert isinstance(kept, KeptText)
    assert (kept.version.number, kept.changed, kept.lacking) == (1, True, "")
    found = desk(database, wren)
    assert (found.newest.text, [row.number for row in found.rows]) == (SMALL_DRAFT, [1])
    with database.reading() as session:
        assert proof_of(session, kept.version.id).state is ProofState.WAITING


def test_the_very_same_text_is_no_new_version(database, wren):
    keep_text(database, wren, SMALL_DRAFT)
    again = keep_text(database, wren, SMALL_DRAFT)
    assert (again.version.number, again.changed) == (1, False)
    assert again.notice == "Nothing has changed: version 1 is this very text."


def test_an_older_text_kept_again_is_a_version_of_its_own(database, wren):
    for text in (SMALL_DRAFT, small_draft("eased"), SMALL_DRAFT):
        kept = keep_text(database, wren, text)
    assert (kept.version.number, kept.changed) == (3, True)
    found = desk(database, wren)
    assert [row.number for row in found.rows] == [3, 2, 1]
    assert found.newest.text == SMALL_DRAFT


@pytest.mark.parametrize(
    "text", ["", "draft", "nothing of the kind", SMALL_DRAFT.replace("cut 1 main", "cut 1 velvet"), "\x00"]
)
def test_a_text_that_cannot_be_read_is_not_kept(database, wren, text):
    refused = keep_text(database, wren, text)
    assert isinstance(refused, Refused)
    assert all(problem.message and problem.fix for problem in refused.problems)
    assert desk(database, wren).newest is None


def test_a_refused_text_leaves_the_version_before_it_newest(database, wren):
    keep_text(database, wren, SMALL_DRAFT)
    assert isinstance(keep_text(database, wren, "draft"), Refused)
    assert desk(database, wren).newest.number == 1


def test_a_text_without_a_piece_is_kept_for_later_and_told_that_it_cannot_be_proved(database, wren):
    kept = keep_text(database, wren, NO_PIECE)
    assert kept.changed
    assert kept.lacking
    assert kept.notice == f"Version 1 is kept. {kept.lacking}"
    assert "proves it" not in kept.notice


def test_a_text_that_lacks_what_its_design_settles_is_not_kept(database, long_wren):
    problems = keep_text(database, long_wren, SMALL_DRAFT).problems
    assert ["This draft has no choice “length”." in problem.message for problem in problems] == [True]
    assert desk(database, long_wren).newest is None
    assert isinstance(keep_text(database, long_wren, APRON), KeptText)
    narrower = APRON.replace("from 45cm to 80cm", "from 45cm to 60cm").replace("= 62cm", "= 50cm")
    [problem] = keep_text(database, long_wren, narrower).problems
    assert "62" in problem.message
    assert desk(database, long_wren).newest.text == APRON


def test_the_desk_knows_the_choices_of_the_newest_text_settled_ones_too(database, long_wren):
    keep_text(database, long_wren, APRON)
    assert [choice.name for choice in desk(database, long_wren).offered] == ["length", "gathering"]


def test_keeping_a_version_changes_nothing_of_what_is_sold(database, wren):
    sold = keep_text(database, wren, SMALL_DRAFT).version
    with database.writing() as session:
        listing = listing_of(session, "wren")
        stand_proved(session, newest_version(session, listing))
        put_on_sale(session, listing, newest_version(session, listing))
    with database.reading() as session:
        listing = listing_of(session, "wren")
    kept = keep_text(database, listing, small_draft("eased"))
    with database.writing() as session:
        again = listing_of(session, "wren")
        stand_proved(session, newest_version(session, again))
        assert (kept.version.number, again.current_version.id, again.published) == (2, sold.id, True)


def test_a_text_is_asked_about_as_its_listing_would_draw_it(long_wren):
    subject = source_for(long_wren, "draft")
    assert (subject.text, subject.name, subject.settled) == ("draft", "wren.draft", (("length", 620.0),))
