"""The words of a design as typed: read into values, or told field by field."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.shop.catalogue.models import Level
from app.shop.studio.designs.form import DesignEntry, read_design, slug_of
from app.shop.studio.designs.view import new_design_page

GOOD = {
    "title": "Garden apron",
    "slug": "",
    "tagline": "For mud",
    "description": "Two **pockets**.\r\n\r\nFirm cotton.",
    "level": "first garment",
    "price": "7,50",
}


def read(**changes):
    return read_design({**GOOD, **changes}, None, "EUR", 4)


@pytest.mark.parametrize(
    ("title", "address"),
    [
        ("Garden apron", "garden-apron"),
        ("  Käthe’s Straßen-Kleid! ", "kathes-strassen-kleid"),
        ("N° 5 (short)", "n-5-short"),
        ("日本", ""),
        ("a" * 79 + " b", "a" * 79),
    ],
)
def test_an_address_is_made_from_the_name(title, address):
    assert slug_of(title) == address


@given(st.text(max_size=200))
def test_an_address_made_from_any_name_is_one_or_empty(title):
    address = slug_of(title)
    assert address == "" or not read(title="x", slug=address).errors


def test_good_words_become_a_listing_at_the_end_of_the_shop():
    words = read().words
    assert (words.slug, words.title, words.price_cents, words.currency) == ("garden-apron", "Garden apron", 750, "EUR")
    assert (words.description_md, words.level) == ("Two **pockets**.\n\nFirm cotton.", Level.FIRST_GARMENT)
    assert (words.picture, words.position) == ("", 4)


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("title", " ", "needs a name"),
        ("title", "a\nb", "one line each"),
        ("title", "a" * 121, "121 characters"),
        ("tagline", "a" * 201, "200 are the most"),
        ("description", "a" * 20_001, "20,000 are the most"),
        ("level", "easy", "Choose how much sewing"),
        ("price", "much", "This is not a price"),
        ("price", "99999", "not a price this shop takes"),
        ("slug", "Garden Apron?", "small letters"),
        ("slug", "-a-", "small letters"),
    ],
)
def test_what_is_amiss_is_told_at_its_field_and_everything_typed_is_kept(field, typed, said):
    entry = read(**{field: typed})
    assert said in entry.errors[field]
    assert entry.words is None
    page = new_design_page("EUR", entry)
    shown = {one.name: one for one in page.fields}
    assert said in shown[field].error
    assert shown["description"].value or field == "description"
    assert shown["tagline"].value
    assert field in [error.field for error in page.errors]


def test_a_name_no_address_can_be_made_of_is_asked_for_one():
    assert "slug" in read(title="日本").errors


def test_a_new_address_is_taken_as_typed_before_the_name_gives_one():
    assert read(slug=" My-Apron ").words.slug == "my-apron"


def test_signs_that_nobody_sees_do_not_come_into_the_shop():
    assert read(title="Gar\x00den\u200b apron").words.title == "Garden apron"


def test_an_empty_form_is_told_everything_that_is_missing():
    entry = read_design({}, None, "EUR", 1)
    assert isinstance(entry, DesignEntry)
    assert set(entry.errors) == {"title", "level", "slug", "price"}
