"""Children held against what was published of children: a US survey of 1977 and a Dutch growth study of 1997.

Sources (files beside `tests/outside/surveys/README.md`): R. G. Snyder and others, Anthropometry of Infants, Children,
and Youths to Age 18 for Product Safety Design, UM-HSRI-77-17, 1977; A. M. Fredriks and others, Arch Dis Child 90, 2005.
"""

from __future__ import annotations

import csv
from functools import cache
from statistics import median

import numpy as np
import pytest

from app.pattern.body import MEASURES, check_body
from app.pattern.body.children import child, waist
from app.pattern.body.populations_children import draw_children
from app.pattern.units import Unit
from tests.places import ROOT

SURVEYS = ROOT / "tests" / "outside" / "surveys"


def rows_of(name):
    lines = (SURVEYS / name).read_text("utf-8").splitlines()
    return [
        {key: float(value) for key, value in row.items()}
        for row in csv.DictReader(line for line in lines if not line.startswith("#"))
    ]


BANDS = rows_of("children-waist-by-stature.csv")
#: Stature in mm of children so many whole years old: their mean age is half a year more.
STATURES = {
    age: float(np.interp(
        age + 0.5, [band["mean_age_y"] for band in BANDS],
        [5 * (band["stature_from_cm"] + band["stature_to_cm"]) for band in BANDS],
    ))
    for age in (2, 3, 4, 6, 8, 10)
}  # fmt: skip
#: The bands end with children of 13, so the older are given a stature from memory of growth charts.
STATURES |= {12: 1530.0, 14: 1630.0}


@cache
def drawn():
    return draw_children(3000, 1977, (850.0, 1650.0))


def of_stature(least, most):
    return [body for body in drawn() if least <= body["stature"] < most]


GIRTHS = [
    ("bust_girth", "chest_m", "chest_f"), ("waist_girth", "waist_m", "waist_f"), ("hip_girth", "hip_m", "hip_f"),
    ("neck_girth", "neck_m", "neck_f"), ("thigh_girth", "thigh_m", "thigh_f"), ("upper_arm_girth", "upper_arm_m", ""),
    ("calf_girth", "calf_m", ""), ("shoulder_width", "shoulder_width_m", "shoulder_width_f"),
]  # fmt: skip


@pytest.mark.parametrize("row", rows_of("children-girths-by-age.csv"), ids=lambda row: f"{row['age']:.0f} years")
@pytest.mark.parametrize(("name", "boys", "girls"), GIRTHS, ids=lambda value: value)
def test_girths_are_the_medians_of_1977_within_three_in_a_hundred(row, name, boys, girls):
    stature = STATURES[int(row["age"])]
    body = {"boys": child(stature, sex="boys")[name], "girls": child(stature, sex="girls")[name]}
    assert body["boys"] / stature == pytest.approx(row[boys], rel=0.03)
    if girls:
        assert body["girls"] / stature == pytest.approx(row[girls], rel=0.03)


@pytest.mark.parametrize("name", [row[0] for row in GIRTHS if row[2]])
def test_on_the_whole_the_medians_agree_within_one_in_a_hundred(name):
    columns = next(row[1:] for row in GIRTHS if row[0] == name)
    off = [
        child(STATURES[int(row["age"])])[name] / STATURES[int(row["age"])] / np.mean([row[c] for c in columns]) - 1.0
        for row in rows_of("children-girths-by-age.csv")
    ]
    assert abs(float(np.mean(off))) < 0.01


@pytest.mark.parametrize("band", BANDS, ids=lambda band: f"{band['stature_from_cm']:.0f} cm")
def test_drawn_waists_have_the_spread_of_1977(band):
    statures = (10 * band["stature_from_cm"], 10 * band["stature_to_cm"])
    some = [body["waist_girth"] for body in draw_children(1000, 5, statures)]
    low, high = np.percentile(some, [5, 95])
    # The survey's bands have 54 to 259 children: their own percentiles are known to some 3 in a hundred.
    assert low == pytest.approx(10 * band["waist_p5_cm"], rel=0.04)
    assert high == pytest.approx(10 * band["waist_p95_cm"], rel=0.05)
    assert np.mean(some) == pytest.approx(10 * band["waist_mean_cm"], rel=0.016)
    inside = [10 * band["waist_p5_cm"] <= girth <= 10 * band["waist_p95_cm"] for girth in some]
    assert 0.85 < np.mean(inside) < 0.95


