"""Lengths as people type them: every way of writing one is read as what it says, and nothing else is guessed at."""

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from app.pattern.units import MM_PER, LengthError, Unit, has_unit, read_length, show_length

CM, INCH = Unit.CM, Unit.INCH
WHOLES = st.integers(0, 99)
#: Marks of a tape measure: halves to sixteenths of an inch, each below one.
MARKS = st.sampled_from([2, 4, 8, 16]).flatmap(lambda den: st.tuples(st.integers(1, den - 1), st.just(den)))


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("38.5", CM, 385.0),
        ("97,8", CM, 978.0),
        ("0", CM, 0.0),
        ("007", CM, 70.0),
        ("1.234567", CM, 12.34567),
        ("96.5cm", INCH, 965.0),
        ("96.5 CM", INCH, 965.0),
        ("1m", INCH, 1000.0),
        ("1 m", CM, 1000.0),
        ("12 mm", INCH, 12.0),
        ("38 1/2", INCH, 977.9),
        ("38-1/2", INCH, 977.9),
        ("38  -  1 / 2", INCH, 977.9),
        ("38 1/2 in", CM, 977.9),
        ("38 1/2 inches", CM, 977.9),
        ("1 inch", CM, 25.4),
        ("2 ins", CM, 50.8),
        ('5/8"', CM, 15.875),
        ("5/8”", CM, 15.875),
        ("5/8″", CM, 15.875),
        ("½", INCH, 12.7),
        ("38½", INCH, 977.9),
        ("38 ½ in", CM, 977.9),
        ("2⅔", INCH, 25.4 * 8 / 3),
        ("  12  ", CM, 120.0),
        ("1/1", INCH, 25.4),
        ("1/2", CM, 5.0),
    ],
)
def test_a_length_is_read_however_it_is_written(text, unit, mm):
    assert read_length(text, unit) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "Nothing was entered."),
        (" \t ", "Nothing was entered."),
        ("about 90", "“about 90” is not a length. Write it like 96.5 or 38 1/2."),
        ("-4", "is not a length"),
        ("+4", "is not a length"),
        ("1e3", "is not a length"),
        ("nan", "is not a length"),
        ("inf", "is not a length"),
        ("1.2.3", "is not a length"),
        ("1,234.5", "is not a length"),
        ("1,", "is not a length"),
        (".5", "is not a length"),
        ("3 8", "is not a length"),
        ("90 cm cm", "is not a length"),
        ("90 ft", "is not a length"),
        ("cm", "is not a length"),
        ("12345678", "is not a length"),
        ("1/", "is not a length"),
        ("/2", "is not a length"),
        ("1/2/3", "is not a length"),
        ("38.5 1/2", "mixes a decimal and a fraction: use one of them."),
        ("38,5 1/2", "mixes a decimal and a fraction"),
        ("1/0", "“1/0” divides by 0: check the fraction."),
        ("3 1/0 in", "divides by 0"),
        ("381/2", "“381/2” can be read in two ways. Put a space before the fraction, as in 38 1/2."),
        ("11/2 in", "can be read in two ways"),
        ("12/8", "can be read in two ways"),
    ],
)
def test_what_is_no_length_is_told_with_what_was_typed(text, said):
    with pytest.raises(LengthError) as told:
        read_length(text, CM)
    assert said in str(told.value)


@given(MARKS, st.sampled_from(["", " in", '"', "″", " inches"]))
@example((15, 16), " in")
@example((11, 16), "")
def test_a_mark_of_the_tape_is_read_as_that_part_of_an_inch(mark, unit):
    """A fraction of two figures over two figures must never lose its first figure to the whole inches."""
    part, parts = mark
    assert read_length(f"{part}/{parts}{unit}", INCH) == pytest.approx(25.4 * part / parts)


@given(WHOLES, MARKS, st.sampled_from([" ", "-", "  "]))
def test_whole_inches_and_a_mark_of_the_tape_add_up(whole, mark, gap):
    part, parts = mark
    exact = Fraction(whole) + Fraction(part, parts)
    assert read_length(f"{whole}{gap}{part}/{parts}", INCH) == pytest.approx(float(exact) * 25.4)


@given(st.integers(0, 999_999), st.integers(0, 999), st.sampled_from([".", ","]), st.sampled_from(sorted(MM_PER)))
def test_a_decimal_is_read_in_the_unit_it_names_whatever_unit_is_usual(whole, thousandths, sign, unit):
    text = f"{whole}{sign}{thousandths:03d} {unit}"
    exact = (whole + thousandths / 1000) * MM_PER[unit]
    assert read_length(text, CM) == read_length(text, INCH) == pytest.approx(exact)


@given(st.text(max_size=60), st.sampled_from([CM, INCH]))
def test_any_text_is_a_length_or_told_to_be_none(text, unit):
    try:
        assert 0.0 <= read_length(text, unit) < 1e10
    except LengthError as told:
        assert str(told).endswith(".")


@given(st.integers(0, 30_000), st.sampled_from([CM, INCH]))
def test_what_is_shown_is_read_back_as_shown(mm, unit):
    """Showing rounds once: what a form writes, read and written again, stays the same text."""
    for named in (True, False):
        shown = show_length(float(mm), unit, named=named)
        if not shown.startswith("under"):
            assert show_length(read_length(shown, unit), unit, named=named) == shown


@given(st.floats(10.0, 30_000.0))
def test_a_shown_length_is_off_by_at_most_half_a_millimetre_or_a_sixteenth_of_an_inch(mm):
    assert abs(read_length(show_length(mm, CM), CM) - mm) <= 0.5 + 1e-6
    assert abs(read_length(show_length(mm, INCH), INCH) - mm) <= 25.4 / 16 + 1e-6


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("90", False), ("90 cm", True), ("90CM", True), ('3"', True), ("3 1/2 in ", True), ("3 ft", False), ("", False),
    ],
)  # fmt: skip
def test_it_is_known_whether_a_unit_was_named(text, named):
    assert has_unit(text) is named
