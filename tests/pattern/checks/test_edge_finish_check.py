"""Every edge is sewn or finished: what is not is heard, with what it needs; what the trade calls finished is not."""

from __future__ import annotations

import pytest

from app.pattern.checks.step_words import says
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Pattern, StepText
from app.pattern.problem import Severity
from tests.pattern.checks.mutations import BODY, TEXT

UNFINISHED, ODD, UNSAID = "checks.edge-unfinished", "checks.finish-unlike", "checks.finish-unsaid"


def found(text):
    made = make_pattern(text, "whole.draft", BODY, {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    return made.findings


def changed(*subs):
    text = TEXT
    for old, new in subs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return text


def codes(*subs):
    return [problem.code for problem in found(changed(*subs))]


def test_a_forgotten_seam_is_told_with_its_two_edges_and_what_they_are_perhaps_sewn_to():
    (problem,) = found(changed(("sew sleeve.seam_back to sleeve.seam_front\n", "")))
    assert (problem.code, problem.severity) == (UNFINISHED, Severity.WARNING)
    assert "No seam sews sleeve.seam_back and sleeve.seam_front" in problem.message
    assert "10 mm of allowance left over" in problem.message
    assert "perhaps sew sleeve.seam_back to sleeve.seam_front" in problem.fix
    assert "finish seam_back, seam_front hemmed" in problem.fix


def test_each_piece_with_a_raw_edge_is_told_once():
    heard = found(TEXT.replace("    finish neck turned in\n", ""))
    assert [(p.code, p.where.piece, p.where.edge) for p in heard] == [
        (UNFINISHED, "front", "neck"),
        (UNFINISHED, "back", "neck"),
    ]
    assert "sew front.neck to back.neck" not in heard[0].fix, "they are not as long"


@pytest.mark.parametrize("how", ["hemmed", "turned in", "closed", "applied", "caught", "neatened", "zipped"])
def test_an_edge_that_says_how_it_is_finished_is_finished(how):
    more = ("Turn up the hems", "Sew on and neaten the frill's ends, catch them in. Turn up the hems")
    assert codes(("finish short closed", f"finish short {how}"), more) == []


def test_a_finish_may_hang_on_a_choice():
    assert codes(("finish short closed", "finish short closed when ease > 9cm")) == []
    assert codes(("finish short closed", "finish short closed when ease > 11cm")) == [UNFINISHED]


@pytest.mark.parametrize("how", ["hemmed", "raw"])
def test_an_edge_is_not_sewn_and_left_open_at_once(how):
    heard = found(changed(("finish short closed", f"finish short closed\n    finish top {how}")))
    assert ODD in {problem.code for problem in heard}
    assert any(f"frill.top is {how}" in p.message and "a seam sews it" in p.message for p in heard)


@pytest.mark.parametrize(
    ("how", "allowance", "words"),
    [
        ("raw", "", "would be longer there"),
        ("selvedge", "", "would be longer there"),
        ("selvedge", ", short none", None),
        ("raw", ", short none", None),
        ("lined", "", "cut from one cloth only"),
        ("bound", "", None),
        ("faced", "", None),
        ("hemmed", ", short 0.3cm", "5 mm is the least"),
    ],
)
def test_what_a_finish_needs_is_asked_for(how, allowance, words):
    """The ribbon for a bow would do as a binding or to face with; a frill's ends are straight but across the grain."""
    more = ("Turn up the hems", "Bind and face the frill, lining it. Turn up the hems")
    base = ("finish short closed", f"finish short {how}"), ("hem 2cm turned back", f"hem 2cm turned back{allowance}")
    heard = [p for p in found(changed(*base, more)) if p.code == ODD]
    assert [words in p.message for p in heard] == ([True] if words else [])


def test_a_selvedge_runs_straight_along_the_grain():
    across = (
        "grain (corner right 10cm down 3cm) to (corner right 10cm down 12cm)",
        "grain (corner right 4cm down 7cm) to (corner right 20cm down 7cm)",
    )
    selvedge = (
        ("finish short closed", "finish short selvedge"),
        ("hem 2cm turned back", "hem 2cm turned back, short none"),
    )
    assert codes(*selvedge) == []
    assert codes(*selvedge, across) == [ODD]


def test_nothing_is_zipped_bound_or_faced_with_what_nobody_buys():
    notions = TEXT[TEXT.index("notions\n") : TEXT.index("figures\n")]
    bare = TEXT.replace(notions, 'notions\n    elastic "Elastic" length 2 * relaxed\n\n')
    for how, words in (("zipped", "none is bought"), ("bound", "nothing to bind it with"), ("faced", "no piece is a")):
        heard = [p.message for p in found(bare.replace("finish short closed", f"finish short {how}")) if p.code == ODD]
        assert len(heard) == 1
        assert words in heard[0]


def test_a_piece_cut_once_on_the_fold_closes_its_ends_and_not_an_edge_beside_its_fold():
    """Two ends of a frill meet in a ring; an edge that runs over the fold would be sewn to itself."""
    damaged = ("finish short closed", "finish short, hem closed"), ("hem 2cm turned back", "hem 2cm")
    assert codes(*damaged) == ["checks.counts-unlike", ODD], "it would want a second layer besides"


def test_an_edge_without_allowance_is_finished_too_unless_a_step_binds_it_or_leaves_it_raw():
    line = "allowance 1cm, side 1.5cm"
    bare = (f"{line}\n    finish neck turned in", f"{line}, neck none")
    assert codes(bare) == [UNFINISHED]
    assert codes(bare, ("Put the zip", "Bind the back neck. Put the zip")) == []


@pytest.mark.parametrize(
    ("how", "step"),
    [
        ("hem", "Turn up 3 cm and stitch."),
        ("hem", "Hem the skirt by hand."),
        ("hem", "## Hem and buttons"),
        ("hem", "Fold the lower edge under twice."),
        ("hemmed", "Turn the top down 3 cm for the casing."),
        ("hemmed", "Press the mouth of the pocket under and stitch it."),
        ("turned in", "Fell the inner edge."),
        ("turned in", "Topstitch all round."),
        ("faced", "Stitch the facing on."),
        ("lined", "Line the bib."),
        ("lined", "Make up the lining."),
        ("bound", "Bind the armholes."),
        ("zipped", "Sew on the buttons."),
        ("neatened", "Overlock the edges."),
        ("caught", "Catch the tie in the seam."),
    ],
)
def test_a_step_is_heard_in_the_words_of_the_trade(how, step):
    assert says(told(step), how)


@pytest.mark.parametrize(
    ("how", "step"),
    [
        ("hem", "Stitch the sides from the armhole to the hem, and press the seams open."),
        ("hem", "Turn the top down and stitch it."),
        ("faced", "With the right sides facing, pin the zip face down."),
        ("lined", "Stitch on the fold line of the waist and to the line above."),
        ("zipped", "Sew the sides and press the seams."),
        ("bound", "Sew the neck and press the seam."),
    ],
)
def test_a_word_that_only_tells_a_place_is_no_step(how, step):
    assert not says(told(step), how)


def test_steps_in_another_language_and_no_steps_at_all_are_not_judged():
    """That there are none is said as advice on the draft."""
    german = StepText("Saum", "Drei Zentimeter umschlagen, feststeppen.")
    assert says(Pattern("T", (), (), (), (), steps=(german,)), "hem")
    assert says(Pattern("T", (), (), (), ()), "hem")


def told(step):
    return Pattern("T", (), (), (), (), steps=(StepText("Sew", f"Press it with the iron. {step}"),))
