"""What a measurement likely is on a body of which only others are known: regressions, rules, the children's table."""

from __future__ import annotations

import numpy as np
import pytest

from app.pattern.body import MEASURES, draw_bodies, likely, size_body, tells
from app.pattern.body.populations_children import child
from app.pattern.body.survey import POOLED_FITS, fits_2012

ASKED = ("bust_girth", "waist_girth", "hip_girth", "upper_arm_girth")
BODY = {name: size_body("100")[name] for name in ASKED}


@pytest.mark.parametrize("name", MEASURES)
def test_every_measure_of_the_register_is_told_of_women_of_men_and_of_children(name):
    for group in ("women", "men"):
        found = likely(group, ASKED, name)
        least, most = MEASURES[name].hard
        assert least <= found.of(BODY) <= most
        assert 0.0 <= found.spread(BODY) < 90.0
        assert found.source
    told = likely("children", ("stature",), name)
    assert told.of({"stature": 1200.0}) == child(1200.0)[name]


def test_what_is_asked_is_itself_and_does_not_stray():
    found = likely("women", ASKED, "bust_girth")
    assert (found.of(BODY), found.spread(BODY), found.source) == (BODY["bust_girth"], 0.0, "measured")


@pytest.mark.parametrize(
    ("known", "spread"),
    [((), 23.1), (("bust_girth",), 15.4), (("bust_girth", "upper_arm_girth"), 12.3), (ASKED, 12.3)],
)
def test_the_armscye_strays_less_the_more_is_known(known, spread):
    assert likely("women", known, "armscye_girth").spread(BODY) == pytest.approx(spread, abs=0.7)


@pytest.mark.parametrize("name", ["armscye_girth", "scye_depth", "elbow_girth", "calf_girth", "thigh_girth"])
def test_bodies_of_the_survey_stray_by_the_spread_told_and_to_no_side(name):
    bodies = draw_bodies(1500, 7, spread=1.0)
    found = likely("women", ASKED, name)
    off = np.array([body[name] - found.of(body) for body in bodies])
    shift = fits_2012("women").get(name)
    assert off.std() == pytest.approx(found.spread(BODY), rel=0.1)
    assert shift is not None or abs(off.mean()) < 2.0


def test_a_hip_is_told_by_three_surveys_where_bust_and_waist_are_known():
    found = likely("women", ("bust_girth", "waist_girth"), "hip_girth")
    assert found.spread(BODY) == POOLED_FITS["hip_girth"].sd


def test_a_measure_the_survey_of_2012_has_is_moved_to_it():
    assert "2012" in likely("women", ASKED, "neck_base_girth").source
    assert "2012" not in likely("women", ASKED, "scye_depth").source


def test_a_measure_the_survey_has_not_follows_by_its_rule():
    found = likely("women", ("back_width",), "front_width")
    assert found.of({"back_width": 360.0}) == pytest.approx(340.0)


def test_a_child_is_told_by_its_stature_alone():
    assert tells("children", ("stature",), "armscye_girth") and tells("women", (), "armscye_girth")
    assert not tells("children", ("bust_girth",), "armscye_girth") and tells("children", ("hip_girth",), "hip_girth")
    with pytest.raises(ValueError, match="stature"):
        likely("children", ("bust_girth",), "armscye_girth")


def test_taller_children_differ_more():
    found = likely("children", ("stature",), "armscye_girth")
    assert 5.0 < found.spread({"stature": 1040.0}) < found.spread({"stature": 1520.0}) < 25.0
    assert likely("children", ("stature",), "stature").spread({"stature": 1200.0}) == 0.0
