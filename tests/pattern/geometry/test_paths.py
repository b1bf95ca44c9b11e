"""Paths of several segments: measured, cut, joined and turned round."""

from __future__ import annotations

from math import pi

import pytest

from app.pattern.geometry import Arc, Cubic, GeometryError, Line, Path, Point, Transform, nearest, smooth

O = Point(0.0, 0.0)  # noqa: E741
SQUARE = Path.through(O, Point(100, 0), Point(100, 100), Point(0, 100), O)
STEP = Path.through(O, Point(30, 0), Point(30, 40))


def test_through_makes_straight_lines_and_counts_a_repeated_point_once():
    path = Path.through(O, O, Point(10, 0), Point(10, 0), Point(10, 5))
    assert path.segments == (Line(O, Point(10, 0)), Line(Point(10, 0), Point(10, 5)))


@pytest.mark.parametrize("points", [(), (O,), (O, O)])
def test_through_needs_two_different_points(points):
    with pytest.raises(GeometryError, match="two different points"):
        Path.through(*points)


def test_a_path_needs_a_segment_and_no_gaps():
    with pytest.raises(GeometryError, match="at least one"):
        Path(())
    with pytest.raises(GeometryError, match=r"gap of 5\.000 mm"):
        Path((Line(O, Point(10, 0)), Line(Point(15, 0), Point(20, 0))))


def test_of_leaves_out_segments_without_length():
    path = Path.of([Line(O, O), Line(O, Point(10, 0)), Cubic(Point(10, 0), Point(10, 0), Point(10, 0), Point(10, 0))])
    assert path.segments == (Line(O, Point(10, 0)),)


def test_lengths_and_places_along_several_segments():
    assert STEP.length == 70
    assert STEP.stops == (0, 30, 70)
    assert STEP.point_at(50) == pytest.approx((30, 20))
    assert STEP.point_at(0) == O
    assert STEP.point_at(70) == (30, 40)


def test_at_a_corner_the_direction_is_that_in_which_the_path_leaves_it():
    assert STEP.tangent_at(29.999) == pytest.approx((1, 0))
    assert STEP.tangent_at(30) == pytest.approx((0, 1))
    assert STEP.tangent_at(70) == pytest.approx((0, 1))


@pytest.mark.parametrize("distance", [-1.0, 71.0, float("nan")])
def test_a_place_off_the_path_is_refused(distance):
    with pytest.raises(GeometryError, match="off a path"):
        STEP.point_at(distance)


def test_a_thousandth_beyond_the_end_is_the_end():
    assert STEP.point_at(70.0005) == pytest.approx((30, 40))
    assert STEP.point_at(-0.0005) == pytest.approx((0, 0))


def test_parts_keep_corners_and_kinds():
    part = STEP.part(10, 50)
    assert part.segments == (Line(Point(10, 0), Point(30, 0)), Line(Point(30, 0), Point(30, 20)))
    assert STEP.part(0, 70) == STEP


def test_a_part_that_ends_at_a_joint_has_no_empty_segment():
    assert len(STEP.part(0, 30).segments) == 1
    assert len(STEP.part(30, 70).segments) == 1
    assert len(STEP.part(10, 30).segments) == 1


def test_a_part_of_a_closed_path_runs_over_the_start():
    part = SQUARE.part(350, 50)
    assert part.length == pytest.approx(100)
    assert part.start == pytest.approx((0, 50))
    assert part.end == pytest.approx((50, 0))
    assert SQUARE.part(400, 50).length == pytest.approx(50)
    assert SQUARE.part(350, 0).length == pytest.approx(50)


@pytest.mark.parametrize(("low", "high"), [(20, 20), (40, 20)])
def test_a_part_must_end_further_along(low, high):
    with pytest.raises(GeometryError, match="further along"):
        STEP.part(low, high)


def test_a_part_of_a_curve_lies_on_it():
    path = smooth([O, Point(50, 30), Point(100, -20), Point(150, 10)])
    part = path.part(20, path.length - 10)
    for d in (0, 30, 77, part.length):
        assert part.point_at(d).distance(path.point_at(20 + d)) < 1e-4


def test_joining_needs_the_same_place():
    other = Path.through(Point(30, 40), Point(0, 40))
    assert STEP.joined(other).length == 100
    with pytest.raises(GeometryError, match=r"40 mm away"):
        STEP.joined(Path.through(Point(30, 0), Point(0, 40)))


def test_closed_paths_have_an_area_with_a_sign():
    assert SQUARE.closed
    assert SQUARE.signed_area == pytest.approx(10000)
    assert SQUARE.reversed().signed_area == pytest.approx(-10000)
    assert SQUARE.transformed(Transform.mirror(O, Point(0, 1))).signed_area == pytest.approx(-10000)
    assert not STEP.closed
    with pytest.raises(GeometryError, match="no area"):
        _ = STEP.signed_area


def test_the_area_does_not_depend_on_where_the_path_lies():
    blob = smooth([Point(100, 0), Point(0, 80), Point(-90, 10), Point(10, -70)], closed=True)
    moved = blob.transformed(Transform.move(3000, -2000))
    assert moved.signed_area == pytest.approx(blob.signed_area, rel=1e-9)


def test_bounds_join_all_segments():
    path = Path((Line(O, Point(10, 0)), Arc(Point(10, 10), 10, -pi / 2, pi)))
    assert tuple(path.bounds) == pytest.approx((0, 0, 20, 20))
    assert path.bounds == path.bounds


def test_flatten_gives_each_joint_once():
    assert STEP.flatten() == (O, Point(30, 0), Point(30, 40))
    assert SQUARE.flatten()[0] == SQUARE.flatten()[-1]


def test_nearest_on_a_corner_inside_and_beyond_the_end():
    assert nearest(STEP, Point(35, -5)) == pytest.approx(30)
    assert nearest(STEP, Point(20, -5)) == pytest.approx(20)
    assert nearest(STEP, Point(30, 99)) == pytest.approx(70)


def test_the_earliest_of_several_nearest_places_counts():
    assert nearest(SQUARE, Point(50, 50)) == pytest.approx(50)
    assert nearest(SQUARE, O) == 0.0


def test_nearest_to_the_centre_of_an_arc_is_its_start():
    assert nearest(Path((Arc(O, 50, 1.0, 1.0),)), Point(10, -50)) == pytest.approx(0.0)
