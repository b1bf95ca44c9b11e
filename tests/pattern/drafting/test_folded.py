"""Places along a folded side: on its paper and as it is sewn."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.drafting.shapes.folded import on_paper, part_of, sewn, shifted, taken_in, turned

LENGTH = 500.0
#: Up to four folds, apart from one another, on 50 cm of paper.
FOLDS = st.lists(st.floats(1, 499), min_size=2, max_size=8, unique=True).map(
    lambda marks: tuple(zip(sorted(marks)[::2], sorted(marks)[1::2], strict=False))
)


@given(FOLDS, st.floats(0, 1))
def test_a_place_on_the_sewn_side_is_found_again_on_its_paper(folds, share):
    place = share * (LENGTH - taken_in(folds))
    along = on_paper(folds, place)
    assert sewn(folds, along) == pytest.approx(place)
    assert not any(start + 1e-6 < along < end - 1e-6 for start, end in folds)  # never between the layers


@given(FOLDS, st.floats(1, 499))
def test_a_side_cut_in_two_and_joined_again_has_its_folds(folds, at):
    first, second = part_of(folds, 0.0, at), part_of(folds, at, LENGTH)
    assert taken_in(first) + taken_in(second) == pytest.approx(taken_in(folds))
    whole = (*first, *shifted(second, at))
    assert sewn(whole, LENGTH) == pytest.approx(sewn(folds, LENGTH))


@given(FOLDS, st.floats(0, 500))
def test_a_side_walked_the_other_way_is_folded_alike(folds, along):
    back = turned(folds, LENGTH)
    assert sewn(back, LENGTH - along) == pytest.approx(sewn(folds, LENGTH) - sewn(folds, along), abs=1e-6)
