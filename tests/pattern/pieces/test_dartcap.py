"""Dart caps: folded and pressed, the seam runs on; the two halves mirror each other in the dart's fold."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.geometry import Point
from app.pattern.pieces.dartcap import dart_cap

TIP = Point(0.0, 0.0)


def dart(half_angle, length):
    """Feet of a dart that opens upward, and a unit vector square to each leg, away from the dart."""
    right = Point(length * sin(half_angle), length * cos(half_angle))
    return Point(-right.x, right.y), right


def test_square_to_its_leg_the_cap_runs_straight_on():
    a, b = dart(0.1, 100.0)
    beside = Point(-cos(0.1), -sin(0.1))
    peak = dart_cap(a, TIP, b, beside=beside, pressed_to="a").point_at(0.0 + a.distance(b) / 2.0)
    straight_on = Point(cos(0.1), sin(0.1))
    way = peak.minus(a)
    assert way.x * straight_on.y - way.y * straight_on.x == pytest.approx(0.0, abs=1e-2)


@given(
    half=st.floats(0.03, 0.35),
    length=st.floats(40.0, 300.0),
    tilt=st.floats(-0.35, 0.35),
    pressed=st.sampled_from("ab"),
    turn=st.floats(0.0, 2.0 * pi),
)
def test_closed_and_pressed_the_cap_lies_on_the_stitching_line(half, length, tilt, pressed, turn):
    a, b = (p.turned(turn, TIP) for p in dart(half, length))
    foot = a if pressed == "a" else b
    square = TIP.angle_to(foot) + (pi / 2.0 if pressed == "a" else -pi / 2.0)
    beside = Point(0.0, 0.0).polar(1.0, square + tilt)
    cap = dart_cap(a, TIP, b, beside=beside, pressed_to=pressed)
    assert cap is not None
    peak = cap.segments[0].end
    folded = peak.mirrored(foot, TIP).minus(foot)
    assert folded.x * beside.y - folded.y * beside.x == pytest.approx(0.0, abs=1e-6), "on the stitching line"
    assert folded.x * beside.x + folded.y * beside.y > 0.0, "on the side the dart is pressed to"
    middle = a.between(b, 0.5)
    assert cap.segments[0].start.mirrored(TIP, middle) == pytest.approx(cap.segments[1].end, abs=1e-6)
    assert peak.mirrored(TIP, middle) == pytest.approx(peak, abs=1e-6), "the peak lies on the fold"


def test_the_cap_leans_with_the_side_it_is_pressed_to():
    """A waist that rises to the right: pressed left the flap follows the left slope, pressed right the right one."""
    a, b = dart(0.1, 100.0)
    slope = Point(cos(0.2), sin(0.2))
    left = dart_cap(a, TIP, b, beside=slope.scaled(-1.0), pressed_to="a").segments[0].end
    right = dart_cap(a, TIP, b, beside=slope, pressed_to="b").segments[0].end
    assert left.y < a.y + 3.0 and right.y != pytest.approx(left.y, abs=0.5)


def test_unequal_legs_still_fold_about_the_line_that_halves_the_tip():
    a, b = Point(-10.0, 100.0), Point(11.0, 110.0)
    peak = dart_cap(a, TIP, b, beside=Point(-1.0, -0.1), pressed_to="a").segments[0].end
    gap = [TIP.angle_to(p) - TIP.angle_to(peak) for p in (a, b)]
    assert gap[0] == pytest.approx(-gap[1], abs=1e-9)


@pytest.mark.parametrize("beside", [Point(0.1, 1.0), Point(1.0, 0.0), Point(0.05, -1.0)])
def test_an_edge_that_runs_along_or_into_the_dart_has_no_cap(beside):
    a, b = dart(0.1, 100.0)
    length = (beside.x**2 + beside.y**2) ** 0.5
    assert dart_cap(a, TIP, b, beside=beside.scaled(1.0 / length), pressed_to="a") is None
