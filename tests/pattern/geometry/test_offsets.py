"""Parallel paths: kinds kept, corners seen to, loops dropped."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from app.pattern.geometry import (
    Arc,
    Cubic,
    GeometryError,
    Line,
    Path,
    Point,
    arc_between,
    curve,
    distance_to,
    is_simple,
    nearest,
    offset,
    smooth,
)

O = Point(0.0, 0.0)  # noqa: E741
SQUARE = Path.through(O, Point(100, 0), Point(100, 100), Point(0, 100), O)
HUMP = Path((Cubic(O, Point(30, 80), Point(90, 90), Point(150, 20)),))
ARMHOLE = curve(O, Point(128, 152), pi / 2, 0.1)


def deviation(path, parallel, distance):
    """Largest difference in mm between the distance and what it should be, at 200 places."""
    places = (parallel.point_at(parallel.length * i / 200) for i in range(201))
    return max(abs(distance_to(path, p) - abs(distance)) for p in places)


def shortfall(path, parallel, distance):
    places = (parallel.point_at(parallel.length * i / 200) for i in range(201))
    return max(abs(distance) - distance_to(path, p) for p in places)


def test_left_of_travel_is_positive():
    assert offset(Path.through(O, Point(100, 0)), 10).segments == (Line(Point(0, 10), Point(100, 10)),)
    assert offset(Path.through(O, Point(100, 0)), -10).segments == (Line(Point(0, -10), Point(100, -10)),)


def test_no_distance_is_the_path_itself():
    assert offset(HUMP, 0.0) is HUMP


def test_arcs_stay_arcs_about_the_same_centre():
    arc = Path((Arc(Point(5, 5), 40, 0.2, 1.5),))
    assert offset(arc, 10).segments == (Arc(Point(5, 5), 30, 0.2, 1.5),)
    assert offset(arc, -10).segments == (Arc(Point(5, 5), 50, 0.2, 1.5),)
    assert offset(arc.reversed(), 10).segments[0].radius == 50


@pytest.mark.parametrize("distance", [6.0, 10.0, 15.0, -6.0, -10.0, -15.0, -40.0])
def test_curves_keep_their_distance_and_take_few_pieces(distance):
    for path in (HUMP, ARMHOLE):
        parallel = offset(path, distance)
        assert deviation(path, parallel, distance) < 0.02
        assert len(parallel.segments) <= 4
        assert all(isinstance(s, Cubic) for s in parallel.segments)


def test_a_smooth_path_has_a_smooth_parallel():
    path = smooth([O, Point(60, 30), Point(120, 25), Point(200, 60)])
    for distance in (10.0, -10.0):
        parallel = offset(path, distance)
        for before, after in zip(parallel.segments, parallel.segments[1:], strict=False):
            assert before.end.distance(after.start) < 1e-9
            assert before.tangent(1.0).distance(after.tangent(0.0)) < 1e-6


def test_there_and_back_again_is_the_path():
    back = offset(offset(ARMHOLE, 10), -10)
    assert max(distance_to(ARMHOLE, back.point_at(back.length * i / 50)) for i in range(51)) < 0.03


def test_a_parallel_of_the_reversed_path_is_the_parallel_on_the_other_side():
    there, back = offset(HUMP, 12), offset(HUMP.reversed(), -12)
    assert there.length == pytest.approx(back.length, abs=0.01)
    assert there.start.distance(back.end) < 1e-6


def test_an_outer_corner_is_mitred():
    corner = Path.through(O, Point(100, 0), Point(100, 100))
    outside = offset(corner, -10)
    assert outside.segments == (Line(Point(0, -10), Point(110, -10)), Line(Point(110, -10), Point(110, 100)))


def test_an_inner_corner_is_trimmed():
    corner = Path.through(O, Point(100, 0), Point(100, 100))
    inside = offset(corner, 10)
    assert inside.segments == (Line(Point(0, 10), Point(90, 10)), Line(Point(90, 10), Point(90, 100)))


def test_a_sharp_outer_corner_is_cut_off_at_four_times_the_distance():
    spike = Path.through(O, Point(200, 10), Point(0, 20))
    outside = offset(spike, -10)
    assert len(outside.segments) == 3
    assert outside.bounds.right < 200 + 10 * 4.2


def test_a_path_straight_back_is_capped():
    outside = offset(Path.through(O, Point(100, 0), Point(20, 0)), 10)
    assert outside.start == pytest.approx((0, 10))
    assert outside.end == pytest.approx((20, -10))


def test_corners_between_curves_are_trimmed_inside_and_run_on_straight_outside():
    path = HUMP.joined(curve(Point(150, 20), Point(260, 40), 1.2, -0.6))
    inside, outside = offset(path, 8), offset(path, -8)
    assert shortfall(path, inside, 8) < 0.02
    assert deviation(path, inside, 8) < 0.02
    assert shortfall(path, outside, 8) < 0.02
    assert any(isinstance(s, Line) for s in outside.segments)


def test_a_corner_of_an_arc_and_a_line_is_trimmed_on_the_arc():
    path = arc_between(O, Point(50, 0), Point(25, sqrt(275))).joined(Path.through(Point(50, 0), Point(50, 50)))
    inside = offset(path, 10)
    assert [type(s) for s in inside.segments] == [Arc, Line]
    assert deviation(path, inside, 10) < 1e-6


def test_a_corner_of_a_hair_is_closed_without_a_mitre():
    path = Path.through(O, Point(100, 0), Point(200, 0.1), Point(300, 0))
    for distance in (15.0, -15.0):
        parallel = offset(path, distance)
        assert len(parallel.segments) == 3
        assert deviation(path, parallel, distance) < 0.02


def test_a_hair_between_curve_and_arc_moves_only_the_curve():
    arc = arc_between(O, Point(60, 0), Point(30, 40))
    way = arc.tangent_at(arc.length)
    line = Path.through(arc.end, arc.end.moved(40 * way.x - 0.04 * way.y, 40 * way.y + 0.04 * way.x))
    for path in (arc.joined(line), line.reversed().joined(arc.reversed())):
        parallel = offset(path, 12)
        assert sum(isinstance(s, Arc) for s in parallel.segments) == 1
        assert len(parallel.segments) == 2
        assert deviation(path, parallel, 12) < 0.02


def test_a_step_shorter_than_the_distance_leaves_no_loop():
    step = Path.through(O, Point(100, 0), Point(100, 5), Point(200, 5))
    for distance in (10.0, -10.0):
        parallel = offset(step, distance)
        assert is_simple(parallel)
        assert shortfall(step, parallel, distance) < 0.02


def test_a_bend_tighter_than_the_distance_leaves_no_loop():
    bend = Path.through(O, Point(90, 0)).joined(curve(Point(90, 0), Point(100, 10), 0, pi / 2))
    bend = bend.joined(Path.through(Point(100, 10), Point(100, 90)))
    parallel = offset(bend, 14)
    assert [tuple(s.end) for s in parallel.segments] == [pytest.approx((86, 14)), pytest.approx((86, 90))]


def test_where_nothing_is_left_it_says_so():
    with pytest.raises(GeometryError, match=r"60 mm"):
        offset(Path((Arc(O, 50, 0, pi),)), 60)
    with pytest.raises(GeometryError, match=r"51 mm"):
        offset(SQUARE, 51)
    with pytest.raises(GeometryError, match=r"50 mm"):
        offset(Path((Arc(O, 50, 0, pi),)), 50)


def test_a_closed_path_has_a_closed_parallel_with_all_its_corners():
    inside, outside = offset(SQUARE, 10), offset(SQUARE, -10)
    assert inside.closed and outside.closed
    assert inside.signed_area == pytest.approx(80 * 80)
    assert outside.signed_area == pytest.approx(120 * 120)


def test_a_full_circle_has_a_full_circle_beside_it():
    circle = Path((Arc(O, 50, 0, 2 * pi),))
    assert offset(circle, 10).length == pytest.approx(80 * pi)
    assert offset(circle, -10).closed


def test_an_outline_with_one_corner_keeps_it():
    drop = curve(O, O.moved(1, 100), -0.5, pi).joined(curve(O.moved(1, 100), O, pi, 0.5 + pi))
    assert drop.closed
    for distance in (8.0, -8.0, -16.0, -25.0):
        parallel = offset(drop, distance)
        assert parallel.closed
        assert is_simple(parallel)
        assert shortfall(drop, parallel, distance) < 0.02


def test_a_path_with_segments_of_no_length_is_no_trouble():
    path = Path((Line(O, O), Line(O, Point(50, 0)), Cubic(*[Point(50, 0)] * 4), Line(Point(50, 0), Point(50, 50))))
    assert offset(path, 5).length == pytest.approx(45 + 45)


def test_curves_with_folded_handles_keep_their_distance():
    path = Path((Cubic(O, O, Point(60, 80), Point(160, 80)),))
    assert deviation(path, offset(path, 10), 10) < 0.02
    parallel = offset(path, -10)
    assert shortfall(path, parallel, 10) < 0.02


def test_the_mitre_at_a_right_angle_is_the_diagonal():
    outside = offset(SQUARE, -10)
    assert max(p.distance(Point(50, 50)) for p in outside.flatten()) == pytest.approx(60 * sqrt(2))
    assert nearest(outside, O) >= 0.0
