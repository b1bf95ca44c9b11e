"""Lengths in words for buying, for small distances, and for differences that agree with what they are between."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.units import (
    Unit,
    mm_unlike,
    read_length,
    show_cloth_length,
    show_difference,
    show_least_width,
    show_length,
    show_range,
    show_seam_width,
    with_other_units,
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


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (3.0, CM, "3 mm"),
        (6.2, CM, "6 mm"),
        (0.5, CM, "0.5 mm"),
        (9.6, CM, "1 cm"),
        (-4.2, CM, "-4 mm"),
        (0.0, CM, "0 cm"),
        (3.0, INCH, "1/8 in"),
        (5.0, INCH, "3/16 in"),
        (0.5, INCH, "under 1/16 in"),
        (0.0, INCH, "0 in"),
    ],
)
def test_a_few_millimetres_are_said_as_such(mm, unit, words):
    assert show_length(mm, unit) == words


@pytest.mark.parametrize(
    ("least", "most", "unit", "words"),
    [
        (60.0, 180.0, CM, "6 to 18 cm"),
        (5.0, 20.0, CM, "0.5 to 2 cm"),
        (5.0, 40.0, INCH, "3/16 to 1 5/8 in"),
        (60.0, 180.0, INCH, "2 3/8 to 7 1/8 in"),
    ],
)
def test_a_range_is_told_in_the_unit_in_which_a_length_is_entered(least, most, unit, words):
    assert show_range(least, most, unit) == words


@given(st.floats(10.0, 3000.0), st.sampled_from([CM, INCH]))
def test_a_least_width_is_never_too_little_and_reads_as_one_asks_for_it_in_a_shop(mm, unit):
    told = read_length(show_least_width(mm, unit), unit)
    assert mm - 0.001 <= told < mm + 12.71
    assert show_least_width(told, unit) == show_least_width(mm, unit)


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("Sewing thread, 100 m reel", "Sewing thread, 100 m (110 yd) reel"),
        ("Shirt buttons, 11 mm", "Shirt buttons, 11 mm (7/16 in)"),
        ("Elastic, 2.5 cm, 3 m", "Elastic, 2.5 cm (1 in), 3 m (3 3/8 yd)"),
        ("Hook and eye", "Hook and eye"),
        ("Machine needle 80/12", "Machine needle 80/12"),
    ],
)
def test_metric_sizes_in_names_get_inches_or_yards_beside_them(words, said):
    assert with_other_units(words) == said


# Under a centimetre lengths are told finer than their difference needs to be.
@given(st.floats(10.0, 3000.0), st.floats(10.0, 3000.0), st.sampled_from([CM, INCH]))
def test_a_difference_agrees_with_both_lengths_as_they_are_printed(a, b, unit):
    a, b = max(a, b), min(a, b)
    shown = [read_length(words, unit) for words in (show_length(a, unit), show_length(b, unit))]
    between = read_length(show_difference(a, b, unit, named=False), unit)
    assert between == pytest.approx(shown[0] - shown[1], abs=1e-6)


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (15.0, CM, "1.5 cm"),
        (2.5, CM, "2.5 mm"),
        (2.5, INCH, "2.5 mm (about 1/8 in)"),
        (0.5, INCH, "0.5 mm (under 1/16 in)"),
        (12.7, INCH, "1/2 in"),
        (15.875, INCH, "5/8 in"),
        (15.0, INCH, "15 mm (about 5/8 in)"),
        (10.0, INCH, "10 mm (about 3/8 in)"),
    ],
)
def test_a_width_to_sew_by_loses_nothing(mm, unit, words):
    assert show_seam_width(mm, unit) == words


@pytest.mark.parametrize(
    ("one", "other", "said"),
    [
        (10.0, 12.0, ("10 mm", "12 mm")),
        (10.0, 10.04, ("10.00 mm", "10.04 mm")),
        (10.0, 10.003, ("10.000 mm", "10.003 mm")),
        (0.97, 1.0, ("0.97 mm", "1.00 mm")),
        (10.0, 10.0, ("10 mm", "10 mm")),
    ],
)
def test_two_lengths_of_one_message_are_told_apart(one, other, said):
    assert mm_unlike(one, other) == said
