"""The text of the files."""

import pytest

from app.pattern.exchange import StyleInfo
from app.pattern.exchange.contents import handed_pieces
from app.pattern.exchange.words import (
    in_code_page,
    one_line,
    piece_text,
    piece_words,
    printable,
    style_text,
    style_words,
)


def test_the_style_says_its_name_its_maker_its_size_and_its_unit(info):
    assert style_text(info) == (
        "STYLE NAME: Harbour dress",
        "AUTHOR: Studio Fieldwork",
        "SAMPLE SIZE: made to measure",
        "UNITS: METRIC",
    )


def test_words_for_people_name_the_order_and_the_customer(info):
    assert style_words(info)[:2] == ("Order K7F2Q", "For Marit")


def test_empty_words_leave_no_empty_lines():
    bare = StyleInfo("Plain")
    assert len(style_text(bare)) == 3
    assert len(style_words(bare)) == 1


def test_a_piece_says_name_quantity_and_material_to_machines_and_every_cloth_to_people(pattern, info):
    front = handed_pieces(pattern, info)[0]
    assert [line.words for line in piece_text(front)] == [
        "PIECE NAME: Bodice front",
        "SIZE: made to measure",
        "QUANTITY: 1",
        "MATERIAL: Shell",
    ]
    assert [line.words for line in piece_words(front)] == ["cut 1 Shell on fold", "cut 1 Lining on fold"]


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("two\nlines\tand\x00more", "two lines and more"),
        ("50%%d", "50% %d"),
        ("a^Ib", "aˆIb"),
        (r"\U+0041", r"\ U+0041"),
        (r"\M+1ABCD", r"\ M+1ABCD"),
        ("Søren & “Łucja”", "Søren & “Łucja”"),
    ],
)
def test_no_sign_means_something_else_in_dxf(typed, written):
    assert one_line(typed) == written


def test_printable_words_stand_on_one_line():
    assert printable(" a\r\n b\x1b[0m ") == "a b [0m"


@pytest.mark.parametrize(
    ("words", "written"),
    [("Café “x”", "Café “x”"), ("Żółw", r"\U+017Bó\U+0142w"), ("🧵", r"\U+D83E\U+DDF5")],
)
def test_letters_that_code_page_1252_lacks_are_spelled_out(words, written):
    assert in_code_page(words) == written
