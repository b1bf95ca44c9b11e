"""Where garments touch the body: the survey's own figures, and what fitting texts and cutters ask for.

Armscye girth, bust and upper arm: means, standard deviations and correlations of 2,208 women (Gordon et al., 1989,
NATICK/TR-89/044). Two inches over the upper arm in woven cloth: a sewing magazine of 2021. Ease in a sleeve's cap from
half an inch to an inch and a half, in jersey next to none: three pages on fitting that differ (figures of our notes).
Two to four and a half centimetres over the arm's root in a sleeveless bodice, four to eleven with a sleeve or in a
loose garment: common practice.
"""

from __future__ import annotations

from math import sqrt
from statistics import fmean, pstdev

import pytest

from app.pattern.body import draw_bodies, likely, size_body
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.measure import edge_length
from tests.places import DRAFT_FILES

INCH = 25.4
TEXTS = {path.stem: path.read_text("utf-8") for path in DRAFT_FILES}
SURVEYED = draw_bodies(60, 88, spread=1.0)
#: What the armhole leaves over the arm's root on the mean body, mm, least and most.
ARMHOLES = {
    "fitted_bodice": (20.0, 45.0),
    "knit_top": (0.0, 20.0),
    "wrap_dress": (40.0, 60.0),
    "set_in_blouse": (40.0, 60.0),
    "shirred_tunic": (40.0, 80.0),
    "yoke_shirt": (60.0, 110.0),
    "hooded_waistcoat": (60.0, 110.0),
}


def pattern_of(draft, body):
    made = make_pattern(TEXTS[draft], f"{draft}.draft", body, {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    return made.pattern


def eases(draft, name):
    patterns = (pattern_of(draft, body) for body in SURVEYED)
    return [place.ease for pattern in patterns for place in pattern.fits if place.name == name]


# ---- what the survey tells of an armscye that nobody measured


@pytest.mark.parametrize(("known", "r"), [("bust_girth", 0.77), ("upper_arm_girth", 0.82), ("stature", 0.36)])
def test_an_armscye_told_by_one_measure_strays_as_the_published_correlation_says(known, r):
    told = likely("women", (known,), "armscye_girth")
    assert told.spread({known: 0.0}) == pytest.approx(23.1 * sqrt(1.0 - r * r), abs=0.3)


def test_the_mean_woman_has_the_mean_armscye():
    told = likely("women", ("bust_girth", "upper_arm_girth"), "armscye_girth")
    assert told.of({"bust_girth": 907.1, "upper_arm_girth": 291.6}) == pytest.approx(371.3, abs=0.1)


# ---- what the catalogue leaves


@pytest.mark.parametrize(("draft", "room"), ARMHOLES.items())
def test_an_armhole_leaves_the_room_of_its_kind_and_strays_by_less_than_a_centimetre(draft, room):
    found = eases(draft, "armhole")
    assert room[0] <= fmean(found) <= room[1]
    assert pstdev(found) < 10.0


@pytest.mark.parametrize(("draft", "place"), [("straight_trousers", "thigh"), ("straight_trousers", "crotch")])
def test_trousers_leave_every_woman_the_same_room_within_a_centimetre(draft, place):
    found = eases(draft, place)
    assert pstdev(found) < 11.0 and min(found) > 0.0


@pytest.mark.parametrize("size", ["76", "92", "116"])
@pytest.mark.parametrize("draft", ["set_in_blouse", "yoke_shirt", "wrap_dress"])
def test_a_woven_sleeve_leaves_two_inches_over_the_upper_arm(draft, size):
    arm = next(girth for girth in pattern_of(draft, size_body(size)).girths if girth.name == "arm")
    assert arm.measured - arm.body >= 2.0 * INCH


@pytest.mark.parametrize(
    ("draft", "least", "most"),
    [("set_in_blouse", 0.5 * INCH, 1.5 * INCH), ("wrap_dress", 0.5 * INCH, 1.5 * INCH), ("knit_top", 0.0, 5.0)],
)
def test_a_cap_is_longer_than_its_armhole_by_what_can_be_eased(draft, least, most):
    for body in SURVEYED[:12]:
        pattern = pattern_of(draft, body)
        armhole = sum(edge_length(pattern.piece(name), "armhole") for name in ("back", "front"))
        assert least <= edge_length(pattern.piece("sleeve"), "cap") - armhole <= most
