"""The reference: nothing of the language is left out, and every example holds."""

from __future__ import annotations

import re

import pytest

from app.pattern.drafting.expressions import FUNCTIONS, OPERATORS
from app.pattern.drafting.forms import FORMS
from app.pattern.guide import Group, grammar_lines, reference, section_order
from app.pattern.guide.examples import PlayedExample, cut_example, play_example
from app.pattern.guide.lines import GARMENT, LINE_MEANINGS, PLUMBING
from app.pattern.guide.meanings import FORM_MEANINGS
from app.pattern.guide.order import SECTION_WORDS
from app.pattern.guide.reckoning import RECKONINGS, UNITS, unit_key
from app.pattern.language import parse
from app.pattern.language.grammar import line_grammar
from app.pattern.language.lines import Source, cut_lines
from app.pattern.language.parse import HEADS, SECTIONS, UNDER
from app.pattern.pieces.model import Pattern

ENTRIES = reference()
BY_KEY = {entry.key: entry for entry in ENTRIES}


def test_every_form_has_a_meaning_and_an_example():
    missing = set(FORMS) - set(FORM_MEANINGS)
    assert not missing, f"write a row in app/pattern/guide/meanings.py for: {sorted(missing)}"
    assert set(FORM_MEANINGS) <= set(FORMS), "these forms are gone: take their rows away"


def test_every_line_of_the_grammar_has_a_meaning_and_an_example():
    missing = set(grammar_lines()) - set(LINE_MEANINGS)
    assert not missing, (
        f"write a row in app/pattern/guide/lines.py for: {sorted(missing)}; a mere part of a line goes into PLUMBING"
    )
    assert set(LINE_MEANINGS) <= set(grammar_lines()), "these lines are gone: take their rows away"


def test_what_is_left_out_as_plumbing_is_still_in_the_grammar():
    rules = {str(rule.origin.name) for rule in line_grammar().rules} | {str(r.alias) for r in line_grammar().rules}
    assert len(PLUMBING - rules) <= 12, "PLUMBING has gathered dust"


def test_every_section_is_explained():
    assert set(SECTION_WORDS) == set(SECTIONS)
    assert [section.word for section in section_order()] == list(SECTIONS)


@pytest.mark.parametrize("section", section_order(), ids=lambda s: s.word)
def test_a_sections_example_can_be_read(section):
    text = section.example + "\n" if section.word == "draft" else f'draft "T"\n{section.example}\n'
    parsed = parse(text, "t.draft")
    assert not parsed.problems, "\n".join(map(str, parsed.problems))


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda e: e.key)
def test_an_example_is_a_whole_draft_that_is_drawn(entry):
    played = play_example(entry.text)
    assert isinstance(played, PlayedExample), "\n".join(map(str, played.problems))
    assert entry.says.endswith(".")
    assert entry.written
    assert entry.lines
    for line in entry.lines:
        squeezed = re.sub(r"\s+", " ", entry.text)
        assert re.sub(r"\s+", " ", line).strip().split(" ")[0] in squeezed


@pytest.mark.parametrize("name", FORMS)
def test_a_forms_example_uses_that_very_form(name):
    parsed = parse(BY_KEY[name].text, "t.draft")
    assert f"form='{name}'" in repr(parsed.draft)


@pytest.mark.parametrize("name", LINE_MEANINGS)
def test_a_lines_example_uses_that_very_line(name):
    """Each line of the example is read by the rule it explains: the rule's name is in one of its trees."""
    found = set()
    for rule, text in lines_of(BY_KEY[name].text):
        for tree in line_grammar().parse(text, start=rule).iter_subtrees():
            found.add(str(tree.data))
    assert name in found


def lines_of(text: str):
    """The draft's lines with the rule each is read by; of the instructions what stands in braces."""
    for top in cut_lines(Source("t", tuple(text.split("\n")))).lines:
        if top.first_word in HEADS:
            yield HEADS[top.first_word], top.text
        yield from under(top, UNDER.get(top.first_word, ""))
        for _, row in top.raw:
            for inside in re.findall(r"\{([^{}]*)\}", row):
                yield "brace", inside


def under(line, rule):
    for child in line.children:
        yield rule, child.text
        yield from under(child, rule)


@pytest.mark.parametrize("entry", [e for e in ENTRIES if e.key in LINE_MEANINGS], ids=lambda e: e.key)
def test_a_lines_example_can_be_cut(entry):
    pattern = cut_example(play_example(entry.text))
    assert isinstance(pattern, Pattern), "\n".join(map(str, pattern.problems))


