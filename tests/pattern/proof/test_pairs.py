"""The pairwise cover: every pair of values is met, with few settings, the same each time."""

from __future__ import annotations

from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.proof.pairs import pairwise

CHOICES = st.lists(st.integers(1, 4), min_size=0, max_size=6).map(
    lambda sizes: {f"c{place}": tuple(range(size)) for place, size in enumerate(sizes)}
)


@settings(max_examples=60, deadline=None)
@given(CHOICES)
def test_any_two_values_of_two_choices_meet(choices):
    rows = pairwise(choices)
    for one, other in combinations(choices, 2):
        met = {(row[one], row[other]) for row in rows}
        assert met == set(product(choices[one], choices[other]))


@settings(max_examples=60, deadline=None)
@given(CHOICES)
def test_every_value_is_tried_and_every_setting_is_whole_and_new(choices):
    rows = pairwise(choices)
    assert rows[0] == {name: values[0] for name, values in choices.items()}
    assert all(set(row) == set(choices) for row in rows)
    assert len({tuple(row.items()) for row in rows}) == len(rows)
    for name, values in choices.items():
        assert {row[name] for row in rows} == set(values)


@pytest.mark.parametrize(("count", "most"), [(2, 9), (4, 9), (5, 15), (7, 18), (8, 21), (12, 24)])
def test_few_settings_cover_many_choices(count, most):
    """Nine are the fewest for up to four choices of three values: the orthogonal array L9, a textbook fact."""
    rows = pairwise({f"c{place}": "abc" for place in range(count)})
    assert 9 <= len(rows) <= most < 3**count + 1


def test_a_single_choice_is_tried_at_each_value_and_none_at_all_once():
    assert pairwise({"length": (1, 2, 3)}) == [{"length": 1}, {"length": 2}, {"length": 3}]
    assert pairwise({}) == [{}]


def test_the_same_choices_give_the_same_cover():
    choices = {f"c{place}": "abcd" for place in range(6)}
    assert pairwise(choices) == pairwise(dict(choices))
