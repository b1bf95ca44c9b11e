"""The catalogue: what is on sale, and versions of drafts that never change."""

from dataclasses import replace
from hashlib import sha256

import pytest
import sqlalchemy as sa

from app.pattern.problem import Refused
from app.shop.catalogue.models import DraftVersion, Level
from app.shop.catalogue.service import (
    ListingWords,
    add_draft_version,
    listing_by_slug,
    newest_version,
    published_listings,
    put_on_sale,
    save_listing,
    take_off_sale,
)
from tests.proved import SMALL_DRAFT, small_draft, stand_proved

WORDS = ListingWords("wren-smock", "Wren smock", "A smock", "Loose.", Level.FIRST_GARMENT, 1100, "EUR", "wren.svg", 2)


def test_only_published_listings_with_a_draft_are_on_sale(session, listing):
    hidden = save_listing(session, WORDS)
    add_draft_version(session, hidden, "text")
    empty = save_listing(session, replace(WORDS, slug="empty"))
    empty.published = True
    session.flush()
    assert [found.slug for found in published_listings(session)] == ["linnet-apron"]
    assert listing_by_slug(session, "wren-smock") is None
    assert listing_by_slug(session, "empty") is None
    assert listing_by_slug(session, "linnet-apron").title == "Linnet apron"


def test_listings_come_in_the_shops_order_with_their_drafts(database, session, listing):
    first = save_listing(session, replace(WORDS, position=-1))
    version = add_draft_version(session, first, SMALL_DRAFT)
    stand_proved(session, version)
    put_on_sale(session, first, version)
    session.commit()
    with database.reading() as reading:
        found = published_listings(reading)
    assert [one.slug for one in found] == ["wren-smock", "linnet-apron"]
    assert [one.current_version.number for one in found] == [1, 1]


def test_new_words_keep_the_draft_and_the_place_on_sale(session, listing):
    again = save_listing(session, replace(WORDS, slug="linnet-apron", price_cents=1300))
    assert again is listing
    assert (again.title, again.price_cents, again.published) == ("Wren smock", 1300, True)
    assert again.current_version.number == 1


def test_a_changed_text_becomes_a_new_version_and_the_old_one_stays(session, listing):
    old = listing.current_version
    new = add_draft_version(session, listing, "changed")
    assert (old.number, new.number) == (1, 2)
    assert newest_version(session, listing) is new
    assert new.sha256 == sha256(b"changed").hexdigest()
    texts = session.scalars(sa.select(DraftVersion.text).order_by(DraftVersion.number)).all()
    assert texts == [SMALL_DRAFT, "changed"]


def test_the_same_text_is_the_same_version(session, listing):
    assert add_draft_version(session, listing, listing.current_version.text) is listing.current_version
    newer = add_draft_version(session, listing, "changed")
    assert add_draft_version(session, listing, "changed") is newer
    assert add_draft_version(session, listing, listing.current_version.text).number == 3


def test_a_new_version_is_on_trial_until_it_is_put_on_sale(session, listing):
    old = listing.current_version
    new = add_draft_version(session, listing, small_draft("changed"))
    assert listing.current_version is old
    assert put_on_sale(session, listing, new).problems[0].code == "proof.not-yet"
    assert (listing.current_version, listing.published) == (old, True)
    stand_proved(session, new, share=0.9)
    assert put_on_sale(session, listing, new).problems[0].code == "proof.share-too-small"
    stand_proved(session, new)
    assert not isinstance(put_on_sale(session, listing, new), Refused)
    assert listing.current_version is new


def test_an_older_version_can_be_sold_again(session, listing):
    old = listing.current_version
    new = add_draft_version(session, listing, small_draft("changed"))
    stand_proved(session, new)
    put_on_sale(session, listing, new)
    assert not isinstance(put_on_sale(session, listing, old), Refused)
    assert listing.current_version is old


def test_a_first_version_goes_on_sale_the_same_way(session):
    fresh = save_listing(session, WORDS)
    version = add_draft_version(session, fresh, SMALL_DRAFT)
    assert (fresh.current_version, fresh.published) == (None, False)
    stand_proved(session, version)
    assert not isinstance(put_on_sale(session, fresh, version), Refused)
    assert (fresh.current_version, fresh.published) == (version, True)


NOTHING_TO_CUT = {
    "a title": 'draft "Wren smock"\n',
    "a sheet": SMALL_DRAFT[: SMALL_DRAFT.index("piece panel")],
    "words that cannot be read": "drat",
}


@pytest.mark.parametrize("text", NOTHING_TO_CUT.values(), ids=NOTHING_TO_CUT)
def test_a_draft_without_a_piece_is_never_sold_whatever_a_proof_says_of_it(session, listing, text):
    old = listing.current_version
    empty = add_draft_version(session, listing, text)
    stand_proved(session, empty)
    refused = put_on_sale(session, listing, empty)
    assert refused.problems[0].code == "catalogue.no-pattern"
    assert "no pattern to sell" in refused.problems[0].message
    assert refused.problems[0].fix
    assert listing.current_version is old


def test_a_draft_whose_pieces_all_fall_away_by_what_the_listing_settles_is_not_sold(session):
    smock = save_listing(session, WORDS, {"pinned": True})
    text = SMALL_DRAFT.replace("needs", 'choices\n    pinned = no "Pinned only"\nneeds', 1).replace(
        "cut 1 main", "cut 1 main when not pinned"
    )
    version = add_draft_version(session, smock, text)
    stand_proved(session, version)
    assert put_on_sale(session, smock, version).problems[0].code == "catalogue.no-pattern"


def test_off_sale_the_version_stays_the_one_to_go_back_to(session, listing):
    take_off_sale(session, listing)
    assert not listing.published
    assert listing.current_version.number == 1


def test_what_a_listing_settles_is_settled_once_for_all(session):
    first = save_listing(session, WORDS, {"line": "princess"})
    again = save_listing(session, replace(WORDS, title="Wren"), {"line": "darted"})
    assert again is first
    assert (again.title, again.settled) == ("Wren", {"line": "princess"})


def test_a_text_that_lacks_what_the_listing_settles_never_becomes_its_draft(session):
    smock = save_listing(session, WORDS, {"line": "princess"})
    with pytest.raises(ValueError, match="wren-smock"):
        add_draft_version(session, smock, "text")
    assert session.scalar(sa.select(sa.func.count()).select_from(DraftVersion)) == 0


def test_a_price_below_nothing_is_refused_by_the_table(session):
    with pytest.raises(sa.exc.IntegrityError, match="price_not_negative"), session.begin_nested():
        save_listing(session, replace(WORDS, price_cents=-1))
