"""Points, boxes and compass constructions."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from app.pattern.geometry import (
    Box,
    GeometryError,
    Point,
    Transform,
    circle_circle,
    foot,
    line_circle,
    line_line,
)

O = Point(0.0, 0.0)  # noqa: E741


def test_moving_and_vectors():
    assert Point(1, 2).moved(3, -1) == (4, 1)
    assert Point(1, 2).plus(Point(3, 4)) == (4, 6)
    assert Point(1, 2).minus(Point(3, 5)) == (-2, -3)
    assert Point(1, 2).scaled(2.5) == (2.5, 5.0)


def test_toward_goes_on_beyond_the_other_point_and_back():
    assert O.toward(Point(30, 40), 10) == pytest.approx((6, 8))
    assert O.toward(Point(30, 40), 100) == pytest.approx((60, 80))
    assert O.toward(Point(30, 40), -10) == pytest.approx((-6, -8))


def test_toward_the_same_place_has_no_answer():
    with pytest.raises(GeometryError, match="no direction"):
        O.toward(O, 5)


def test_between_counts_from_here_to_there():
    assert Point(10, 0).between(Point(20, 40), 0.25) == (12.5, 10)


def test_polar_and_angle_to_undo_each_other():
    there = Point(5, 5).polar(20, 2.0)
    assert Point(5, 5).angle_to(there) == pytest.approx(2.0)
    assert Point(5, 5).distance(there) == pytest.approx(20)


def test_a_quarter_turn_is_anticlockwise():
    assert Point(2, 1).turned(pi / 2, Point(1, 1)) == pytest.approx((1, 2))


def test_mirroring_twice_is_nothing():
    a, b = Point(3, 1), Point(7, 9)
    assert Point(20, -4).mirrored(a, b).mirrored(a, b) == pytest.approx((20, -4))
    assert Point(5, 3).mirrored(O, Point(0, 1)) == pytest.approx((-5, 3))


def test_the_foot_of_a_perpendicular_may_lie_beyond_the_ends():
    assert foot(Point(50, 7), O, Point(10, 0)) == pytest.approx((50, 0))


def test_a_line_of_one_point_has_no_foot():
    with pytest.raises(GeometryError, match="two different points"):
        foot(Point(1, 1), O, O)


def test_endless_lines_cross_beyond_their_points():
    assert line_line(O, Point(1, 0), Point(10, 5), Point(10, 6)) == pytest.approx((10, 0))


def test_parallel_lines_do_not_cross():
    assert line_line(O, Point(1, 1), Point(5, 0), Point(6, 1)) is None
    assert line_line(O, O, Point(5, 0), Point(6, 1)) is None


def test_a_line_meets_a_circle_in_the_order_of_travel():
    assert line_circle(Point(-9, 3), Point(9, 3), O, 5) == (pytest.approx((-4, 3)), pytest.approx((4, 3)))
    assert line_circle(Point(9, 3), Point(-9, 3), O, 5) == (pytest.approx((4, 3)), pytest.approx((-4, 3)))


def test_a_line_touches_a_circle_once_or_misses_it():
    assert line_circle(Point(-9, 5), Point(9, 5), O, 5) == (pytest.approx((0, 5)),)
    assert line_circle(Point(-9, 5.1), Point(9, 5.1), O, 5) == ()


def test_circles_meet_first_on_the_left():
    left, right = circle_circle(O, 10, Point(10, 0), 10)
    assert left == pytest.approx((5, sqrt(75)))
    assert right == pytest.approx((5, -sqrt(75)))


def test_circles_touch_once_outside_and_inside():
    assert circle_circle(O, 6, Point(10, 0), 4) == (pytest.approx((6, 0)),)
    assert circle_circle(O, 10, Point(6, 0), 4) == (pytest.approx((10, 0)),)


def test_circles_apart_or_one_in_the_other_do_not_meet():
    assert circle_circle(O, 4, Point(10, 0), 4) == ()
    assert circle_circle(O, 10, Point(1, 0), 4) == ()
    assert circle_circle(O, 10, O, 4) == ()


def test_the_same_circle_twice_has_no_answer():
    with pytest.raises(GeometryError, match="same"):
        circle_circle(O, 4, O, 4)


def test_boxes():
    box = Box(0, 0, 10, 5)
    assert (box.width, box.height) == (10, 5)
    assert box.joined(Box(-1, 2, 3, 9)) == (-1, 0, 10, 9)
    assert box.meets(Box(10, 5, 12, 12))
    assert not box.meets(Box(11, 0, 12, 5))
    assert box.meets(Box(11, 0, 12, 5), 1.0)
    assert box.distance(Point(13, 9)) == 5
    assert box.distance(Point(3, 3)) == 0


def test_one_transform_after_another_is_read_from_left_to_right():
    both = Transform.move(10, 0).then(Transform.turn(pi / 2, O))
    assert both.apply(Point(0, 0)) == pytest.approx((0, 10))


def test_a_mirror_turns_over_and_a_scale_lengthens():
    assert Transform.mirror(O, Point(0, 5)).flips
    assert Transform.mirror(O, Point(0, 5)).apply(Point(3, 4)) == pytest.approx((-3, 4))
    assert not Transform.mirror(O, Point(0, 5)).then(Transform.mirror(O, Point(3, 5))).flips
    assert Transform.scale(1.05).factor == pytest.approx(1.05)
    assert Transform.scale(2).then(Transform.turn(1.0, Point(5, 5))).factor == pytest.approx(2)


def test_two_mirrors_make_a_turn_of_twice_their_angle():
    both = Transform.mirror(O, Point(1, 0)).then(Transform.mirror(O, Point(1, 1)))
    assert both.apply(Point(7, 3)) == pytest.approx(Point(7, 3).turned(pi / 2, O))


def test_transforms_without_an_answer():
    with pytest.raises(GeometryError, match="mirror line"):
        Transform.mirror(O, O)
    with pytest.raises(GeometryError, match="single point"):
        Transform.scale(0)


@pytest.mark.parametrize(
    ("way", "other", "turn"),
    [((1, 0), (0, 2), pi / 2), ((0, 3), (1, 0), -pi / 2), ((1, 1), (2, 2), 0.0), ((1, 0), (-1, 0), pi)],
)
def test_a_direction_turns_to_the_left_by_the_angle_to_the_other_however_long_they_are(way, other, turn):
    assert Point(*way).turn_to(Point(*other)) == pytest.approx(turn)
