"""Adding designs and changing their words: what is written, and that a refused form writes nothing."""

import pytest
import sqlalchemy as sa

from app.shop.catalogue.models import DraftVersion, Level, Listing
from app.shop.catalogue.service import ListingWords, add_draft_version, save_listing
from app.shop.studio.designs.form import DesignEntry
from app.shop.studio.designs.service import (
    FIRST_CURRENCY,
    add_design,
    add_design_from,
    change_words,
    origin_of,
    shop_currency,
)
from app.shop.studio.desk.service import newest_versions
from tests.places import APRON

WORDS = {"title": "Garden apron", "level": "confident", "price": "7.50"}


def saved(session, slug, position=0, currency="EUR", **settled):
    words = ListingWords(slug, slug.capitalize(), "", "", Level.CONFIDENT, 700, currency, "", position)
    return save_listing(session, words, settled)


def slugs(session):
    return list(session.scalars(sa.select(Listing.slug).order_by(Listing.position, Listing.id)))


def test_the_first_design_of_a_shop_is_priced_in_the_first_currency(session):
    assert shop_currency(session) == FIRST_CURRENCY
    assert add_design(session, WORDS).currency == FIRST_CURRENCY


def test_a_shop_keeps_to_the_currency_of_its_newest_design(session):
    saved(session, "old", currency="EUR")
    saved(session, "new", currency="GBP")
    assert shop_currency(session) == "GBP"
    assert add_design(session, WORDS).currency == "GBP"


def test_a_new_design_stands_behind_all_others_and_is_not_on_sale(session):
    saved(session, "first", position=40)
    saved(session, "second", position=7)
    made = add_design(session, WORDS)
    assert (made.position, made.published, made.current_version_id) == (41, False, None)
    assert slugs(session) == ["second", "first", "garden-apron"]
    assert session.scalar(sa.select(sa.func.count()).select_from(DraftVersion)) == 0


def test_two_designs_of_one_name_need_two_addresses(session):
    first = add_design(session, WORDS)
    refused = add_design(session, {**WORDS, "price": "9"})
    assert isinstance(refused, DesignEntry)
    assert refused.errors == {"slug": "Another design has this address. Change it a little."}
    assert refused.typed["slug"] == "garden-apron"
    assert refused.words is None
    assert (slugs(session), first.price_cents) == (["garden-apron"], 750)
    assert add_design(session, {**WORDS, "slug": "garden-apron-2"}).title == "Garden apron"


@pytest.mark.parametrize("wrong", [{"title": " "}, {"price": "free"}, {"level": ""}, {"slug": "a b"}])
def test_a_form_with_anything_amiss_adds_no_design(session, wrong):
    assert isinstance(add_design(session, {**WORDS, **wrong}), DesignEntry)
    assert slugs(session) == []


def test_what_is_settled_needs_a_draft_to_settle_it_in(session):
    refused = add_design(session, {**WORDS, "choice-length": "62"})
    assert set(refused.errors) == {"choice-length"}
    assert slugs(session) == []


def test_words_are_changed_and_everything_else_of_the_design_stays(session):
    kept = saved(session, "wren", position=3, length=620.0)
    add_draft_version(session, kept, APRON)
    kept.published = True
    changed = change_words(session, kept, {"title": "Wren apron", "tagline": "For mud", "level": "practised"})
    assert changed is kept
    assert (kept.title, kept.tagline, kept.level) == ("Wren apron", "For mud", Level.PRACTISED)
    assert (kept.slug, kept.price_cents, kept.currency, kept.position) == ("wren", 700, "EUR", 3)
    assert (kept.settled, kept.published) == ({"length": 620.0}, True)


def test_words_with_anything_amiss_change_nothing(session):
    kept = saved(session, "wren")
    refused = change_words(session, kept, {"title": "", "tagline": "x", "level": "confident"})
    assert set(refused.errors) == {"title"}
    assert (kept.title, kept.tagline) == ("Wren", "")


def test_a_hostile_form_cannot_give_a_design_another_price_address_or_settled_value(session):
    kept = saved(session, "wren", length=620.0)
    posted = {"title": "Wren", "level": "confident", "price": "0", "slug": "mine", "choice-length": "70", "id": "9"}
    change_words(session, kept, posted)
    assert (kept.price_cents, kept.slug, kept.settled) == (700, "wren", {"length": 620.0})


def test_another_design_is_made_in_a_transaction_of_its_own(session, database):
    wren = saved(session, "wren")
    add_draft_version(session, wren, APRON)
    origin = origin_of(wren, newest_versions(session, wren))
    session.commit()
    made = add_design_from(database, {**WORDS, "choice-length": "62"}, origin)
    with database.reading() as reading:
        found = reading.scalar(sa.select(Listing).where(Listing.slug == "garden-apron"))
        version = reading.scalar(sa.select(DraftVersion).where(DraftVersion.listing_id == found.id))
    assert (made.id, found.settled, version.number, version.text) == (found.id, {"length": 620.0}, 1, APRON)


def test_only_the_ten_newest_versions_are_looked_at_for_one_that_can_be_read(session):
    wren = saved(session, "wren")
    add_draft_version(session, wren, APRON)
    for number in range(10):
        add_draft_version(session, wren, f"drat {number}")
    texts = newest_versions(session, wren)
    assert [version.number for version in texts] == list(range(11, 1, -1))
    assert origin_of(wren, texts[:2]) is None
