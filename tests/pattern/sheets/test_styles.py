"""Printing choices: outlines with and without allowance, notches in or out, tints, butt joints, paper sideways."""

from dataclasses import replace

import pytest
from shapely.geometry import LineString, Polygon

from app.pattern.drawing import FillStyle, Lines, LineStyle, NotchWay, piece_marks
from app.pattern.drawing.record import Filled, Lined, Said
from app.pattern.pieces.model import Cut
from app.pattern.sheets import PAPERS, Join, PrintInfo, PrintStyle, paper_of, plan_roll, plan_sheets, write_tiled_pdf
from app.pattern.sheets.artwork import OnePattern
from app.pattern.sheets.cover import page_list
from app.pattern.sheets.info import look_of
from tests.pattern.drawing.hand_pieces import bodice_front, skirt_panel
from tests.pattern.sheets.pdf_reading import PT, open_pdf, paths_of, words_of


def styles_of(marks):
    return {mark.style for mark in marks if isinstance(mark, Lined)}


def lines_of(marks, style):
    return [mark.path for mark in marks if isinstance(mark, Lined) and mark.style is style]


def marks_in(pattern, style, name="skirt"):
    return OnePattern(pattern, None, style).plies(name)[0].marks


def test_with_allowance_only_the_line_to_cut_is_drawn(pattern):
    marks = marks_in(pattern, PrintStyle(Lines.CUTTING))
    assert LineStyle.STITCHING not in styles_of(marks)
    assert lines_of(marks, LineStyle.CUTTING) == [skirt_panel().cutting]


def test_without_allowance_the_stitching_line_is_the_one_outline(pattern):
    marks = marks_in(pattern, PrintStyle(Lines.STITCHING))
    assert LineStyle.STITCHING not in styles_of(marks)
    assert lines_of(marks, LineStyle.CUTTING) == [skirt_panel().stitching]


def test_a_pattern_without_allowances_takes_less_paper(pattern):
    both, bare = (
        plan_roll(pattern, 914.0, tries=1, style=PrintStyle(lines)) for lines in (Lines.BOTH, Lines.STITCHING)
    )
    assert bare.height < both.height
    areas = [sum(g.shape.area for g in OnePattern(pattern, None, PrintStyle(lines)).grounds()) for lines in Lines]
    assert areas[0] == pytest.approx(areas[1])
    assert areas[2] < areas[0]


def test_notches_may_point_out_and_then_belong_to_the_ground(pattern):
    style = PrintStyle(notches=NotchWay.OUT)
    wedges = lines_of(marks_in(pattern, style), LineStyle.NOTCH)
    cutting = Polygon(skirt_panel().cutting.flatten(0.02))
    assert len(wedges) == 3
    for wedge in wedges:
        assert not cutting.contains(LineString(wedge.flatten(0.05)))
        tip = wedge.segments[0].end
        assert cutting.exterior.distance(LineString([tip, tip])) == pytest.approx(5.0, abs=0.05)
    (ground,) = [g for g in OnePattern(pattern, None, style).grounds() if g.piece == "skirt"]
    assert all(ground.shape.buffer(0.05).contains(LineString(w.flatten(0.05))) for w in wedges)


def test_pieces_of_lining_alone_are_tinted_and_named_in_the_key(pattern):
    lining = replace(skirt_panel(), cuts=(Cut("lining", 2),))
    some = replace(pattern, pieces=(bodice_front(), lining), seams=())
    art = OnePattern(some)
    tinted = [m for m in art.plies("skirt")[0].marks if isinstance(m, Filled) and m.style is FillStyle.SECOND]
    assert [m.path for m in tinted] == [lining.cutting]
    assert [sign.words for sign in art.signs] == ["cut from Lining"]
    front = art.plies("front")[0].marks
    assert not [m for m in front if isinstance(m, Filled) and m.style in (FillStyle.SECOND, FillStyle.THIRD)]


def test_each_sewn_edge_says_what_it_is_sewn_to_unless_it_is_switched_off(pattern):
    named = [m.words for m in marks_in(pattern, PrintStyle()) if isinstance(m, Said)]
    assert "to Bodice front" in named
    assert "to Waistband, hem" in named
    plain = [m.words for m in marks_in(pattern, PrintStyle(seam_names=False)) if isinstance(m, Said)]
    assert not [words for words in plain if words.startswith("to ")]


