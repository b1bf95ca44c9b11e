"""Solving finds the one value for which a condition holds, or says how close it came."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.drafting import Choice, choose, compiled
from app.pattern.problem import Refused
from tests.pattern.drafting.drawn import draw, drawn


@settings(deadline=None)
@given(st.integers(310, 900))
def test_a_solved_length_fits_exactly(wanted):
    lines = f"""
a = at 0, 0
solve rise from 0cm to 100cm until length(slope) = {wanted}mm
    slope = line a to (a right 30cm up rise)
"""
    values = draw(lines)
    assert values["slope"].length == pytest.approx(wanted, abs=1e-4)
    assert values["rise"] == pytest.approx(sqrt(wanted**2 - 300**2), abs=1e-3)


def test_a_solve_inside_a_solve():
    values = draw(
        """
a = at 0, 0
solve x from 1cm to 50cm until length(low) = 30cm
    low = line a to (a right x)
    solve y from 1cm to 50cm until length(high) = x + 5cm
        high = line a to (a up y)
"""
    )
    assert values["x"] == pytest.approx(300, abs=1e-4)
    assert values["y"] == pytest.approx(350, abs=1e-4)


def test_a_solution_between_two_equal_signs_is_found_by_looking_inside():
    values = draw(
        """
a = at 0, 0
solve x from 0cm to 40cm until 1cm * 1cm = (x - 10cm) * (x - 30cm) + 2cm * 1cm
    b = a right x
"""
    )
    assert (values["x"] - 100) * (values["x"] - 300) == pytest.approx(-100, abs=1e-3)


def test_an_unsolvable_condition_says_how_close_it_came():
    _, problems = drawn("a = at 0, 0\nsolve x from 1cm to 9cm until length(l) = 10cm\n    l = line a to (a up x)")
    (problem,) = problems
    assert problem.code == "drafting.no-solution"
    assert "differ by 10 mm" in problem.message
    assert problem.where.line == 12


def test_the_same_text_and_body_give_the_same_bits():
    lines = (
        "a = at 0, 0\nsolve x from 1cm to 90cm until length(l) = waist_girth\n    l = smooth a, (a up x), (a right x)"
    )
    assert draw(lines)["l"] == draw(lines)["l"]


def test_choices_take_text_numbers_and_options():
    choices = (
        Choice("ease", "Ease", "length", 20.0, 10.0, 40.0),
        Choice("lined", "Lined", "yesno", False),
        Choice("length", "Length", "option", "knee", options=("knee", "calf")),
        Choice("fullness", "Fullness", "number", 1.5, 1.0, 2.0),
    )
    chosen = choose(choices, {"ease": "3.5cm", "lined": "yes", "length": "calf", "fullness": "1.75"})
    assert chosen == {"ease": 35.0, "lined": True, "length": "calf", "fullness": 1.75}


@pytest.mark.parametrize("given_value", ["9cm", "x", "-1cm", 500.0])
def test_a_choice_out_of_its_limits_names_them(given_value):
    choices = (Choice("ease", "Ease", "length", 20.0, 10.0, 40.0),)
    (problem,) = choose(choices, {"ease": given_value}).problems
    assert problem.code == "choice.wrong"
    assert problem.where.point == "ease"


@pytest.mark.parametrize(
    ("kind", "typed", "remedy"),
    [("length", "60", "60 what? Write 60cm, or 60in."), ("number", "many", "Write a plain number such as 2 or 1.5.")],
)
def test_a_choice_typed_without_its_unit_or_in_words_is_told_how_to_write_it(kind, typed, remedy):
    (problem,) = choose((Choice("wide", "Wide", kind, 2.0, 1.0, 900.0),), {"wide": typed}).problems
    assert problem.fix == remedy
    assert str(problem).startswith("wide: error:")


def test_a_yes_where_an_option_is_asked_for_is_told_as_it_was_said():
    length = Choice("length", "Length", "option", "knee", options=("knee", "calf"))
    (problem,) = choose((length,), {"length": True}).problems
    assert problem.message == "Length: “yes” is not possible."


def choices_told(line: str) -> list[tuple[str, str]]:
    found = compiled(f'draft "T"\nchoices\n    {line}\nsheet s\n    a = at 0, 0\n', "t.draft")
    problems = found.problems if isinstance(found, Refused) else ()
    return [(p.code, p.excerpt.split("\n")[1].count("^") * "^") for p in problems]


def test_a_default_without_unit_beside_limits_with_one_is_told_at_the_default():
    (problem,) = compiled('draft "T"\nchoices\n    flare = 5 from 2cm to 8cm\n', "t.draft").problems
    assert problem.message == "5 what? A length needs its unit."
    assert (problem.where.column, problem.where.end_column) == (13, 14)
    assert choices_told("flare = 0 from 0cm to 8cm") == []
    assert choices_told("flare = 5cm from 2 to 8cm") == [("drafting.no-unit", "^")]
    assert choices_told("flare = 9cm from 2cm to 8cm")[0][0] == "drafting.limits"
