"""Reading what a customer typed: every entry kept, every slip explained."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.body import MEASURES, check_body, size_body
from app.pattern.body.measures import ALSO_CALLED
from app.pattern.problem import Place, Severity
from app.pattern.units import Unit, show_length


def only(checked):
    """The one problem of a check."""
    assert len(checked.problems) == 1, [str(p) for p in checked.problems]
    return checked.problems[0]


@pytest.mark.parametrize(
    ("typed", "unit", "mm"),
    [
        ("38 1/2", Unit.INCH, 977.9),
        ("38.5", Unit.INCH, 977.9),
        ("97,8", Unit.CM, 978.0),
        ("96.5cm", Unit.INCH, 965.0),
        ("38 1/2 in", Unit.CM, 977.9),
        ("38½", Unit.INCH, 977.9),
        (965.0, Unit.CM, 965.0),
    ],
)
def test_entries_are_read_in_the_customers_unit_unless_they_name_their_own(typed, unit, mm):
    checked = check_body({"bust_girth": typed}, ["bust_girth"], unit)
    assert checked.body == {"bust_girth": pytest.approx(mm)}
    assert checked.usable and not checked.problems


def test_an_empty_form_names_each_needed_measure():
    checked = check_body({"waist_girth": "  "}, ["bust_girth", "waist_girth"], Unit.CM)
    assert [p.code for p in checked.problems] == ["body.missing", "body.missing"]
    assert [p.where for p in checked.problems] == [Place(point="bust_girth"), Place(point="waist_girth")]
    assert checked.problems[0].message == "Bust girth is needed for this pattern."
    assert "centimetres" in checked.problems[0].fix
    assert not checked.usable


def test_an_empty_field_that_is_not_needed_is_no_problem():
    assert check_body({"bust_girth": "92", "head_girth": ""}, ["bust_girth"], Unit.CM).problems == ()


def test_an_unreadable_entry_shows_what_was_typed_and_an_example():
    problem = only(check_body({"hip_girth": "about 100"}, ["hip_girth"], Unit.CM))
    assert problem.code == "body.unreadable"
    assert "“about 100”" in problem.message
    assert problem.fix == "Write the hip girth as a number, such as 108 cm."


@pytest.mark.parametrize("typed", ["5'6", "5 ft 6 in", "5’ 6”", "5ft6"])
def test_a_height_in_feet_is_turned_into_inches_for_the_customer(typed):
    problem = only(check_body({"stature": typed}, [], Unit.INCH))
    assert problem.code == "body.unreadable"
    assert problem.fix.endswith("is 66 in.")


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_number_that_is_none_is_unreadable(value):
    checked = check_body({"bust_girth": value}, [], Unit.CM)
    assert only(checked).code == "body.unreadable"
    assert checked.body == {}


@pytest.mark.parametrize(
    ("name", "typed", "unit", "first_words", "meant"),
    [
        ("bust_girth", "38", Unit.CM, "Was the tape in inches?", "96.5 cm"),
        ("bust_girth", "48.5", Unit.CM, "Is this half of it?", "97 cm"),
        ("bust_girth", "965", Unit.CM, "Is the decimal point missing?", "96.5 cm"),
        ("bust_girth", "9.65", Unit.CM, "Has the decimal point slipped?", "96.5 cm"),
        ("bust_girth", "96.5", Unit.INCH, "Was the tape in centimetres?", "38 in"),
        ("stature", "65", Unit.CM, "Was the tape in inches?", "165.1 cm"),
        ("stature", "1.65", Unit.CM, "Is it in metres? 1.65 m", "165 cm"),
        ("stature", "7", Unit.CM, "Measure once more", "148 to 195 cm"),
        ("wrist_girth", "2.25", Unit.INCH, "Is this half of it?", "4 1/2 in"),
    ],
)
def test_an_entry_out_of_range_is_refused_with_the_likely_cause(name, typed, unit, first_words, meant):
    checked = check_body({name: typed}, [name], unit)
    problem = only(checked)
    assert problem.code == "body.out-of-range"
    assert problem.severity is Severity.ERROR
    assert problem.fix.startswith(first_words)
    assert meant in problem.fix
    assert checked.body == {}


def test_the_range_is_told_in_the_customers_unit():
    problem = only(check_body({"wrist_girth": "60"}, [], Unit.INCH))
    least, most = MEASURES["wrist_girth"].hard
    assert show_length(least, Unit.INCH) in problem.message
    assert show_length(most, Unit.INCH) in problem.message


@pytest.mark.parametrize(
    ("entry", "shown"), [("1.65", "1.65 cm"), (" 38 in ", "38 in"), ('38"', '38"'), (2500.0, "250 cm"), ("9m", "9m")]
)
def test_a_refused_entry_is_shown_as_it_was_typed(entry, shown):
    problem = only(check_body({"stature": entry}, [], Unit.CM))
    assert problem.message.startswith(f"Height: {shown} cannot be right.")


def test_half_a_length_is_never_guessed():
    problem = only(check_body({"stature": "80"}, [], Unit.CM))
    assert "half" not in problem.fix


def test_an_unknown_name_gets_the_nearest_one():
    problem = only(check_body({"bust_grith": "92"}, [], Unit.CM))
    assert problem.code == "body.unknown-measure"
    assert problem.fix == "Did you mean bust_girth?"


@pytest.mark.parametrize(
    ("written", "meant"),
    [("bust", "bust_girth"), ("Inseam", "inside_leg_height"), ("across back", "back_width"), ("height", "stature")],
)
def test_a_common_word_leads_to_the_registered_name(written, meant):
    assert only(check_body({written: "92"}, [], Unit.CM)).fix == f"Did you mean {meant}?"


def test_a_word_like_no_measurement_leads_to_the_list():
    assert only(check_body({"zzz": "92"}, [], Unit.CM)).fix == "Use a name from the list of measurements."


def test_other_words_lead_into_the_register():
    assert set(ALSO_CALLED.values()) <= set(MEASURES)
    assert not set(ALSO_CALLED) & set(MEASURES)


def test_a_need_that_is_not_in_the_register_is_told():
    assert only(check_body({}, ["zzz"], Unit.CM)).code == "body.unknown-measure"


def test_nothing_typed_is_lost():
    typed = {"bust_girth": "92", "waist_girth": "abc", "hip_girth": "4", "nonsense": "x", "head_girth": ""}
    checked = check_body(typed, ["bust_girth"], Unit.CM)
    assert checked.entries == typed
    assert checked.body == {"bust_girth": 920.0}


def test_a_warning_alone_leaves_the_body_usable():
    checked = check_body({"bust_girth": "92", "waist_girth": "104", "hip_girth": "78"}, [], Unit.CM)
    assert only(checked).severity is Severity.WARNING
    assert checked.usable
    assert len(checked.body) == 3


@given(st.dictionaries(st.sampled_from([*MEASURES, "nonsense"]), st.text(max_size=12), max_size=8))
def test_no_entry_whatever_breaks_the_check(typed):
    checked = check_body(typed, ["bust_girth"], Unit.INCH)
    assert checked.entries == typed
    assert all(problem.where is not None and problem.fix and problem.message for problem in checked.problems)
    assert all(MEASURES[name].hard[0] <= mm <= MEASURES[name].hard[1] for name, mm in checked.body.items())


@given(st.sampled_from(list(MEASURES)), st.floats(min_value=0.0, max_value=1.0), st.sampled_from(Unit))
def test_what_is_shown_to_the_customer_can_be_typed_back(name, share, unit):
    low, high = MEASURES[name].typical
    mm = low + share * (high - low)
    checked = check_body({name: show_length(mm, unit, named=False)}, [name], unit)
    assert checked.body[name] == pytest.approx(mm, abs=1.6)


@pytest.mark.parametrize("unit", Unit)
def test_a_whole_size_typed_in_either_unit_raises_no_question(unit):
    typed = {name: show_length(mm, unit, named=False) for name, mm in size_body("96").items()}
    assert check_body(typed, MEASURES, unit).problems == ()
