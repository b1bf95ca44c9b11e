"""Finished sizes: the garment as it measures, and the ease that it really has."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.pieces.model import Girth, Pattern
from app.pattern.steps import finished_sizes, sizes_in_words
from app.pattern.units import Unit, read_length


def test_a_girth_over_the_body_shows_body_ease_and_garment(tunic):
    bust = finished_sizes(tunic)[0]
    assert (bust.title, bust.body, bust.ease, bust.garment) == ("Bust", 920.0, 92.0, 1012.0)


def test_a_girth_with_no_body_under_it_shows_the_garment_alone(tunic):
    hem = finished_sizes(tunic)[1]
    assert (hem.title, hem.body, hem.ease, hem.garment) == ("Hem sweep", None, None, 1032.0)


def test_the_ease_is_what_the_garment_has_and_not_what_was_asked_for(tunic):
    girth = Girth("bust", "Bust", 1012.4, 920.0, 92.0, measure="bust_girth")
    assert round(finished_sizes(replace(tunic, girths=(girth,)))[0].ease, 6) == 92.4


def test_a_girth_without_a_title_is_called_by_its_name(tunic):
    girth = Girth("upper_arm", "", 400.0, 300.0, 100.0, measure="upper_arm_girth")
    assert finished_sizes(replace(tunic, girths=(girth,)))[0].title == "Upper arm"


@given(st.floats(300.0, 1500.0), st.floats(-100.0, 300.0), st.sampled_from(list(Unit)))
def test_body_and_ease_as_printed_add_up_to_the_garment(body, ease, unit):
    girth = Girth("bust", "Bust", body + ease, body, ease, measure="bust_girth")
    pattern = Pattern("", (), (), (girth,), ())
    row = sizes_in_words(pattern, unit)[0]
    sign, printed = (-1.0, row.ease[1:]) if row.ease.startswith("-") else (1.0, row.ease)
    total = read_length(row.body, unit) + sign * read_length(printed, unit)
    assert total == pytest.approx(read_length(row.garment, unit), abs=1e-6)


def test_a_girth_with_no_body_under_it_has_nothing_to_add_up(tunic):
    hem = sizes_in_words(tunic, Unit.CM)[1]
    assert (hem.body, hem.ease, hem.garment) == ("", "", "103.2")
