"""What lies inside closed paths."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from app.pattern.geometry import (
    Arc,
    GeometryError,
    Line,
    Path,
    Point,
    arc_centre,
    contains,
    distance_to,
    smooth,
    spans_at,
)

O = Point(0.0, 0.0)  # noqa: E741
TROUSERS = Path.through(
    O, Point(40, 0), Point(45, 60), Point(55, 60), Point(60, 0), Point(100, 0), Point(100, 100), Point(0, 100), O
)
CIRCLE = Path((Arc(O, 50, 0.3, pi), Arc(O, 50, 0.3 + pi, pi)))
OPEN = Path.through(O, Point(10, 0))


def test_the_width_of_a_circle_at_a_height():
    assert spans_at(CIRCLE, 30) == [pytest.approx((-40, 40))]
    assert spans_at(CIRCLE, -30) == [pytest.approx((-40, 40))]
    assert spans_at(CIRCLE, 50.01) == []


def test_two_legs_make_two_spans():
    assert spans_at(TROUSERS, 30) == [pytest.approx((0, 42.5)), pytest.approx((57.5, 100))]
    assert spans_at(TROUSERS, 80) == [pytest.approx((0, 100))]


def test_an_edge_at_the_height_itself_counts():
    assert spans_at(TROUSERS, 0) == [pytest.approx((0, 40)), pytest.approx((60, 100))]
    assert spans_at(TROUSERS, 100) == [pytest.approx((0, 100))]
    assert spans_at(TROUSERS, 60) == [pytest.approx((0, 100))]


def test_a_corner_that_only_touches_the_height_is_no_gap():
    dented = Path.through(O, Point(50, 20), Point(100, 0), Point(100, 60), Point(0, 60), O)
    assert spans_at(dented, 20) == [pytest.approx((0, 100))]
    assert len(spans_at(dented, 10)) == 2


def test_a_single_point_has_no_width():
    triangle = Path.through(O, Point(100, 0), Point(50, 80), O)
    assert spans_at(triangle, 80) == []
    assert spans_at(triangle, 40) == [pytest.approx((25, 75))]


def test_the_direction_of_the_outline_does_not_matter():
    assert spans_at(TROUSERS.reversed(), 30) == [pytest.approx(s) for s in spans_at(TROUSERS, 30)]


def test_curved_outlines_are_measured_on_the_curve():
    blob = smooth([Point(100, 0), Point(0, 80), Point(-90, 10), Point(10, -70)], closed=True)
    ((low, high),) = spans_at(blob, 5.0)
    assert distance_to(blob, Point(low, 5.0)) < 1e-6
    assert distance_to(blob, Point(high, 5.0)) < 1e-6
    assert contains(blob, Point(low + 0.1, 5.0))
    assert not contains(blob, Point(low - 0.1, 5.0))


def test_inside_on_the_edge_and_outside():
    assert contains(TROUSERS, Point(20, 10))
    assert contains(TROUSERS, Point(0, 50))
    assert contains(TROUSERS, O)
    assert not contains(TROUSERS, Point(50, 10))
    assert not contains(TROUSERS, Point(-1, 50))


def test_a_half_moon_is_hollow():
    outer = arc_centre(O, 50, 0, pi)
    moon = outer.joined(Path((Line(Point(-50, 0), Point(-30, 0)),)))
    moon = moon.joined(arc_centre(O, 30, pi, 0)).joined(Path.through(Point(30, 0), Point(50, 0)))
    assert moon.signed_area == pytest.approx(pi * (50**2 - 30**2) / 2)
    assert not contains(moon, Point(0, 10))
    assert contains(moon, Point(0, 40))
    assert spans_at(moon, 18) == [
        pytest.approx((-sqrt(50**2 - 18**2), -24)),
        pytest.approx((24, sqrt(50**2 - 18**2))),
    ]


@pytest.mark.parametrize("ask", [lambda p: spans_at(p, 0.0), lambda p: contains(p, O)])
def test_an_open_path_has_no_inside(ask):
    with pytest.raises(GeometryError, match="no inside"):
        ask(OPEN)
