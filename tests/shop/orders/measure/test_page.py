"""The measurement form: nothing typed is lost, slips are named beside their field, doubts ask to be confirmed."""

import re

import pytest

FORM = "/patterns/fernhill-skirt/measure"
MEASURES = {"measure-waist_girth": "76", "measure-hip_girth": "100", "measure-waist_to_hip": "21"}


@pytest.fixture
def form(visitor):
    return visitor.get(FORM)


def test_the_form_shows_each_measurement_with_its_figure_and_how_to_take_it(form):
    assert form.status == 200
    for name, title in (("waist_girth", "Waist girth"), ("hip_girth", "Hip girth"), ("waist_to_hip", "Waist to hip")):
        assert f'<label for="measure-{name}">{title}</label>' in form.html
        assert f"/static/figures/{name}.svg?v=" in form.html
    assert form.words.count("How to take it") == 3


def test_the_form_begins_with_the_designers_choices_and_cloth(form):
    fields = form.form()
    assert fields["choice-waist_ease"] == "1.5"
    assert fields["cloth-main-width"] == "140"
    assert fields["cloth-main-lay"] == "folded"
    assert fields["cloth-interfacing-lay"] == "open"
    assert fields["paper"] == "a4"


def test_an_empty_form_comes_back_with_every_missing_measurement_linked_to_its_field(visitor, form):
    page = visitor.submit(form)
    assert page.status == 422
    assert "Please look at 3 entries" in page.words
    for name in MEASURES:
        assert f'<a href="#{name}">' in page.html
        assert re.search(rf'id="{name}"[^>]*aria-describedby="{name}-error[^"]*"[^>]*aria-invalid="true"', page.html)
        assert f'id="{name}-error"' in page.html


def test_what_was_typed_stays_when_the_form_comes_back(visitor, form):
    changes = {
        **MEASURES,
        "measure-waist_girth": "seventy six",
        "choice-length": "71,5",
        "cloth-main-width": "1 4 0",
        "cloth-main-lay": "open",
        "cloth-main-oneway": "yes",
        "paper": "letter",
    }
    page = visitor.submit(form, **changes)
    assert page.status == 422
    kept = page.form()
    assert {name: kept[name] for name in changes} == changes


def test_changing_the_unit_rewrites_what_can_be_read_and_keeps_the_rest(visitor, form):
    page = visitor.submit(form, to=FORM, **{**MEASURES, "measure-hip_girth": "one hundred"}, action="in")
    fields = page.form()
    assert page.status == 200
    assert fields["unit"] == "in"
    assert fields["measure-waist_girth"] == "29 7/8"
    assert fields["measure-hip_girth"] == "one hundred"
    assert fields["cloth-main-width"] == "55 1/8"
    assert fields["choice-waist_ease"] == "5/8"


def test_going_to_inches_and_back_gives_exactly_what_was_typed(visitor, form):
    typed = {"measure-waist_girth": "76.3", "measure-hip_girth": "100.7", "measure-waist_to_hip": "20.9"}
    inches = visitor.submit(form, to=FORM, **typed, action="in")
    back = visitor.submit(inches, to=FORM, action="cm").form()
    assert {name: back[name] for name in typed} == typed


def test_a_size_fills_the_empty_fields_and_leaves_what_was_typed(visitor, form):
    page = visitor.submit(form, to=FORM, **{"measure-waist_girth": "71.2", "size": "92", "action": "size"})
    fields = page.form()
    assert fields["measure-waist_girth"] == "71.2"
    assert fields["measure-hip_girth"] == "100"
    assert page.words.count("As in size 92: put in your own.") == 2


def test_another_size_replaces_only_what_a_size_had_filled_in(visitor, form):
    first = visitor.submit(form, to=FORM, size="92", action="size")
    second = visitor.submit(first, to=FORM, **{"measure-waist_girth": "71.2", "size": "110", "action": "size"})
    fields = second.form()
    assert fields["measure-waist_girth"] == "71.2"
    assert float(fields["measure-hip_girth"]) > 105


def test_a_size_that_does_not_exist_changes_nothing(visitor, form):
    page = visitor.submit(form, to=FORM, size="enormous", action="size")
    assert page.status == 200
    assert page.form()["measure-hip_girth"] == ""


def test_a_measurement_far_out_of_range_is_refused_with_a_guess_at_the_slip(visitor, form):
    page = visitor.submit(form, **{**MEASURES, "measure-waist_girth": "760"})
    assert page.status == 422
    assert "Waist girth: 760 cm cannot be right." in page.words


