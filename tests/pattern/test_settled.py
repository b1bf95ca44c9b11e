"""A draft with choices settled: only the rest is asked, cut and bought, and what it cannot settle is told."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.make import make_pattern, read_draft
from app.pattern.settled import Settled, settle
from tests.places import DRAFTS

BODICE = (DRAFTS / "fitted_bodice.draft").read_text("utf-8")
TUNIC = (DRAFTS / "shirred_tunic.draft").read_text("utf-8")


def settled(text=BODICE, **choices):
    held = settle(text, "t.draft", choices)
    assert isinstance(held, Settled), "\n".join(map(str, held.problems))
    return held


def test_with_nothing_settled_the_card_is_the_drafts_own():
    held = settled()
    assert held.card == read_draft(BODICE, "t.draft")
    assert held.values == {}


def test_a_settled_choice_is_no_longer_offered():
    card = settled(line="princess").card
    assert [choice.name for choice in card.choices] == ["bust_ease", "waist_ease", "scoop"]
    assert card.needs == read_draft(BODICE, "t.draft").needs


@pytest.mark.parametrize("line", ["darted", "princess"])
def test_the_card_shows_just_the_pieces_and_notions_that_come_up(line):
    card = settled(line=line).card
    pattern = make_pattern(BODICE, "t.draft", size_body("92"), {"line": line}).pattern
    assert [name for name, _title in card.pieces] == [piece.name for piece in pattern.pieces]
    assert list(card.notions) == [notion.title for notion in pattern.notions]


@pytest.mark.parametrize("lined", [True, False])
def test_a_cloth_that_is_settled_away_is_not_asked_for(lined):
    names = {name for name, _title, _width in settled(TUNIC, lined=lined).card.fabrics}
    assert ("lining" in names) is lined


def test_what_hangs_on_an_open_choice_stays_on_the_card():
    assert settled(scoop="2cm").card.pieces == read_draft(BODICE, "t.draft").pieces


def test_lengths_are_settled_in_millimetres():
    assert settled(scoop="2cm", line="darted").values == {"scoop": 20.0, "line": "darted"}


@pytest.mark.parametrize(
    ("choices", "code", "words"),
    [
        ({"lien": "princess"}, "choice.unknown", "“lien” is to be settled as “princess”. This draft has no choice"),
        ({"line": "raglan"}, "choice.wrong", "“line” is to be settled as “raglan”"),
        ({"scoop": "60cm"}, "choice.wrong", "“scoop” is to be settled as “60cm”"),
        ({"scoop": 600.0}, "choice.wrong", "“scoop” is to be settled. Depth of the front neckline: “60 cm” is not"),
        ({"lined": True}, "choice.unknown", "“lined” is to be settled as “yes”. This draft has no choice"),
        ({"line": ""}, "choice.wrong", "No value is given."),
    ],
)
def test_what_the_draft_cannot_settle_is_told_with_its_name(choices, code, words):
    (problem,) = settle(BODICE, "t.draft", choices).problems
    assert problem.code == code
    assert words in problem.message
    assert problem.fix


def test_a_draft_that_cannot_be_read_settles_nothing():
    refused = settle("drat", "t.draft", {"line": "princess"})
    assert [problem.code for problem in refused.problems] == ["language.section"]
