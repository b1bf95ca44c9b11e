"""Amounts of notions: never too little, and as a shop measures them."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.pieces.model import Notion, Pattern
from app.pattern.steps import notions_list
from app.pattern.units import Unit, read_length, show_length

CM, INCH = Unit.CM, Unit.INCH


def amount(notion: Notion, unit: Unit) -> str:
    pattern = Pattern("", (), (), (), (), (notion,))
    return notions_list(pattern, unit)[0].amount


@pytest.mark.parametrize(
    ("mm", "unit", "words"),
    [
        (120.0, CM, "12 cm"),
        (121.0, CM, "13 cm"),
        (500.0, CM, "50 cm"),
        (512.0, CM, "55 cm"),
        (1234.0, CM, "1.25 m"),
        (25.4, INCH, "1 in"),
        (26.0, INCH, "1 1/2 in"),
        (512.0, INCH, "20 1/2 in"),
        (1500.0, INCH, "1 3/4 yd"),
    ],
)
def test_a_length_is_rounded_up_to_what_a_shop_measures(mm, unit, words):
    assert amount(Notion("tape", "Tape", length=mm), unit) == words


def test_a_length_computed_a_hair_over_a_step_is_that_step():
    assert amount(Notion("tape", "Tape", length=120.0000001), CM) == "12 cm"


def test_a_count_and_a_length_say_how_long_each_one_is():
    assert amount(Notion("zip", "Zip", count=2, length=200.0), CM) == "2, each 20 cm long"
    assert amount(Notion("zip", "Zip", count=1, length=200.0), CM) == "20 cm long"


def test_a_zip_is_as_long_in_the_list_as_in_the_steps():
    assert amount(Notion("zip", "Zip", count=1, length=594.3), CM) == f"{show_length(594.3, CM)} long"
    assert amount(Notion("zip", "Zip", count=1, length=381.0), CM) == "38.1 cm long"


def test_who_measures_in_inches_reads_inches_and_yards_beside_metric_sizes():
    notions = (Notion("thread", "Sewing thread, 100 m reel", count=1), Notion("tape", "Tape, 6 mm", length=300.0))
    pattern = Pattern("", (), (), (), (), notions)
    assert [row.title for row in notions_list(pattern, INCH)] == [
        "Sewing thread, 100 m (110 yd) reel",
        "Tape, 6 mm (1/4 in)",
    ]
    assert notions_list(pattern, CM)[0].title == "Sewing thread, 100 m reel"


def test_a_count_from_a_formula_is_rounded_up():
    assert amount(Notion("button", "Button", count=5.2), CM) == "6"


def test_a_notion_without_an_amount_is_listed_by_name(tunic):
    row = notions_list(tunic, CM)[-1]
    assert (row.title, row.amount) == ("Hanger loop", "")


def test_rows_keep_the_designers_order(tunic):
    assert [row.title for row in notions_list(tunic, CM)] == ["Sewing thread", "Stay tape", "Hanger loop"]
    assert notions_list(replace(tunic, notions=()), CM) == ()


@given(st.floats(1.0, 20_000.0), st.sampled_from([CM, INCH]))
def test_nobody_is_sold_too_little_nor_much_too_much(mm, unit):
    words = amount(Notion("tape", "Tape", length=mm), unit)
    sold = read_length(words.removesuffix(" yd"), unit) * (36.0 if words.endswith("yd") else 1.0)
    assert mm - 0.011 <= sold < mm + (114.4 if words.endswith("yd") else 50.0)
