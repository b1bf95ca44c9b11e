"""Walking a draft's tree: every node once, before its parts, in the order in which they are written."""

from __future__ import annotations

import pytest

from app.pattern.language import nodes as n
from app.pattern.language import parse
from app.pattern.language.walk import child_nodes, find_all, walk
from tests.places import DRAFT_FILES

TEXT = """draft "T"
needs
    waist_girth
sheet s
    a = at 0, waist_girth
    when waist_girth > 60cm
        b = a right waist_girth / 4
    solve h from 1cm to 9cm until h = 3cm
        c = b down h
"""


def sheet():
    return parse(TEXT, "t").draft.sheets[0]


def test_the_parts_of_a_node_are_the_nodes_in_its_fields():
    solve = sheet().steps[2]
    assert child_nodes(solve) == [solve.least, solve.most, solve.left, solve.right, *solve.steps]


def test_a_name_has_no_parts():
    assert child_nodes(next(find_all(sheet(), n.Name))) == []


def test_all_nodes_of_a_kind_are_found_in_blocks_too():
    assert [step.name for step in find_all(sheet(), n.Assign)] == ["a", "b", "c"]
    assert [step.name for step in find_all(sheet().steps, n.Assign, n.Solve)] == ["a", "b", "h", "c"]


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_every_node_is_met_once_and_before_its_parts(path):
    draft = parse(path.read_text("utf-8"), path.name).draft
    met = [id(node) for node in walk(draft)]
    assert len(met) == len(set(met))
    place = {node: at for at, node in enumerate(met)}
    assert all(place[id(node)] < place[id(part)] for node in walk(draft) for part in child_nodes(node))
    assert repr(draft).count("span=Span(") == len(met)