def test_waists_are_skewed_as_the_survey_found():
    middle = waist(1400.0)
    assert waist(1400.0, 1.645) - middle > 1.6 * (middle - waist(1400.0, -1.645))
    small = waist(900.0)
    assert waist(900.0, 1.645) - small == pytest.approx(small - waist(900.0, -1.645), rel=0.2)


@pytest.mark.parametrize("band", BANDS, ids=lambda band: f"{band['stature_from_cm']:.0f} cm")
def test_the_leg_is_what_the_sitting_height_leaves(band):
    """Sitting height from the seat of the chair; the crotch is a little lower (our own estimate: 1 % of stature)."""
    stature = 5 * (band["stature_from_cm"] + band["stature_to_cm"])
    leg = child(stature)["inside_leg_height"] / stature
    assert 1.0 - band["sitting_over_stature"] - leg == pytest.approx(0.010, abs=0.004)


@pytest.mark.parametrize("row", rows_of("children-hip-waist-nl4.csv"), ids=lambda row: f"{row['age']:.0f} years")
def test_dutch_children_of_1997_are_near(row):
    """Another people and another generation, measured otherwise: slimmer, within 8 in a hundred."""
    stature = STATURES[int(row["age"])]
    for name, columns in (("waist_girth", ("waist_m", "waist_f")), ("hip_girth", ("hip_m", "hip_f"))):
        share = np.mean([row[column] for column in columns])
        assert child(stature)[name] / stature == pytest.approx(share, rel=0.08)


def test_a_round_child_is_round_everywhere():
    some = of_stature(1300.0, 1400.0)
    shares = {
        name: np.array([body[name] / body["stature"] for body in some])
        for name in ("waist_girth", *(row[0] for row in GIRTHS))
    }
    for name in ("bust_girth", "hip_girth", "thigh_girth", "upper_arm_girth"):
        assert np.corrcoef(shares["waist_girth"], shares[name])[0, 1] > 0.75
    assert abs(np.corrcoef(shares["waist_girth"], shares["shoulder_width"])[0, 1]) < 0.5


# ---- the counter


def test_children_as_surveyed_are_neither_refused_nor_often_asked_to_confirm():
    asked = 0
    for body in drawn()[:1500]:
        checked = check_body(body, MEASURES, Unit.CM, "children")
        assert checked.usable
        asked += bool(checked.problems)
    assert asked / 1500 < 0.03


@pytest.mark.parametrize("name", ["bust_girth", "waist_girth", "hip_girth"])
@pytest.mark.parametrize("factor", [2.54, 1 / 2.54, 0.5], ids=["cm-as-inch", "inch-as-cm", "half"])
def test_every_inch_slip_and_half_girth_of_a_child_is_caught(name, factor):
    for body in drawn()[:300]:
        typed = {key: body[key] for key in ("stature", "bust_girth", "waist_girth", "hip_girth")}
        typed[name] *= factor
        assert any(p.where.point == name for p in check_body(typed, typed, Unit.CM, "children").problems)


@pytest.mark.parametrize(("name", "slip"), [("arm_length", 100.0), ("neck_girth", 100.0), ("shoulder_width", 100.0)])
def test_ten_centimetres_too_much_are_seen_on_a_child(name, slip):
    some = drawn()[:300]
    caught = [
        any(
            p.where.point == name
            for p in check_body({**body, name: body[name] + slip}, (), Unit.CM, "children").problems
        )
        for body in some
    ]
    assert sum(caught) / len(some) > 0.9


def test_the_middle_of_the_drawn_is_the_child_of_that_stature():
    for name in ("bust_girth", "waist_girth", "hip_girth", "neck_girth", "back_waist_length"):
        off = median(body[name] / child(body["stature"])[name] for body in drawn())
        assert off == pytest.approx(1.0, abs=0.01)
