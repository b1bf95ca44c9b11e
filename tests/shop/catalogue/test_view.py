"""The catalogue and a listing's page: the words of the design as kept, its proof, and what it lacks said plainly."""

import pytest

from app.pattern.make import read_draft
from app.shop.catalogue.cards import card_of, draft_name
from app.shop.catalogue.models import Level
from app.shop.catalogue.view import LEVEL_WORDS, catalogue_page, listing_page
from app.shop.proofs.models import ProofState
from tests.places import APRON
from tests.proved import SMALL_DRAFT
from tests.shop.unsaved import a_listing, a_proof, a_version


def listed(text=SMALL_DRAFT, proof=None, **more):
    version = a_version(1, text)
    listing = a_listing(version, **more)
    return listing_page(listing, card_of(version, listing), proof)


def card(text=SMALL_DRAFT, proof=None, **more):
    version = a_version(1, text)
    listing = a_listing(version, **more)
    found = [(listing, card_of(version, listing))]
    [shown] = catalogue_page(found, {version.id: proof} if proof else {}).cards
    return shown


@pytest.mark.parametrize(
    ("cents", "currency", "price"),
    [(0, "EUR", "Free"), (1450, "EUR", "€14.50"), (1450, "GBP", "£14.50"), (1450, "SEK", "14.50 SEK")],
)
def test_a_price_reads_the_same_on_the_card_and_on_the_page(cents, currency, price):
    assert card(price_cents=cents, currency=currency).price == price
    assert listed(price_cents=cents, currency=currency).price == price


@pytest.mark.parametrize("level", list(Level))
def test_how_much_sewing_it_asks_for_is_said_in_words(level):
    assert card(level=level).level == listed(level=level).level == LEVEL_WORDS[level]


def test_a_design_without_a_picture_shows_its_first_piece_and_one_with_a_picture_does_not():
    assert listed().picture == ""
    assert listed().drawing.startswith("<svg")
    with_picture = listed(picture="gore-skirt.svg")
    assert with_picture.picture == "garments/gore-skirt.svg"
    assert with_picture.drawing == ""


def test_a_picture_that_is_not_there_is_not_linked():
    shown = listed(picture="nowhere.svg")
    assert shown.picture == ""
    assert shown.drawing.startswith("<svg")


def test_measurements_are_counted_and_named():
    assert listed().needs_title == "1 measurement to take"
    assert listed().needs == ("Hip girth",)
    shown = listed(APRON)
    assert shown.needs_title == "3 measurements to take"
    assert shown.needs == ("Waist girth", "Hip girth", "Waist to hip")


def test_choices_are_told_with_their_limits_in_both_units():
    [length, gathering] = listed(APRON).choices
    assert (length.title, length.words) == ("Length below the waist", "45 to 80 cm (17 3/4 to 31 1/2 in)")
    assert gathering.words == "1.3 to 2"
    assert [choice.title for choice in listed(APRON, settled={"length": 620.0}).choices] == ["Fullness, as a ratio"]


def test_what_to_buy_and_how_many_pieces_are_told_before_any_body_is_known():
    shown = listed(APRON)
    assert shown.pieces_words == "2 pattern pieces"
    assert shown.shopping == (
        "Apron cloth, 140 cm (55 1/8 in) wide or what you have",
        "Sewing thread, 100 m (110 yd) reel: 1",
    )
    assert listed().pieces_words == "1 pattern piece"


@pytest.mark.parametrize(
    ("proof", "line"),
    [
        (None, ""),
        (a_proof(ProofState.WAITING, summary={}), ""),
        (a_proof(ProofState.FAILED), ""),
        (a_proof(share=0.9), ""),
        (a_proof(), "Proved on 100 bodies from bust 0 to 1000 cm."),
        (a_proof(ProofState.RUNNING), "Proved on 100 bodies from bust 0 to 1000 cm."),
        (
            a_proof(share=0.9, accepted_share=0.9),
            "Proved on 100 bodies from bust 0 to 1000 cm. Of all bodies tried 90 % hold; beyond them the designer "
            "looks at your order first.",
        ),
    ],
)
def test_a_proof_is_spoken_of_only_where_something_may_be_sold_on_its_strength(proof, line):
    assert listed(proof=proof).proof == line
    instead = "Drawn from 1 measurement; every seam walked before it is sent."
    assert card(proof=proof).proof == (line or instead)


def test_a_designs_words_stand_as_she_wrote_them_and_her_html_as_words():
    shown = listed(title="Wren & co", tagline="<b>Light</b>", description_md="**Firm** <i>cotton</i>")
    assert (shown.title, shown.tagline) == ("Wren & co", "<b>Light</b>")
    assert shown.description == "<p><strong>Firm</strong> &lt;i&gt;cotton&lt;/i&gt;</p>\n"


def test_problems_of_a_draft_name_the_design_it_is_of():
    listing = a_listing(slug="wren")
    assert draft_name(listing) == "wren.draft"
    [problem] = read_draft("drat", draft_name(listing)).problems
    assert str(problem).startswith("wren.draft:1:1: error:")


def test_an_empty_shop_has_no_cards():
    assert catalogue_page([], {}).cards == ()
