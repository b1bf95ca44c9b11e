"""The catalogue as a visitor meets it."""

import re

import sqlalchemy as sa

from app.shop.catalogue.models import Listing
from app.shop.catalogue.service import add_draft_version, listing_by_slug
from tests.proved import stand_proved


def test_the_catalogue_shows_every_design_with_price_level_and_drawing(visitor):
    page = visitor.get("/")
    assert page.status == 200
    for title, price in (("Fernhill skirt", "€12.00"), ("Larkspur tunic", "€14.00"), ("Saltmarsh blouse", "€18.00")):
        assert title in page.words
        assert price in page.words
        assert f'alt="Line drawing of the {title}, front and back"' in page.html
    assert page.html.index("Fernhill skirt") < page.html.index("Saltmarsh blouse")


def test_the_drawings_of_the_catalogue_are_really_there(visitor):
    for address in re.findall(r'src="(/static/[^"]+)"', visitor.get("/").html):
        answer = visitor.get(address)
        assert answer.status == 200
        assert answer.headers["cache-control"].startswith("public")


def test_an_unpublished_design_is_not_in_the_catalogue_and_its_page_is_not_found(visitor, database):
    with database.writing() as session:
        listing_by_slug(session, "larkspur-tunic").published = False
    assert "Larkspur" not in visitor.get("/").words
    for path in ("/patterns/larkspur-tunic", "/patterns/larkspur-tunic/measure"):
        page = visitor.get(path)
        assert page.status == 404
        assert "This pattern is not sold at present" in page.words
        assert "Larkspur" not in page.words
        assert '<a class="button second" href="/">See what is on sale</a>' in page.html
    assert "There is nothing at this address" in visitor.get("/patterns/no-such-pattern").words


def test_a_shop_without_designs_says_so(visitor, database):
    with database.writing() as session:
        session.execute(sa.update(Listing).values(published=False))
    assert "No pattern is on sale at the moment" in visitor.get("/").words


def test_a_design_whose_draft_cannot_be_read_is_kept_off_the_shelf(visitor, database, caplog):
    with database.writing() as session:
        listing = listing_by_slug(session, "larkspur-tunic")
        version = add_draft_version(session, listing, "draft")
        stand_proved(session, version)
        # One that was put on sale before the language changed, since a shop refuses it now.
        listing.current_version = version
    assert "Larkspur" not in visitor.get("/").words
    assert "larkspur-tunic.draft" in caplog.text


def test_a_listing_tells_choices_measurements_cloth_and_notions(visitor):
    page = visitor.get("/patterns/fernhill-skirt")
    for words in (
        "A six-gore skirt that hangs from a smooth waistband",
        "Room at the waist 0.5 to 4 cm",
        "3 measurements to take",
        "Waist girth",
        "Skirt cloth, 140 cm (55 1/8 in) wide",
        "Trouser hook and bar: 1",
        "Sewing thread, 100 m (110 yd) reel: 2",
        "3 pattern pieces",
        "Good for a first garment",
        "free sample",
    ):
        assert words in page.words
    assert 'href="/patterns/fernhill-skirt/measure"' in page.html


def test_the_designers_markdown_is_rendered_and_her_raw_html_is_not(visitor, database):
    with database.writing() as session:
        listing_by_slug(session, "fernhill-skirt").description_md = "**Firm** <script>alert(1)</script>"
    page = visitor.get("/patterns/fernhill-skirt")
    assert "<strong>Firm</strong>" in page.html
    assert "<script>alert" not in page.html


def test_the_pages_of_plain_words_stand(visitor):
    assert "How it works" in visitor.get("/how-it-works").words
    assert "holds no measurement" in visitor.get("/privacy").words
    assert "Cotter Row Studio" in visitor.get("/about").words


def test_looking_round_sets_no_cookie(visitor):
    for path in ("/", "/patterns/fernhill-skirt", "/how-it-works", "/privacy", "/about"):
        assert "set-cookie" not in visitor.get(path).headers
