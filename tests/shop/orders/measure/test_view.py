"""The measurement form as she sees it: blank, filled from a size, with slips, with doubts, in either unit."""

from dataclasses import replace

import pytest

from app.packs.request import Cloth
from app.pattern.body import MEASURES, SIZES
from app.pattern.body.sizes import sizes_for
from app.pattern.body.wording import measures_for
from app.pattern.make import Choice, read_draft
from app.pattern.units import Unit
from app.shop.orders.measure.form import (
    after_button,
    blank,
    check,
    cloth_field,
    measure_field,
    read_choice,
    reopened,
)
from app.shop.orders.measure.typed import TypedForm, exact_field
from app.shop.orders.measure.view import measure_page
from tests.places import DRAFTS
from tests.shop.unsaved import a_fitting, a_listing, a_version


def text_of(name):
    return (DRAFTS / f"{name}.draft").read_text("utf-8")


CARDS = {
    name: read_draft(text_of(name), f"{name}.draft")
    for name in ("gore_skirt", "shirred_tunic", "childs_pinafore", "set_in_blouse")
}
SKIRT, TUNIC, CHILD = CARDS["gore_skirt"], CARDS["shirred_tunic"], CARDS["childs_pinafore"]
LISTING = a_listing(slug="skirt", title="Skirt")


def page(card, sent, checked=None):
    return measure_page(LISTING, card, sent, *([checked] if checked is not None else []))


def filled(card, size="92", unit=Unit.CM):
    sent = blank(card, {}, unit)
    return after_button(card, TypedForm({**sent.texts, "action": "size", "size": size}, unit))


def typed(sent, **fields):
    return TypedForm({**sent.texts, **{name.replace("_", "-", 1): text for name, text in fields.items()}}, sent.unit)


def by_name(fields):
    return {field.name: field for field in fields}


# ---- blank


@pytest.mark.parametrize("card", CARDS.values(), ids=CARDS)
def test_a_blank_form_asks_for_each_measurement_with_its_figure_and_nothing_is_amiss(card):
    shown = page(card, blank(card, {}, Unit.CM))
    assert [field.name for field in shown.measures] == [measure_field(name) for name in card.needs]
    for field, name in zip(shown.measures, card.needs, strict=True):
        assert (field.label, field.value, field.error, field.from_size) == (
            measures_for(card.group)[name].title,
            "",
            "",
            "",
        )
        assert field.figure == f"figures/{MEASURES[name].figure}"
        assert field.described == f"{field.name}-how"
        assert field.how.startswith(measures_for(card.group)[name].definition)
    assert (shown.errors, shown.asks) == ((), ())
    assert not shown.prints_open


def test_the_unit_decides_what_is_chosen_and_which_keyboard_comes_up():
    cm, inches = (page(SKIRT, blank(SKIRT, {}, unit)) for unit in Unit)
    assert (cm.unit, cm.mode, inches.unit, inches.mode) == ("cm", "decimal", "in", "text")
    assert [(unit.value, unit.chosen) for unit in inches.units] == [("cm", False), ("in", True)]
    assert by_name(cm.cloths[0].fields)["cloth-main-width"].mode == "decimal"
    assert by_name(inches.cloths[0].fields)["cloth-main-width"].mode == "text"


def test_the_sizes_offered_are_those_of_whom_the_design_is_for():
    sizes = page(SKIRT, blank(SKIRT, {}, Unit.CM)).sizes
    assert [size.value for size in sizes] == list(SIZES)
    assert [size.value for size in sizes if size.chosen] == ["92"]
    child = page(CHILD, blank(CHILD, {}, Unit.CM))
    assert [size.value for size in child.sizes] == ["104", "110", "116", "122", "128", "134", "140"]
    assert [size.value for size in child.sizes if size.chosen] == ["116"]
    assert child.sizes_hint.startswith("By height")
    man = page(replace(SKIRT, group="men"), blank(SKIRT, {}, Unit.CM))
    assert [size.value for size in man.sizes] == ["S", "M", "L", "XL", "XXL"]
    assert "S 90, M 98" in man.sizes_hint


