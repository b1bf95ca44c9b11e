"""Bodies, garments, papers and words out of the ordinary: each printed right, or refused in plain words."""

from dataclasses import replace

import pytest
from shapely.geometry import Polygon

from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern
from app.pattern.pieces.model import Cut, Pattern
from app.pattern.sheets import (
    PAPERS,
    Paper,
    PrintInfo,
    RollPlan,
    SheetPlan,
    paper_of,
    plan_projector,
    plan_roll,
    plan_sheets,
    write_roll_pdf,
    write_tiled_pdf,
)
from tests.pattern.drawing.hand_pieces import bodice_front, rectangle, straight, tab
from tests.pattern.sheets.pdf_reading import open_pdf, words_of
from tests.pattern.sheets.test_demo_drafts import DRAFTS

#: A skirt of half circles on the fold: an arc of the waist and one of the hem, as books of pattern-cutting draw it.
CIRCLE = """
draft "Circle skirt"
needs
    waist_girth
choices
    length = 70cm from 20cm to 110cm "Length"
fabrics
    main "Cloth" width 300cm
sheet skirt
    radius = waist_girth / 6.2832
    apex   = at 0, 0
    waist  = arc around apex radius radius from 270deg to 360deg
    hem    = arc around apex radius radius + length from 270deg to 360deg
    fold_e = line (apex down radius) to (apex down radius + length)
    side   = line (apex right radius) to (apex right radius + length)
piece skirt "Skirt" from skirt cut 2 on fold main
    outline   fold fold_e, hem, side, waist
    grain     (apex down radius + 5cm right 4cm) to (apex down radius + length - 5cm right 4cm)
    allowance 1.5cm
steps
    ## Sew
    Join the side seams.
"""


def made_of(path, body):
    made = make_pattern(path.read_text("utf-8"), path.name, body, {})
    return made.pattern if isinstance(made, Made) else None


def printed(pattern, tmp_path, paper=PAPERS["a4"]):
    """The plan, written and read back: every piece on its sheets, a page for each."""
    plan = plan_sheets(pattern, paper, tries=1)
    assert isinstance(plan, SheetPlan), plan
    path = tmp_path / "odd.pdf"
    write_tiled_pdf(plan, pattern, PrintInfo(pattern.title), path)
    with open_pdf(path) as document:
        assert len(document) == 1 + len(plan.sheets)
    assert path.stat().st_size < 1_000_000
    assert all(plan.sheets_of(piece.name) for piece in pattern.pieces)
    return plan


@pytest.mark.parametrize("draft", DRAFTS, ids=lambda path: path.stem)
def test_a_very_tall_body(draft, tmp_path):
    pattern = made_of(draft, size_body("92", stature=2050.0))
    if pattern is None:
        pytest.skip("the draft refuses this body")
    plan = printed(pattern, tmp_path)
    assert len(plan.sheets) <= plan.in_a_row


def test_a_childs_tiny_pieces(tmp_path):
    cuts = (Cut("shell", 2),)
    pieces = tuple(rectangle(f"p{n}", f"Baby piece {n}", 22.0 + n, 35.0 + 3 * n, cuts=cuts) for n in range(8))
    plan = printed(Pattern("Doll's coat", pieces, (), (), ()), tmp_path)
    assert len(plan.sheets) <= 2


def test_a_huge_circle_skirt_on_any_paper_and_roll(tmp_path):
    made = make_pattern(CIRCLE, "circle.draft", {"waist_girth": 740.0}, {"length": "100cm"})
    assert isinstance(made, Made), made.problems
    for name in ("a4", "letter", "a0"):
        plan = printed(made.pattern, tmp_path, PAPERS[name])
        area = Polygon(made.pattern.pieces[0].cutting.flatten(0.1)).area
        wide, high = plan.paper.printable
        assert area / (wide * high) <= len(plan.sheets) <= plan.in_a_row
    roll = plan_roll(made.pattern, 914.0)
    assert [p.code for p in roll] == ["sheets.too-wide"]
    assert "Choose a roll at least 1" in roll[0].fix
    assert isinstance(plan_roll(made.pattern), RollPlan)


