"""Edges walked from the wrong end, found by where the garment's other seams bring ends together."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.checks import walk_order
from app.pattern.checks.table import lay_on_table
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.problem import Severity
from tests.pattern.checks.mutations import TEXT

BODY = size_body("92")
CAP = "sew sleeve.cap to back.armhole backwards, front.armhole"
SIDES = "sew front.side_upper, front.side_lower to back.side notch at 15cm"
FRILL = "sew frill.top to back.hem"


def found(text: str):
    made = make_pattern(text, "t.draft", BODY, {})
    assert isinstance(made, Made | Failed), made.problems
    return list(walk_order.CHECK.on(lay_on_table(made.pattern)))


def test_seams_that_agree_are_passed():
    assert found(TEXT) == []


def test_turning_a_whole_seam_round_changes_nothing():
    text = TEXT.replace(CAP, "sew sleeve.cap backwards to front.armhole backwards, back.armhole")
    assert found(text) == []


@pytest.mark.parametrize(
    ("old", "new", "fix"),
    [
        (
            CAP,
            "sew sleeve.cap to back.armhole, front.armhole",
            "Write “backwards” after back.armhole, or write “backwards” after front.armhole.",
        ),
        (
            CAP,
            "sew sleeve.cap to back.armhole backwards, front.armhole backwards",
            "Take “backwards” away after back.armhole, or take “backwards” away after front.armhole.",
        ),
        (
            SIDES,
            "sew front.side_upper backwards, front.side_lower backwards to back.side notch at 15cm",
            "Take “backwards” away after front.side_upper, and take “backwards” away after front.side_lower.",
        ),
    ],
)
def test_an_edge_walked_from_the_wrong_end_is_told_with_the_word_to_mend_it(old, new, fix):
    (problem,) = found(TEXT.replace(old, new))
    assert problem.code == "checks.walk-order"
    assert problem.fix == fix


TURNED = ("sew front.shoulder to back.shoulder", "sew front.shoulder to back.shoulder backwards")


def test_a_seam_that_leads_from_neck_to_armhole_on_one_side_and_back_on_the_other_is_likely_turned():
    (problem,) = found(TEXT.replace(*TURNED))
    assert problem.message.startswith("The seam front.shoulder to back.shoulder begins beside neck on one side")
    assert (problem.code, problem.severity) == ("checks.walk-order-likely", Severity.WARNING)


def test_a_seam_turned_against_its_neighbours_is_told_itself_whatever_they_are_called():
    text = TEXT.replace(
        "side, armhole, shoulder, back_neck as neck", "side, armhole as scye, shoulder, back_neck as nape"
    )
    text = text.replace("back.armhole", "back.scye").replace("back.neck", "back.nape").replace(*TURNED)
    text = text.replace("finish neck turned in", "")
    (problem,) = found(text)
    assert problem.message.startswith("The seam front.shoulder to back.shoulder does not bring the ends of back.scye")
    assert problem.related[1].message == "the seam between them"
    assert problem.severity is Severity.ERROR


def test_a_fold_sewn_to_an_open_end_is_told():
    """The frill's fold lies at the centre back, where the back's own fold is."""
    (problem,) = found(TEXT.replace("sew frill.top to back.hem", "sew frill.top backwards to back.hem"))
    assert problem.message.startswith("The seam frill.top to back.hem begins beside the fold on one side")
    assert problem.severity is Severity.ERROR


def test_both_halves_of_an_edge_on_the_fold_are_walked_to_the_fold_and_away_again():
    """Whether the hem is drawn from the fold or toward it, its walk begins at the side seam."""
    for hem in ("back_hem     = line hem_cb to hem_side", "back_hem     = line hem_side to hem_cb"):
        text = TEXT.replace("back_hem     = line hem_cb to hem_side", hem)
        text = text.replace(f"{FRILL} gather 1.4..1.8", "sew frill.top twice to back.hem twice gather 1.4..1.8")
        made = make_pattern(text, "t.draft", BODY, {})
        assert isinstance(made, Made), made.problems
        seam = next(seam for seam in made.pattern.seams if seam.a[0].piece == "frill")
        edge = made.pattern.piece("back").edge("hem")
        side = made.pattern.piece("back").edge("side").path.end
        start = edge.path.end if seam.b[0].backwards else edge.path.start
        assert start.distance(side) < 0.1
