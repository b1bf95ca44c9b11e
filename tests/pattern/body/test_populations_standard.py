"""Whom a draft is proved on: sizes, corners and draws of women, men and children."""

from __future__ import annotations

from statistics import fmean, median

import pytest

from app.pattern.body import MEASURES, NamedBody, corner_bodies, size_body
from app.pattern.body.children import child
from app.pattern.body.populations import is_plausible
from app.pattern.body.populations_children import STATURES, child_corners, child_sizes, draw_children
from app.pattern.body.populations_standard import (
    DRAWN,
    MEN_SIZES,
    SEED,
    given_bodies,
    men_corners,
    men_sizes,
    standard_bodies,
)
from app.pattern.body.ranges import hard_range

GROUPS = ("women", "men", "children")


@pytest.mark.parametrize("group", GROUPS)
def test_every_group_has_sizes_corners_and_draws_under_names_of_their_own(group):
    bodies = standard_bodies(group, 30, 7)
    ends = set() if group == "children" else {"end"}
    assert {body.kind for body in bodies} == {"size", "corner", "drawn"} | ends
    assert len({body.id for body in bodies}) == len(bodies)
    assert sum(body.kind == "drawn" for body in bodies) == 30


@pytest.mark.parametrize("group", GROUPS)
def test_every_body_has_every_measure(group):
    for named in standard_bodies(group, 30, 7):
        assert set(named.body) == set(MEASURES)


@pytest.mark.parametrize("group", GROUPS)
def test_the_same_seed_gives_the_same_bodies_and_another_others(group):
    assert standard_bodies(group, 20, 7) == standard_bodies(group, 20, 7)
    assert standard_bodies(group, 20, 7) != standard_bodies(group, 20, 8)


def test_five_hundred_are_drawn_unless_asked_otherwise():
    bodies = standard_bodies("women")
    assert sum(body.kind == "drawn" for body in bodies) == DRAWN == 400
    assert bodies == standard_bodies("women", DRAWN, SEED)


def test_women_are_the_chart_and_the_corners():
    bodies = {named.id: named.body for named in standard_bodies("women", 0)}
    assert bodies["size 92"] == size_body("92")
    assert bodies["corner tall and full"] == corner_bodies()["tall and full"]


def test_only_those_of_the_statures_offered_are_given():
    tall = standard_bodies("women", 200, 3, (1700.0, 1900.0))
    assert tall and all(1700.0 <= named.body["stature"] <= 1900.0 for named in tall)
    every = standard_bodies("women", 200, 3)
    assert [named for named in every if named in tall] == list(tall)


# ---- men


def test_a_mans_size_has_its_chest_and_grows_with_it():
    sizes = men_sizes()
    assert {name: body["bust_girth"] for name, body in sizes.items()} == dict(MEN_SIZES)
    for measure in ("waist_girth", "hip_girth", "neck_girth", "back_width"):
        values = [body[measure] for body in sizes.values()]
        assert values == sorted(values)


@pytest.mark.parametrize("name", men_corners())
def test_a_mans_corner_is_plausible(name):
    assert is_plausible(men_corners()[name])


def test_a_man_of_a_size_is_broader_than_a_woman_of_the_same_bust():
    man, woman = men_sizes()["M"], size_body("96")
    assert man["shoulder_length"] > woman["shoulder_length"]
    assert man["hip_girth"] < woman["hip_girth"]


# ---- children


def test_sizes_go_by_stature_in_steps_of_six_centimetres():
    assert list(child_sizes((1040.0, 1400.0))) == ["104", "110", "116", "122", "128", "134", "140"]
    assert list(child_sizes()) == ["104", "110", "116", "122", "128", "134", "140", "146", "152"]


def test_a_taller_child_is_larger_everywhere():
    small, tall = child(1040.0), child(1520.0)
    assert all(tall[name] > small[name] for name in small)


def test_a_childs_lengths_fit_into_one_another():
    """Plain sums that hold on any body."""
    for stature in (1040.0, 1220.0, 1400.0, 1520.0):
        body = child(stature)
        assert body["waist_height"] - body["hip_height"] == pytest.approx(body["waist_to_hip"], abs=12.0)
        assert body["waist_height"] - body["knee_height"] == pytest.approx(body["waist_to_knee"], abs=5.0)
        assert body["waist_height"] - body["inside_leg_height"] == pytest.approx(body["body_rise"], abs=8.0)
        assert body["cervical_height"] - body["waist_height"] < body["back_waist_length"] * 1.1
        assert body["hand_girth"] > body["wrist_girth"]
        assert body["neck_base_girth"] > body["neck_girth"]


def test_a_young_childs_head_is_large_for_its_body():
    """Common knowledge of the trade: small children's necks must open, for the head is nearly as wide as the body."""
    small = child(1040.0)
    assert small["head_girth"] / small["waist_girth"] > 0.9
    assert child(1520.0)["head_girth"] / child(1520.0)["waist_girth"] < small["head_girth"] / small["waist_girth"]


def test_corners_are_the_ends_of_the_statures_slight_and_sturdy():
    corners = child_corners((1040.0, 1400.0))
    assert {body["stature"] for body in corners.values()} == {1040.0, 1400.0}
    assert corners["104 cm, sturdy"]["waist_girth"] > corners["104 cm, slight"]["waist_girth"]


def test_drawn_children_are_of_every_stature_and_near_the_estimate():
    drawn = draw_children(400, 5)
    assert all(STATURES[0] <= body["stature"] <= STATURES[1] for body in drawn)
    assert min(body["stature"] for body in drawn) < 1060.0 and max(body["stature"] for body in drawn) > 1500.0
    shares = [body["bust_girth"] / child(body["stature"])["bust_girth"] for body in drawn]
    assert median(shares) == pytest.approx(1.0, abs=0.01)
    # Roundness is skewed: the mean lies above the middle.
    assert fmean(shares) > 1.003


def test_children_stay_within_what_the_register_takes():
    for body in (*draw_children(300, 9), *child_sizes().values()):
        for name, value in body.items():
            least, most = hard_range(name, "children")
            assert least <= value <= most, f"{name} {value} at a stature of {body['stature']}"


def test_of_children_that_nothing_is_known_of_none_are_given():
    assert standard_bodies("children", 20, 3, (500.0, 700.0)) == ()
    some = standard_bodies("children", 20, 3, (500.0, 900.0))
    assert min(named.body["stature"] for named in some) >= 800.0
    assert any(named.kind == "drawn" for named in some)


# ---- from outside


def test_bodies_from_a_table_keep_their_names():
    named = given_bodies([NamedBody("clara", {"waist_girth": 722.0})])
    assert [(one.id, one.kind, one.body) for one in named] == [("clara", "given", {"waist_girth": 722.0})]
