"""Roots by Brent's method, held against SciPy's `brentq` (SciPy 1.17, after the same book) to the last digit."""

from __future__ import annotations

from math import copysign, exp, sin, tanh

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.optimize import brentq

from app.pattern.geometry.roots import root_between

CURVES = {
    "a cubic": lambda x: x**3,
    "an exponential": lambda x: exp(x / 10.0) - 1.0,
    "a curve that flattens": tanh,
    "a root so steep that no line through it helps": lambda x: copysign(abs(x) ** 0.3, x),
    "a flat root": lambda x: x**5,
    "a wave": lambda x: sin(3.0 * x) + x,
    "a jump": lambda x: copysign(1.0, x),
    "a shelf at zero": lambda x: 0.0 if abs(x) < 0.1 else x,
}


@given(
    curve=st.sampled_from(list(CURVES.values())),
    root=st.floats(-3.0, 3.0),
    low=st.floats(-300.0, 0.0),
    high=st.floats(0.0, 300.0),
)
def test_the_root_is_scipys_to_the_last_digit(curve, root, low, high):
    def gap(x):
        return curve(x - root)

    assume(low < high and gap(low) * gap(high) <= 0.0)
    theirs = brentq(gap, low, high, xtol=1e-9, rtol=1e-12, maxiter=100, disp=False)
    assert root_between(gap, low, high, close=1e-9, share=1e-12) == theirs


def test_a_root_at_either_end_is_that_end():
    assert root_between(lambda x: x - 2.0, 2.0, 5.0, close=1e-9, share=0.0) == 2.0
    assert root_between(lambda x: x - 5.0, 2.0, 5.0, close=1e-9, share=0.0) == 5.0


def test_ends_of_one_sign_are_refused():
    with pytest.raises(ValueError, match="same sign"):
        root_between(lambda x: x * x + 1.0, -1.0, 1.0, close=1e-9, share=0.0)
