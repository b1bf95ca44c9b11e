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
    info_problems,
    paper_of,
    plan_projector,
    plan_roll,
    plan_sheets,
    write_projector_pdf,
    write_roll_pdf,
    write_tiled_pdf,
)
from tests.pattern.drawing.hand_pieces import bodice_front, rectangle, straight, tab
from tests.pattern.sheets.pdf_reading import PT, open_pdf, words_of
from tests.places import DRAFT_FILES

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


@pytest.mark.parametrize("draft", DRAFT_FILES, ids=lambda path: path.stem)
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
    assert [p.code for p in roll.problems] == ["sheets.too-wide"]
    assert "Choose a roll at least 1" in roll.problems[0].fix
    assert isinstance(plan_roll(made.pattern), RollPlan)


def test_a_paper_smaller_than_the_check_squares():
    (problem,) = plan_sheets(
        Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ()), paper_of("100x60mm")
    ).problems
    assert problem.code == "sheets.paper-too-small"
    assert "check squares" in problem.message


def test_a_margin_larger_than_the_paper():
    bag = Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ())
    (problem,) = plan_sheets(bag, paper_of("a4", 150.0)).problems
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
        assert [p.code for p in refused.problems] == ["sheets.no-outline"]
        assert "Belt carrier" in refused.problems[0].message


def test_a_roll_narrower_than_the_check_squares_and_one_of_no_width():
    bag = Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ())
    assert [p.code for p in plan_roll(bag, 100.0).problems] == ["sheets.roll-too-narrow"]
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


NAMES = {
    "right to left": ("שירה לוי", ""),
    "without an alphabet": ("美咲 (明子)", ""),
    "with pictures": ("Ana 🧵👗 Quill", "Ana Quill"),
    "accents apart": ("Zoe\u0308 A\u030angstro\u0308m", "Zoë Ångström"),
    "signs nobody sees": ("Ana\x00\x07\n\u200dQuill\t", "Ana Quill"),
    "half a sign": ("Ana \ud83d", "Ana"),
}


@pytest.mark.parametrize("name", NAMES, ids=str)
def test_a_name_is_printed_as_far_as_the_typeface_goes_and_never_as_boxes(name, pattern, tmp_path):
    typed, printed_name = NAMES[name]
    info, path = PrintInfo("Harbour dress", "K7F2Q", typed, "Studio Fieldwork"), tmp_path / "name.pdf"
    problems = write_tiled_pdf(plan_sheets(pattern, PAPERS["a4"], tries=0), pattern, info, path)
    roll, projector = plan_roll(pattern, tries=0), plan_projector(pattern, info)
    assert write_roll_pdf(roll, pattern, info, tmp_path / "roll.pdf") == problems
    assert write_projector_pdf(projector, pattern, info, tmp_path / "projector.pdf") == problems
    with open_pdf(path) as document:
        words = " ".join(words_of(document[0]).split())
    assert (f"made to measure for {printed_name}" in words) if printed_name else ("made to measure" not in words)
    lacking = [p for p in problems if p.code == "sheets.letters-lacking"]
    assert all("The pattern is printed without them." in p.message for p in lacking)
    assert len(lacking) == (name in ("right to left", "without an alphabet", "with pictures"))


def test_a_title_of_which_no_letter_can_be_set_is_told_to_print_as_boxes():
    info = PrintInfo("美咲")
    (problem,) = info_problems(info)
    assert info.title == "美咲"
    assert "empty boxes" in problem.message


@pytest.mark.parametrize("paper", [Paper("least", "Least", 190.0, 245.0), PAPERS["a4"], paper_of("letter", 22.0)])
def test_the_longest_title_name_and_studio_stay_inside_the_margins_and_off_one_another(paper, pattern, tmp_path):
    title = ("Harbour dress with a yoke and gathered sleeves " * 5)[:200]
    customer = ("Wilhelmina-Charlotte Featherstonehaugh " * 4)[:120]
    info, path = (
        PrintInfo(title, "TL-00042", customer, "Hollow Lane Studio for Made to Measure " * 3),
        tmp_path / "l.pdf",
    )
    write_tiled_pdf(plan_sheets(pattern, paper, tries=0), pattern, info, path)
    with open_pdf(path) as document:
        page = document[0]
        text = page.get_textpage()
        boxes = [tuple(n / PT for n in text.get_rect(number)) for number in range(text.count_rects())]
        words = " ".join(text.get_text_range().split())
        text.close()
    assert title.strip() in words
    assert customer.strip() in words
    for number, box in enumerate(boxes):
        assert box[0] >= paper.margin - 0.7
        assert box[2] <= paper.width - paper.margin + 0.5
        for other in boxes[number + 1 :]:
            wide, high = min(box[2], other[2]) - max(box[0], other[0]), min(box[3], other[3]) - max(box[1], other[1])
            assert wide < 0.3 or high < 0.5, (box, other)


@pytest.mark.parametrize("sides", ["190x245mm", "5080x5080mm", "200x5000mm"])
def test_papers_at_the_limits_are_printed_true_and_read_back(sides, tmp_path):
    plan = printed(Pattern("Bag", (rectangle("bag", "Bag", 300, 400),), (), (), ()), tmp_path, paper_of(sides))
    with open_pdf(tmp_path / "odd.pdf") as document:
        for page in document:
            wide, high = (side / PT for side in page.get_size())
            assert sorted((wide, high)) == pytest.approx(sorted((plan.paper.width, plan.paper.height)), abs=0.01)


@pytest.mark.parametrize("sides", ["189x245mm", "190x244mm", "5090x400mm"])
def test_papers_just_beyond_the_limits_are_refused_with_the_figures(sides):
    (problem,) = plan_sheets(Pattern("Bag", (rectangle("bag", "Bag", 90, 90),), (), (), ()), paper_of(sides)).problems
    assert problem.code in ("sheets.paper-too-small", "sheets.paper-too-large")
    assert "mm" in problem.message
    assert problem.fix
