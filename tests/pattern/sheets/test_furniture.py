"""What a page carries besides the pattern: joints, buttons, plates, maps, the key, the figure, running words."""

from math import pi

import pytest
from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import box

from app.pattern.drawing import GREY, Face, FillStyle, Lettering, LineStyle, RecordPen
from app.pattern.drawing.fonts import width_of
from app.pattern.drawing.record import Filled, Lined, Said, join_boxes
from app.pattern.geometry import Arc, Box, Path, Point, Transform
from app.pattern.sheets import PAPERS, PrintInfo, PrintStyle, plan_sheets
from app.pattern.sheets.artwork import OnePattern
from app.pattern.sheets.joining_figure import JOINING_HIGH, JOINING_WIDE, draw_joining
from app.pattern.sheets.joins import BUTTON, SheetJoint, draw_frame, draw_joint, joints_of
from app.pattern.sheets.key import KEY_ROW, draw_key, key_entries, key_rows
from app.pattern.sheets.maps import draw_assembly_map, draw_tiny_map, map_transform
from app.pattern.sheets.plate import Plate, quiet_place
from app.pattern.sheets.scale_figures import SQUARES_HIGH, both_units, draw_check_squares, squares_wide
from app.pattern.sheets.setting import Column, fitted, fitted_lines, wrapped
from app.pattern.units import Unit

FRAME = Box(10.0, 10.0, 200.0, 287.0)


def right_joint(**more):
    ends = {"start": Point(200.0, 10.0), "end": Point(200.0, 287.0), "outward": Point(1.0, 0.0)}
    return SheetJoint(**(ends | {"pair": "A1·A2", "neighbour": "A2", "trimmed": True} | more))


def left_joint():
    return right_joint(
        start=Point(10.0, 287.0), end=Point(10.0, 10.0), outward=Point(-1.0, 0.0), neighbour="A1", trimmed=False
    )


def drawn(joint):
    pen = RecordPen()
    draw_joint(joint, pen)
    return pen


def button_arcs(pen):
    segments = [m.path.segments[0] for m in pen.marks if isinstance(m, Lined) and len(m.path.segments) == 1]
    return [s for s in segments if isinstance(s, Arc) and abs(s.sweep) == pytest.approx(pi)]


def test_half_a_button_lies_inside_the_frame_about_the_middle_of_the_edge():
    arcs = button_arcs(drawn(right_joint()))
    assert {a.centre for a in arcs} == {Point(200.0, 148.5)}
    assert max(a.radius for a in arcs) == BUTTON
    for arc in arcs:
        assert arc.point(0.5).x == pytest.approx(200.0 - arc.radius)


def test_two_halves_make_a_round_button_with_four_holes():
    """The right half of one page and the left half of the next, laid edge to edge."""
    here, there = drawn(right_joint()), drawn(left_joint())
    shift = Transform.move(190.0, 0.0)
    for a, b in zip(button_arcs(here), button_arcs(there), strict=True):
        assert a.centre.distance(shift.apply(b.centre)) < 1e-9
        assert a.radius == b.radius
        assert a.point(0.5).distance(shift.apply(b.point(0.5))) == pytest.approx(2.0 * a.radius)
    assert sum(len(holes(pen)) for pen in (here, there)) == 4


def holes(pen):
    full = [m.path.segments[0] for m in pen.marks if isinstance(m, Lined) and len(m.path.segments) == 1]
    return [s for s in full if isinstance(s, Arc) and s.radius < 0.9]


def test_both_names_stand_inside_the_frame_beside_the_button():
    for joint in (right_joint(), left_joint()):
        said = next(m for m in drawn(joint).marks if isinstance(m, Said) and m.words == "A1·A2")
        assert box(*FRAME).contains(box(*said.bounds))
        assert said.lettering.face is Face.PALE


def test_the_margin_says_what_is_done_there():
    assert "trim, and lay over A2" in drawn(right_joint()).words()
    assert "A1 lies over this margin" in drawn(left_joint()).words()