@pytest.mark.parametrize(("card", "size"), [(CHILD, "116"), (replace(SKIRT, group="men"), "L")])
def test_a_size_fills_the_form_of_a_child_or_a_man_and_nothing_is_doubted(card, size):
    sent = after_button(card, TypedForm({**blank(card, {}, Unit.CM).texts, "action": "size", "size": size}, Unit.CM))
    checked = check(card, sent)
    assert (checked.errors, checked.doubts) == ({}, ())
    assert checked.entry.measurements == {name: sizes_for(card.group, card.statures)[size][name] for name in card.needs}
    assert all(field.from_size == f"As in size {size}: put in your own." for field in page(card, sent).measures)


def test_cloth_begins_as_the_designer_suggests_it():
    suggested = {"main": Cloth(1500.0, folded=False, one_way=True)}
    cloth = page(SKIRT, blank(SKIRT, suggested, Unit.CM)).cloths[0]
    fields = by_name(cloth.fields)
    assert fields["cloth-main-width"].value == "150"
    assert [option.value for option in fields["cloth-main-lay"].options if option.chosen] == ["open"]
    assert fields["cloth-main-oneway"].ticked


def test_every_kind_of_choice_has_a_field_of_its_kind():
    choices = by_name(page(TUNIC, blank(TUNIC, {}, Unit.CM)).choices)
    for choice in TUNIC.choices:
        field = choices[f"choice-{choice.name}"]
        assert field.label == choice.title
        if choice.kind == "yesno":
            assert (field.kind, field.ticked) == ("tick", choice.default is True)
        elif choice.kind == "option":
            assert [option.value for option in field.options] == list(choice.options)
        else:
            assert field.hint.startswith("From ")
            assert field.unit == ("cm" if choice.kind == "length" else "")


def test_the_exact_lengths_behind_choices_and_cloth_go_along_unseen():
    sent = blank(SKIRT, {}, Unit.INCH)
    hidden = {option.value: option.title for option in page(SKIRT, sent).hidden}
    width = exact_field(cloth_field("main", "width"))
    assert width in hidden
    assert hidden[width] == sent.texts[width]
    assert not any(name.startswith("kept-measure") for name in hidden), "those stand beside their own fields"


# ---- filled from a size


def test_a_field_filled_from_a_size_says_so_until_it_is_typed_over():
    sent = filled(SKIRT)
    shown = by_name(page(SKIRT, sent).measures)
    waist = shown["measure-waist_girth"]
    assert waist.from_size == "As in size 92: put in your own."
    assert waist.described == "measure-waist_girth-from measure-waist_girth-how"
    mine = by_name(page(SKIRT, typed(sent, measure_waist_girth="77")).measures)["measure-waist_girth"]
    assert (mine.from_size, mine.value) == ("", "77")


def test_a_size_fills_nothing_that_was_typed_and_another_size_replaces_the_first():
    sent = typed(blank(SKIRT, {}, Unit.CM), measure_hip_girth="105")
    sent = after_button(SKIRT, TypedForm({**sent.texts, "action": "size", "size": "92"}, Unit.CM))
    again = after_button(SKIRT, TypedForm({**sent.texts, "size": "110"}, Unit.CM))
    assert again.texts["measure-hip_girth"] == "105"
    assert again.texts["measure-waist_girth"] != sent.texts["measure-waist_girth"]


def test_a_size_that_is_none_leaves_the_form_as_it_is():
    sent = blank(SKIRT, {}, Unit.CM)
    for size in ("", "7", "92 ", "size 92"):
        odd = TypedForm({**sent.texts, "action": "size", "size": size}, Unit.CM)
        assert after_button(SKIRT, odd) is odd


# ---- slips


def test_every_slip_leads_to_its_field_and_is_counted():
    sent = typed(filled(SKIRT), measure_waist_girth="", measure_hip_girth="much")
    checked = check(SKIRT, sent)
    shown = page(SKIRT, sent, checked)
    assert shown.errors_title == "Please look at 2 entries"
    assert {slip.field for slip in shown.errors} == {"measure-waist_girth", "measure-hip_girth"}
    hip = by_name(shown.measures)["measure-hip_girth"]
    assert hip.value == "much"
    assert "is not a length" in hip.error
    assert hip.described == "measure-hip_girth-error measure-hip_girth-how"


