"""A draft's text as it is typed or brought: taken as it is, or told why it cannot be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.shop.studio.drafts.form import MOST_CHARACTERS, read_entry
from tests.places import APRON

#: Signs that a text may hold: any but control signs and halves of a pair.
SEEN = st.characters(exclude_categories=("Cc", "Cs"), exclude_characters="\ufffe\uffff")
LINES = st.lists(st.text(SEEN, max_size=30), max_size=8)


def typed(text, **more):
    return read_entry({"text": text, **more}, b"", 0)


def brought(file, text=""):
    return read_entry({"text": text}, file, 0)


@given(LINES)
def test_what_is_typed_comes_back_line_by_line_however_a_browser_ends_its_lines(lines):
    for end in ("\n", "\r\n", "\r"):
        entry = typed(end.join(lines))
        assert (entry.text, entry.problems) == ("\n".join(lines), ())


@given(LINES)
def test_a_file_is_taken_as_if_its_text_had_been_typed(lines):
    text = "\n".join(lines)
    entry = brought(text.replace("\n", "\r\n").encode())
    # A file without a sign is no file that was chosen: the editor's text stands.
    assert (entry.text, entry.problems) == (text.removeprefix("\ufeff"), ())


def test_the_mark_that_some_editors_put_before_a_text_is_no_part_of_it():
    assert brought(b"\xef\xbb\xbf" + APRON.encode()).text == APRON


def test_the_size_and_the_line_come_with_the_text():
    entry = read_entry({"text": APRON, "size": "size 92"}, b"", 24)
    assert (entry.size, entry.line, entry.instead) == ("size 92", 24, "")


def test_a_form_without_a_text_is_an_empty_draft():
    entry = read_entry({}, b"", 0)
    assert (entry.text, entry.size, entry.problems) == ("", "", ())


@pytest.mark.parametrize(
    ("text", "instead"),
    [
        ("", ""),
        ("  \n ", ""),
        (APRON, ""),
        (APRON.replace("\n", "\r\n"), ""),
        (f"\n{APRON}\n\n", ""),
        ('draft "Half written"\n', 'draft "Half written"\n'),
    ],
)
def test_what_stood_in_the_editor_is_kept_in_sight_when_a_file_takes_its_place(text, instead):
    entry = brought(APRON.encode(), text)
    assert (entry.text, entry.instead) == (APRON, instead)


@pytest.mark.parametrize("file", [b"\xff\xfe\x00d", "Käse".encode("latin-1"), b"%PDF-1.7\n\x93\x8c", b"\x89PNG\r\n"])
def test_a_file_that_is_no_text_is_not_taken_and_the_editor_stays_as_it_was(file):
    entry = brought(file, "draft")
    assert entry.problems[0].code == "studio.not-text"
    assert entry.problems[0].message == "The file you chose is not plain text, so it was not taken."
    assert "UTF-8" in entry.problems[0].fix
    assert (entry.text, entry.instead) == ("draft", "")


@pytest.mark.parametrize("sign", ["\x00", "\x07", "\x1b", "\x7f", "\x85", "\ufffe", "\uffff"])
def test_a_sign_that_nobody_can_see_is_told_with_its_line(sign):
    text = f'draft "Apron"\n\nneeds\n    waist{sign}_girth\n'
    entry = typed(text)
    assert entry.problems[0].code == "studio.unseen-sign"
    assert entry.problems[0].message == "Line 4 holds a sign that nobody can see."
    assert entry.text == text, "the text stands as it was sent"


def test_a_tab_is_seen_and_a_word_processors_page_break_is_not():
    assert typed("\tx").problems == ()
    assert typed("a\x0cb").problems[0].code == "studio.unseen-sign"


def test_a_file_with_such_a_sign_is_not_taken_and_the_editor_stays_as_it_was():
    entry = brought(b"draft\x00", "mine")
    assert entry.problems[0].code == "studio.unseen-sign"
    assert (entry.text, entry.instead) == ("mine", "")


def test_the_longest_text_is_taken_and_one_sign_more_is_told_with_both_figures_and_nothing_is_lost():
    assert typed("x" * MOST_CHARACTERS).problems == ()
    entry = typed("x" * (MOST_CHARACTERS + 1))
    assert entry.problems[0].code == "studio.draft-too-long"
    assert entry.problems[0].message == "This text has 100,001 characters; 100,000 are the most."
    assert len(entry.text) == MOST_CHARACTERS + 1
    assert brought(b"y" * (MOST_CHARACTERS + 1), "mine").text == "mine"


def test_a_long_text_is_counted_in_signs_and_not_in_bytes():
    assert typed("ß" * MOST_CHARACTERS).problems == ()
    assert brought("ß".encode() * MOST_CHARACTERS).problems == ()
