"""Lines, arcs and cubics, with the awkward ones among them."""

from __future__ import annotations

import itertools
import pickle
from dataclasses import FrozenInstanceError, fields
from math import hypot, pi

import pytest

from app.pattern.geometry import Arc, Cubic, GeometryError, Line, Point, Transform

O = Point(0.0, 0.0)  # noqa: E741
HUMP = Cubic(O, Point(30, 80), Point(90, 90), Point(150, 20))
ALL = [Line(O, Point(30, 40)), Arc(O, 50.0, 0.3, -2.0), HUMP]


@pytest.mark.parametrize("segment", ALL)
def test_ends_are_the_points_at_0_and_1(segment):
    assert segment.point(0.0) == pytest.approx(segment.start)
    assert segment.point(1.0) == pytest.approx(segment.end)


@pytest.mark.parametrize("segment", ALL)
def test_segments_cannot_be_changed_and_can_be_pickled(segment):
    with pytest.raises(FrozenInstanceError):
        setattr(segment, fields(segment)[0].name, Point(1, 1))
    assert segment.length > 0.0
    again = pickle.loads(pickle.dumps(segment))
    assert again == segment
    assert again.length == segment.length


def test_a_remembered_length_does_not_tell_two_curves_apart():
    fresh = Cubic(HUMP.start, HUMP.c1, HUMP.c2, HUMP.end)
    assert HUMP.length > 0.0
    assert fresh == HUMP
    assert hash(fresh) == hash(HUMP)


def test_scaling_scales_lengths_remembered_or_not():
    assert HUMP.transformed(Transform.scale(2)).length == pytest.approx(2 * HUMP.length)
    assert Arc(O, 10, 0, 1).transformed(Transform.scale(3)).length == pytest.approx(30)


def test_the_box_of_an_arc_reaches_over_the_quarters_it_passes():
    assert Arc(O, 10, -0.1, 0.2).bounds.right == pytest.approx(10)
    assert Arc(O, 10, 3.0, 0.2).bounds.left == pytest.approx(-10)
    assert tuple(Arc(O, 10, 0.5, -2 * pi).bounds) == pytest.approx((-10, -10, 10, 10))
    assert tuple(Arc(O, 10, 0.0, pi / 2).bounds) == pytest.approx((0, 0, 10, 10))


def test_an_arc_knows_the_directions_it_passes():
    arc = Arc(O, 10, 3.0, 1.0)
    assert arc.t_of_angle(3.5) == pytest.approx(0.5)
    assert arc.t_of_angle(3.5 - 2 * pi) == pytest.approx(0.5)
    assert arc.t_of_angle(2.9) is None
    assert arc.t_of_angle(2.999, slack=0.01) == 0.0
    assert arc.t_of_angle(4.001, slack=0.01) == 1.0
    assert arc.reversed().t_of_angle(3.75) == pytest.approx(0.25)


def test_arcs_travel_the_way_of_their_sweep():
    assert Arc(O, 10, 0, 1).tangent(0.0) == pytest.approx((0, 1))
    assert Arc(O, 10, 0, -1).tangent(0.0) == pytest.approx((0, -1))


def test_a_mirrored_arc_sweeps_the_other_way():
    arc = Arc(Point(5, 5), 10, 0, 1).transformed(Transform.mirror(O, Point(0, 1)))
    assert arc.sweep == -1
    assert arc.centre == pytest.approx((-5, 5))


def test_the_direction_at_a_folded_handle_is_that_of_the_curve():
    folded = Cubic(O, O, Point(50, 50), Point(100, 0))
    assert folded.tangent(0.0) == pytest.approx((0.70711, 0.70711), abs=1e-3)
    other = Cubic(O, Point(50, 50), Point(100, 0), Point(100, 0))
    assert other.tangent(1.0) == pytest.approx((0.70711, -0.70711), abs=1e-3)


def test_a_straight_cubic_with_both_handles_folded_still_has_length_and_direction():
    straight = Cubic(O, O, Point(60, 80), Point(60, 80))
    assert straight.length == pytest.approx(100.0, abs=1e-6)
    assert straight.tangent(0.0) == pytest.approx((0.6, 0.8))
    assert straight.tangent(1.0) == pytest.approx((0.6, 0.8))


def test_segments_of_no_length_have_none_and_no_direction():
    nothing = Cubic(O, O, O, O)
    assert nothing.length == 0.0
    assert nothing.t_at(5.0) == 0.0
    with pytest.raises(GeometryError, match="no direction"):
        nothing.tangent(0.5)
    with pytest.raises(GeometryError, match="no direction"):
        Line(O, O).tangent(0.0)


def test_a_curve_there_and_back_has_the_length_of_both_ways():
    there_and_back = Cubic(O, Point(0, 100), Point(0, 100), O)
    assert there_and_back.length == pytest.approx(150.0, abs=1e-3)


def test_curvature_is_positive_on_a_left_bend():
    left = Cubic(O, Point(50, 0), Point(100, 50), Point(100, 100))
    assert left.curvature(0.5) > 0
    assert left.reversed().curvature(0.5) < 0
    assert Cubic(O, O, O, O).curvature(0.5) == 0.0


def test_derivatives_agree_with_small_steps():
    h = 1e-5
    for t in (0.1, 0.6):
        step = HUMP.point(t + h).minus(HUMP.point(t - h)).scaled(0.5 / h)
        assert HUMP.derivative(t) == pytest.approx(step, rel=1e-6)
        bend = HUMP.derivative(t + h).minus(HUMP.derivative(t - h)).scaled(0.5 / h)
        assert HUMP.second(t) == pytest.approx(bend, rel=1e-6)


def test_lines_flatten_to_their_ends_and_tiny_arcs_to_a_few_points():
    assert Line(O, Point(5, 5)).flatten(0.02) == (O, Point(5, 5))
    assert len(Arc(O, 0.01, 0, 6.0).flatten(0.02)) >= 3


def test_arcs_flatten_evenly():
    points = Arc(O, 100, 0, pi).flatten(0.02)
    chords = [a.distance(b) for a, b in itertools.pairwise(points)]
    assert max(chords) - min(chords) < 1e-9
    middle = points[0].between(points[1], 0.5)
    assert 0.0 < 100 - hypot(*middle) <= 0.02
