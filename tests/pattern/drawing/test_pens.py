"""The pens: what each makes of the same drawing."""

from math import pi

import pytest
from reportlab.pdfgen.canvas import Canvas

from app.pattern.drawing import (
    BLACK,
    GREY,
    Anchor,
    BoundsPen,
    DrawingLook,
    Face,
    FillStyle,
    Lettering,
    LineStyle,
    PdfPen,
    RecordPen,
    SvgPen,
    piece_marks,
    replay,
)
from app.pattern.drawing.curves import rectangle, ring
from app.pattern.drawing.fonts import letters_lacking, width_of
from app.pattern.drawing.record import text_corners
from app.pattern.geometry import Path, Point, Transform
from tests.pattern.drawing.hand_pieces import bodice_front, pattern, straight

LOOK = DrawingLook(garment="Harbour dress")


def test_every_style_has_a_stroke_a_shade_or_an_ink():
    for palette in (GREY, BLACK):
        assert set(palette.strokes) == set(LineStyle)
        assert set(palette.fills) == set(FillStyle)
        assert set(palette.words) == set(Face)


def test_the_cutting_line_leads_and_the_stitching_line_is_finer_and_dashed():
    cutting, stitching = GREY.strokes[LineStyle.CUTTING], GREY.strokes[LineStyle.STITCHING]
    assert cutting.width > 1.5 * stitching.width
    assert not cutting.dash
    assert stitching.dash


def test_black_makes_lines_darker_and_leaves_the_furniture_pale():
    assert BLACK.strokes[LineStyle.CUTTING].shade == 1.0
    assert BLACK.strokes[LineStyle.FURNITURE] == GREY.strokes[LineStyle.FURNITURE]


def test_thicker_lines_keep_the_proportion_of_their_dashes():
    stroke, thick = GREY.strokes[LineStyle.FOLD], GREY.thicker(2.0).strokes[LineStyle.FOLD]
    assert thick.width == pytest.approx(2.0 * stroke.width)
    assert thick.dash == pytest.approx([2.0 * d for d in stroke.dash])


def test_bounds_take_in_lines_shapes_and_words():
    pen = BoundsPen()
    pen.line(straight((0, 0), (10, 5)), LineStyle.CUTTING)
    pen.fill(ring(Point(20, 0), 2.0), FillStyle.INK)
    assert pen.box == pytest.approx((0.0, -2.0, 22.0, 5.0))
    pen.text(Point(22.0, 0.0), "wide", Lettering(10.0))
    assert pen.box.right == pytest.approx(22.0 + width_of("wide", 10.0))


def test_bounds_are_measured_after_the_transform():
    pen = BoundsPen(Transform.turn(pi / 2.0, Point(0.0, 0.0)))
    pen.line(straight((0, 0), (10, 0)), LineStyle.CUTTING)
    assert pen.box == pytest.approx((0.0, 0.0, 0.0, 10.0), abs=1e-9)


def test_bounds_of_nothing_are_none():
    assert BoundsPen().box is None


def test_words_are_as_wide_as_their_letters_wherever_they_are_anchored():
    for anchor, left in ((Anchor.START, 0.0), (Anchor.MIDDLE, -0.5), (Anchor.END, -1.0)):
        corners = text_corners(Point(0, 0), "Front", Lettering(8.0, 0.0, anchor))
        wide = width_of("Front", 8.0)
        assert corners[0].x == pytest.approx(left * wide)
        assert corners[1].x - corners[0].x == pytest.approx(wide)


def test_turned_words_have_turned_corners():
    upright = text_corners(Point(3, 4), "Front", Lettering(8.0, pi / 2.0))
    assert upright[1].y - upright[0].y == pytest.approx(width_of("Front", 8.0))


def test_replaying_gives_back_what_was_recorded():
    first, second = RecordPen(), RecordPen()
    replay(piece_marks(bodice_front(), LOOK), first)
    replay(first.marks, second)
    assert second.marks == first.marks


def test_svg_turns_y_down_keeps_curves_and_closes_shapes():
    pen = SvgPen()
    pen.line(rectangle(1.0, 2.0, 4.0, 6.0), LineStyle.CUTTING)
    pen.line(ring(Point(0, 0), 5.0), LineStyle.MARK)
    assert 'd="M1 -2L4 -2L4 -6L1 -6L1 -2Z"' in pen.elements[0]
    assert "C" in pen.elements[1]
    assert "A" not in pen.elements[1].split(' d="')[1].split('"')[0]


def test_svg_escapes_what_a_person_typed():
    pen = SvgPen()
    pen.text(Point(0, 0), "Tom & <b>", Lettering(4.0))
    assert "Tom &amp; &lt;b&gt;" in pen.elements[0]


def test_svg_words_turn_with_their_piece():
    pen = SvgPen(Transform.turn(pi / 2.0, Point(0.0, 0.0)))
    pen.text(Point(10, 0), "Front", Lettering(4.0))
    assert 'transform="rotate(-90 0 -10)"' in pen.elements[0]


def test_svg_paper_and_accent_have_colours_of_their_own():
    pen = SvgPen()
    pen.fill(ring(Point(0, 0), 1.0), FillStyle.PAPER)
    pen.fill(ring(Point(0, 0), 1.0), FillStyle.ACCENT)
    assert 'fill="#ffffff"' in pen.elements[0]
    assert "currentColor" not in pen.elements[1]


def test_a_moved_pen_adds_to_the_same_picture():
    pen = SvgPen()
    pen.moved(Transform.move(100.0, 0.0)).line(straight((0, 0), (1, 0)), LineStyle.MARK)
    assert 'd="M100 0L101 0"' in pen.elements[0]


def test_pdf_draws_without_touching_the_piece(tmp_path):
    path = tmp_path / "piece.pdf"
    canvas = Canvas(str(path), invariant=1)
    for piece in pattern().pieces:
        before = piece
        replay(piece_marks(piece, LOOK), PdfPen(canvas).moved(Transform.move(10.0, 10.0)))
        assert piece == before
    PdfPen(canvas).inked(BLACK).line(Path.through(Point(0, 0), Point(1, 1)), LineStyle.HIGHLIGHT)
    canvas.save()
    assert path.read_bytes().startswith(b"%PDF")


def test_letters_the_typeface_lacks_are_named_once():
    assert letters_lacking("Zoë Łucja Ωμέγα Мария") == ()
    assert letters_lacking("布 and 布") == ("布",)
