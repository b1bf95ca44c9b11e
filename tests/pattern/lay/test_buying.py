"""The length to buy: shrinkage, squared ends, and what a shop cuts."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.lay import length_to_buy


@pytest.mark.parametrize(
    ("used", "shrinkage", "buy"),
    [
        (980.0, 0.0, 1000.0),  # 980 + 20 is exactly what a shop cuts
        (980.1, 0.0, 1050.0),
        (1900.0, 0.05, 2050.0),  # 2000 before the wash, and the ends
        (1.0, 0.0, 50.0),
    ],
)
def test_length_to_buy_has_room_for_the_wash_and_for_square_ends(used, shrinkage, buy):
    assert length_to_buy(used, shrinkage) == buy


@given(st.floats(1.0, 20000.0), st.floats(0.0, 0.3))
def test_what_is_bought_is_enough_after_the_wash_and_less_than_a_cut_too_much(used, shrinkage):
    buy = length_to_buy(used, shrinkage)
    left = (buy - 20.0) * (1.0 - shrinkage)
    assert left >= used - 1e-6
    assert left - used < 50.0
    assert buy % 50.0 == 0.0
