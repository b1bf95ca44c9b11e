"""The measurement form read and checked: whatever is sent is answered, and what is right becomes an entry."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.body import MEASURES, SIZES, size_body
from app.pattern.make import read_draft
from app.pattern.pieces.model import Cloth
from app.pattern.units import Unit
from app.shop.orders.measure.form import (
    CheckedForm,
    after_button,
    blank,
    check,
    choice_field,
    cloth_field,
    measure_field,
    read_sent,
)
from app.shop.orders.measure.typed import TypedForm
from tests.places import DRAFTS

NAMES = ("gore_skirt", "shirred_tunic", "set_in_blouse")


def card_of(name):
    return read_draft((DRAFTS / f"{name}.draft").read_text(), f"{name}.draft")


def filled(card, size="92", unit=Unit.CM):
    sent = blank(card, {}, unit)
    return after_button(card, TypedForm({**sent.texts, "action": "size", "size": size}, unit))


def fields_of(card):
    choices = [choice_field(choice.name) for choice in card.choices]
    cloths = [
        cloth_field(fabric, part) for fabric, _title, _width in card.fabrics for part in ("width", "lay", "oneway")
    ]
    return [
        *choices,
        *(measure_field(name) for name in card.needs),
        *cloths,
        "paper",
        "print-margin",
        "print-join",
        "print-roll",
    ]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("unit", list(Unit))
def test_the_form_of_every_design_filled_from_a_size_becomes_an_entry(name, unit):
    card = card_of(name)
    checked = check(card, filled(card, unit=unit))
    assert checked.errors == {}
    assert checked.doubts == ()
    entry = checked.entry
    assert entry.measurements == {need: size_body("92")[need] for need in card.needs}
    assert entry.unit == unit
    assert entry.choices == {choice.name: choice.default for choice in card.choices}
    assert set(entry.cloths) == {fabric for fabric, _title, _width in card.fabrics}


@pytest.mark.parametrize("size", list(SIZES))
def test_no_size_of_the_chart_raises_a_doubt(size):
    card = card_of("set_in_blouse")
    assert check(card, filled(card, size)).entry is not None


def test_the_first_form_offers_the_paper_of_the_readers_side_of_the_world():
    card = card_of("gore_skirt")
    assert blank(card, {}, Unit.CM).texts["paper"] == "a4"
    assert blank(card, {}, Unit.INCH).texts["paper"] == "letter"


def test_the_designers_cloth_is_suggested_where_it_is_known():
    card = card_of("gore_skirt")
    sent = blank(card, {"main": Cloth(1120.0, folded=False, one_way=True)}, Unit.CM)
    assert sent.text(cloth_field("main", "width")) == "112"
    assert sent.texts[cloth_field("main", "lay")] == "open"
    assert sent.texts[cloth_field("main", "oneway")] == "yes"
    assert sent.text(cloth_field("interfacing", "width")) == "90"


def test_only_a_helper_button_changes_the_form():
    card = card_of("gore_skirt")
    sent = blank(card, {}, Unit.CM)
    assert after_button(card, sent) is None
    assert after_button(card, TypedForm({**sent.texts, "action": "check"}, Unit.CM)) is None
    assert after_button(card, TypedForm({**sent.texts, "action": "in"}, Unit.CM)).unit is Unit.INCH


def test_the_unit_comes_from_the_form_and_anything_else_is_centimetres():
    assert read_sent({"unit": "in"}).unit is Unit.INCH
    assert read_sent({"unit": "furlong"}).unit is Unit.CM
    assert read_sent({}).unit is Unit.CM


def test_all_slips_are_told_at_once():
    card = card_of("shirred_tunic")
    texts = {**blank(card, {}, Unit.CM).texts, "choice-length": "long", "cloth-main-width": "", "paper": ""}
    errors = check(card, TypedForm(texts, Unit.CM)).errors
    assert set(errors) == {"choice-length", "cloth-main-width", "paper", *(measure_field(name) for name in card.needs)}


def test_a_yes_or_no_left_open_is_no():
    card = card_of("shirred_tunic")
    sent = filled(card)
    assert check(card, sent).entry.choices["lined"] is True
    without = {name: text for name, text in sent.texts.items() if name != "choice-lined"}
    assert check(card, TypedForm(without, Unit.CM)).entry.choices["lined"] is False


def test_a_doubt_names_the_number_it_is_about_and_a_tick_for_another_number_does_not_count():
    card = card_of("gore_skirt")
    sent = filled(card)
    odd = TypedForm({**sent.texts, "measure-waist_girth": "114"}, Unit.CM)
    first = check(card, odd)
    assert first.entry is None
    assert first.errors == {}
    ticks = {doubt.id: doubt.value for doubt in first.doubts}
    sure = check(card, TypedForm({**odd.texts, **ticks}, Unit.CM))
    assert sure.entry is not None
    assert sure.entry.confirmed == tuple(f"{name}={value}" for name, value in ticks.items())
    other = check(card, TypedForm({**odd.texts, **ticks, "measure-waist_girth": "116"}, Unit.CM))
    assert other.entry is None


TEXTS = st.one_of(
    st.text(max_size=30), st.sampled_from(["", "92", "36 1/4", "1e9", "nan", "inf", "-5", "0", "½", "yes"])
)


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(NAMES), st.data())
def test_whatever_is_sent_is_answered_with_an_entry_or_with_words_at_fields_that_exist(name, data):
    card = card_of(name)
    fields = fields_of(card)
    chosen = data.draw(st.dictionaries(st.sampled_from(fields), TEXTS, max_size=12))
    kept = data.draw(st.dictionaries(st.sampled_from([f"kept-{field}" for field in fields]), TEXTS, max_size=6))
    action = data.draw(st.sampled_from(["", "check", "cm", "in", "size", "other"]))
    sent = read_sent({**filled(card).texts, **chosen, **kept, "action": action, "unit": data.draw(TEXTS)})
    assert isinstance(after_button(card, sent), TypedForm | None)
    checked = check(card, sent)
    assert isinstance(checked, CheckedForm)
    assert set(checked.errors) <= set(fields)
    assert all(checked.errors.values())
    assert {doubt.field for doubt in checked.doubts} <= {measure_field(need) for need in MEASURES}
    if checked.entry is not None:
        for choice in card.choices:
            if choice.least is not None and choice.most is not None:
                assert choice.least <= checked.entry.choices[choice.name] <= choice.most
        for need, mm in checked.entry.measurements.items():
            least, most = MEASURES[need].hard
            assert least <= mm <= most
