"""The words of a design as typed: read into values, or told field by field."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.shop.catalogue.models import Level
from app.shop.studio.designs.form import DesignEntry, read_design, slug_of
from app.shop.studio.designs.view import new_design_page
from tests.shop.unsaved import a_listing

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


@pytest.mark.parametrize("gap", ["\t", "\xa0", "\u202f", "\u2003", "\u2028", "\x1f"])
def test_a_gap_of_any_kind_pasted_from_elsewhere_stays_a_gap(gap):
    words = read(title=f"Garden{gap}apron", description=f"Firm{gap}cotton,\r2{gap}m").words
    assert words.title == "Garden apron"
    assert words.description_md == "Firm cotton,\n2 m"


@given(st.text(max_size=120), st.text(max_size=300))
def test_any_words_come_back_with_every_sign_that_can_be_seen(title, description):
    entry = read(title=title, description=description, slug="x")
    for typed, kept in ((title, entry.typed["title"]), (description, entry.typed["description"])):
        seen = [sign for sign in typed if sign.isprintable() and not sign.isspace()]
        assert [sign for sign in kept if not sign.isspace()] == seen
        assert kept == kept.strip()
        assert not {sign for sign in kept if not sign.isprintable()} - {"\n"}


@given(st.dictionaries(st.sampled_from(sorted(GOOD)), st.text(max_size=40)))
def test_any_form_is_words_or_errors_at_its_own_fields_and_never_both(typed):
    entry = read_design(typed, None, "EUR", 1)
    assert (entry.words is None) == bool(entry.errors)
    assert set(entry.errors) <= set(GOOD)
    assert all(words.endswith(".") for words in entry.errors.values())


def test_both_lines_are_told_to_be_one_line_each_and_a_description_may_have_many():
    assert "one line each" in read(tagline="a\nb").errors["title"]
    assert read(description="a\nb").errors == {}


@pytest.mark.parametrize(
    ("field", "most"), [("title", 120), ("tagline", 200), ("description", 20_000), ("slug", 80)]
)  # fmt: skip
def test_the_longest_words_are_taken_and_one_sign_more_is_told_with_both_figures(field, most):
    assert read(**{field: "a" * most}).errors == {}
    told = read(**{field: "a" * (most + 1)}).errors[field]
    assert told == f"This has {most + 1:,} characters; {most:,} are the most. Shorten it."


@pytest.mark.parametrize(
    ("typed", "cents"),
    [("14", 1400), ("14.5", 1450), (" 14,50 ", 1450), ("0", 0), ("0.01", 1), ("1000", 100_000), ("007", 700)],
)
def test_a_price_is_read_to_the_cent(typed, cents):
    assert read(price=typed).words.price_cents == cents


@pytest.mark.parametrize("typed", ["", "€14", "14 EUR", "-1", "1.234", "1 000", "1e3", "١٤", "1000.01"])
def test_a_price_that_is_none_is_not_guessed_at(typed):
    entry = read(price=typed)
    assert entry.words is None
    assert entry.typed["price"] == typed
    assert set(entry.errors) == {"price"}


def test_a_design_that_is_there_keeps_its_address_price_picture_and_place_whatever_is_posted():
    kept = a_listing(slug="linnet", price_cents=990, currency="GBP", picture="linnet.svg", position=7)
    posted = {**GOOD, "slug": "other", "price": "1", "title": "Wren"}
    words = read_design(posted, kept, "EUR", 99).words
    assert (words.slug, words.title, words.price_cents, words.currency) == ("linnet", "Wren", 990, "GBP")
    assert (words.picture, words.position) == ("linnet.svg", 7)


def test_a_design_that_is_there_is_not_asked_for_an_address_or_a_price():
    entry = read_design({"title": "", "level": ""}, a_listing(), "EUR", 1)
    assert set(entry.errors) == {"title", "level"}
    assert set(entry.typed) == {"title", "tagline", "description", "level"}


def test_an_empty_form_is_told_everything_that_is_missing():
    entry = read_design({}, None, "EUR", 1)
    assert isinstance(entry, DesignEntry)
    assert set(entry.errors) == {"title", "level", "slug", "price"}
