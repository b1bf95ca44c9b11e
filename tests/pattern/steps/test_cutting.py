"""The cutting list in the trade's words."""

from dataclasses import replace

import pytest

from app.pattern.pieces.model import Cut
from app.pattern.steps import count_in_words, cutting_list


@pytest.mark.parametrize(
    ("cut", "words"),
    [
        (Cut("main", 1), "Cut 1"),
        (Cut("main", 3), "Cut 3"),
        (Cut("main", 1, on_fold=True), "Cut 1 on the fold"),
        (Cut("main", 2, on_fold=True), "Cut 2 on the fold"),
        (Cut("main", 2, pair=True), "Cut 2, a mirrored pair"),
        (Cut("main", 4, pair=True), "Cut 4, as 2 mirrored pairs"),
    ],
)
def test_a_count_reads_as_a_cutter_would_say_it(cut, words):
    assert count_in_words(cut) == words


def test_rows_come_cloth_by_cloth_in_the_order_of_the_fabrics(tunic):
    rows = cutting_list(tunic)
    assert [row.fabric for row in rows] == ["Shell", "Shell", "Shell", "Facing cloth", "Facing cloth"]
    assert [row.piece for row in rows] == ["Back", "Front", "Sleeve", "Back facing", "Front facing"]
    assert rows[-1].note == "Interface."


def test_a_piece_cut_in_two_cloths_has_a_row_in_each(tunic):
    back = replace(tunic.piece("back"), cuts=(Cut("facing", 1, on_fold=True), Cut("main", 1, on_fold=True)))
    rows = cutting_list(replace(tunic, pieces=(back,)))
    assert [(row.fabric_name, row.piece_name) for row in rows] == [("main", "back"), ("facing", "back")]


def test_a_cloth_that_the_pattern_does_not_have_is_our_own_bug(tunic):
    stray = replace(tunic.piece("back"), cuts=(Cut("velvet", 1),))
    with pytest.raises(KeyError):
        cutting_list(replace(tunic, pieces=(stray,)))