def test_a_paper_smaller_than_the_check_squares():
    (problem,) = plan_sheets(Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ()), paper_of("100x60mm"))
    assert problem.code == "sheets.paper-too-small"
    assert "check squares" in problem.message


def test_a_margin_larger_than_the_paper():
    (problem,) = plan_sheets(Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ()), paper_of("a4", 150.0))
    assert problem.code == "sheets.no-room"
    assert "150 mm" in problem.message


def test_a_printer_that_prints_to_the_edge(tmp_path):
    plan = printed(Pattern("Bag", (rectangle("bag", "Bag", 300, 400),), (), (), ()), tmp_path, paper_of("a4", 0.0))
    assert plan.paper.printable == (210.0, 297.0)


def test_a_strip_longer_than_a_table(tmp_path):
    plan = printed(Pattern("Sash", (rectangle("sash", "Sash", 60, 2600),), (), (), ()), tmp_path)
    assert len(plan.sheets) <= 10


def test_forty_pieces_are_all_listed_on_the_first_page(tmp_path):
    pieces = tuple(rectangle(f"p{n}", f"Part number {n}", 60 + n, 80 + 2 * n) for n in range(40))
    pattern = Pattern("Patchwork", pieces, (), (), ())
    printed(pattern, tmp_path)
    with open_pdf(tmp_path / "odd.pdf") as document:
        words = words_of(document[0])
    assert all(piece.title in words for piece in pieces)


def test_a_title_longer_than_the_page_and_letters_without_a_glyph(tmp_path):
    piece = replace(bodice_front(), title="Front of the upper part with the grown-on facing and its extension " * 3)
    pattern = Pattern("A garment with a name that goes on and on " * 4, (piece, tab()), (), (), ())
    plan, path = plan_sheets(pattern, PAPERS["a4"], tries=0), tmp_path / "long.pdf"
    problems = write_tiled_pdf(plan, pattern, PrintInfo(pattern.title, customer="明子"), path)
    assert [p.code for p in problems] == ["sheets.letters-lacking"]
    assert path.stat().st_size < 1_000_000


def test_a_piece_folded_to_nothing_is_refused_by_its_title():
    flat = replace(tab(), cutting=straight((0, 0), (10, 0), (0, 0)))
    pattern = Pattern("Flat", (flat,), (), (), ())
    projected = plan_projector(pattern, PrintInfo("x"))
    for refused in (plan_sheets(pattern, PAPERS["a4"]), plan_roll(pattern), projected):
        assert [p.code for p in refused] == ["sheets.no-outline"]
        assert "Belt carrier" in refused[0].message


def test_a_roll_narrower_than_the_check_squares_and_one_of_no_width():
    bag = Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ())
    assert [p.code for p in plan_roll(bag, 100.0)] == ["sheets.roll-too-narrow"]
    assert isinstance(plan_roll(bag, 300.0), RollPlan)


@pytest.mark.parametrize(
    "paper", [*(PAPERS[name] for name in ("a3", "legal", "tabloid")), Paper("f", "F", 210, 330, 12)]
)
def test_every_paper_prints_the_hand_made_pattern_on_fewer_sheets_than_a_row(paper, pattern, tmp_path):
    plan = printed(pattern, tmp_path, paper)
    assert len(plan.sheets) <= 0.8 * plan.in_a_row


def test_a_roll_is_written_for_a_tiny_piece(tmp_path):
    pattern = Pattern("Tab", (tab(),), (), (), ())
    path = tmp_path / "tab.pdf"
    assert write_roll_pdf(plan_roll(pattern, 610.0), pattern, PrintInfo("Tab"), path) == ()
    with open_pdf(path) as document:
        assert "Belt carrier" in words_of(document[0])
