"""Edges in a sewer's words: parts of one side together, each alone by what it lies next to."""

import pytest

from app.pattern.geometry import Path, Point
from app.pattern.pieces.edge_words import edge_words, edges_words
from app.pattern.pieces.model import Allowance, Edge, Grain, Piece


def piece(*names: str) -> Piece:
    """A piece with edges of these names round it, each a side of a polygon that need not be drawn well."""
    corners = [Point(100.0 * i, 50.0 * (i % 2)) for i in range(len(names) + 1)]
    edges = tuple(
        Edge(name, Path.through(a, b), Allowance(10.0)) for name, a, b in zip(names, corners, corners[1:], strict=False)
    )
    line = Path.through(*corners)
    return Piece("front", "Front", edges, Grain(corners[0], corners[1]), (), line, line)


BODICE = piece(
    "centre_front", "waist_in", "waist_out", "side_lower", "side_upper", "armhole", "shoulder_1", "shoulder_2"
)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("armhole", "armhole"),
        ("centre_front", "centre front"),
        ("side_upper", "side, upper part"),
        ("waist_in", "waist, next to the centre front"),
        ("waist_out", "waist, next to the side"),
        ("shoulder_1", "shoulder, next to the armhole"),
        ("shoulder_2", "shoulder, next to the centre front"),
    ],
)
def test_a_part_of_a_side_is_told_by_what_it_lies_next_to(name, words):
    assert edge_words(BODICE, name) == words


def test_all_the_parts_of_a_side_together_are_the_side():
    assert edges_words(BODICE, ["side_upper", "side_lower"]) == ("side",)
    assert edges_words(BODICE, ["shoulder_2", "armhole", "shoulder_1"]) == ("shoulder", "armhole")
    assert edges_words(BODICE, ["waist_in", "waist_in"]) == ("waist, next to the centre front",)


def test_a_side_that_pattern_work_cut_keeps_its_name_for_both_parts():
    cut = piece("hem", "side", "armhole", "armhole_2", "neck")
    assert edge_words(cut, "armhole") == "armhole, next to the side"
    assert edge_words(cut, "armhole_2") == "armhole, next to the neck"
    assert edges_words(cut, ["armhole", "armhole_2"]) == ("armhole",)


def test_a_number_is_never_read_where_there_is_nothing_to_tell_apart():
    assert edge_words(piece("hem", "side", "shoulder_1", "neck"), "shoulder_1") == "shoulder"
    apart = piece("hem", "side_1", "neck", "side_2")
    assert edge_words(apart, "side_1") == "first side"
    assert edge_words(apart, "side_2") == "second side"


def test_a_side_in_three_parts_has_a_middle_one():
    three = piece("hem", "side_1", "side_2", "side_3", "neck")
    assert [edge_words(three, f"side_{n}") for n in (1, 2, 3)] == [
        "side, next to the hem",
        "side, middle part",
        "side, next to the neck",
    ]


def test_words_that_only_say_where_get_their_noun():
    band = piece("attach", "end_far", "top", "end_near", "inner")
    said = [edge_words(band, edge.name) for edge in band.edges]
    assert said == ["joining edge", "far end", "top edge", "near end", "inner edge"]
    sleeve = piece("seam_back", "hem", "seam_front", "cap")
    assert edge_words(sleeve, "seam_back") == "back seam"


def test_two_different_edges_of_one_piece_never_read_alike():
    for names in (
        ("waist", "waist_in", "hem", "side"),
        ("top", "side_upper", "hem", "side"),
        ("hem", "hem_2", "side", "hem_3"),
        ("slant_1", "slant_2", "rise", "outer", "base"),
    ):
        made = piece(*names)
        said = [edge_words(made, name) for name in names]
        assert len(set(said)) == len(said), said
