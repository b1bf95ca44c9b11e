"""Finished sizes: the garment as it measures, and the ease that it really has."""

from dataclasses import replace

from app.pattern.pieces.model import Girth
from app.pattern.steps import finished_sizes


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
