"""Where a title block goes, and the words in it."""

from math import pi

import pytest
from shapely.geometry import Polygon

from app.pattern.drawing import DrawingLook, Face, LineStyle, RecordPen
from app.pattern.drawing.block import Block, block_beside, block_inside, draw_block
from app.pattern.drawing.pen import FillStyle
from app.pattern.drawing.record import Filled, Lined, Said
from app.pattern.drawing.words import TitleLine, cut_words, short_block, title_block
from app.pattern.geometry import Point
from app.pattern.pieces.model import Cut
from tests.pattern.drawing.hand_pieces import bodice_front, straight, tab

LINES = (TitleLine("Front", 9.0, Face.STRONG), TitleLine("cut 2 Shell", 5.0, Face.REGULAR))
SHORT = (TitleLine("Front", 9.0, Face.STRONG),)


def box_path(wide, high):
    return straight((0, 0), (wide, 0), (wide, high), (0, high), (0, 0))


def corners(block):
    return Polygon(block.corners)


def test_with_room_to_spare_a_block_keeps_its_full_size_at_the_heart_of_the_piece():
    block = block_inside(box_path(200, 200), (), (LINES,))
    assert block.scale == 1.0
    assert block.angle == 0.0
    assert block.middle.distance(Point(100, 100)) < 4.0


def test_a_block_shrinks_before_lines_are_left_out():
    roomy = block_inside(box_path(60, 32), (), (LINES, SHORT))
    assert roomy.lines == LINES
    tight = block_inside(box_path(60, 22), (), (LINES, SHORT))
    assert tight.lines == LINES
    assert tight.scale < roomy.scale


def test_lines_are_left_out_before_the_block_leaves_the_piece():
    block = block_inside(box_path(60, 14), (), (LINES, SHORT))
    assert block.lines == SHORT


def test_in_a_narrow_upright_piece_the_block_is_turned():
    block = block_inside(box_path(22, 200), (), (LINES,))
    assert block.angle == pytest.approx(pi / 2.0)
    assert Polygon([(0, 0), (22, 0), (22, 200), (0, 200)]).contains(corners(block))


def test_a_block_that_fits_nowhere_is_none():
    assert block_inside(box_path(10, 10), (), (LINES,)) is None
    assert block_inside(box_path(3, 3), (), (LINES,)) is None


def test_a_block_keeps_clear_of_lines_shapes_and_words():
    line = straight((100, 0), (100, 200))
    drawn = [Lined(line, LineStyle.GRAIN), Filled(box_path(100, 120), FillStyle.INK)]
    block = block_inside(box_path(200, 200), drawn, (LINES,))
    ground = corners(block)
    assert ground.distance(Polygon([(0, 0), (100, 0), (100, 120), (0, 120)])) > 1.0
    assert ground.bounds[0] > 101.0 or ground.bounds[2] < 99.0


def test_the_body_of_a_small_picture_is_no_obstacle():
    drawn = [Filled(box_path(200, 200), FillStyle.PIECE), Lined(box_path(200, 200), LineStyle.STITCHING)]
    assert block_inside(box_path(200, 200), drawn, (LINES,)) is not None


def test_no_fine_line_slips_under_a_block_in_a_very_long_piece():
    lines = [Lined(straight((x, 0), (x, 60)), LineStyle.GRAIN) for x in range(20, 1500, 37)]
    block = block_inside(box_path(1500, 60), lines, (LINES,))
    left, _, right, _ = corners(block).bounds
    assert not any(left < x < right for x in range(20, 1500, 37))


def test_a_scaled_look_scales_the_block():
    block = block_inside(box_path(900, 900), (), (LINES,), 3.0)
    assert block.scale == pytest.approx(3.0)
    assert block.size[1] == pytest.approx(3.0 * block_inside(box_path(200, 200), (), (LINES,)).size[1])


def test_a_block_beside_stands_to_the_right_and_points_inside():
    block = block_beside(tab().cutting, LINES)
    box = tab().cutting.bounds
    assert min(c.x for c in block.corners) > box.right
    away, inside = block.leader
    assert away.x > box.right > inside.x > box.left
    assert away.y == inside.y == pytest.approx((box.bottom + box.top) / 2.0)


def test_lines_are_set_one_under_another_inside_the_blocks_box():
    block = Block(LINES, Point(50, 40), 0.0, 1.0)
    pen = RecordPen()
    draw_block(block, pen)
    first, second = pen.marks
    assert first.at.x == second.at.x == 50.0
    assert first.at.y > second.at.y
    for said in (first, second):
        assert isinstance(said, Said)
        assert corners(block).buffer(1.5).covers(Polygon([(c.x, c.y) for c in _ends(said)]))


def _ends(said):
    box = said.bounds
    return Point(box.left, box.bottom), Point(box.right, box.bottom), Point(box.right, box.top)


def test_a_blanking_block_lays_paper_under_its_words():
    pen = RecordPen()
    draw_block(Block(LINES, Point(0, 0), pi / 2.0, 1.0, blanks=True), pen)
    paper, *said = pen.marks
    assert isinstance(paper, Filled)
    assert paper.style is FillStyle.PAPER
    assert len(said) == 2


@pytest.mark.parametrize(
    ("cut", "words"),
    [
        (Cut("shell", 1), "cut 1 Shell"),
        (Cut("shell", 2, pair=True), "cut 2 Shell, mirrored"),
        (Cut("shell", 1, on_fold=True), "cut 1 Shell on fold"),
        (Cut("shell", 2, on_fold=True, pair=True), "cut 2 Shell on fold, mirrored"),
    ],
)
def test_a_cut_in_words(cut, words):
    assert cut_words(cut, "Shell") == words


def test_a_full_block_says_what_how_many_whence_and_for_whom():
    look = DrawingLook(
        garment="Harbour dress", order_number="K7F2Q", customer="Marit", fabrics={"shell": "Shell cloth"}
    )
    assert [line.words for line in title_block(bodice_front(), look)] == [
        "Bodice front",
        "cut 1 Shell cloth on fold",
        "cut 1 lining on fold",
        "Harbour dress · K7F2Q",
        "for Marit",
    ]


def test_what_is_not_known_is_not_said():
    assert [line.words for line in title_block(tab(), DrawingLook())] == ["Belt carrier", "cut 5 shell"]
    assert title_block(tab(), DrawingLook()) == short_block(tab(), DrawingLook())


def test_the_title_is_the_largest_line():
    sizes = [line.size for line in title_block(bodice_front(), DrawingLook(garment="Harbour dress"))]
    assert sizes == sorted(sizes, reverse=True)