def test_an_unlikely_measurement_asks_to_be_confirmed_and_is_then_taken(visitor, form):
    doubtful = {**MEASURES, "measure-waist_girth": "114"}
    page = visitor.submit(form, **doubtful)
    assert page.status == 422
    assert "Please measure" in page.words
    boxes = re.findall(r'type="checkbox" id="(sure-[^"]+)" name="[^"]+" value="([^"]+)"', page.html)
    assert boxes
    assert visitor.submit(page, **dict(boxes)).path.startswith("/fittings/")


def test_a_confirmation_holds_only_for_the_number_it_was_given_for(visitor, form):
    page = visitor.submit(form, **{**MEASURES, "measure-waist_girth": "114"})
    boxes = dict(re.findall(r'type="checkbox" id="(sure-[^"]+)" name="[^"]+" value="([^"]+)"', page.html))
    again = visitor.submit(page, **boxes, **{"measure-waist_girth": "118"})
    assert again.status == 422
    assert "Please measure" in again.words


@pytest.mark.parametrize(
    ("field", "value", "words"),
    [
        ("choice-waist_ease", "9", "Room at the waist: choose from 0.5 to 4 cm."),
        ("choice-waist_ease", "", "Room at the waist: Nothing was entered."),
        ("cloth-main-width", "5", "Cloth is 30 cm to 320 cm wide."),
        ("cloth-main-width", "wide", "is not a length"),
        ("paper", "papyrus", "Choose the paper you print on."),
    ],
)
def test_a_slip_in_choices_cloth_or_paper_is_named(visitor, form, field, value, words):
    page = visitor.submit(form, **{**MEASURES, field: value})
    assert page.status == 422
    assert words in page.words


def test_a_bound_shown_in_inches_may_be_typed_as_shown(visitor, form):
    inches = visitor.submit(form, to=FORM, **MEASURES, action="in")
    assert "From 3/16 to 1 5/8 in" in inches.words
    page = visitor.submit(inches, to=FORM, **{"choice-waist_ease": "1 5/8"})
    assert page.path.startswith("/fittings/")


def test_an_option_and_a_number_of_another_design_are_checked_too(visitor):
    path = "/patterns/larkspur-tunic/measure"
    page = visitor.submit(visitor.get(path), **{"size": "92", "choice-fullness": "lots", "choice-lined": None})
    assert page.status == 422
    assert "“lots” is not a number" in page.words
    assert 'name="choice-lined" value="yes" aria' not in page.html
    assert "choice-lined" not in page.form()


def test_measurements_are_never_in_an_address(visitor, form):
    page = visitor.submit(form, **MEASURES)
    assert re.fullmatch(r"/fittings/[\w-]{20,}", page.path)
    assert page.answer.url.query == b""


PRINTS = {
    "print-join": "butt",
    "print-lines": "without",
    "print-margin": "0.6",
    "print-roll": "44in",
    "print-projector": None,
}


def test_how_the_pattern_is_printed_is_kept_shown_and_opened_again(visitor, fitted):
    assert "Printing" not in fitted.words
    page = visitor.submit(visitor.get(f"{fitted.path}/edit"), to=FORM, **PRINTS)
    assert "sheets edge to edge; lines to sew along only, no allowance; margin 6 mm" in page.words
    assert "one sheet 111.8 cm wide; no file for a projector" in page.words
    again = visitor.get(f"{page.path}/edit")
    form = again.form(FORM)
    assert {name: form.get(name) for name in PRINTS} == PRINTS
    assert '<details class="more" open>' in again.html
    assert '<details class="more">' in visitor.get(FORM).html


def test_a_margin_that_leaves_no_room_is_told_where_it_can_be_mended(visitor):
    page = visitor.submit(visitor.get(FORM), to=FORM, **MEASURES, **{"print-margin": "4"})
    assert page.status == 422
    assert '<a href="#print-margin">' in page.html
    assert "enter 2 cm or less" in page.words
    assert '<details class="more" open>' in page.html


def test_the_paper_goes_with_the_unit_until_another_is_chosen(visitor, form):
    inches = visitor.submit(form, to=FORM, action="in")
    assert inches.form(FORM)["paper"] == "letter"
    assert visitor.submit(inches, to=FORM, action="cm").form(FORM)["paper"] == "a4"
    assert visitor.submit(form, to=FORM, action="in", paper="a3").form(FORM)["paper"] == "a3"
