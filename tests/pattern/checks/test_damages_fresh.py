"""Four fresh garments are passed in silence, and what is damaged in them is heard: see `damages_fresh`."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from app.pattern.body import size_body
from app.pattern.body.populations_children import child
from app.pattern.drafting import Program
from app.pattern.drafting.advice import advice_of
from app.pattern.make import Made, compiled, make_pattern
from tests.pattern.checks.damages_fresh import BLOUSE, DAMAGES, DRESS, SHORTS, SKIRT, UNHEARD

GARMENTS = Path(__file__).parent / "garments"


def text_of(garment):
    return (GARMENTS / f"{garment}.draft").read_text("utf-8")


def damaged(garment, swaps):
    text = text_of(garment)
    for old, new in swaps:
        assert old in text, f"“{old}” does not stand in {garment}"
        text = text.replace(old, new)
    return text


def heard(text, garment, chosen):
    program = compiled(text, f"{garment}.draft")
    if not isinstance(program, Program):
        return {problem.code for problem in program.problems}
    body = child(1160.0) if garment == DRESS else size_body("96")
    made = make_pattern(text, f"{garment}.draft", body, chosen)
    found = made.findings if isinstance(made, Made) else made.problems
    return {problem.code for problem in (*advice_of(program), *found)}


@cache
def sound(garment):
    return heard(text_of(garment), garment, {})


@pytest.mark.parametrize("garment", [BLOUSE, SHORTS, DRESS, SKIRT])
def test_the_fresh_garments_are_passed_in_silence(garment):
    assert sound(garment) == set()


@pytest.mark.parametrize(("garment", "words", "swaps", "code", "chosen"), DAMAGES, ids=lambda v: str(v)[:60])
def test_a_damage_to_a_fresh_garment_is_heard(garment, words, swaps, code, chosen):
    assert code in heard(damaged(garment, swaps), garment, chosen), words


@pytest.mark.parametrize(("garment", "words", "swaps", "why"), UNHEARD, ids=lambda v: str(v)[:60])
def test_what_is_not_heard_is_known_and_why(garment, words, swaps, why):
    assert heard(damaged(garment, swaps), garment, {}) == set(), f"{words}: now heard; it is no longer so that {why}"
