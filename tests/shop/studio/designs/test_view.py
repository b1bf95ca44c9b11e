"""The form of a design's words: for a new design, for another one from its draft, and for one that is there."""

import pytest

from app.pattern.make import read_draft
from app.shop.catalogue.models import Level
from app.shop.studio.designs.form import DesignEntry, read_design
from app.shop.studio.designs.service import Origin
from app.shop.studio.designs.settled_form import read_settled
from app.shop.studio.designs.settled_view import settled_fields, settled_words
from app.shop.studio.designs.view import another_design_page, new_design_page, words_page
from app.shop.studio.desk.service import VersionRow
from app.shop.studio.drafts.service import DraftHistory
from tests.places import APRON, DRAFTS
from tests.shop.unsaved import MOMENT, a_listing, a_version

CHOICES = read_draft(APRON, "apron.draft").choices
BODICE = read_draft((DRAFTS / "fitted_bodice.draft").read_text("utf-8"), "bodice.draft").choices
TUNIC = read_draft((DRAFTS / "shirred_tunic.draft").read_text("utf-8"), "tunic.draft").choices
TYPED = {"title": "Garden apron", "tagline": "For mud", "description": "Two pockets.", "level": "confident"}


def by_name(fields):
    return {field.name: field for field in fields}


def chosen(field):
    return [option.value for option in field.options if option.chosen]


def desk(listing, *versions):
    rows = [VersionRow(each.number, MOMENT, None) for each in versions]
    return DraftHistory(listing, versions[0] if versions else None, rows)


# ---- a new design


def test_an_empty_form_asks_for_everything_a_listing_needs_and_tells_nothing_amiss():
    page = new_design_page("GBP")
    assert [field.name for field in page.fields] == ["title", "slug", "tagline", "description", "level", "price"]
    assert all(not field.value and not field.error for field in page.fields)
    assert by_name(page.fields)["price"].unit == "GBP"
    assert chosen(by_name(page.fields)["level"]) == [""]
    assert (page.action, page.errors) == ("/studio/new-design", ())
    assert (page.settles, page.settled, page.another) == ((), "", "")


def test_every_level_can_be_picked_in_words_and_the_one_picked_stays_picked():
    entry = read_design({"level": "practised"}, None, "EUR", 1)
    level = by_name(new_design_page("EUR", entry).fields)["level"]
    assert [option.value for option in level.options] == ["", *Level]
    assert [option.title for option in level.options] == [
        "choose", "Good for a first garment", "For a confident sewer", "For a practised sewer",
    ]  # fmt: skip
    assert chosen(level) == ["practised"]


def test_a_level_that_is_none_is_told_and_leaves_nothing_picked():
    entry = read_design({**TYPED, "level": "easy"}, None, "EUR", 1)
    level = by_name(new_design_page("EUR", entry).fields)["level"]
    assert level.error == "Choose how much sewing it asks for."
    assert chosen(level) == []


def test_what_was_typed_stands_in_its_field_with_what_is_amiss_beside_it():
    entry = read_design({**TYPED, "slug": "Garden Apron", "price": "much"}, None, "EUR", 1)
    page = new_design_page("EUR", entry)
    fields = by_name(page.fields)
    assert {name: fields[name].value for name in ("title", "tagline", "description", "price")} == {
        "title": "Garden apron", "tagline": "For mud", "description": "Two pockets.", "price": "much",
    }  # fmt: skip
    assert fields["slug"].value == "garden apron"
    assert fields["slug"].error.startswith("Write small letters from a to z")
    assert fields["price"].error == "This is not a price. Write it like 14 or 14.50."
    assert page.errors_title == "The design is not added yet"
    assert [(slip.field, slip.words) for slip in page.errors] == [
        ("slug", fields["slug"].error), ("price", fields["price"].error),
    ]  # fmt: skip


def test_every_slip_leads_to_a_field_that_is_on_the_page():
    entry = read_design({"description": "a" * 30_000, "tagline": "b\nc"}, None, "EUR", 1)
    page = new_design_page("EUR", entry)
    assert {slip.field for slip in page.errors} <= set(by_name(page.fields))


# ---- another design from one draft


def origin(listing=None, choices=CHOICES, number=3):
    return Origin(listing or a_listing(title="Wren apron", slug="wren-apron"), a_version(number, APRON), choices)


def test_the_form_of_another_design_says_whose_draft_and_which_version_it_takes():
    page = another_design_page(origin(), "EUR")
    assert page.lead.startswith("From the draft of Wren apron, version 3.")
    assert page.action == "/studio/listings/wren-apron/another"
    assert page.button == "Add it with this draft"
    assert "holds for every customer and is not asked" in page.settles_words
    assert [field.name for field in page.settles] == ["choice-length", "choice-gathering"]


def test_a_draft_without_choices_says_that_there_is_none_to_settle():
    page = another_design_page(origin(choices=()), "EUR")
    assert page.settles_words == "This draft has no choice to settle."
    assert page.settles == ()


