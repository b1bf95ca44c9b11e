"""Crossings of every pair of kinds, and the awkward ones: touches, shared ends, shared stretches, self-crossings."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from app.pattern.geometry import (
    Arc,
    Cubic,
    Line,
    Path,
    Point,
    Transform,
    arc_between,
    crossings,
    curve,
    is_simple,
    self_crossings,
    smooth,
)

O = Point(0.0, 0.0)  # noqa: E741
HUMP = Cubic(O, Point(30, 80), Point(90, 90), Point(150, 20))


def one(segment):
    return Path((segment,))


def places(a, b):
    return [pytest.approx(c.point, abs=1e-6) for c in crossings(a, b)]


def test_two_lines():
    found = crossings(Path.through(O, Point(10, 10)), Path.through(Point(0, 8), Point(8, 0)))
    assert len(found) == 1
    assert found[0].point == pytest.approx((4, 4))
    assert found[0].along_a == pytest.approx(4 * sqrt(2))
    assert found[0].along_b == pytest.approx(4 * sqrt(2))


def test_lines_that_end_before_they_cross_do_not():
    assert crossings(Path.through(O, Point(3, 3)), Path.through(Point(0, 8), Point(8, 0))) == ()


def test_lines_that_touch_with_an_end_do():
    assert places(Path.through(O, Point(4, 4)), Path.through(Point(0, 8), Point(8, 0))) == [(4, 4)]


def test_lines_on_one_another_give_the_ends_they_share():
    assert places(Path.through(O, Point(10, 0)), Path.through(Point(4, 0), Point(20, 0))) == [(4, 0), (10, 0)]
    assert places(Path.through(O, Point(10, 0)), Path.through(Point(20, 0), Point(4, 0))) == [(4, 0), (10, 0)]
    assert places(Path.through(O, Point(10, 0)), Path.through(Point(10, 0), Point(20, 0))) == [(10, 0)]
    assert crossings(Path.through(O, Point(10, 0)), Path.through(Point(11, 0), Point(20, 0))) == ()


def test_parallel_lines_a_hair_apart_do_not_meet():
    assert crossings(Path.through(O, Point(10, 0)), Path.through(Point(0, 1e-4), Point(10, 1e-4))) == ()


def test_a_line_and_an_arc():
    half = one(Arc(O, 50, 0, pi))
    assert places(Path.through(Point(-100, 30), Point(100, 30)), half) == [(-40, 30), (40, 30)]
    assert crossings(Path.through(Point(-100, -30), Point(100, -30)), half) == ()
    assert places(Path.through(Point(0, 30), Point(100, 30)), half) == [(40, 30)]


def test_a_line_touching_an_arc_touches_it_once():
    assert places(Path.through(Point(-100, 50), Point(100, 50)), one(Arc(O, 50, 0, pi))) == [(0, 50)]


def test_two_arcs():
    a, b = one(Arc(O, 50, 0, 2 * pi)), one(Arc(Point(60, 0), 50, 0, 2 * pi))
    assert sorted(c.point.y for c in crossings(a, b)) == pytest.approx([-40, 40])


def test_two_arcs_of_one_circle_give_the_ends_they_share():
    a, b = one(Arc(O, 50, 0, pi)), one(Arc(O, 50, pi / 2, pi))
    assert places(a, b) == [(0, 50), (-50, 0)]


def test_a_line_and_a_curve_three_times():
    wave = one(Cubic(O, Point(50, 160), Point(100, -160), Point(150, 0)))
    found = crossings(Path.through(Point(-10, 1), Point(160, -1)), wave)
    assert len(found) == 3
    assert [c.along_a for c in found] == sorted(c.along_a for c in found)


def test_a_line_touching_the_top_of_a_curve():
    top = HUMP.bounds.top
    assert len(crossings(Path.through(Point(-10, top), Point(200, top)), one(HUMP))) == 1
    assert crossings(Path.through(Point(-10, top + 1e-3), Point(200, top + 1e-3)), one(HUMP)) == ()
    assert len(crossings(Path.through(Point(-10, top - 1e-3), Point(200, top - 1e-3)), one(HUMP))) == 2


def test_an_arc_and_a_curve():
    found = crossings(one(HUMP), one(Arc(Point(75, 0), 70, 0, pi)))
    for crossing in found:
        assert crossing.point.distance(Point(75, 0)) == pytest.approx(70, abs=1e-6)
    assert len(found) == 2


def test_two_curves_nine_times():
    """Bézout: two cubics meet at most nine times; these two do."""
    a = Cubic(Point(0, 40), Point(330, 60), Point(-220, 60), Point(110, 80))
    b = Cubic(Point(35, 0), Point(35, 380), Point(75, -260), Point(75, 120))
    found = crossings(one(a), one(b))
    assert len(found) == 9
    for crossing in found:
        assert one(b).point_at(crossing.along_b).distance(one(a).point_at(crossing.along_a)) < 1e-6


def test_curves_that_touch_and_curves_that_share_an_end():
    mirrored = HUMP.transformed(Transform.mirror(Point(0, HUMP.bounds.top), Point(1, HUMP.bounds.top)))
    touching = crossings(one(HUMP), one(mirrored))
    assert len(touching) == 1
    assert touching[0].point.y == pytest.approx(HUMP.bounds.top, abs=1e-6)
    before, after = HUMP.split(0.4)
    joint = crossings(one(before), one(after))
    assert [c.point for c in joint] == [pytest.approx(before.end, abs=1e-6)]


def test_a_curve_and_a_part_of_it_give_the_ends_of_the_part():
    part = HUMP.split(0.7)[0].split(0.4)[1]
    found = crossings(one(HUMP), one(part))
    assert [c.point for c in found] == [pytest.approx(part.start, abs=1e-6), pytest.approx(part.end, abs=1e-6)]
    assert crossings(one(HUMP), one(HUMP.reversed()))[0].point == pytest.approx(HUMP.start)


def test_curves_that_cross_at_a_low_angle_close_to_their_ends():
    a = Cubic(Point(-114.4, -134.4), Point(-105.0, -149.3), Point(-89.1, -165.2), Point(-60.6, -170.86))
    b = Cubic(Point(-61.95, -170.54), Point(8.8, -189.8), Point(79.5, -164.0), Point(143.8, -174.4))
    assert len(crossings(one(a), one(b))) == 1
    assert len(crossings(one(b.reversed()), one(a))) == 1


def test_an_arc_and_a_line_that_end_in_the_same_place():
    arc = arc_between(O, Point(50, 0), Point(25, sqrt(275)))
    assert places(arc, Path.through(Point(50, 0), Point(50, 50))) == [(50, 0)]


def test_a_crossing_at_a_joint_counts_once():
    corner = Path.through(O, Point(10, 10), Point(20, 0))
    assert places(corner, Path.through(Point(10, 0), Point(10, 20))) == [(10, 10)]
    square = Path.through(O, Point(10, 0), Point(10, 10), Point(0, 10), O)
    assert places(square, Path.through(Point(-5, -5), Point(5, 5))) == [(0, 0)]


def test_crossings_are_sorted_along_the_first_path():
    wave = smooth([Point(10 * i, 20 * (-1) ** i) for i in range(6)])
    found = crossings(Path.through(Point(60, 0), Point(-10, 0)), wave)
    assert len(found) == 5
    assert [c.along_a for c in found] == sorted(c.along_a for c in found)
    assert [c.along_b for c in found] == sorted((c.along_b for c in found), reverse=True)


@pytest.mark.parametrize(
    "nothing", [Line(Point(75, 0), Point(75, 0)), Cubic(*[Point(75, 0)] * 4), Arc(Point(75, -1), 1, pi / 2, 0.0)]
)
def test_a_segment_without_length_meets_what_it_lies_on(nothing):
    assert len(crossings(one(nothing), Path.through(O, Point(150, 0)))) == 1
    assert crossings(one(nothing), one(HUMP)) == ()


def test_curves_with_folded_handles_and_cusps_cross_where_they_should():
    folded = Cubic(O, O, Point(100, 100), Point(100, 100))
    other = Cubic(Point(0, 80), Point(0, 80), Point(80, 0), Point(80, 0))
    assert places(one(folded), one(other)) == [(40, 40)]
    cusp = Cubic(O, Point(100, 100), Point(0, 100), Point(100, 0))
    assert len(crossings(one(cusp), Path.through(Point(-10, 40), Point(110, 40)))) == 2


def test_a_looping_curve_crosses_itself():
    loop = one(Cubic(O, Point(300, 200), Point(-200, 200), Point(100, 0)))
    found = self_crossings(loop)
    assert len(found) == 1
    assert found[0].point.x == pytest.approx(50)
    assert loop.point_at(found[0].along_a).distance(loop.point_at(found[0].along_b)) < 1e-6
    assert not is_simple(loop)


def test_a_path_that_comes_back_over_itself_crosses_itself():
    path = Path.through(O, Point(50, 0), Point(50, 30), Point(20, 30), Point(20, -20))
    assert [c.point for c in self_crossings(path)] == [pytest.approx((20, 0))]
    assert not is_simple(path)


def test_joints_are_no_self_crossings():
    square = Path.through(O, Point(10, 0), Point(10, 10), Point(0, 10), O)
    assert self_crossings(square) == ()
    assert is_simple(square)
    assert self_crossings(smooth([O, Point(80, 0), Point(90, 70), Point(10, 60)], closed=True)) == ()
    assert self_crossings(curve(O, Point(80, 20), 1.0, -1.0).joined(Path.through(Point(80, 20), Point(90, 90)))) == ()


def test_a_path_there_and_back_is_not_simple():
    assert not is_simple(Path.through(O, Point(50, 0), Point(10, 0)))


def test_a_path_that_touches_itself_is_not_simple():
    assert not is_simple(Path.through(O, Point(50, 0), Point(50, 30), Point(25, 0), Point(0, 30)))
