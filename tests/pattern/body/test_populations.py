"""Bodies to prove drafts on: seeded, whole and believable."""

from __future__ import annotations

import hashlib
import json
from statistics import fmean, stdev

import pytest

from app.pattern.body import MEASURES, check_body, corner_bodies, draw_bodies
from app.pattern.body.corners import CORNERS
from app.pattern.body.populations import is_plausible
from app.pattern.body.survey import GROUPS
from app.pattern.units import Unit

CORNER_NAMES = pytest.mark.parametrize("name", CORNERS)


@pytest.mark.parametrize("group", GROUPS)
@pytest.mark.parametrize("spread", [1.0, 1.6, 2.2])
def test_every_drawn_body_is_whole_and_plausible(group, spread):
    bodies = draw_bodies(150, 7, group, spread)
    assert len(bodies) == 150
    assert all(list(body) == list(MEASURES) for body in bodies)
    assert all(is_plausible(body) for body in bodies)


def test_the_same_seed_draws_the_same_bodies():
    assert draw_bodies(20, 3) == draw_bodies(20, 3)
    assert draw_bodies(20, 3) != draw_bodies(20, 4)


def test_a_seed_means_the_same_bodies_on_every_machine():
    """The digest was taken on x86-64 Linux with numpy 2; figures are rounded to 0.1 mm so that it holds elsewhere."""
    text = json.dumps(draw_bodies(5, 1, "women", 1.0), sort_keys=True)
    assert hashlib.sha256(text.encode()).hexdigest()[:16] == "8c4b12f7dcbfa5aa"


def test_figures_are_rounded_to_a_tenth_of_a_millimetre():
    assert all(value == round(value, 1) for body in draw_bodies(10, 1) for value in body.values())


def test_few_bodies_can_be_drawn():
    assert len(draw_bodies(1, 1)) == 1
    assert draw_bodies(0, 1) == []


def test_customers_at_large_are_larger_and_more_varied_than_the_survey():
    plain, wide = draw_bodies(1500, 5, "women", 1.0), draw_bodies(1500, 5)
    for name, shift in (("bust_girth", 40.0), ("waist_girth", 50.0), ("hip_girth", 30.0)):
        before, after = [b[name] for b in plain], [b[name] for b in wide]
        assert fmean(after) - fmean(before) > shift
        assert 1.3 < stdev(after) / stdev(before) < 1.8
    assert fmean(b["stature"] for b in wide) == pytest.approx(fmean(b["stature"] for b in plain), abs=8.0)


def test_a_senseless_spread_is_refused():
    with pytest.raises(ValueError, match="hardly any plausible body"):
        draw_bodies(50, 1, "women", 60.0)


def test_derived_measures_agree_with_their_parts():
    for body in draw_bodies(30, 2):
        assert body["waist_to_hip"] == pytest.approx(body["waist_height"] - body["hip_height"], abs=0.11)
        assert body["body_rise"] == pytest.approx(body["waist_height"] - body["inside_leg_height"], abs=0.11)
        assert body["neck_shoulder_point_to_waist"] > body["front_waist_length"]


def test_a_body_out_of_any_hard_range_is_not_plausible():
    body = draw_bodies(1, 1)[0]
    assert is_plausible(body)
    assert not is_plausible({**body, "wrist_girth": 90.0})
    assert not is_plausible({**body, "waist_girth": body["hip_girth"] * 1.2})
    assert not is_plausible({**body, "hand_girth": body["wrist_girth"] - 1})


@CORNER_NAMES
def test_every_corner_is_whole_and_plausible(name):
    body = corner_bodies()[name]
    assert list(body) == list(MEASURES)
    assert is_plausible(body)


@CORNER_NAMES
def test_no_corner_is_refused_at_the_counter(name):
    assert check_body(corner_bodies()[name], MEASURES, Unit.CM).usable


def test_only_the_corners_meant_to_be_strange_are_asked_about():
    asked = {name for name, body in corner_bodies().items() if check_body(body, (), Unit.CM).problems}
    assert asked == {"very full bust", "small bust, full hip", "large waist", "small waist", "full arms"}


def test_a_corner_differs_from_the_likely_body_by_what_its_name_says():
    corners = corner_bodies()
    assert corners["long back"]["back_waist_length"] - corners["short back"]["back_waist_length"] > 100
    full = corners["very full bust"]
    assert full["bust_girth"] - full["under_bust_girth"] > 280