def test_one_slip_is_one_entry():
    sent = typed(filled(SKIRT), measure_waist_girth="")
    assert page(SKIRT, sent, check(SKIRT, sent)).errors_title == "Please look at 1 entry"


@pytest.mark.parametrize(
    ("width", "said"),
    [
        ("", "Width of the cloth: Nothing was entered."),
        ("wide", "Width of the cloth: “wide” is not a length."),
        ("29.9", "Cloth is 30 cm to 320 cm wide."),
        ("320.1", "Cloth is 30 cm to 320 cm wide."),
        ("30", ""),
        ("320", ""),
    ],
)
def test_cloth_that_is_none_is_told_with_what_cloth_is(width, said):
    sent = TypedForm({**filled(SKIRT).texts, "cloth-main-width": width}, Unit.CM)
    checked = check(SKIRT, sent)
    assert checked.errors.get("cloth-main-width", "").startswith(said)
    assert (checked.entry is None) == bool(said)
    shown = by_name(page(SKIRT, sent, checked).cloths[0].fields)["cloth-main-width"]
    assert shown.error.startswith(said)


LENGTH = Choice("length", "Length", "length", 600.0, 450.0, 800.0)
NUMBER = Choice("gathering", "Fullness", "number", 1.6, 1.3, 2.0)
OPTION = Choice("collar", "Collar", "option", "stand", options=("stand", "flat"))
OPEN = Choice("drop", "Drop", "length", 600.0)


@pytest.mark.parametrize(
    ("choice", "text", "unit", "value", "error"),
    [
        (LENGTH, "62,5", Unit.CM, 625.0, ""),
        (LENGTH, "20", Unit.INCH, 508.0, ""),
        # 45 cm are shown as 17 3/4 in, which is a millimetre more: it is taken as the bound itself.
        (LENGTH, "17 3/4", Unit.INCH, 450.85, ""),
        (LENGTH, "31 1/2", Unit.INCH, 800.0, ""),
        (LENGTH, "44", Unit.CM, 450.0, "Length: choose from 45 to 80 cm."),
        (LENGTH, "81", Unit.CM, 800.0, "Length: choose from 45 to 80 cm."),
        (LENGTH, "32", Unit.INCH, 800.0, "Length: choose from 17 3/4 to 31 1/2 in."),
        (LENGTH, "", Unit.CM, 600.0, "Length: Nothing was entered."),
        (LENGTH, "long", Unit.CM, 600.0, "Length: “long” is not a length. Write it like 96.5 or 38 1/2."),
        (OPEN, "999", Unit.CM, 9990.0, ""),
        (NUMBER, "1,5", Unit.CM, 1.5, ""),
        (NUMBER, " 2 ", Unit.INCH, 2.0, ""),
        (NUMBER, "2.01", Unit.CM, 2.0, "Fullness: choose from 1.3 to 2."),
        (NUMBER, "nan", Unit.CM, 1.6, "Fullness: “nan” is not a number. Write it like 2 or 1.5."),
        (NUMBER, "inf", Unit.CM, 1.6, "Fullness: “inf” is not a number. Write it like 2 or 1.5."),
        (NUMBER, "", Unit.CM, 1.6, "Fullness: “” is not a number. Write it like 2 or 1.5."),
        (OPTION, "flat", Unit.CM, "flat", ""),
        (OPTION, "", Unit.CM, "", "Collar: choose one of the list."),
        (OPTION, "Flat", Unit.CM, "Flat", "Collar: choose one of the list."),
    ],
)
def test_a_choice_is_read_within_its_bounds_or_told_between_what_one_chooses(choice, text, unit, value, error):
    errors = {}
    found = read_choice(choice, TypedForm({f"choice-{choice.name}": text}, unit), errors)
    assert found == (pytest.approx(value) if isinstance(value, float) else value)
    assert errors == ({f"choice-{choice.name}": error} if error else {})


# ---- a child of another age


