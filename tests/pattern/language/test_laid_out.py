"""Drafts as somebody types them in a hurry, each beside its layout; a pair shows one thing."""

from pathlib import Path

import pytest

from app.pattern.language import parse
from app.pattern.language.format import format_draft
from app.pattern.language.outline import outline

PAIRS = sorted((Path(__file__).parent / "laid_out").glob("*.rough"))


def names_of(text):
    """Everything a text names, by sort: what must not change by being set out."""
    found = outline(parse(text, "t.draft").draft)
    groups = (found.needs, found.choices, found.fabrics, found.notions, found.figures, found.girths, found.steps)
    listed = [[(one.name, one.title) for one in group] for group in groups]
    sheets = [(sheet.name, [name.name for name in sheet.names]) for sheet in found.sheets]
    pieces = [(piece.name, piece.sheet, [edge.name for edge in piece.edges], piece.cuts) for piece in found.pieces]
    return listed, sheets, pieces, [(seam.a, seam.b, seam.kind) for seam in found.seams]


def test_every_rough_draft_has_its_layout_beside_it():
    assert len(PAIRS) >= 14
    assert {path.stem for path in PAIRS} == {path.stem for path in (PAIRS[0].parent).glob("*.draft")}


@pytest.mark.parametrize("path", PAIRS, ids=lambda path: path.stem)
def test_a_draft_typed_in_a_hurry_is_set_out(path):
    laid = path.with_suffix(".draft").read_text("utf-8")
    assert format_draft(path.read_text("utf-8"), path.name) == laid


@pytest.mark.parametrize("path", PAIRS, ids=lambda path: path.stem)
def test_what_is_set_out_is_set_out_already_and_names_the_same_things(path):
    rough, laid = path.read_text("utf-8"), path.with_suffix(".draft").read_text("utf-8")
    assert format_draft(laid, path.name) == laid
    assert names_of(laid) == names_of(rough)


@pytest.mark.parametrize("end", ["\r\n", "\r"])
@pytest.mark.parametrize("path", PAIRS, ids=lambda path: path.stem)
def test_how_lines_end_makes_no_difference(path, end):
    rough = path.read_text("utf-8")
    assert format_draft(rough.replace("\n", end), path.name) == path.with_suffix(".draft").read_text("utf-8")