def test_names_along_seams_lie_over_no_line_and_no_other_words(pattern):
    for piece in pattern.pieces:
        marks = piece_marks(piece, look_of(pattern))
        said = [m for m in marks if isinstance(m, Said) and m.words.startswith("to ")]
        lines = [LineString(m.path.flatten(0.1)) for m in marks if isinstance(m, Lined)]
        for words in said:
            ground = Polygon([(x, y) for x, y in _corners(words)])
            assert not [line for line in lines if line.intersects(ground)]


def _corners(said):
    left, bottom, right, top = said.bounds
    if abs(said.lettering.angle) % 1.5707963 > 0.05:  # an upright box says too much of slanted words: their middle line
        left, right, bottom, top = left + right, left + right, bottom + top, bottom + top
        return [(left / 2, bottom / 2), (left / 2 + 0.1, bottom / 2), (left / 2, bottom / 2 + 0.1)]
    return [(left, bottom), (right, bottom), (right, top), (left, top)]


@pytest.fixture(scope="module")
def butted(pattern, tmp_path_factory):
    info = PrintInfo("Harbour dress")
    plan = plan_sheets(pattern, PAPERS["a4"], tries=2, join=Join.BUTT)
    path = tmp_path_factory.mktemp("butt") / "butt.pdf"
    assert write_tiled_pdf(plan, pattern, info, path) == ()
    return plan, path


def test_butted_sheets_say_at_both_edges_which_sheet_meets_there(butted):
    plan, path = butted
    with open_pdf(path) as document:
        said = [words_of(page) for page in document]
    assert "without overlap" in " ".join(said[0].split())
    for number, sheet in enumerate(plan.sheets, start=1):
        for down, across in ((0, 1), (1, 0), (0, -1), (-1, 0)):
            other = plan.sheet_at(sheet.row + down, sheet.column + across)
            if other is not None:
                assert f"cut or fold here; {other.name} meets this line" in said[number]
    assert not any("lies over" in words for words in said)


def test_sheets_may_lie_sideways_while_the_first_page_stands(pattern, tmp_path):
    paper = paper_of("a4-landscape", 8.0)
    plan = plan_sheets(pattern, paper, tries=1)
    path = tmp_path / "wide.pdf"
    write_tiled_pdf(plan, pattern, PrintInfo("Harbour dress"), path)
    with open_pdf(path) as document:
        sizes = [tuple(round(side / PT) for side in page.get_size()) for page in document]
        squares = [p.ink for p in paths_of(document[0])]
    assert sizes[0] == (210, 297)
    assert set(sizes[1:]) == {(297, 210)}
    assert any((x1 - x0, y1 - y0) == pytest.approx((50.0, 50.0), abs=0.01) for x0, y0, x1, y1 in squares)


def test_a_piece_can_be_printed_alone_by_its_pages(plan, tiled, pattern):
    with open_pdf(tiled) as document:
        first = words_of(document[0])
        pages = [words_of(page) for page in document]
    for piece in pattern.pieces:
        held = plan.sheets_of(piece.name)
        assert page_list(plan, held) in first
        for sheet in held:
            assert sheet.name in pages[1 + plan.sheets.index(sheet)]


def test_pages_are_written_as_a_print_window_takes_them(plan):
    one, *_ = plan.sheets
    assert page_list(plan, (one,)) == "page 2"
    assert page_list(plan, plan.sheets) == f"pages 2-{1 + len(plan.sheets)}"
    assert page_list(plan, (plan.sheets[0], plan.sheets[1], plan.sheets[4])) == "pages 2-3, 6"


def test_words_read_upright_on_the_wall_however_a_piece_is_turned(pattern):
    for turns in range(4):
        said = [m for m in OnePattern(pattern).plies("skirt", (), turns)[0].marks if isinstance(m, Said)]
        for words in said:
            on_wall = (words.lettering.angle + turns * 1.5707963268 + 3.1415926536) % 6.2831853072 - 3.1415926536
            assert -1.58 <= on_wall <= 1.58, words
