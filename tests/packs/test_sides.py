"""Two sides that are not alike: told on the sheet in her own figures, and nothing said of sides that are."""

from __future__ import annotations

import pytest

from app.packs.sides import ALIKE, Sides, side_pairs, sides_words
from app.pattern.units import Unit

BOTH = Sides("left", 15.0, "right", 10.0)


def test_of_sides_that_are_alike_nothing_is_said():
    assert sides_words(ALIKE, Unit.CM) == ()
    assert side_pairs(ALIKE, Unit.CM) == ()


def test_each_difference_says_that_it_is_not_drawn_and_where_to_take_away():
    shoulder, hip = sides_words(BOTH, Unit.CM)
    for words in (shoulder, hip):
        assert "drawn the same on both sides" in words
        assert "Try the garment on" in words
    assert shoulder.startswith("The left shoulder is 1.5 cm lower")
    assert "for the right one" in shoulder and "Pin the left shoulder seam deeper by up to 1.5 cm" in shoulder
    assert hip.startswith("The right hip is 1 cm higher")
    assert "too long on the left side" in hip


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_other_side_is_the_one_it_is_drawn_for(side):
    other = {"left": "right", "right": "left"}[side]
    [words] = sides_words(Sides(side, 20.0), Unit.CM)
    assert f"for the {other} one" in words
    [words] = sides_words(Sides("", 0.0, side, 20.0), Unit.CM)
    assert words.endswith(f"too long on the {other} side.")


def test_figures_come_in_the_unit_of_the_person():
    assert all(" cm" not in words and " in" in words for words in sides_words(BOTH, Unit.INCH))
    assert side_pairs(BOTH, Unit.CM) == (("Lower shoulder, left", "1.5 cm"), ("Higher hip, right", "1 cm"))
