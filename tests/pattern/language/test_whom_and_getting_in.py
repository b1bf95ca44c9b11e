"""Whom a draft is for, and how the wearer gets into a girth: lines that read aloud, and what is read from them."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.language import parse
from app.pattern.language.format import format_draft
from app.pattern.make import Failed, Made, make_pattern, read_draft

TEXT = """draft "Square"
{whom}
needs
    waist_girth, hip_girth
fabrics
    main "Cloth" width 140cm
sheet flat
    a = at 0, 0
    b = a right waist_girth
    low = line a to b
    side = line b to (b up 60cm)
    top = line (a up 60cm) to (b up 60cm)
    near = line a to (a up 60cm)
piece panel "Panel" cut 1 main
    outline low, side, top, near
    grain (a right 10cm up 5cm) to (a right 10cm up 50cm)
    allowance 1cm
girth waist "Waist" = length(panel.top) {ways}
"""


def draft(whom: str = "", ways: str = "") -> str:
    return TEXT.format(whom=whom, ways=ways)


def girth(ways: str):
    made = make_pattern(draft(ways=ways), "t.draft", size_body("92"), {})
    assert isinstance(made, Made | Failed), "\n".join(map(str, made.problems))
    return made.pattern.girths[0]


@pytest.mark.parametrize("group", ["women", "men", "children"])
def test_a_draft_says_whom_it_is_for(group):
    assert read_draft(draft(f"for {group}"), "t.draft").group == group


def test_a_draft_that_does_not_say_is_for_women_of_any_stature():
    card = read_draft(draft(), "t.draft")
    assert (card.group, card.statures) == ("women", None)


def test_statures_are_read_in_mm_and_stand_in_the_pattern():
    text = draft("for children from 98cm to 134cm")
    card = read_draft(text, "t.draft")
    assert (card.group, card.statures) == ("children", (980.0, 1340.0))
    pattern = make_pattern(text, "t.draft", size_body("92"), {}).pattern
    assert (pattern.group, pattern.statures) == ("children", (980.0, 1340.0))


def test_statures_hang_on_no_measurement():
    problems = read_draft(draft("for children from waist_girth to 134cm"), "t.draft").problems
    assert [p.code for p in problems] == ["drafting.unknown-name"]


def test_a_slip_in_the_group_is_guessed():
    problems = read_draft(draft("for womans"), "t.draft").problems
    assert "Did you mean “women”?" in problems[0].fix


def test_a_zip_opens_a_girth_by_its_length():
    waist = girth("opens 24cm passes hip_girth")
    assert (waist.opens, waist.opens_fully, waist.passes) == (240.0, False, size_body("92")["hip_girth"])


def test_a_front_that_unbuttons_opens_fully():
    assert girth("body waist_girth ease 0cm opens fully").opens_fully


def test_elastic_stretches_to_a_length():
    waist = girth("stretches to 110cm passes 100cm")
    assert (waist.stretches_to, waist.passes, waist.opens) == (1100.0, 1000.0, 0.0)


def test_a_girth_that_says_nothing_of_it_has_nothing_of_it():
    waist = girth("")
    assert (waist.stretches_to, waist.opens, waist.opens_fully, waist.passes) == (0.0, 0.0, False, 0.0)


def test_how_it_opens_must_be_a_length():
    problems = read_draft(draft(ways="opens 24 passes hip_girth"), "t.draft").problems
    assert [p.code for p in problems] == ["drafting.no-unit"]


def test_the_clauses_stand_in_one_order():
    problems = read_draft(draft(ways="passes hip_girth opens 24cm"), "t.draft").problems
    assert [p.code for p in problems] == ["language.unreadable"]


def test_the_formatter_parts_the_clauses_and_changes_nothing():
    text = draft("for   children from 98cm  to 134cm", "body waist_girth ease 0cm opens 24cm  passes hip_girth")
    neat = format_draft(text, "t.draft")
    assert "\nfor children from 98cm to 134cm\n" in neat
    assert "body waist_girth  ease 0cm  opens 24cm  passes hip_girth" in neat
    assert not parse(neat, "t.draft").problems
    assert format_draft(neat, "t.draft") == neat
