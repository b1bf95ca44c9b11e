"""Problems as values, and what is handed back in the place of what cannot be made."""

from __future__ import annotations

import pickle

import pytest

from app.base.aside import BrokenOff
from app.pattern.problem import Place, Problem, Refused, spelled_out

NARROW = Problem("lay.too-wide", "The front is too wide.", "Take a wider cloth.", Place("front"))
SHORT = Problem("lay.nothing", "Nothing is cut.", "Give a piece this fabric.", Place())


def test_nothing_is_refused_without_a_reason():
    with pytest.raises(ValueError, match="says why"):
        Refused(())


def test_a_refusal_holds_its_problems_in_order():
    assert Refused.of(NARROW, SHORT) == Refused((NARROW, SHORT))


@pytest.mark.parametrize("refused", [Refused.of(NARROW), BrokenOff((SHORT,))])
def test_a_refusal_goes_from_one_process_to_another_as_what_it_is(refused):
    back = pickle.loads(pickle.dumps(refused))
    assert type(back) is type(refused)
    assert back == refused


def test_problems_are_spelled_out_with_their_remedies():
    assert spelled_out([NARROW, SHORT]) == (
        "The front is too wide. Take a wider cloth. Nothing is cut. Give a piece this fabric."
    )
    assert spelled_out([]) == ""
