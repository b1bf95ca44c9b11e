"""What a draft says of itself reaches the shop in words, and a broken draft never does."""

import pytest

from app.pattern.make import Choice
from app.pattern.units import Unit
from app.shop.catalogue.cards import cannot_settle, card_of, readable_listings, sample_of
from app.shop.catalogue.models import DraftVersion, Level, Listing
from app.shop.catalogue.view import catalogue_page, choice_range, listing_page
from tests.places import DRAFTS


def listing_of(text, picture="gore-skirt.svg", **settled):
    return Listing(
        slug="test",
        title="Test skirt",
        tagline="",
        description_md="*Plain*",
        level=Level.CONFIDENT,
        price_cents=0,
        currency="EUR",
        picture=picture,
        settled=settled,
        current_version=DraftVersion(text=text, number=1, sha256=""),
    )


@pytest.mark.parametrize("path", sorted(DRAFTS.glob("*.draft")), ids=lambda path: path.stem)
def test_every_demo_draft_has_a_card_and_a_sample_that_holds(path):
    listing = listing_of(path.read_text())
    card = card_of(listing.current_version, listing)
    assert card is not None
    assert card.needs
    assert card.pieces
    sample = sample_of(listing)
    assert sample is not None
    assert {piece.name for piece in sample.pieces} <= {name for name, _title in card.pieces}


def test_a_broken_draft_has_no_card_no_sample_and_is_not_sold(caplog):
    listing = listing_of("draft nothing here")
    assert card_of(listing.current_version, listing) is None
    assert sample_of(listing) is None
    assert readable_listings([listing]) == []
    assert "test.draft" in caplog.text


BODICE = (DRAFTS / "fitted_bodice.draft").read_text()


@pytest.mark.parametrize(("line", "pieces"), [("darted", ["front", "back"]), ("princess", ["middle_front"])])
def test_a_design_offers_only_what_it_leaves_open_and_its_sample_is_cut_as_it_settles(line, pieces):
    listing = listing_of(BODICE, line=line)
    card = card_of(listing.current_version, listing)
    assert [choice.name for choice in card.choices] == ["bust_ease", "waist_ease", "scoop"]
    made = [piece.name for piece in sample_of(listing).pieces]
    assert made == [name for name, _title in card.pieces]
    assert made[: len(pieces)] == pieces


def test_two_designs_from_one_draft_show_two_different_pages():
    darted, princess = (listing_of(BODICE, line=line) for line in ("darted", "princess"))
    pages = [listing_page(each, card_of(each.current_version, each), None) for each in (darted, princess)]
    assert [page.pieces_words for page in pages] == ["2 pattern pieces", "4 pattern pieces"]
    for page in pages:
        assert not any("princess" in choice.title for choice in page.choices)
        assert len(set(page.shopping)) == len(page.shopping), "each thing to buy is named once"


@pytest.mark.parametrize("settled", [{"line": "raglan"}, {"lien": "princess"}])
def test_a_draft_that_lacks_what_a_design_settles_is_told_and_not_sold(settled, caplog):
    listing = listing_of(BODICE, **settled)
    (problem,) = cannot_settle(listing, BODICE)
    assert "is to be settled as" in problem.message
    assert readable_listings([listing]) == []
    assert "is to be settled as" in caplog.text


def test_a_draft_that_has_what_a_design_settles_is_welcome():
    assert cannot_settle(listing_of(BODICE, line="princess"), BODICE) == ()
    assert cannot_settle(listing_of(BODICE), "draft nothing here") == (), "what is wrong in itself is told elsewhere"


def test_a_listing_without_a_draft_is_not_sold():
    listing = Listing(slug="bare", current_version=None)
    assert readable_listings([listing]) == []
    assert sample_of(listing) is None


@pytest.mark.parametrize(
    ("choice", "words"),
    [
        (Choice("a", "A", "yesno", True), "yes or no"),
        (Choice("a", "A", "option", "hip", options=("hip", "below_hip")), "hip or below hip"),
        (Choice("a", "A", "number", 1.5, 1.3, 1.8), "1.3 to 1.8"),
        (Choice("a", "A", "length", 100.0, 60.0, 180.0), "6 to 18 cm (2 3/8 to 7 1/8 in)"),
        (Choice("a", "A", "length", 100.0), "as you like"),
    ],
)
def test_between_what_one_chooses_is_said_in_words(choice, words):
    assert choice_range(choice) == words


def test_in_one_unit_only_that_unit_is_said():
    assert choice_range(Choice("a", "A", "length", 100.0, 60.0, 180.0), (Unit.INCH,)) == "2 3/8 to 7 1/8 in"


def test_a_free_design_says_free_and_a_missing_picture_leaves_its_place_empty():
    listing = listing_of((DRAFTS / "gore_skirt.draft").read_text(), picture="nowhere.svg")
    card = card_of(listing.current_version, listing)
    assert catalogue_page([(listing, card)], {}).cards[0].price == "Free"
    page = listing_page(listing, card, None)
    assert page.picture == page.proof == ""
    assert page.description == "<p><em>Plain</em></p>\n"
    assert page.pieces_words == "3 pattern pieces"
