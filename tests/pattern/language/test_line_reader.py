"""Lines read by our loop over Lark's tables: the very lines that Lark reads, with every part where Lark finds it."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lark.exceptions import UnexpectedInput

from app.pattern.language import nodes as n
from app.pattern.language.build import Builder
from app.pattern.language.grammar import line_grammar
from app.pattern.language.line_reader import read_line
from app.pattern.language.samples import SAMPLES
from app.pattern.language.walk import find_all

LINES = [
    (start, re.search(r"\{(.*)\}", line)[1] if start == "brace" else line)
    for start, samples in SAMPLES.items()
    for line in samples.values()
]
TOKEN = re.compile(r'"[^"]*"|\w+|\s+|.')
TOKENS = sorted({token for _, line in LINES for token in TOKEN.findall(line)} | {"\n", " \n ", "$", '"', "½"})
#: The rules of which every node is one, by its class.
ALIKE = {n.Quantity: ("quantity",), n.Dotted: ("dotted",), n.Compare: ("compare", "is_", "is_not")}


def by_lark(text: str, start: str):
    try:
        return line_grammar().parse(text, start=start)
    except UnexpectedInput:
        return None


def by_us(text: str, start: str):
    try:
        return read_line(text, start, Builder("t", text, 1))[0]
    except UnexpectedInput:
        return None


def places(tree, rules):
    """Where the parts of some rules begin and end, in rows and columns."""
    return {(t.meta.line, t.meta.column, t.meta.end_column) for t in tree.iter_subtrees() if t.data in rules}


@st.composite
def spoilt(draw):
    """A sample with a few tokens taken out, put in or exchanged."""
    start, line = draw(st.sampled_from(LINES))
    tokens = TOKEN.findall(line)
    for _ in range(draw(st.integers(0, 3))):
        at = draw(st.integers(0, len(tokens)))
        tokens[at : at + draw(st.integers(0, 1))] = draw(st.lists(st.sampled_from(TOKENS), max_size=2))
    return start, "".join(tokens)


@settings(deadline=None)  # the grammar is made ready in the first
@given(spoilt())
def test_it_reads_a_line_if_and_only_if_lark_reads_it(drawn):
    start, text = drawn
    assert (by_us(text, start) is None) == (by_lark(text, start) is None)


@pytest.mark.parametrize(("start", "line"), LINES)
def test_parts_stand_where_lark_finds_them_in_a_line_over_two_rows_too(start, line):
    at = line.find(" ", len(line) // 2)
    broken = line if at < 0 or '"' in line[at:] else line[:at] + "\n " + line[at:]
    for text in (line, broken):
        tree, node = by_lark(text, start), by_us(text, start)
        for kind, rules in ALIKE.items():
            found = {(part.span.line, part.span.column, part.span.end_column) for part in find_all(node, kind)}
            assert {place for place in places(tree, rules) if place[2] > place[1]} <= found


def test_a_part_in_brackets_ends_before_them_and_what_holds_it_ends_after():
    product = by_us("x = (a + b) * 2", "step_line").value
    total = product.args[0]
    assert (product.span.column, product.span.end_column) == (5, 16)
    assert (total.span.column, total.span.end_column) == (6, 11)


def test_the_text_of_a_node_is_plain_text():
    step = by_us("x = front.hem", "step_line")
    assert {type(step.name), type(step.value.owner), type(step.value.name)} == {str}


def test_a_line_counts_what_it_is_made_of_and_never_less_than_its_depth():
    _, made = read_line("x = " + "-" * 30 + "1cm", "step_line", Builder("t", "", 1))
    assert made >= 30
