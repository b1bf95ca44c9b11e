"""The question whether both sides are alike: asked where it matters, kept, shown again, and told in the review."""

from __future__ import annotations

import re

import pytest

from app.packs.sides import ALIKE, Sides
from app.pattern.units import Unit
from app.shop.orders.measure.form import blank, check, length_fields
from app.shop.orders.measure.sides_form import by_field, kept_sides, read_sides, side_fields, side_lengths, with_sides
from app.shop.orders.measure.typed import TypedForm
from app.shop.orders.measure.view import measure_page
from tests.shop.orders.measure.test_form import card_of, filled
from tests.shop.orders.measure.test_page import FORM, MEASURES
from tests.shop.orders.measure.test_view import CHILD
from tests.shop.unsaved import a_listing

BODICE = ("bust_girth", "shoulder_length", "hip_girth")
SKIRT = ("waist_girth", "hip_girth", "waist_to_hip")


def sent(unit=Unit.CM, **texts):
    return TypedForm({name.replace("_", "-"): text for name, text in texts.items()}, unit)


@pytest.mark.parametrize(
    ("needs", "asked"),
    [
        (BODICE, ["sides-shoulder", "sides-shoulder-by", "sides-hip", "sides-hip-by"]),
        (SKIRT, ["sides-hip", "sides-hip-by"]),
        (("head_girth",), []),
    ],
)
def test_only_what_matters_to_the_design_is_asked(needs, asked):
    assert [field.name for field in side_fields(needs, sent(), {})] == asked
    assert list(side_lengths(needs)) == asked[1::2]


def test_nothing_answered_is_nothing_kept():
    errors = {}
    assert read_sides(BODICE, sent(), errors) == {}
    assert errors == {}
    assert kept_sides({}) == ALIKE


def test_an_answer_is_kept_in_mm_and_read_back():
    errors = {}
    kept = read_sides(BODICE, sent(sides_shoulder="left", sides_shoulder_by="1,5"), errors)
    assert errors == {}
    assert kept == {"sides-shoulder": "left", "sides-shoulder-by": "15.0mm"}
    assert kept_sides({"bust_girth": "96", **kept}) == Sides("left", 15.0)


def test_an_answer_in_inches_is_the_same_length():
    kept = read_sides(SKIRT, sent(Unit.INCH, sides_hip="right", sides_hip_by="1/2"), {})
    assert kept_sides(kept) == Sides("", 0.0, "right", 12.7)


@pytest.mark.parametrize(
    ("texts", "field", "words"),
    [
        ({"sides_shoulder": "left"}, "sides-shoulder-by", "say by how much it is lower"),
        ({"sides_shoulder_by": "2"}, "sides-shoulder", "say which side is lower"),
        ({"sides_shoulder": "up", "sides_shoulder_by": "2"}, "sides-shoulder", "choose one of the list"),
        ({"sides_shoulder": "left", "sides_shoulder_by": "much"}, "sides-shoulder-by", "is not a length"),
        ({"sides_shoulder": "left", "sides_shoulder_by": "0.1"}, "sides-shoulder-by", "5 mm to 8 cm"),
        ({"sides_shoulder": "left", "sides_shoulder_by": "15"}, "sides-shoulder-by", "ask the designer"),
        ({"sides_hip": "right"}, "sides-hip-by", "say by how much it is higher"),
    ],
)
def test_half_an_answer_or_a_slip_is_told_at_its_field(texts, field, words):
    errors = {}
    read_sides(BODICE, sent(**texts), errors)
    assert list(errors) == [field]
    assert words in errors[field]
    shown = next(one for one in side_fields(BODICE, sent(**texts), errors) if one.name == field)
    assert shown.error == errors[field]


def test_an_answer_to_a_question_that_is_not_asked_is_left_out():
    errors = {}
    assert read_sides(("head_girth",), sent(sides_hip="right", sides_hip_by="2"), errors) == {}
    assert errors == {}


def test_a_form_opened_again_shows_the_answer():
    again = with_sides(sent(), Sides("right", 12.0, "left", 20.0))
    assert (again.text("sides-shoulder"), again.text(by_field("sides-shoulder"))) == ("right", "1.2")
    assert kept_sides(read_sides(BODICE, again, {})) == Sides("right", 12.0, "left", 20.0)
    assert with_sides(sent(), ALIKE).texts == {}


def test_the_lengths_follow_a_change_of_unit():
    card = card_of("set_in_blouse")
    assert {"sides-shoulder-by", "sides-hip-by"} <= set(length_fields(card))
    turned = with_sides(filled(card), Sides("left", 25.4)).in_unit(length_fields(card), Unit.INCH)
    assert turned.text("sides-shoulder-by") == "1"


def test_an_entry_keeps_the_sides_beside_what_was_typed():
    card = card_of("set_in_blouse")
    checked = check(card, with_sides(filled(card), Sides("left", 15.0)))
    assert checked.errors == {}
    assert kept_sides(checked.entry.entered) == Sides("left", 15.0)
    assert set(checked.entry.measurements) == set(card.needs)


def test_the_part_is_closed_until_something_is_answered_or_wrong():
    card, listing = card_of("set_in_blouse"), a_listing(slug="blouse", title="Blouse")
    plain = filled(card)
    assert not measure_page(listing, card, plain).sides_open
    assert measure_page(listing, card, with_sides(plain, Sides("left", 15.0))).sides_open
    half = TypedForm({**plain.texts, "sides-shoulder-by": "2"}, plain.unit)
    assert measure_page(listing, card, half, check(card, half)).sides_open


def test_a_childs_form_says_that_a_child_grows_and_calls_the_bust_a_chest():
    shown = measure_page(a_listing(slug="p", title="P"), CHILD, blank(CHILD, {}, Unit.CM))
    assert "children grow" in shown.measures_intro
    assert "Chest girth" in [field.label for field in shown.measures]
    grown = card_of("set_in_blouse")
    assert "underwear" in measure_page(a_listing(slug="b", title="B"), grown, filled(grown)).measures_intro


# ---- through the pages


def test_unlike_sides_are_told_in_the_review_and_stay_in_the_form(visitor, fitted):
    form = visitor.get(FORM)
    assert "Are the two sides alike?" in form.words
    assert "drawn the same on both sides" in form.words
    assert "Your two sides" not in fitted.words
    review = visitor.submit(form, to=FORM, **MEASURES, **{"sides-hip": "right", "sides-hip-by": "1.5"})
    assert "The right hip is 1.5 cm higher" in review.words
    assert "Higher hip, right" in review.words
    again = visitor.get(re.search(r"/fittings/[^/\"]+/edit", review.html)[0])
    assert again.form(FORM)["sides-hip-by"] == "1.5"
    assert again.form(FORM)["sides-hip"] == "right"
