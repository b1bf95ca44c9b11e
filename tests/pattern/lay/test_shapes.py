"""Outlines as polygons: the grown shapes that keep pieces apart, halves and wholes, mirror images, labels."""

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box
from shapely.geometry import Point as Spot

from app.pattern.geometry import Point
from app.pattern.lay.model import GAP
from app.pattern.lay.shapes import (
    REACH,
    grown,
    half_above_fold,
    label_spot,
    polygon_of,
    reversible,
    settled,
    unfolded,
)


@st.composite
def stars(draw):
    count = draw(st.integers(3, 12))
    radii = draw(st.lists(st.integers(30, 300), min_size=count, max_size=count))
    return Polygon([(r * cos(2 * pi * k / count), r * sin(2 * pi * k / count)) for k, r in enumerate(radii)])


HALF = Polygon([(0, 0), (500, 0), (480, 200), (0, 300)])
FOLD = (Point(0.0, 0.0), Point(500.0, 0.0))


@settings(max_examples=60, deadline=None)
@given(stars())
def test_a_grown_shape_holds_half_the_gap_all_round_and_little_more(polygon):
    shape = grown(polygon)
    assert shape.is_valid
    assert shape.buffer(1e-6).covers(polygon.buffer(GAP / 2.0, quad_segs=16))
    left, bottom, right, top = polygon.bounds
    assert shape.bounds == pytest.approx((left - REACH, bottom - REACH, right + REACH, top + REACH), abs=REACH)
    assert shape.bounds[0] >= left - REACH - 1e-9
    assert shape.bounds[3] <= top + REACH + 1e-9


def test_a_grown_shape_is_plainer_than_a_flattened_curve():
    circle = Spot(0, 0).buffer(200.0, quad_segs=64)
    assert len(grown(circle).exterior.coords) < len(circle.exterior.coords) / 3


@given(stars(), st.booleans())
def test_outlines_are_read_anticlockwise_whichever_way_they_run(polygon, backwards):
    ring = list(polygon.exterior.coords[:-1])
    read = polygon_of(ring[::-1] if backwards else ring)
    assert read is not None
    assert read.exterior.is_ccw
    assert read.equals(polygon)


def test_a_settled_shape_starts_at_zero():
    assert settled(box(-20, 30, 50, 90)).bounds == (0.0, 0.0, 70.0, 60.0)


@given(st.floats(0, 360), st.floats(-500, 500), st.floats(-500, 500))
@settings(max_examples=40, deadline=None)
def test_a_half_opens_to_twice_its_area_at_any_angle(degrees, dx, dy):
    half = affinity.translate(affinity.rotate(HALF, degrees, origin=(0, 0)), dx, dy)
    a, b = (affinity.translate(affinity.rotate(Spot(p), degrees, origin=(0, 0)), dx, dy) for p in FOLD)
    whole = unfolded(half, (Point(a.x, a.y), Point(b.x, b.y)))
    assert whole is not None
    assert whole.area == pytest.approx(2 * HALF.area, rel=1e-9)
    assert whole.length == pytest.approx(2 * (HALF.length - 500.0), rel=1e-9)


def test_a_fold_across_the_cloth_cannot_lie_on_its_fold():
    upright = affinity.rotate(HALF, 90, origin=(0, 0))
    assert half_above_fold(upright, (Point(0.0, 0.0), Point(0.0, 500.0))) is None


def test_a_curved_fold_edge_is_no_fold():
    bowed = Polygon([(0, 0), (250, -3), (500, 0), (480, 200), (0, 300)])
    assert half_above_fold(bowed, FOLD) is None
    assert unfolded(bowed, FOLD) is None


def test_a_hairs_unevenness_of_the_fold_edge_is_straightened():
    nearly = Polygon([(0, 0.02), (250, -0.03), (500, 0.01), (480, 200), (0, 300)])
    half = half_above_fold(nearly, FOLD)
    assert half is not None
    assert half.bounds[1] == 0.0


@pytest.mark.parametrize(
    ("points", "straight", "turning"),
    [
        ([(0, 0), (300, 0), (350, 30), (300, 60), (0, 60)], True, True),
        ([(0, 0), (300, 0), (250, 80), (50, 80)], False, True),
        ([(0, 0), (400, 0), (400, 60), (100, 60), (100, 250), (0, 250)], False, False),
    ],
)
def test_what_is_its_own_mirror_image(points, straight, turning):
    polygon = Polygon(points)
    assert reversible(polygon, turns=(0,)) is straight
    assert reversible(polygon, turns=(0, 180)) is turning


@settings(max_examples=40, deadline=None)
@given(stars())
def test_a_label_has_nearly_as_much_room_as_there_is(polygon):
    x, y = label_spot(polygon)
    assert polygon.contains(Spot(x, y))
    room = polygon.exterior.distance(Spot(x, y))
    grid = [Spot(px, py) for px in range(-300, 301, 60) for py in range(-300, 301, 60)]
    most = max((polygon.exterior.distance(p) for p in grid if polygon.contains(p)), default=0.0)
    assert room >= 0.85 * most - 2.0


def test_the_label_of_a_band_is_in_its_middle():
    assert label_spot(box(0, 0, 900, 60)) == pytest.approx((450.0, 30.0))