def test_words_in_the_margin_stay_outside_the_frame_and_on_the_paper():
    for joint in (right_joint(), left_joint()):
        said = next(m for m in drawn(joint).marks if isinstance(m, Said) and "·" not in m.words)
        ground = box(*said.bounds)
        assert ground.disjoint(box(*FRAME))
        assert box(3.0, 3.0, 207.0, 294.0).contains(ground)


def test_scissors_are_drawn_only_where_a_sheet_is_trimmed():
    assert len(drawn(right_joint()).marks) > len(drawn(left_joint()).marks)


def test_a_frame_is_four_angles_at_the_corners():
    pen = RecordPen()
    draw_frame(FRAME, pen)
    corners = {path.segments[0].end for path in pen.lines(LineStyle.JOINT)}
    assert corners == {Point(x, y) for x in (10.0, 200.0) for y in (10.0, 287.0)}


def test_every_inner_edge_of_the_wall_is_a_joint_and_no_outer_one(plan):
    inner = sum(
        plan.sheet_at(s.row + down, s.column + across) is not None
        for s in plan.sheets
        for down, across in ((0, 1), (1, 0), (0, -1), (-1, 0))
    )
    assert sum(len(list(joints_of(plan, s, FRAME))) for s in plan.sheets) == inner


def test_a_plate_names_the_sheet_order_and_page(plan, info):
    plate = Plate.of(plan, plan.sheets[2], info)
    pen = RecordPen()
    plate.draw(pen, Point(20.0, 30.0))
    assert pen.words() == (
        plan.sheets[2].name,
        "Harbour dress",
        "order K7F2Q",
        f"page 4 of {len(plan.sheets) + 1}",
    )
    room = Box(20.0, 30.0, 20.0 + plate.size[0], 30.0 + plate.size[1])
    assert box(*room).buffer(1.0).contains(box(*join_boxes(m.bounds for m in pen.marks)))


def test_a_long_title_is_made_smaller_on_a_plate(plan):
    plate = Plate.of(plan, plan.sheets[0], PrintInfo("A garment with a very long and winding name indeed"))
    pen = RecordPen()
    plate.draw(pen, Point(0.0, 0.0))
    assert max(m.bounds.right for m in pen.marks) <= plate.size[0] + 0.5


def test_a_plate_finds_a_quiet_place():
    lines = [
        (Lined(Path.through(Point(0, y), Point(105.0, y)), LineStyle.CUTTING), Transform()) for y in range(0, 300, 9)
    ]
    place = quiet_place(FRAME, (50.0, 19.0), lines)
    assert place.x > 106.0


def test_a_plate_on_an_empty_sheet_lies_at_the_lower_left():
    assert quiet_place(FRAME, (50.0, 19.0), ()) == Point(19.0, 19.0)


def test_a_plate_covers_as_little_as_may_be_when_no_place_is_quiet():
    grid = [
        (Lined(Path.through(Point(0, y), Point(220.0, y)), LineStyle.CUTTING), Transform())
        for y in (*range(0, 150, 3), *range(150, 300, 40))
    ]
    assert quiet_place(FRAME, (50.0, 19.0), grid).y > 140.0


def test_words_count_as_something_to_keep_clear_of():
    words = (Said(Point(19.0, 24.0), "Front", Lettering(9.0)), Transform())
    assert quiet_place(FRAME, (50.0, 19.0), (words,)) != Point(19.0, 19.0)


def test_the_tiny_map_fills_just_this_sheet(plan):
    here = plan.sheets[1]
    pen = RecordPen()
    draw_tiny_map(plan, here, pen, Box(0.0, 0.0, 20.0, 20.0))
    (filled,) = [m for m in pen.marks if isinstance(m, Filled)]
    assert filled.style is FillStyle.HERE
    assert len(pen.lines(LineStyle.FURNITURE)) == len(plan.sheets)
    middle = map_transform(plan, Box(0.0, 0.0, 20.0, 20.0)).apply(
        Point((here.box.left + here.box.right) / 2.0, (here.box.bottom + here.box.top) / 2.0)
    )
    assert box(*filled.bounds).contains(ShapelyPoint(middle))


