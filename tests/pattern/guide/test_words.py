"""The words of the language: all are there, each with where it stands, and a reserved one is refused as a name."""

from __future__ import annotations

import pytest

from app.pattern.drafting import compiled
from app.pattern.guide import reference
from app.pattern.guide.words import language_words
from app.pattern.language.parse import SECTIONS
from app.pattern.problem import Refused

WORDS = {each.word: each for each in language_words()}


def test_they_stand_in_the_order_of_the_alphabet_once_each():
    assert list(WORDS) == sorted(WORDS)
    assert set(SECTIONS) <= set(WORDS)


@pytest.mark.parametrize(
    ("word", "key"),
    [
        ("crossing", "crossing"),
        ("ease", "ease"),
        ("hemmed", "finish"),
        ("selvedge", "finish"),
        ("lengthen", "mark"),
        ("children", "for_line"),
        ("down", "go down"),
        ("sqrt", "sqrt()"),
    ],
)
def test_a_word_leads_to_the_form_or_line_it_stands_in(word, key):
    assert key in {entry.key for entry in WORDS[word].entries}


def test_a_form_that_is_called_like_a_word_is_found_under_it():
    for entry in reference():
        if entry.key in WORDS:
            assert entry in WORDS[entry.key].entries


@pytest.mark.parametrize("word", ["curve", "along", "yes", "when", "cut", "dart", "end"])
def test_a_reserved_word_is_refused_as_the_name_of_a_point(word):
    assert not WORDS[word].free
    assert isinstance(
        compiled(f'draft "T"\nsheet s\n    {word} = at 0, 0\n    b = {word} down 1cm\n', "t.draft"), Refused
    )


@pytest.mark.parametrize("word", ["waist", "hemmed", "body", "width", "left", "children"])
def test_other_words_may_be_names(word):
    assert word not in WORDS or WORDS[word].free
    text = f'draft "T"\nsheet s\n    {word} = at 0, 0\n    b = {word} down 1cm\n'
    assert not isinstance(compiled(text, "t.draft"), Refused)
