"""Path data of SVG: true arcs and cubics."""

from math import pi

import pytest
import svgpathtools
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.exchange.svg_path import fine, path_data
from app.pattern.geometry import Arc, Cubic, Line, Path, Point


@pytest.mark.parametrize(("value", "text"), [(1.0, "1"), (-0.0001, "0"), (0.1236, "0.124"), (-20.5, "-20.5"), (0, "0")])
def test_numbers_are_short(value, text):
    assert fine(value) == text


def test_each_segment_has_its_own_command():
    bend = Arc(Point(10.0, 5.0), 5.0, -pi / 2.0, pi / 2.0)
    path = Path((Line(Point(0, 0), Point(10, 0)), bend, Cubic(bend.end, Point(15, 8), Point(12, 9), Point(10, 9))))
    assert path_data(path) == "M0,0 L10,0 A5,5 0 0 1 15,5 C15,8 12,9 10,9"


def test_a_closed_path_is_closed():
    assert path_data(Path.through(Point(0, 0), Point(1, 0), Point(1, 1), Point(0, 0))).endswith("Z")


@given(st.floats(2.0, 500.0), st.floats(-pi, pi), st.floats(0.05, 2.0 * pi), st.booleans())
def test_an_arc_is_read_back_as_long_and_as_it_turns(radius, start, sweep, clockwise):
    arc = Arc(Point(30.0, -20.0), radius, start, -sweep if clockwise else sweep)
    read = svgpathtools.parse_path(path_data(Path((arc,))))
    assert read.length() == pytest.approx(arc.length, abs=0.05)
    middle = read.point(0.5)
    assert Point(middle.real, middle.imag).distance(arc.point(0.5)) < 0.05 + 0.002 * radius


def test_a_whole_circle_is_four_quarters():
    data = path_data(Path((Arc(Point(0, 0), 20.0, 0.0, 2.0 * pi),)))
    assert data.count("A") == 4
    assert svgpathtools.parse_path(data).length() == pytest.approx(40.0 * pi, abs=0.01)
