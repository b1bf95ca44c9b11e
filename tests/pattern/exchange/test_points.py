"""Paths as few points that stay close to the curve, corners told apart."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString
from shapely.geometry import Point as ShapelyPoint

from app.pattern.exchange.points import CHORD_ERROR, polyline
from app.pattern.geometry import Arc, Cubic, Line, Path, Point, curve

places = st.builds(Point, st.floats(-400.0, 400.0), st.floats(-400.0, 400.0))


@given(places, places, places, places)
def test_no_point_of_a_curve_is_further_from_the_polyline_than_promised(a, b, c, d):
    if a.distance(d) < 1.0:
        return
    cubic = Cubic(a, b, c, d)
    traced = polyline(Path((cubic,)))
    line = LineString(traced.points)
    assert max(line.distance(ShapelyPoint(cubic.point(i / 400.0))) for i in range(401)) <= CHORD_ERROR + 1e-6


@given(st.floats(1.0, 600.0), st.floats(0.1, 2.0 * pi - 0.01))
def test_no_chord_of_an_arc_is_further_from_it_than_promised(radius, sweep):
    traced = polyline(Path((Arc(Point(0.0, 0.0), radius, 0.3, sweep),)))
    for a, b in zip(traced.points, traced.points[1:], strict=False):
        assert abs(a.between(b, 0.5).distance(Point(0.0, 0.0)) - radius) <= CHORD_ERROR + 1e-6


def test_the_length_of_a_traced_armhole_is_true_to_a_hundredth_of_a_millimetre():
    path = curve(Point(238, 215), Point(190, 392), 2.6, 1.3)
    assert LineString(polyline(path).points).length == pytest.approx(path.length, abs=0.02)


def test_a_straight_line_needs_two_turn_points():
    traced = polyline(Path.through(Point(0, 0), Point(700, 0)))
    assert traced.points == (Point(0, 0), Point(700, 0))
    assert traced.turns == (True, True)
    assert not traced.closed


def test_a_closed_path_does_not_repeat_its_first_point():
    square = Path.through(Point(0, 0), Point(10, 0), Point(10, 10), Point(0, 10), Point(0, 0))
    traced = polyline(square)
    assert traced.closed
    assert len(traced.points) == 4
    assert all(traced.turns)


def test_where_a_line_runs_smoothly_into_a_curve_is_a_turn_point():
    """Else a program that smooths through curve points would bend the line."""
    bend = Arc(Point(100.0, 50.0), 50.0, -pi / 2.0, pi / 2.0)
    traced = polyline(Path((Line(Point(0, 0), bend.start), bend)))
    assert traced.turns[:2] == (True, True)
    assert traced.turns[-1]
    assert not any(traced.turns[2:-1])


def test_two_curves_that_run_on_meet_in_a_curve_point_and_with_a_corner_in_a_turn_point():
    one = Arc(Point(0.0, 50.0), 50.0, -pi / 2.0, pi / 4.0)
    on = Arc(Point(0.0, 50.0), 50.0, -pi / 4.0, pi / 4.0)
    corner = Arc(one.end.moved(-20.0, 0.0), 20.0, 0.0, pi / 2.0)
    joint = len(polyline(Path((one,))).points) - 1
    assert not polyline(Path((one, on))).turns[joint]
    assert polyline(Path((one, corner))).turns[joint]


def test_a_circle_has_curve_points_only():
    traced = polyline(Path((Arc(Point(0, 0), 40.0, 0.0, 2.0 * pi),)))
    assert traced.closed
    assert not any(traced.turns)
