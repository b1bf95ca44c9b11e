"""The darts check hears unequal legs, a tip too near its point or outside the piece, and no intake."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.pattern.checks import run_checks
from app.pattern.geometry import Point


def with_dart(garment, bench, **changes):
    dart = garment.piece("skirt_front").darts[0]
    return bench.with_piece(garment, "skirt_front", darts=(replace(dart, **changes),))


def test_unequal_legs_are_heard_with_both_lengths(garment, bench):
    found = run_checks(with_dart(garment, bench, tip=Point(95.0, 480.0)))
    assert [p.code for p in found] == ["checks.dart-legs"]
    assert "120.3 mm" in found[0].message and "120.9 mm" in found[0].message
    assert found[0].where.piece == "skirt_front"
    assert found[0].where.point == "waist_dart"


def test_legs_within_half_a_millimetre_pass(garment, bench):
    assert bench.codes(with_dart(garment, bench, tip=Point(94.0, 480.0))) == set()


def test_a_recut_dart_with_one_long_leg_is_heard(garment, bench):
    spec = bench.skirt("skirt_front")
    spec = bench.with_edge(spec, "waist_dart", tip=Point(88.0, 480.0))
    assert "checks.dart-legs" in bench.codes(bench.with_recut(garment, spec))


@pytest.mark.parametrize("tip_height", [474.0, 460.0, 440.0])
def test_a_tip_too_near_its_point_or_past_it_is_heard(garment, bench, tip_height):
    assert bench.codes(with_dart(garment, bench, tip=Point(92.0, tip_height))) == {"checks.dart-clearance"}


def test_the_missing_clearance_is_in_the_remedy(garment, bench):
    found = run_checks(with_dart(garment, bench, tip=Point(92.0, 460.0)))
    assert "within 10 mm" in found[0].message
    assert "by 15 mm" in found[0].fix


def test_a_tip_before_its_point_is_drawn_back_and_one_beyond_it_is_moved_first(garment, bench):
    before = run_checks(with_dart(garment, bench, tip=Point(92.0, 460.0)))[0]
    assert before.fix == "Draw the tip back by 15 mm or more towards the dart's mouth."
    beyond = run_checks(with_dart(garment, bench, tip=Point(92.0, 440.0)))[0]
    assert "Its tip lies 10 mm beyond that point." in beyond.message
    assert "Move the dart first" in beyond.fix and "by 25mm" in beyond.fix


def test_the_way_back_is_reckoned_past_a_point_beside_the_dart(garment, bench):
    """As far as the circle of the clearance reaches along the dart: a right triangle of 25, 20 and 15 mm."""
    aside = with_dart(garment, bench, tip=Point(92.0, 450.0), keep_clear=Point(112.0, 450.0), clear_by=25.0)
    assert run_checks(aside)[0].fix.startswith("Draw the tip back by 15 mm")


def test_a_dart_aimed_at_nothing_needs_no_clearance(garment, bench):
    assert bench.codes(with_dart(garment, bench, keep_clear=None, tip=Point(92.0, 460.0))) == set()


def test_a_tip_outside_the_piece_is_heard(garment, bench):
    assert bench.codes(with_dart(garment, bench, tip=Point(92.0, 700.0))) == {"checks.dart-outside"}


def test_a_dart_that_takes_in_nothing_is_heard(garment, bench):
    dart = garment.piece("skirt_front").darts[0]
    assert bench.codes(with_dart(garment, bench, b=dart.a.moved(0.2, 0.0))) == {"checks.dart-intake"}
