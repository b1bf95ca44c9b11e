"""Seams in words: both stitched lengths, and what to do with the difference."""

from dataclasses import replace

import pytest

from app.pattern.names import and_list
from app.pattern.pieces.model import EdgeRun, Seam
from app.pattern.steps import SeamNote, making_order, seam_in_words, seam_notes, seams_without_step
from app.pattern.units import Unit, show_length

CM, INCH = Unit.CM, Unit.INCH


def note(kind: str, a: float, b: float) -> SeamNote:
    return SeamNote(0, kind, "Sleeve cap", "Back armhole", a, b)


def test_a_darts_intake_is_not_counted_in_the_seam_it_lies_on(tunic):
    side = seam_notes(tunic)[2]
    front = tunic.piece("front")
    assert side.b_length == pytest.approx(
        front.edge("side_lower").path.length + front.edge("side_upper").path.length, abs=1e-6
    )
    assert side.even


def test_an_even_seam_says_its_length_once():
    assert seam_in_words(note("plain", 254.3, 254.0), CM) == "Sleeve cap to Back armhole: 25.4 cm along each edge."


def test_a_difference_within_the_tolerance_of_a_walk_is_even_and_beyond_it_is_not():
    assert note("plain", 254.5, 254.0).even
    assert not note("plain", 254.51, 254.0).even


def test_ease_says_into_what_length_and_how_much():
    words = seam_in_words(note("ease", 470.0, 450.0), CM)
    assert words == "Ease Sleeve cap into Back armhole, 45 cm: 2 cm to ease in."


def test_the_ease_told_is_the_true_one_as_a_step_tells_it():
    # Rounded by themselves the two lengths are 40.1 and 39.8 cm, 3 mm apart; the edges differ by 3.6 mm.
    assert seam_in_words(note("ease", 401.4, 397.8), CM).endswith("39.8 cm: 4 mm to ease in.")
    assert show_length(401.4 - 397.8, CM) == "4 mm"
    assert seam_in_words(note("ease", 401.4, 397.8), INCH).endswith("15 5/8 in: 1/8 in to ease in.")


def test_a_shorter_side_is_stretched():
    words = seam_in_words(note("ease", 440.0, 450.0), CM)
    assert words == "Stretch Sleeve cap, 44 cm, by 1 cm to fit Back armhole."


def test_two_pieces_that_meet_along_one_edge_are_not_told_apart_by_the_same_words():
    note = SeamNote(0, "plain", "Back (centre)", "Back (centre)", 300.0, 300.0)
    assert seam_in_words(note, CM) == "Back (centre) to the same edge of the other one: 30 cm along each edge."


def test_gathers_say_from_what_to_what_and_how_full():
    words = seam_in_words(note("gather", 900.0, 450.0), CM)
    assert words == "Draw up Sleeve cap from 90 cm to 45 cm to fit Back armhole, 2.00 to 1."


def test_elastic_is_named():
    words = seam_in_words(note("elastic", 508.0, 254.0), INCH)
    assert words == "Draw up Sleeve cap on elastic from 20 in to 10 in to fit Back armhole, 2.00 to 1."


def test_a_seam_that_runs_over_the_fold_is_said_with_both_its_halves(tunic):
    neck = seam_notes(tunic)[1]
    assert neck.halves == 2
    whole = SeamNote(0, "plain", "Front (neck)", "Facing (neck)", 160.0, 160.0, 2)
    assert seam_in_words(whole, CM) == "Front (neck) to Facing (neck): 32 cm along each edge (both halves together)."
    eased = SeamNote(0, "ease", "Collar", "Neck", 165.0, 160.0, 2)
    assert seam_in_words(eased, CM) == "Ease Collar into Neck, 32 cm (both halves together): 1 cm to ease in."


def test_a_seam_that_is_sewn_once_on_each_side_is_said_as_it_is_walked(tunic):
    notes = seam_notes(tunic)
    assert [notes[index].halves for index in (0, 2, 3, 4)] == [1, 1, 1, 1]


def test_a_seam_that_counts_both_halves_itself_is_not_doubled_again(tunic):
    both = Seam((EdgeRun("front", "neck", times=2),), (EdgeRun("back", "shoulder"),))
    assert seam_notes(replace(tunic, seams=(both,)))[0].halves == 1


def test_sides_of_several_edges_are_named_piece_by_piece(tunic):
    armhole = seam_notes(tunic)[3]
    assert armhole.a == "Sleeve (cap)"
    assert armhole.b == "Front (armhole) and Back (armhole)"


def test_a_title_with_commas_in_it_stays_clear(tunic):
    pieces = tuple(replace(p, title="Back, upper and lower") if p.name == "back" else p for p in tunic.pieces)
    words = seam_notes(replace(tunic, pieces=pieces))[3].b
    assert words == "Front (armhole) and Back, upper and lower (armhole)"


def test_an_edge_that_comes_again_and_again_is_named_once(tunic):
    runs = (EdgeRun("front", "neck"), EdgeRun("back", "neck"), EdgeRun("front", "neck", backwards=True))
    seam = Seam(runs, (EdgeRun("back", "neck"),))
    assert seam_notes(replace(tunic, seams=(seam,)))[0].a == "Front (neck) and Back (neck)"


def test_an_edge_walked_twice_counts_twice_and_says_so(tunic):
    seam = Seam((EdgeRun("front", "neck", times=2),), (EdgeRun("back", "neck"),))
    twice = seam_notes(replace(tunic, seams=(seam,)))[0]
    assert twice.a == "Front (neck, both halves)"
    assert twice.a_length == pytest.approx(2 * tunic.piece("front").edge("neck").path.length)


def test_lists_read_as_english():
    assert and_list([]) == ""
    assert and_list(["side"]) == "side"
    assert and_list(["back", "front", "sleeve", "back"]) == "back, front and sleeve"


def test_steps_are_numbered_from_one_and_carry_their_seams(tunic):
    order = making_order(tunic)
    assert [step.number for step in order] == [1, 2, 3, 4, 5]
    assert [n.index for n in order[4].notes] == [2, 4]
    assert order[0].notes == ()


def test_a_seam_is_clipped_at_the_last_step_that_shows_it(tunic):
    again = replace(tunic.steps[-1], seams=(1,))
    order = making_order(replace(tunic, steps=(*tunic.steps, again)))
    assert [clip.seam for clip in order[2].clips] == []
    assert [clip.seam for clip in order[5].clips] == [1]


def test_seams_that_no_step_shows_are_found(tunic):
    assert seams_without_step(tunic) == ()
    assert seams_without_step(replace(tunic, steps=tunic.steps[:3])) == (2, 3, 4)
