"""What is swung about a point until another meets a line: by the smaller turn, onto lines and curves, or told why."""

from __future__ import annotations

from math import hypot

import pytest

from app.pattern.geometry import Path, Point
from tests.pattern.drafting.drawn import draw, drawn

GROUND = """
pin   = at 0, 0
tip   = at 20cm, 0
arm   = line pin to tip
wall  = line (at 10cm, 5cm) to (at 10cm, 8cm)
short = line (at 40cm, 30cm) to (at 40cm, 34cm)
bow   = arc (at 12cm, 30cm) to (at 12cm, 0) around (at 12cm, 15cm)
"""


def swung(line):
    return draw(f"{GROUND}q = {line}\n")["q"]


def test_the_point_comes_to_lie_on_the_line_as_far_from_the_pin_as_before():
    moved = swung("tip swung about pin until tip meets wall")
    assert isinstance(moved, Point)
    assert moved.x == pytest.approx(100.0)
    assert hypot(moved.x, moved.y) == pytest.approx(200.0)


def test_of_two_turns_the_smaller_is_taken():
    up = swung("tip swung about pin until tip meets wall")
    down = swung("(at 20cm, -1cm) swung about pin until (at 20cm, -1cm) meets wall")
    assert up.y > 0.0 > down.y


def test_a_straight_line_is_met_beyond_its_ends_and_a_curve_only_on_itself():
    assert swung("tip swung about pin until tip meets (line (at 10cm, 0) to (at 10cm, 1cm))").x == pytest.approx(100.0)
    met = swung("tip swung about pin until tip meets bow")
    assert hypot(met.x - 120.0, met.y - 150.0) == pytest.approx(150.0, abs=1e-3)


def test_a_whole_path_goes_with_the_point_and_keeps_its_length():
    moved = swung("arm swung about pin until tip meets wall")
    assert isinstance(moved, Path)
    assert moved.length == pytest.approx(200.0)
    assert moved.start.distance(Point(0.0, 0.0)) < 1e-9
    assert moved.end.x == pytest.approx(100.0)


def test_a_point_that_lies_on_the_line_already_moves_nothing():
    moved = swung("tip swung about pin until tip meets (line (at 20cm, -5cm) to (at 20cm, 5cm))")
    assert moved.distance(Point(200.0, 0.0)) < 1e-6


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("tip swung about pin until tip meets short", "200 mm"),
        ("tip swung about pin until pin meets wall", "stays where it is"),
    ],
)
def test_what_cannot_meet_is_told_with_the_distance(line, words):
    _, problems = drawn(f"{GROUND}q = {line}\n")
    assert [problem.code for problem in problems] == ["drafting.out-of-reach"]
    assert words in problems[0].message
