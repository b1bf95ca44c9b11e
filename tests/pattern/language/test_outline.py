"""The outline of a draft: what stands in it and on which line."""

from __future__ import annotations

import pytest

from app.pattern.language import parse
from app.pattern.language.outline import Listed, outline
from tests.places import DRAFT_FILES

TEXT = """draft "Garden skirt"
needs
    waist_girth, hip_girth
choices
    ease = 2cm from 1cm to 4cm "Room"
    lined = no
fabrics
    main "Cloth"
figures
    quarter = waist_girth / 4
sheet panel
    a = at 0, 0
    solve h from 1cm to 9cm until h = 3cm
        b = a down h
    when lined
        c = a right 1cm
    low = line a to b
piece panel "Panel" cut 2 main, cut 1 on fold main
    outline low as hem, fold side
    grain along low
    allowance 1cm
piece spread "Spread" from panel cut 1 main
    outline of wide
    grain along low
    allowance 1cm
sew panel.hem, panel.side to spread.top gather 1.2..1.5
girth waist "Waist" = 80cm
steps
    ## Sew it
    At once.
"""


@pytest.fixture(scope="module")
def garden():
    parsed = parse(TEXT, "t.draft")
    assert not parsed.problems
    return outline(parsed.draft)


def test_sections_stand_in_the_order_of_their_lines(garden):
    assert [(s.word, s.name, s.line) for s in garden.sections] == [
        ("draft", "Garden skirt", 1),
        ("needs", "", 3),
        ("choices", "", 5),
        ("fabrics", "", 8),
        ("figures", "", 10),
        ("sheet", "panel", 11),
        ("piece", "panel", 18),
        ("piece", "spread", 22),
        ("sew", "", 26),
        ("girth", "waist", 27),
        ("steps", "", 29),
    ]


def test_names_of_a_sheet_are_listed_through_its_blocks(garden):
    (sheet,) = garden.sheets
    assert [(name.name, name.depth) for name in sheet.names] == [("a", 0), ("h", 0), ("b", 1), ("c", 1), ("low", 0)]
    assert sheet.names[2].line == 14


def test_pieces_know_their_edges_under_the_names_they_have_there(garden):
    panel, spread = garden.pieces
    assert [edge.name for edge in panel.edges] == ["hem", "side"]
    assert panel.cuts == ("main", "main")
    assert (panel.sheet, spread.sheet) == ("", "panel")
    assert spread.edges == ()


def test_seams_choices_and_steps_are_there(garden):
    (seam,) = garden.seams
    assert (seam.a, seam.b, seam.kind, seam.line) == (("panel.hem", "panel.side"), ("spread.top",), "gather", 26)
    assert garden.choices == (Listed("ease", 5, "Room"), Listed("lined", 6))
    assert garden.needs == (Listed("waist_girth", 3), Listed("hip_girth", 3))
    assert garden.girths == (Listed("waist", 27, "Waist"),)
    assert [step.title for step in garden.steps] == ["Sew it"]


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_every_entry_points_at_a_line_that_holds_its_name(path):
    text = path.read_text("utf-8")
    rows = text.split("\n")
    found = outline(parse(text, path.name).draft)
    entries = [
        *found.needs,
        *found.choices,
        *found.fabrics,
        *found.notions,
        *found.figures,
        *found.girths,
        *found.steps,
    ]
    entries += [name for sheet in found.sheets for name in sheet.names]
    entries += [edge for piece in found.pieces for edge in piece.edges]
    assert len(entries) > 50
    for entry in entries:
        assert entry.name in rows[entry.line - 1]
