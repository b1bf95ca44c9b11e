"""Lengths typed into a form survive a change of unit and cannot be forged by its hidden fields."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.units import LengthError, Unit, read_length, show_length
from app.shop.orders.measure.typed import ROUNDING, ExactLength, TypedForm, exact_field

LENGTHS = st.floats(1.0, 4000.0).map(lambda mm: round(mm, 1))


@given(LENGTHS, st.sampled_from(list(Unit)))
def test_a_length_written_by_the_form_is_read_back_exactly(mm, unit):
    assert TypedForm({}, unit).with_length("waist", mm).length("waist") == mm


@given(LENGTHS, st.lists(st.sampled_from(list(Unit)), max_size=6))
def test_no_number_of_unit_changes_moves_a_length(mm, units):
    sent = TypedForm({}, Unit.CM).with_length("waist", mm)
    for unit in units:
        sent = sent.in_unit(("waist",), unit)
    assert sent.length("waist") == mm
    assert sent.text("waist") == show_length(mm, sent.unit, named=False)


@given(LENGTHS, LENGTHS)
def test_what_the_person_types_over_it_wins(first, second):
    sent = TypedForm({}, Unit.CM).with_length("waist", first)
    typed = TypedForm({**sent.texts, "waist": f"{second / 10:.2f} "}, Unit.CM)
    assert typed.length("waist") == pytest.approx(second, abs=1e-6)


@given(LENGTHS, st.floats(allow_nan=True, allow_infinity=True))
def test_a_forged_hidden_length_moves_the_text_by_no_more_than_its_rounding(mm, forged):
    text = show_length(mm, Unit.CM, named=False)
    sent = TypedForm(
        {"waist": text, exact_field("waist"): ExactLength(forged, "typed", text).as_hidden_field()}, Unit.CM
    )
    assert abs(sent.length("waist") - read_length(text, Unit.CM)) <= ROUNDING
    assert sent.length("waist") >= 0.0


@given(st.text(max_size=60), st.text(max_size=60))
def test_no_text_breaks_the_reading(text, hidden):
    sent = TypedForm({"waist": text, exact_field("waist"): hidden}, Unit.INCH)
    try:
        assert sent.length("waist") >= 0 or text.strip()[0] in "-−–"
    except LengthError as error:
        assert str(error)
    assert sent.in_unit(("waist",), Unit.CM).unit is Unit.CM


def test_what_cannot_be_read_is_left_alone_by_a_change_of_unit():
    sent = TypedForm({"waist": "about 80", "hip": "100"}, Unit.CM).in_unit(("waist", "hip"), Unit.INCH)
    assert sent.text("waist") == "about 80"
    assert sent.text("hip") == "39 3/8"


def test_a_length_with_its_own_unit_is_taken_at_its_word():
    assert TypedForm({"waist": "38 1/2 in"}, Unit.CM).length("waist") == pytest.approx(977.9)


def test_an_entry_is_exact_where_known_and_as_typed_otherwise():
    assert TypedForm({}, Unit.INCH).with_length("waist", 970.0).length_or_text("waist") == 970.0
    assert TypedForm({"waist": "38"}, Unit.INCH).length_or_text("waist") == "38"
    assert TypedForm({}, Unit.INCH).length_or_text("waist") == ""


def test_where_a_length_came_from_is_remembered_until_it_is_typed_over():
    sent = TypedForm({}, Unit.CM).with_length("waist", 760.0, "92").in_unit(("waist",), Unit.INCH)
    kept = sent.exact("waist")
    assert kept is not None
    assert kept.origin == "92"
    assert TypedForm({**sent.texts, "waist": "31"}, Unit.INCH).exact("waist") is None
