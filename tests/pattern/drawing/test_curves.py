"""Arcs become cubics that stay within a thousandth of a millimetre, and shapes close."""

from itertools import pairwise
from math import hypot, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.drawing.curves import arc_as_cubics, drawable, polygon, rectangle, ring
from app.pattern.geometry import Arc, Cubic, Line, Point


@given(
    radius=st.floats(1.0, 3000.0),
    start=st.floats(-7.0, 7.0),
    sweep=st.floats(0.01, 2.0 * pi),
    turn=st.sampled_from([1.0, -1.0]),
)
def test_cubics_for_an_arc_stay_within_a_thousandth_of_a_millimetre(radius, start, sweep, turn):
    arc = Arc(Point(12.0, -7.0), radius, start, turn * sweep)
    for cubic in arc_as_cubics(arc):
        for step in range(21):
            point = cubic.point(step / 20.0)
            assert abs(hypot(point.x - 12.0, point.y + 7.0) - radius) < 0.001


@given(radius=st.floats(1.0, 500.0), sweep=st.floats(-6.0, 6.0).filter(lambda s: abs(s) > 0.01))
def test_cubics_for_an_arc_start_end_and_join_where_the_arc_does(radius, sweep):
    arc = Arc(Point(0.0, 0.0), radius, 0.3, sweep)
    cubics = arc_as_cubics(arc)
    assert cubics[0].start.distance(arc.start) < 1e-9
    assert cubics[-1].end.distance(arc.end) < 1e-6
    assert all(a.end.distance(b.start) < 1e-9 for a, b in pairwise(cubics))


def test_lines_and_cubics_are_drawn_as_they_are():
    line = Line(Point(0, 0), Point(3, 4))
    cubic = Cubic(Point(3, 4), Point(5, 4), Point(6, 5), Point(6, 8))
    assert list(drawable((line, cubic))) == [line, cubic]


def test_a_ring_is_closed_and_anticlockwise():
    path = ring(Point(5.0, 5.0), 2.0)
    assert path.closed
    assert path.signed_area == pytest.approx(4.0 * pi)


def test_polygon_and_rectangle_close_themselves():
    assert polygon(Point(0, 0), Point(4, 0), Point(0, 3)).signed_area == pytest.approx(6.0)
    assert rectangle(1.0, 2.0, 4.0, 4.0).signed_area == pytest.approx(6.0)
