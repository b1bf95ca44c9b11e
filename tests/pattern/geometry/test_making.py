"""Arcs, single curves and smooth curves as a draft asks for them."""

from __future__ import annotations

from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest

from app.pattern.geometry import (
    Cubic,
    GeometryError,
    Point,
    arc_between,
    arc_centre,
    curve,
    smooth,
)

O = Point(0.0, 0.0)  # noqa: E741


def test_an_arc_between_two_points_takes_the_shorter_way():
    right = arc_between(Point(0, 10), Point(10, 0), O)
    assert right.segments[0].sweep == pytest.approx(-pi / 2)
    assert right.start == pytest.approx((0, 10))
    assert right.end == pytest.approx((10, 0))


def test_half_a_circle_between_two_points_runs_anticlockwise():
    assert arc_between(Point(10, 0), Point(-10, 0), O).bounds.top == pytest.approx(10)
    assert arc_between(Point(-10, 0), Point(10, 0), O).bounds.bottom == pytest.approx(-10)


def test_an_arc_between_points_at_different_distances_is_refused():
    with pytest.raises(GeometryError, match=r"10 mm and 12 mm"):
        arc_between(Point(10, 0), Point(0, 12), O)


@pytest.mark.parametrize(("a", "b"), [(O, O), (Point(5, 0), Point(5, 0))])
def test_an_arc_between_needs_two_ends_and_a_centre_apart(a, b):
    with pytest.raises(GeometryError, match="different ends"):
        arc_between(a, b, O)


def test_an_arc_about_a_centre_runs_from_angle_to_angle():
    path = arc_centre(Point(5, 5), 10, 0, -pi / 2)
    assert path.start == pytest.approx((15, 5))
    assert path.end == pytest.approx((5, -5))
    assert path.segments[0].sweep < 0


@pytest.mark.parametrize(("radius", "to"), [(0, 1), (-3, 1), (10, 0)])
def test_an_arc_about_a_centre_needs_a_radius_and_a_sweep(radius, to):
    with pytest.raises(GeometryError, match="two different angles"):
        arc_centre(O, radius, 0, to)


def test_a_curve_along_its_own_chord_is_straight():
    path = curve(O, Point(90, 0), 0, 0)
    assert path.length == pytest.approx(90)
    cubic = path.segments[0]
    assert cubic.c1.x == pytest.approx(30, rel=0.02)
    assert cubic.c2.x == pytest.approx(60, rel=0.02)


def test_pull_lengthens_both_handles():
    plain = curve(O, Point(100, 40), 0, 0.8).segments[0]
    pulled = curve(O, Point(100, 40), 0, 0.8, pull=1.5).segments[0]
    assert pulled.start.distance(pulled.c1) == pytest.approx(1.5 * plain.start.distance(plain.c1))
    assert pulled.end.distance(pulled.c2) == pytest.approx(1.5 * plain.end.distance(plain.c2))


def test_a_curve_reversed_is_the_curve_drawn_the_other_way():
    there = curve(O, Point(100, 40), 0.3, 1.2).segments[0]
    back = curve(Point(100, 40), O, 1.2 + pi, 0.3 + pi).reversed().segments[0]
    for a, b in zip((there.c1, there.c2), (back.c1, back.c2), strict=True):
        assert a == pytest.approx(b, abs=1e-9)


def test_a_quarter_turn_bends_one_way_only():
    for legs in ((100, 100), (60, 100), (100, 30)):
        cubic = curve(Point(legs[0], 0), Point(0, legs[1]), pi / 2, pi).segments[0]
        assert all(cubic.curvature(i / 40) > 0 for i in range(41))
        assert all(p.x <= legs[0] + 1e-9 and p.y <= legs[1] + 1e-9 for p in (cubic.c1, cubic.c2))


def test_curves_change_steadily_with_their_directions():
    lengths = [curve(O, Point(100, 0), -a / 100, a / 100).length for a in range(0, 150, 2)]
    assert all(b > a for a, b in pairwise(lengths))
    assert max(b - a for a, b in pairwise(lengths)) < 3.0


def test_a_half_turn_is_near_a_half_circle():
    path = curve(Point(50, 0), Point(-50, 0), pi / 2, -pi / 2)
    assert path.length == pytest.approx(50 * pi, rel=0.01)


def test_curves_without_an_answer():
    with pytest.raises(GeometryError, match="two different ends"):
        curve(O, O, 0, 1)
    with pytest.raises(GeometryError, match="pull"):
        curve(O, Point(5, 5), 0, 1, pull=0)


def test_a_smooth_curve_goes_through_its_points_in_order():
    knots = [O, Point(40, 30), Point(90, 10), Point(120, 60)]
    path = smooth(knots)
    assert [s.start for s in path.segments] == knots[:-1]
    assert path.end == knots[-1]
    assert all(isinstance(s, Cubic) for s in path.segments)


def test_a_smooth_curve_takes_the_directions_given_and_runs_out_straight_where_none_is():
    path = smooth([O, Point(40, 30), Point(90, 10)], leaving=pi / 2)
    assert path.tangent_at(0) == pytest.approx((0, 1))
    assert path.segments[0].second(0.0) != pytest.approx((0, 0), abs=1e-3)
    assert path.segments[-1].second(1.0) == pytest.approx((0, 0), abs=1e-9)
    both = smooth([O, Point(40, 30), Point(90, 10)], 0.5, -0.5)
    assert both.tangent_at(both.length) == pytest.approx((cos(-0.5), sin(-0.5)))


def test_two_points_with_both_directions_are_one_curve():
    assert smooth([O, Point(100, 100)], 0.0, pi / 2) == curve(O, Point(100, 100), 0.0, pi / 2)


def test_two_points_without_directions_are_straight():
    assert smooth([O, Point(60, 80)]).length == pytest.approx(100)


def test_points_on_a_line_stay_on_it():
    path = smooth([O, Point(10, 10), Point(50, 50), Point(70, 70)])
    assert path.length == pytest.approx(hypot(70, 70))


def test_points_on_a_circle_make_nearly_a_circle():
    ring = smooth([O.polar(100, 2 * pi * i / 8) for i in range(8)], closed=True)
    assert ring.length == pytest.approx(200 * pi, rel=2e-3)
    assert all(abs(hypot(*ring.point_at(ring.length * i / 100)) - 100) < 0.6 for i in range(100))


def test_a_closed_curve_may_be_given_its_first_point_again():
    knots = [O, Point(100, 0), Point(50, 80)]
    assert smooth(knots, closed=True) == smooth([*knots, O], closed=True)


def test_a_point_given_twice_counts_once():
    assert smooth([O, O, Point(50, 20), Point(50, 20), Point(90, 0)]) == smooth([O, Point(50, 20), Point(90, 0)])


def test_smooth_curves_without_an_answer():
    with pytest.raises(GeometryError, match="at least two"):
        smooth([O, O])
    with pytest.raises(GeometryError, match="at least three"):
        smooth([O, Point(5, 5)], closed=True)
