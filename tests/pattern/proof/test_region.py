"""The region: every body of the proof inside it held, and a body outside is told why."""

from __future__ import annotations

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.body import draw_bodies
from app.pattern.body.populations_standard import standard_bodies
from app.pattern.problem import Severity
from app.pattern.proof.density import dense_stretch
from app.pattern.proof.region import Range, Region, inside, missed_axes, outside, read_region, region_of, region_values
from app.pattern.units import Unit

NEEDS = ("bust_girth", "waist_girth", "hip_girth", "back_waist_length")
BODIES = draw_bodies(300, 3)


def test_without_failures_it_reaches_as_far_as_bodies_lie_densely():
    region = region_of(NEEDS, BODIES, [])
    for need in NEEDS:
        found = region.range_of(need)
        assert (found.least, found.most) == dense_stretch([body[need] for body in BODIES])
    assert sum(inside(region, body) for body in BODIES) > 0.85 * len(BODIES)


def test_main_girths_are_watched_two_by_two():
    region = region_of(NEEDS, BODIES, [])
    assert [(area.across, area.up) for area in region.areas] == [
        ("bust_girth", "waist_girth"),
        ("bust_girth", "hip_girth"),
        ("waist_girth", "hip_girth"),
    ]
    usual = next(body for body in BODIES if inside(region, body))
    odd = {**usual, "bust_girth": 1150.0, "waist_girth": 700.0, "hip_girth": 1120.0}
    found = outside(region, odd)
    assert [p.where.point for p in found] == ["bust_girth", "waist_girth"]
    assert "A bust girth of 115 cm beside a waist girth of 70 cm is rare" in found[0].message
    assert list(missed_axes(region, odd)) == [("bust_girth", "waist_girth"), ("waist_girth", "hip_girth")]


def test_a_body_that_lies_alone_is_no_proof_for_the_way_to_it():
    alone = {**BODIES[0], "bust_girth": 1500.0, "waist_girth": 1300.0, "hip_girth": 1500.0}
    region = region_of(NEEDS, [*BODIES, alone], [])
    assert not inside(region, alone)
    assert region.range_of("hip_girth").most < 1450.0


@settings(max_examples=40, deadline=None)
@given(st.sets(st.integers(0, 119), max_size=20))
def test_no_failed_body_lies_inside(which):
    failed = [BODIES[i] for i in which]
    held = [body for i, body in enumerate(BODIES) if i not in which]
    region = region_of(NEEDS, held, failed)
    assert not any(inside(region, body) for body in failed)


def test_a_failure_at_the_edge_costs_only_the_edge():
    largest = max(BODIES, key=lambda body: body["bust_girth"])
    held = [body for body in BODIES if body is not largest]
    region, whole = region_of(NEEDS, held, [largest]), region_of(NEEDS, held, [])
    assert sum(inside(region, body) for body in held) == sum(inside(whole, body) for body in held)
    assert not inside(region, largest)


def test_a_failure_in_the_midst_costs_as_few_as_one_cut_can():
    """A cut through one body loses at most half of the others, and the best of many cuts far fewer."""
    held, failed = BODIES[1:], BODIES[0]
    region = region_of(NEEDS, held, [failed])
    assert not inside(region, failed)
    assert sum(inside(region, body) for body in held) > len(held) / 2


@pytest.mark.parametrize("held", [[], BODIES[:3]])
def test_nothing_lies_inside_a_region_of_no_or_few_bodies(held):
    region = region_of(NEEDS, held, BODIES[200:])
    assert region == Region(())
    assert not inside(region, BODIES[0])
    assert [p.code for p in outside(region, BODIES[0])] == ["proof.outside"]


def test_a_body_outside_hears_its_own_figure_and_the_range_in_its_unit():
    region = region_of(NEEDS, BODIES, [])
    usual = next(body for body in BODIES if inside(region, body))
    large = {**usual, "back_waist_length": 600.0}
    found = outside(region, large)
    assert [(p.code, p.severity, p.where.point) for p in found] == [
        ("proof.outside", Severity.WARNING, "back_waist_length")
    ]
    assert "60 cm" in found[0].message
    assert "23 5/8 in" in outside(region, large, Unit.INCH)[0].message
    assert outside(region, usual) == ()


def test_it_is_stored_as_json_and_read_back():
    region = region_of(NEEDS, BODIES, [])
    stored = json.loads(json.dumps(region_values(region)))
    assert read_region(stored) == region


def test_one_kept_before_there_were_areas_is_read_without_its_ratios():
    old = {"ranges": [("hip_girth", 800.0, 1200.0), ("waist_girth/hip_girth", 0.6, 0.9)]}
    assert read_region(old) == Region((Range("hip_girth", 800.0, 1200.0),))


def test_few_fresh_customers_lie_outside_of_what_the_standard_bodies_prove():
    region = region_of(NEEDS, [body.body for body in standard_bodies("women")], [])
    fresh = draw_bodies(600, 77)
    assert sum(not inside(region, body) for body in fresh) / len(fresh) < 0.05


def test_the_ends_are_tried_as_densely_as_the_middle():
    region = region_of(("waist_girth", "hip_girth"), [body.body for body in standard_bodies("women")], [])
    hips = sorted(body.body["hip_girth"] for body in standard_bodies("women"))
    most = region.range_of("hip_girth").most
    assert most >= 1400.0
    assert sum(abs(hip - most) <= 0.05 * most for hip in hips) >= 5


def test_a_man_outside_hears_of_his_chest():
    region = Region((Range("bust_girth", 900.0, 1100.0),))
    [problem] = outside(region, {"bust_girth": 1300.0}, Unit.CM, "men")
    assert problem.message.startswith("The chest girth is 130 cm")
    [problem] = outside(region, {"bust_girth": 1300.0})
    assert problem.message.startswith("The bust girth is 130 cm")
