"""The region: every body of the proof inside it held, and a body outside is told why."""

from __future__ import annotations

import json

from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.body import draw_bodies
from app.pattern.problem import Severity
from app.pattern.proof.region import Region, inside, outside, read_region, region_of, region_values
from app.pattern.units import Unit

NEEDS = ("bust_girth", "waist_girth", "hip_girth", "back_waist_length")
BODIES = draw_bodies(120, 3)


def test_without_failures_it_reaches_from_the_least_to_the_most():
    region = region_of(NEEDS, BODIES, [])
    for need in NEEDS:
        found = region.range_of(need)
        assert (found.least, found.most) == (min(b[need] for b in BODIES), max(b[need] for b in BODIES))
    assert all(inside(region, body) for body in BODIES)


def test_ratios_of_the_main_girths_are_watched_too():
    region = region_of(NEEDS, BODIES, [])
    assert [r.axis for r in region.ranges if r.ratio] == [
        "bust_girth/waist_girth",
        "bust_girth/hip_girth",
        "waist_girth/hip_girth",
    ]
    odd = {**BODIES[0], "bust_girth": region.range_of("bust_girth").most, "waist_girth": 600.0, "hip_girth": 850.0}
    assert {p.where.point for p in outside(region, odd)} >= {"bust_girth"}


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
    region = region_of(NEEDS, held, [largest])
    assert sum(inside(region, body) for body in held) == len(held)
    assert not inside(region, largest)


def test_a_failure_in_the_midst_costs_as_few_as_one_cut_can():
    """A cut through one body loses at most half of the others, and the best of many cuts far fewer."""
    held, failed = BODIES[1:], BODIES[0]
    region = region_of(NEEDS, held, [failed])
    assert not inside(region, failed)
    assert sum(inside(region, body) for body in held) > len(held) / 2


def test_nothing_lies_inside_a_region_of_no_body():
    region = region_of(NEEDS, [], BODIES)
    assert region == Region(())
    assert not inside(region, BODIES[0])
    assert [p.code for p in outside(region, BODIES[0])] == ["proof.outside"]


def test_a_body_outside_hears_its_own_figure_and_the_range_in_its_unit():
    region = region_of(NEEDS, BODIES, [])
    large = {**BODIES[0], "back_waist_length": 600.0}
    found = outside(region, large)
    assert [(p.code, p.severity, p.where.point) for p in found] == [
        ("proof.outside", Severity.WARNING, "back_waist_length")
    ]
    assert "60 cm" in found[0].message
    assert "23 5/8 in" in outside(region, large, Unit.INCH)[0].message
    assert outside(region, BODIES[0]) == ()


def test_it_is_stored_as_json_and_read_back():
    region = region_of(NEEDS, BODIES, [])
    stored = json.loads(json.dumps(region_values(region)))
    assert read_region(stored) == region


def test_few_fresh_bodies_lie_outside_of_what_five_hundred_span():
    """With n bodies, each end of a range is missed by a fresh one in 1 of n + 1 cases: at most 14 ends in 501 here."""
    region = region_of(NEEDS, draw_bodies(500, 1988), [])
    fresh = draw_bodies(600, 77)
    missed = sum(not inside(region, body) for body in fresh) / len(fresh)
    assert missed < 2 * 14 / 501