def test_a_figure_to_settle_is_asked_in_centimetres_between_its_limits():
    length, gathering = another_design_page(origin(), "EUR").settles
    assert (length.label, length.unit, length.mode) == ("Length below the waist", "cm", "decimal")
    assert length.hint == "From 45 to 80 cm; empty, it is left to the customer."
    assert (gathering.unit, gathering.hint) == ("", "From 1.3 to 2; empty, it is left to the customer.")


def test_what_the_other_design_settles_stands_beside_the_field_and_is_not_taken_over():
    wren = a_listing(title="Wren apron", settled={"length": 625.0, "gathering": 1.5})
    length, gathering = settled_fields(CHOICES, wren, {}, {})
    assert length.hint.endswith("Wren apron settles it: 62.5 cm.")
    assert gathering.hint.endswith("Wren apron settles it: 1.5.")
    assert (length.value, gathering.value) == ("", "")


def test_a_yes_or_no_is_settled_by_three_ways():
    lined = by_name(settled_fields(TUNIC, a_listing(), {"choice-lined": "no"}, {}))["choice-lined"]
    assert [(option.value, option.title) for option in lined.options] == [
        ("", "leave it to the customer"), ("yes", "yes"), ("no", "no"),
    ]  # fmt: skip
    assert chosen(lined) == ["no"]


def test_options_are_told_as_words_and_one_that_is_not_offered_is_kept_in_sight():
    line = by_name(settled_fields(BODICE, a_listing(), {"choice-line": "wrap_over"}, {}))["choice-line"]
    assert [option.title for option in line.options] == [
        "leave it to the customer", "darted", "princess", "wrap over",
    ]  # fmt: skip
    assert chosen(line) == ["wrap_over"]


def test_a_choice_the_draft_lacks_has_a_field_to_let_it_go():
    entry = read_settled({"choice-big_pockets": "two", "choice-": "x"}, CHOICES)
    fields = by_name(settled_fields(CHOICES, a_listing(), entry.typed, entry.errors))
    pockets = fields["choice-big_pockets"]
    assert (pockets.label, pockets.kind) == ("Big pockets", "select")
    assert [option.value for option in pockets.options] == ["", "two"]
    assert "This draft has no choice “big_pockets”." in pockets.error
    assert fields["choice-"].error


def test_fields_that_settle_nothing_are_no_fields_of_this_part():
    entry = read_settled({"title": "x", "choices": "y", "choice-length": "   "}, CHOICES)
    assert (entry.typed, entry.errors, entry.values) == ({}, {}, {})


# ---- the words of a design that is there


def test_the_words_stand_as_they_are_kept_and_the_address_and_price_are_not_asked_again():
    listing = a_listing(title="Wren apron", tagline="For mud", description_md="Two pockets.", level=Level.PRACTISED)
    page = words_page(desk(listing))
    fields = by_name(page.fields)
    assert list(fields) == ["title", "tagline", "description", "level"]
    assert {name: fields[name].value for name in ("title", "tagline", "description")} == {
        "title": "Wren apron", "tagline": "For mud", "description": "Two pockets.",
    }  # fmt: skip
    assert chosen(fields["level"]) == ["practised"]
    assert (page.heading, page.action) == ("The words of Wren apron", "/studio/listings/linnet-apron/words")
    assert page.errors == ()


def test_words_that_were_not_saved_stand_as_typed_and_not_as_kept():
    listing = a_listing(title="Wren apron")
    entry = read_design({"title": "", "tagline": "new", "level": "confident"}, listing, "EUR", 1)
    page = words_page(desk(listing), entry)
    fields = by_name(page.fields)
    assert (fields["title"].value, fields["tagline"].value) == ("", "new")
    assert page.errors_title == "The words are not saved yet"
    assert [slip.field for slip in page.errors] == ["title"]
    assert page.heading == "The words of Wren apron", "the design keeps the name it has"


def test_another_design_is_made_only_where_there_is_a_draft_to_make_it_from():
    version = a_version()
    assert words_page(desk(a_listing())).another == ""
    assert words_page(desk(a_listing(), version)).another == "/studio/listings/linnet-apron/another"


# ---- what is settled, in words


@pytest.mark.parametrize(
    ("settled", "choices", "words"),
    [
        ({}, CHOICES, ""),
        ({"length": 620.0}, CHOICES, "Settled: length 62 cm"),
        ({"length": 620.0, "gathering": 1.5}, CHOICES, "Settled: gathering 1.5, length 62 cm"),
        ({"lined": True}, TUNIC, "Settled: lined yes"),
        ({"lined": False}, TUNIC, "Settled: lined no"),
        ({"line": "princess"}, BODICE, "Settled: line princess"),
        # A draft that cannot be read does not say whether a figure is a length: it is not guessed at.
        ({"length": 620.0, "lined": True, "line": "wrap_over"}, (), "Settled: length, line wrap over, lined yes"),
    ],
)
def test_what_is_settled_is_said_by_the_kind_of_its_choice(settled, choices, words):
    assert settled_words(a_listing(settled=settled), choices) == words


def test_an_entry_without_errors_shows_none():
    page = new_design_page("EUR", DesignEntry(TYPED, {}))
    assert page.errors == ()
    assert not any(field.error for field in page.fields)