def test_the_assembly_map_shows_every_sheet_and_every_piece_inside_its_room(plan, pattern):
    pen, room = RecordPen(), Box(10.0, 10.0, 110.0, 120.0)
    taken = draw_assembly_map(plan, OnePattern(pattern), pen, room)
    assert set(pen.words()) == {s.name for s in plan.sheets}
    assert len(pen.lines(LineStyle.MINIATURE)) == len(pattern.pieces)
    for mark in pen.marks:
        if isinstance(mark, Lined):
            assert box(*room).buffer(0.01).contains(box(*mark.bounds))
    assert taken.left == pytest.approx(10.0)
    assert taken.top == pytest.approx(120.0)


def test_pieces_on_the_map_lie_on_the_sheets_that_carry_them(plan, pattern):
    place = map_transform(plan, Box(0.0, 0.0, 100.0, 100.0))
    for placed in plan.placed:
        outline = pattern.piece(placed.piece).cutting.transformed(placed.transform.then(place)).bounds
        sheets = join_boxes(_moved(s.box, place) for s in plan.sheets_of(placed.piece))
        assert box(*sheets).buffer(0.2).contains(box(*outline))


def _moved(sheet, place):
    low, high = place.apply(Point(sheet.left, sheet.bottom)), place.apply(Point(sheet.right, sheet.top))
    return Box(low.x, low.y, high.x, high.y)


#: From the middle of a square's line to the edge that is measured, mm.
HALF = GREY.strokes[LineStyle.RULER].width / 2.0


def test_the_check_squares_are_drawn_true_with_their_upper_edges_level():
    pen = RecordPen()
    draw_check_squares(pen, 10.0, 200.0, both_units(Unit.CM))
    squares = [p.bounds for p in pen.lines(LineStyle.RULER) if p.closed]
    assert [b.right - b.left + 2.0 * HALF for b in squares] == pytest.approx([50.0, 50.8])
    assert [b.top - b.bottom + 2.0 * HALF for b in squares] == pytest.approx([50.0, 50.8])
    assert [b.top + HALF for b in squares] == pytest.approx([200.0, 200.0])
    assert squares[1].right - squares[0].left + 2.0 * HALF == pytest.approx(squares_wide(both_units(Unit.CM)))
    assert pytest.approx(50.8) == SQUARES_HIGH
    assert {"5 cm", "2 in"} <= set(pen.words())


def test_the_readers_own_unit_comes_first():
    pen = RecordPen()
    draw_check_squares(pen, 0.0, 0.0, both_units(Unit.INCH))
    first, second = (p.bounds for p in pen.lines(LineStyle.RULER) if p.closed)
    assert (first.left - HALF, first.right + HALF) == pytest.approx((0.0, 50.8))
    assert second.right - second.left + 2.0 * HALF == pytest.approx(50.0)


def test_the_squares_edges_carry_a_tick_each_centimetre_and_quarter_inch():
    pen = RecordPen()
    draw_check_squares(pen, 0.0, 0.0, both_units(Unit.CM))
    ticks = [p for p in pen.lines(LineStyle.RULER) if not p.closed]
    assert len(ticks) == 2 * 4 + 2 * 7
    assert all(t.length + HALF == pytest.approx(2.2) for t in ticks)


