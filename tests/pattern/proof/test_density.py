"""Where bodies were tried densely: stretches of one measurement and cells of two."""

from __future__ import annotations

import json

from hypothesis import given
from hypothesis import strategies as st

from app.pattern.proof.density import CELL, ENOUGH, NEAR, Area, area_values, dense_area, dense_stretch, read_area

GIRTHS = st.lists(st.floats(500.0, 1600.0), max_size=60)


def test_one_large_body_far_from_the_others_proves_nothing_of_the_gap():
    many = [900.0 + 2.0 * step for step in range(60)]
    assert dense_stretch(many) == (900.0, 1018.0)
    assert dense_stretch([*many, 1580.0]) == (900.0, 1018.0)


def test_a_gap_ends_the_stretch_even_where_bodies_are_dense_behind_it():
    low, high = [800.0 + step for step in range(30)], [1300.0 + step for step in range(9)]
    assert dense_stretch(low + high) == (800.0, 829.0)


def test_few_bodies_prove_no_stretch():
    assert dense_stretch([]) is None
    assert dense_stretch([900.0] * (ENOUGH - 1)) is None
    assert dense_stretch([900.0] * ENOUGH) == (900.0, 900.0)


@given(GIRTHS)
def test_every_end_of_a_stretch_has_enough_bodies_near_it(girths):
    stretch = dense_stretch(girths)
    for end in stretch or ():
        assert sum(abs(value - end) <= NEAR * end + 1e-6 for value in girths) >= ENOUGH


@given(st.lists(st.tuples(st.floats(500.0, 1600.0), st.floats(500.0, 1600.0)), max_size=40))
def test_a_cell_is_dense_just_when_enough_bodies_lie_near_its_middle_in_both(pairs):
    area = dense_area("waist_girth", "hip_girth", pairs)
    for column, row in area.cells:
        x, y = (column + 0.5) * CELL, (row + 0.5) * CELL
        near = sum(abs(a - x) <= NEAR * x + 1e-9 and abs(b - y) <= NEAR * y + 1e-9 for a, b in pairs)
        assert near >= ENOUGH
    for a, b in set(pairs):
        if sum(one == (a, b) for one in pairs) >= ENOUGH:
            assert area.holds(a, b)


def test_an_area_is_stored_as_runs_of_cells_and_read_back():
    area = Area("bust_girth", "hip_girth", frozenset({(40, 45), (41, 45), (43, 45), (40, 46)}))
    values = json.loads(json.dumps(area_values(area)))
    assert values["runs"] == [[45, 40, 41], [45, 43, 43], [46, 40, 40]]
    assert read_area(values) == area
    assert area.holds(43 * CELL, 45 * CELL + 19.9) and not area.holds(42 * CELL, 45 * CELL)