@pytest.mark.parametrize(
    ("stature", "told"),
    [("70", True), ("99", True), ("103.9", True), ("104", False), ("140", False), ("141", True), ("tall", False)],
)
def test_a_child_the_design_is_not_drawn_for_is_told_its_heights(stature, told):
    assert CHILD.statures == (1040.0, 1400.0)
    sent = TypedForm({**blank(CHILD, {}, Unit.CM).texts, measure_field("stature"): stature}, Unit.CM)
    error = check(CHILD, sent).errors.get("measure-stature", "")
    said = "This design is drawn for children from 104 cm to 140 cm tall. Check the height, or choose another design."
    assert (error == said) is told
    inches = TypedForm({**blank(CHILD, {}, Unit.INCH).texts, measure_field("stature"): "60"}, Unit.INCH)
    assert "from 41 in to 55 1/8 in tall" in check(CHILD, inches).errors["measure-stature"]


# ---- doubts


def test_a_doubt_is_asked_about_beside_its_field_until_it_is_ticked():
    odd = typed(filled(SKIRT), measure_waist_girth="114")
    checked = check(SKIRT, odd)
    shown = page(SKIRT, odd, checked)
    assert shown.errors == ()
    assert shown.asks_title == "Please measure 1 place once more"
    waist = by_name(shown.measures)["measure-waist_girth"]
    [doubt] = [each for field in shown.measures for each in field.doubts]
    assert doubt.field in {ask.field for ask in shown.asks}
    assert not doubt.ticked
    assert waist.error == ""
    sure = TypedForm({**odd.texts, doubt.id: doubt.value}, Unit.CM)
    ticked = page(SKIRT, sure, check(SKIRT, sure))
    assert ticked.asks == ()
    assert [each.ticked for field in ticked.measures for each in field.doubts] == [True]


# ---- printing and opening again


def test_unusual_printing_is_seen_and_usual_printing_is_folded_away():
    usual = filled(SKIRT)
    assert not page(SKIRT, usual, check(SKIRT, usual)).prints_open
    unusual = TypedForm({**usual.texts, "print-join": "butt"}, Unit.CM)
    assert page(SKIRT, unusual, check(SKIRT, unusual)).prints_open
    wrong = TypedForm({**usual.texts, "print-margin": "9", exact_field("print-margin"): ""}, Unit.CM)
    assert page(SKIRT, wrong, check(SKIRT, wrong)).prints_open


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize("card", [card for card in CARDS.values() if card is not CHILD], ids=lambda card: card.title)
def test_a_saved_form_opens_again_just_as_it_was_sent(card, unit):
    sent = filled(card, "104", unit)
    entry = check(card, sent).entry
    fitting = a_fitting(
        a_version(1, text_of("gore_skirt")),
        entered=dict(entry.entered),
        measurements=dict(entry.measurements),
        choices=dict(entry.choices),
        unit=entry.unit,
        paper=entry.paper,
        cloths={
            name: {"width_mm": each.width, "folded": each.folded, "one_way": each.one_way}
            for name, each in entry.cloths.items()
        },
        confirmed=list(entry.confirmed),
    )
    again = check(card, reopened(card, {}, fitting)).entry
    assert again == entry


def test_a_choice_that_is_new_since_then_opens_at_the_designers_value():
    fitting = a_fitting(measurements={}, entered={}, cloths={}, choices={})
    again = reopened(TUNIC, {}, fitting)
    fresh = blank(TUNIC, {}, Unit.CM)
    for choice in TUNIC.choices:
        assert again.texts[f"choice-{choice.name}"] == fresh.texts[f"choice-{choice.name}"]


@pytest.mark.parametrize("unit", [Unit.CM, Unit.INCH])
def test_a_choice_that_may_shorten_takes_a_minus_and_keeps_it_through_a_change_of_unit(unit):
    longer = next(choice for choice in CHILD.choices if choice.name == "longer")
    sent = typed(blank(CHILD, {}, Unit.CM), choice_longer="-5").in_unit(("choice-longer",), unit)
    errors = {}
    assert read_choice(longer, sent, errors) == pytest.approx(-50.0, abs=1.6)
    assert errors == {}
    read_choice(longer, typed(blank(CHILD, {}, Unit.CM), choice_longer="-9"), errors)
    assert "choose from" in errors["choice-longer"]
