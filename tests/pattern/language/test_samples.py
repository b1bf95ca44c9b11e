"""The line to write like is one of the construct that was meant, and can itself be read."""

from __future__ import annotations

import re

import pytest

from app.pattern.language import parse
from app.pattern.language.grammar import line_grammar
from app.pattern.language.samples import SAMPLES

EACH = [(start, word, line) for start, samples in SAMPLES.items() for word, line in samples.items()]


@pytest.mark.parametrize(("start", "word", "line"), EACH)
def test_every_sample_can_be_read_and_holds_its_word(start, word, line):
    text = re.search(r"\{(.*)\}", line)[1] if start == "brace" else line
    line_grammar().parse(text, start=start)
    meant = {"function": "length", "": ""}.get(word, word)
    assert meant in re.findall(r"[a-z]\w*", text) or not meant


def test_every_form_and_clause_of_the_grammar_has_a_sample_by_its_word():
    firsts, moves = set(), set()
    for rule in line_grammar().rules:
        words = [symbol.name.lower() for symbol in rule.expansion if symbol.is_term]
        if str(rule.alias or "").startswith("f_") and words and words[0].isalpha():
            (firsts if rule.expansion[0].is_term else moves).add(words[0])
    arithmetic = {"plus", "minus", "star", "slash", "direction"}
    missing = (firsts | moves) - arithmetic - set(SAMPLES["step_line"])
    assert not missing, f"write a line in app/pattern/language/samples.py for each of: {sorted(missing)}"


@pytest.mark.parametrize(
    ("line", "sample"),
    [
        ("x = curve a to b leaving", "curve nape to tip"),
        ("x = line (middle of a b) to c", "middle of nape and waist"),
        ("x = (middle of a and b) c", "hip_side = hip_centre right panel"),
        ("dart = dart a to b", "dart dart_a to tip"),
        ("spread = spread block along by 3cm", "spread block along slash_1"),
        ("x = cut block left style", "cut block left of"),
        ("deep = 6cm when lined", "when lined otherwise"),
        ("when lined or", "when lined and"),
        ("solve x from 3cm to", "solve bow from"),
        ("x = length(a", "length(side)"),
        ("x = arc around a radius 3cm", "radius 9cm from 270deg"),
    ],
)
def test_a_step_is_shown_the_form_it_began(line, sample):
    (problem,) = parse(
        f'draft "T"\nsheet s\n    {line}\n        b = at 0, 0\n'.replace("\n        b", "\n    b"), "t"
    ).problems
    assert sample in problem.fix


@pytest.mark.parametrize(
    ("line", "sample"),
    [
        ("outline a b", "outline fold centre"),
        ("outline of", "outline of block"),
        ("grain a", "grain (waist down 8cm)"),
        ("notch side 3cm", "notch side at 20cm"),
        ("mark fold", 'mark fold fold_line "Fold here"'),
        ("allowance 1cm hem 2cm", "allowance 1cm, hem 3cm"),
    ],
)
def test_a_line_of_a_piece_is_shown_a_line_of_its_own_sort(line, sample):
    (problem,) = parse(f'draft "T"\npiece s "S" cut 1 main\n    {line}\n', "t").problems
    assert sample in problem.fix


def test_a_choice_of_options_is_shown_one():
    (problem,) = parse('draft "T"\nchoices\n    long = knee one of knee calf\n', "t").problems
    assert "one of knee, calf" in problem.fix
