"""A lining that is meant to end short of its shell: walked, notched and told as such, and never stretched."""

from __future__ import annotations

import pytest

from app.pattern.language.format import format_draft
from app.pattern.make import Failed, Made, make_pattern
from app.pattern.problem import Refused
from app.pattern.steps import seam_in_words, seam_notes
from app.pattern.units import Unit

DRAFT = """draft "Panel"
needs
    hip_girth
fabrics
    main "Cloth" width 140cm
    lining "Lining" width 140cm
sheet panel
    top = at 0, 0
    foot_centre = top down 60cm
    across = top right hip_girth / 4
    foot_side = across down 60cm
    head = line top to across
    side = line across to foot_side
    low = line foot_centre to foot_side
    centre = line top to foot_centre
    lining_side = line across to (across down 58cm)
    lining_centre = line top to (top down 58cm)
    lining_low = line (top down 58cm) to (across down 58cm)
piece shell "Shell" from panel cut 2 mirrored main
    outline head, side, low, centre
    grain along centre
    allowance 1cm
piece inner "Lining" from panel cut 2 mirrored lining
    outline head, lining_side as side, lining_low as low, lining_centre as centre
    grain along lining_centre
    allowance 1cm
sew inner.head to shell.head
sew inner.side to shell.side short 2cm notch at 30cm
sew inner.centre to shell.centre short 1cm..3cm
"""
BODY = {"hip_girth": 1000.0}


def made(text=DRAFT):
    return make_pattern(text, "panel.draft", BODY, {})


def codes(text):
    found = made(text)
    return [problem.code for problem in (found.problems if isinstance(found, Refused) else found.findings)]


def test_a_lining_two_centimetres_short_holds():
    assert isinstance(made(), Made)
    seams = made().pattern.seams
    assert [(seam.kind, seam.ease) for seam in seams[1:]] == [("short", (-20.0, -20.0)), ("short", (-30.0, -10.0))]


def test_the_notch_lies_as_far_from_the_start_on_both():
    pattern = made().pattern
    at = {
        piece.name: piece.edge(notch.edge).path.point_at(notch.along).y
        for piece in pattern.pieces
        for notch in piece.notches
    }
    assert at["shell"] == pytest.approx(at["inner"])
    assert at["shell"] == pytest.approx(-300.0)


def test_the_sheet_says_that_it_ends_short_and_never_stretch():
    _, side, centre = (seam_in_words(note, Unit.CM) for note in seam_notes(made().pattern))
    for words in (side, centre):
        assert "it ends 2 cm short of it, as it is meant to." in words
        assert "Stretch" not in words and "ease" not in words


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("short 1cm notch at 30cm", "it ends 20 mm short, where 10 mm is meant"),
        ("short 3cm..4cm notch at 30cm", "it ends 20 mm short, where 30 mm to 40 mm is meant"),
    ],
)
def test_one_that_ends_shorter_or_longer_than_meant_is_told(said, words):
    found = made(DRAFT.replace("short 2cm notch at 30cm", said))
    assert isinstance(found, Failed)
    [problem] = [one for one in found.problems if one.code == "checks.seam-walk"]
    assert words in problem.message
    assert "inner.side" in problem.fix


def test_without_the_word_the_same_seam_does_not_walk():
    assert "checks.seam-walk" in codes(DRAFT.replace("short 2cm ", ""))


def test_a_longer_lining_is_told_as_longer():
    found = made(DRAFT.replace("(across down 58cm)\n    lining_centre", "(across down 61cm)\n    lining_centre"))
    assert isinstance(found, Refused)


def test_the_layout_keeps_the_word():
    laid = format_draft(DRAFT, "panel.draft")
    assert "short 2cm" in laid and "short 1cm..3cm" in laid
    assert format_draft(laid, "panel.draft") == laid


def test_how_short_is_a_length():
    found = made(DRAFT.replace("short 2cm", "short 2"))
    assert isinstance(found, Refused)
    assert "length" in found.problems[0].message
