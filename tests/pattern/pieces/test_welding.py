"""Outlines close to the last digit, and little loops are cut off while large ones stay to be told."""

from __future__ import annotations

from math import pi

import pytest

from app.pattern.geometry import Arc, Cubic, Line, Point, self_crossings
from app.pattern.pieces.welding import welded, without_small_loops

A, B, C = Point(0.0, 0.0), Point(100.0, 0.0), Point(50.0, 80.0)
OFF = 1e-7


def joints(path):
    return [
        (one.end, two.start) for one, two in zip(path.segments, (*path.segments[1:], path.segments[0]), strict=True)
    ]


def test_lines_and_curves_give_way_where_rounding_parted_them():
    path = welded(
        [
            Line(A, B.moved(OFF, 0.0)),
            Cubic(B, B.moved(0.0, 30.0), C.moved(20.0, 0.0), C),
            Line(C.moved(0.0, OFF), A.moved(0.0, -OFF)),
        ]
    )
    assert all(end == start for end, start in joints(path))
    assert path.closed
    assert path.end == path.start


def test_an_arc_stays_and_its_neighbours_come_to_it():
    arc = Arc(Point(50.0, 0.0), 50.0, 0.0, pi)
    path = welded([Line(A, B.moved(OFF, OFF)), arc])
    assert arc in path.segments
    assert path.segments[0].end == arc.start
    assert path.segments[0].start == arc.end


def test_segments_of_no_length_are_left_out():
    path = welded([Line(A, B), Line(B, B), Line(B, C), Line(C, A)])
    assert len(path.segments) == 3


def looped(size):
    """A square with a loop of about four sizes in its lower edge."""
    corners = [(0.0, 0.0), (50.0 + size, 0.0), (50.0 + size, size), (50.0, size), (50.0, -size / 2.0)]
    corners += [(200.0, -size / 2.0), (200.0, 200.0), (0.0, 200.0)]
    points = [Point(*c) for c in corners]
    return welded(Line(p, q) for p, q in zip(points, (*points[1:], points[0]), strict=True))


def test_a_small_loop_is_cut_off_where_it_crosses():
    clean = without_small_loops(looped(2.0), 20.0)
    assert self_crossings(clean) == ()
    assert clean.closed
    assert clean.signed_area == pytest.approx(200.0 * 200.0 + 150.0, abs=1e-6)


def test_a_large_loop_is_no_slip_of_a_bend_and_stays():
    outline = looped(30.0)
    assert without_small_loops(outline, 20.0) is outline


def test_an_outline_without_loops_is_left_as_it_is():
    triangle = welded([Line(A, B), Line(B, C), Line(C, A)])
    assert without_small_loops(triangle, 20.0) is triangle


@pytest.mark.parametrize("turned", range(9))
def test_a_loop_is_found_wherever_the_outline_starts(turned):
    segments = looped(2.0).segments
    clean = without_small_loops(welded((*segments[turned:], *segments[:turned])), 20.0)
    assert self_crossings(clean) == ()
    assert clean.signed_area == pytest.approx(200.0 * 200.0 + 150.0, abs=1e-6)