def test_the_key_explains_each_line_in_as_many_rows_as_it_says():
    pen = RecordPen()
    entries = key_entries(PrintStyle())
    draw_key(pen, Box(0.0, -100.0, 190.0, 0.0), entries, 2)
    assert len(pen.words()) == 8
    assert key_rows(entries, 2) == 4
    assert key_rows(entries, 3) == 3
    box_ = join_boxes(m.bounds for m in pen.marks)
    assert box_.top <= 0.5
    assert box_.bottom >= -key_rows(entries, 2) * KEY_ROW - 0.5
    styles = {m.style for m in pen.marks if isinstance(m, Lined)}
    assert {LineStyle.CUTTING, LineStyle.STITCHING, LineStyle.FOLD, LineStyle.GRAIN, LineStyle.NOTCH} <= styles


def test_the_figure_of_a_joint_stays_in_its_room_and_names_sheets_of_the_wall(plan):
    pen = RecordPen()
    draw_joining(pen, plan, Point(100.0, 50.0))
    room = box(100.0, 50.0 - JOINING_HIGH, 100.0 + JOINING_WIDE, 50.0).buffer(0.5)
    assert room.contains(box(*join_boxes(m.bounds for m in pen.marks)))
    first, second = pen.words()[:2]
    assert {first, second} <= {s.name for s in plan.sheets}


def test_the_figure_names_a1_and_a2_when_there_is_no_joint(pattern):
    alone = plan_sheets(pattern, PAPERS["a0"], tries=4)
    if len(alone.sheets) == 1:
        pen = RecordPen()
        draw_joining(pen, alone, Point(0.0, 0.0))
        assert pen.words()[:2] == ("A1", "A2")


def test_words_are_broken_at_the_width_and_none_is_lost():
    words = "Cut along the right and lower line of a sheet, where the scissors are."
    lines = wrapped(words, 3.6, 50.0)
    assert " ".join(lines) == words
    assert len(lines) > 1
    assert all(width_of(line, 3.6) <= 50.0 for line in lines)


def test_a_word_wider_than_the_column_keeps_its_line():
    assert wrapped("extraordinarily short", 10.0, 20.0) == ("extraordinarily", "short")


def test_words_that_fit_keep_their_size_and_others_shrink_to_the_width():
    assert fitted("short", 4.0, 100.0) == 4.0
    size = fitted("a rather longer line of words", 9.0, 60.0)
    assert width_of("a rather longer line of words", size) == pytest.approx(60.0)


def test_a_title_of_two_hundred_letters_is_broken_over_lines_rather_than_set_too_small_to_read():
    words = ("Harbour dress with a yoke and gathers " * 6)[:200]
    size, lines = fitted_lines(words, 15.0, 179.0, Face.STRONG)
    assert size >= 4.5
    assert " ".join(lines) == words.strip()
    assert len(lines) * size <= 15.0
    assert all(width_of(line, size, Face.STRONG) <= 179.0 for line in lines)
    assert fitted_lines("Harbour dress", 15.0, 179.0) == (15.0, ("Harbour dress",))


def test_a_title_without_a_space_is_made_as_small_as_its_line_needs():
    size, lines = fitted_lines("W" * 120, 15.0, 179.0)
    assert len(lines) == 1
    assert width_of(lines[0], size) <= 179.0


def test_a_no_break_space_holds_a_figure_and_its_unit_on_one_line():
    for width in range(20, 80):
        assert not any(line.endswith("100") for line in wrapped("Print it at 100\u00a0% and never less", 3.6, width))


def test_a_column_sets_lines_downwards_and_items_with_a_hanging_sign():
    pen = RecordPen()
    column = Column(pen, 10.0, 100.0, 60.0)
    column.line("Print it true", 4.6, Face.STRONG)
    column.space(2.0)
    column.item("1", "Print this page first, at 100 %, and measure both of its squares.", 3.6)
    heights = [m.at.y for m in pen.marks]
    assert heights[0] > heights[1]
    sign = next(m for m in pen.marks if m.words == "1")
    others = [m for m in pen.marks[1:] if m.words != "1"]
    assert sign.at.x == 10.0
    assert {m.at.x for m in others} == {10.0 + 1.5 * 3.6}
    assert column.y < min(heights)