def test_forms_are_pictured_with_their_result_in_colour():
    for entry in ENTRIES:
        if entry.key in FORMS and entry.group is not Group.NUMBERS:
            assert 'class="line-highlight"' in entry.drawing or 'class="fill-accent"' in entry.drawing, entry.key


def test_measuring_forms_say_what_they_come_to():
    assert BY_KEY["length()"].comes_to == "long is 28.8 cm"
    assert BY_KEY["angle()"].comes_to == "lean is 33.7°"
    assert BY_KEY["hypot()"].comes_to == "long is 28.8 cm"
    assert BY_KEY["at"].comes_to == ""


def test_parts_are_told_in_words():
    assert BY_KEY["along"].parts == ("a path", "a length", "a point, if wanted")
    assert BY_KEY["line"].parts[-1] == "a point, once or more often"
    assert BY_KEY["line"].gives == "a path"
    assert BY_KEY["turned"].gives == "the same kind of thing"


def test_every_chapter_has_entries_and_the_garment_its_sections():
    assert {entry.group for entry in ENTRIES} == set(Group)
    assert {section.split(" ")[0] for section in GARMENT} | {"for"} == set(SECTIONS)


# ---- nothing of the language is left out: functions, operators, units, words of direction


def words_of_terminal(name: str) -> set[str]:
    """The plain words that a terminal of the grammar stands for."""
    pattern = next(t.pattern.to_regexp() for t in line_grammar().terminals if t.name == name)
    return set(re.findall(r"[a-z]+", pattern.split("(?!")[0]))


def test_every_function_has_an_entry():
    missing = set(FUNCTIONS) - set(BY_KEY)
    assert not missing, f"write a row in app/pattern/guide/meanings.py or reckoning.py for: {sorted(missing)}"
    assert set(RECKONINGS) <= set(FUNCTIONS) | set(OPERATORS), "these are gone: take their rows away"


def test_every_operator_has_an_entry_and_is_written_with_its_sign():
    missing = set(OPERATORS) - set(BY_KEY)
    assert not missing, f"write a row in app/pattern/guide/reckoning.py for: {sorted(missing)}"
    signs = {"add": "+", "subtract": "-", "multiply": "*", "divide": "/", "negative": "-"}
    assert all(sign in BY_KEY[name].written for name, sign in signs.items())


def test_every_unit_has_an_entry():
    pattern = next(t.pattern.to_regexp() for t in line_grammar().terminals if t.name == "QUANTITY")
    units = set(re.search(r"\(((?:[^()|]+\|)+[^()|]+)\)\?\(\?!", pattern)[1].split("|"))
    assert units | {""} == set(UNITS), "the units of the grammar and those of app/pattern/guide/reckoning.py differ"
    for unit, meaning in UNITS.items():
        assert meaning.written.endswith(unit)
        assert BY_KEY[unit_key(unit)].written == meaning.written


@pytest.mark.parametrize(
    ("terminal", "form"), [("DIRECTION", "go {}"), ("DIRECTION", "direction {}"), ("IN_OUT", "move {}")]
)
def test_every_word_of_direction_has_an_entry(terminal, form):
    words = words_of_terminal(terminal)
    assert len(words) >= 2
    assert {form.format(word) for word in words} <= set(BY_KEY)


def test_every_line_that_begins_a_section_has_an_entry():
    lines = {*HEADS.values(), *UNDER.values()} - PLUMBING
    assert lines <= set(BY_KEY)
    assert {"draft_line", "needs_line", "choice_line", "sheet_head", "piece_head", "sew_line", "girth_line"} <= lines


@pytest.mark.parametrize("name", [*OPERATORS, "min()", "max()", "abs()", "width()", "folded()"])
def test_an_example_of_reckoning_uses_that_very_thing(name):
    assert f"form='{name}'" in repr(parse(BY_KEY[name].text, "t.draft").draft)


def test_reckoning_says_what_it_comes_to_and_is_cut():
    assert BY_KEY["divide"].comes_to == "third is 10 cm"
    assert BY_KEY["max()"].comes_to == "depth is 3 cm"
    assert BY_KEY["width()"].comes_to == "Round the cloth is 48 cm"
    assert BY_KEY["unit in"].comes_to == "deep is 8.9 cm"
    assert BY_KEY["unit share"].comes_to == "share is 0.2"
    for key in (*RECKONINGS, *map(unit_key, UNITS)):
        pattern = cut_example(play_example(BY_KEY[key].text))
        assert isinstance(pattern, Pattern), "\n".join(map(str, pattern.problems))
