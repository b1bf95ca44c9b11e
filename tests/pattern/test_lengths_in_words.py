"""Lengths in words for buying, for small distances, and for differences that agree with what they are between."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.units import (
    Unit,
    read_length,
    show_cloth_length,
    show_difference,
    show_length,
    show_seam_width,
    show_small_length,
)

CM, INCH = Unit.CM, Unit.INCH


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (1850.0, CM, "1.85 m"),
        (1850.1, CM, "1.86 m"),
        (900.0, CM, "0.90 m"),
        (914.4, INCH, "1 yd"),
        (915.0, INCH, "1 1/8 yd"),
        (1850.0, INCH, "2 1/8 yd"),
        (100.0, INCH, "1/8 yd"),
    ],
)
def test_cloth_is_bought_by_the_metre_or_the_eighth_of_a_yard(mm, unit, words):
    assert show_cloth_length(mm, unit) == words


@given(st.floats(10.0, 20_000.0))
def test_cloth_to_buy_is_never_less_than_the_lay_needs(mm):
    metres = float(show_cloth_length(mm, CM).removesuffix(" m"))
    assert mm - 0.001 <= metres * 1000.0 < mm + 10.001
    yards = read_length(show_cloth_length(mm, INCH).removesuffix(" yd"), INCH) * 36.0
    assert mm - 0.001 <= yards < mm + 114.4


@pytest.mark.parametrize(("mm", "unit", "words"), [(3.0, CM, "3 mm"), (6.2, CM, "6 mm"), (3.0, INCH, "1/8 in")])
def test_a_few_millimetres_are_said_as_such(mm, unit, words):
    assert show_small_length(mm, unit) == words


@given(st.floats(0.0, 3000.0), st.floats(0.0, 3000.0), st.sampled_from([CM, INCH]))
def test_a_difference_agrees_with_both_lengths_as_they_are_printed(a, b, unit):
    a, b = max(a, b), min(a, b)
    shown = [read_length(words, unit) for words in (show_length(a, unit), show_length(b, unit))]
    between = read_length(show_difference(a, b, unit), unit)
    assert between == pytest.approx(shown[0] - shown[1], abs=1e-6)


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (15.0, CM, "1.5 cm"),
        (12.7, INCH, "1/2 in"),
        (15.875, INCH, "5/8 in"),
        (15.0, INCH, "15 mm (about 5/8 in)"),
        (10.0, INCH, "10 mm (about 3/8 in)"),
    ],
)
def test_a_width_to_sew_by_loses_nothing(mm, unit, words):
    assert show_seam_width(mm, unit) == words
