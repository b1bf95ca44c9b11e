"""Forbidden shifts against Shapely's own judgement of whether two outlines meet."""

from math import cos, pi, sin

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity, box

from app.pattern.lay.nofit import SPARE, convex_parts, forbidden_shifts, negated


@st.composite
def stars(draw):
    """Star-shaped polygons of garment size, most of them hollow somewhere."""
    count = draw(st.integers(4, 11))
    radii = draw(st.lists(st.integers(60, 300), min_size=count, max_size=count))
    return Polygon([(r * cos(2 * pi * k / count), r * sin(2 * pi * k / count)) for k, r in enumerate(radii)])


def forbidden(table, row, dx):
    return any(low < dx < high for low, high in table[row])


def breadth(table):
    """How much is forbidden at each height, mm."""
    finite = np.where(np.isfinite(table), table, 0.0)
    return (finite[:, :, 1] - finite[:, :, 0]).sum(axis=1)


def test_two_boxes_forbid_one_interval():
    table = forbidden_shifts(
        convex_parts(box(0, 0, 100, 50)), convex_parts(box(0, 0, 30, 20)), np.array([-25.0, 0.0, 49.0, 60.0])
    )
    assert table.shape == (4, 1, 2)
    assert not np.isfinite(table[0]).any()
    assert table[1].tolist() == [[-30.0, 100.0]]
    assert table[2].tolist() == [[-30.0, 100.0]]
    assert not np.isfinite(table[3]).any()


def test_a_hollow_leaves_room_between():
    comb = Polygon([(0, 0), (300, 0), (300, 100), (200, 100), (200, 20), (100, 20), (100, 100), (0, 100)])
    table = forbidden_shifts(convex_parts(comb), convex_parts(box(0, 0, 80, 60)), np.array([30.0]))
    assert table[0].tolist() == [[-80.0, 100.0], [120.0, 300.0]]


@settings(max_examples=40, deadline=None)
@given(stars(), stars(), st.integers(-70, 70), st.integers(-700, 700))
def test_an_allowed_shift_never_overlaps(a, b, row, dx):
    heights = np.array([row * 10.0])
    table = forbidden_shifts(convex_parts(a), convex_parts(b), heights)
    assume(not forbidden(table, 0, dx))
    assert a.intersection(affinity.translate(b, dx, row * 10.0)).area < 1e-6


@settings(max_examples=40, deadline=None)
@given(stars(), stars(), st.integers(-70, 70))
def test_forbidden_shifts_end_where_the_outlines_touch(a, b, row):
    """The parts cover hardly more than the outline: beyond the ends of the forbidden shifts by that much they meet."""
    heights = np.array([row * 10.0])
    table = forbidden_shifts(convex_parts(a), convex_parts(b), heights)
    exact = [dx for dx in range(-700, 700, 7) if a.intersection(affinity.translate(b, dx, row * 10.0)).area > 0.1]
    assert all(forbidden(table, 0, dx) for dx in exact)


@given(stars())
@settings(max_examples=30, deadline=None)
def test_convex_parts_cover_the_outline_and_waste_little(a):
    parts = convex_parts(a)
    assert 1 <= len(parts) <= len(a.exterior.coords)
    covered = forbidden_shifts(parts, convex_parts(box(0, 0, 0.01, 0.01)), np.arange(-300.0, 301.0, 5.0))
    area = 5.0 * float(breadth(covered).sum())
    assert area >= a.area * 0.97
    assert area <= a.area * 1.03 + SPARE * len(a.exterior.coords)


@settings(max_examples=30, deadline=None)
@given(stars(), stars())
def test_a_negated_table_is_the_table_of_the_exchanged_shapes(a, b):
    heights = np.arange(-595.0, 600.0, 10.0)
    one, other = convex_parts(a), convex_parts(b)
    table, exchanged = negated(forbidden_shifts(one, other, heights)), forbidden_shifts(other, one, heights)
    assert np.allclose(breadth(table), breadth(exchanged), atol=1e-6)
    assert np.allclose(table[:, :, 0].min(axis=1), exchanged[:, :, 0].min(axis=1), atol=1e-6)
    assert np.allclose(table[:, :, 1].max(axis=1), exchanged[:, :, 1].max(axis=1), atol=1e-6)
