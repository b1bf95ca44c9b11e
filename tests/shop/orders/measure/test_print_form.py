"""Printing in the form: the usual choices stand ready, every other one reaches the build, and a wrong one is told."""

import pytest

from app.packs.request import PrintChoices
from app.pattern.problem import Refused
from app.pattern.sheets import PAPERS as ALL_PAPERS
from app.pattern.sheets import ROLLS, paper_of, paper_problems
from app.pattern.units import Unit, read_length
from app.shop.orders.measure.print_form import (
    PAPERS,
    is_usual,
    other_print_fields,
    prints_in_words,
    read_paper,
    read_prints,
    with_prints,
)
from app.shop.orders.measure.typed import TypedForm

CM, INCH = Unit.CM, Unit.INCH


def form(prints=None, paper="a4", unit=CM, **texts):
    sent = with_prints(TypedForm({}, unit), paper, prints or PrintChoices())
    return TypedForm({**sent.texts, **{f"print-{name}": text for name, text in texts.items()}}, unit)


def test_every_paper_that_can_be_printed_is_offered_with_its_size():
    assert set(PAPERS) == set(ALL_PAPERS)
    assert PAPERS["a4"] == "A4 (210 × 297 mm)"
    assert PAPERS["letter"] == "US Letter (8 1/2 × 11 in)"
    assert all(words.startswith(ALL_PAPERS[name].title) for name, words in PAPERS.items())


@pytest.mark.parametrize("unit", list(Unit))
def test_the_usual_choices_stand_ready_and_are_not_spoken_of(unit):
    errors = {}
    assert read_prints(form(unit=unit), errors) == PrintChoices()
    assert errors == {}
    assert is_usual(form(unit=unit))
    assert prints_in_words(PrintChoices(), unit) == ""


@pytest.mark.parametrize("unit", list(Unit))
@pytest.mark.parametrize(
    "chosen",
    [
        PrintChoices(join="butt"),
        PrintChoices(lines="without"),
        PrintChoices(lines="with", margin_mm=6.0),
        *(PrintChoices(roll_mm=mm) for mm in ROLLS.values()),
        PrintChoices(projector=False),
    ],
)
def test_whatever_is_chosen_is_read_as_it_was_written_and_named_in_words(chosen, unit):
    errors = {}
    assert read_prints(form(chosen, unit=unit), errors) == chosen
    assert errors == {}
    assert not is_usual(form(chosen, unit=unit))
    assert prints_in_words(chosen, unit)


def test_every_choice_has_a_sentence():
    assert all(field.hint.endswith(".") for field in other_print_fields(form(), {}))


@pytest.mark.parametrize("paper", list(PAPERS))
@pytest.mark.parametrize("unit", list(Unit))
def test_the_widest_margin_told_is_one_that_the_paper_takes(paper, unit):
    errors = {}
    read_prints(form(paper=paper, unit=unit, margin="90 cm"), errors)
    most = read_length(errors["print-margin"].split("enter ")[1].removesuffix(" or less."), unit)
    errors = {}
    margin = read_prints(form(paper=paper, unit=unit, margin=f"{most:.3f} mm"), errors).margin_mm
    assert errors == {}
    chosen = paper_of(paper, margin)
    assert not isinstance(chosen, Refused)
    assert paper_problems(chosen) == ()


@pytest.mark.parametrize(("name", "text"), [("margin", "wide"), ("margin", ""), ("join", "glue"), ("roll", "9in")])
def test_what_cannot_be_read_is_told_at_its_field(name, text):
    errors = {}
    read_prints(form(**{name: text}), errors)
    assert list(errors) == [f"print-{name}"]


def test_paper_that_is_not_offered_is_told():
    errors = {}
    read_paper(TypedForm({"paper": "papyrus"}, CM), errors)
    assert errors == {"paper": "Choose the paper you print on."}
