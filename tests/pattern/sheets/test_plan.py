"""The plan of the sheets: names, which sheets carry which pieces, and why there may be none."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from app.pattern.drawing import DrawingLook
from app.pattern.geometry import Transform
from app.pattern.pieces.model import Pattern
from app.pattern.sheets import PAPERS, Paper, SheetPlan, plan_sheets, sheet_name
from app.pattern.sheets.cover import sheet_list
from app.pattern.sheets.footprint import ground_of, moved, piece_problems, quarter
from tests.pattern.drawing.hand_pieces import rectangle, skirt_panel, straight, tab


@pytest.mark.parametrize(
    ("row", "column", "name"), [(0, 0, "A1"), (1, 2, "B3"), (25, 9, "Z10"), (26, 0, "AA1"), (27, 0, "AB1")]
)
def test_sheets_are_named_by_row_letter_and_column_number(row, column, name):
    assert sheet_name(row, column) == name


def test_sheets_are_exactly_those_that_carry_a_piece(plan, pattern):
    look = DrawingLook(fabrics={f.name: f.title for f in pattern.fabrics})
    areas = {p.piece: moved(ground_of(pattern.piece(p.piece), look).shape, p.transform) for p in plan.placed}
    kept = {(s.row, s.column): set(s.pieces) for s in plan.sheets}
    wide, high = plan.paper.printable
    for row in range(plan.rows + 1):
        for column in range(plan.columns + 1):
            sheet = box(column * wide, -(row + 1) * high, (column + 1) * wide, -row * high)
            inked = {name for name, area in areas.items() if area.intersects(sheet.buffer(-0.5))}
            assert inked <= kept.get((row, column), set())
            near = {name for name, area in areas.items() if area.distance(sheet) < 0.35}
            assert kept.get((row, column), set()) <= near


def test_the_wall_begins_at_its_first_row_and_column(plan):
    assert min(s.row for s in plan.sheets) == 0
    assert min(s.column for s in plan.sheets) == 0


def test_sheets_come_row_by_row_and_tile_the_wall_without_gap(plan):
    order = [(s.row, s.column) for s in plan.sheets]
    assert order == sorted(order)
    wide, high = plan.paper.printable
    for sheet in plan.sheets:
        assert sheet.box == pytest.approx(
            (sheet.column * wide, -(sheet.row + 1) * high, (sheet.column + 1) * wide, -sheet.row * high)
        )


def test_at_least_a_quarter_fewer_sheets_than_in_a_row(plan):
    assert len(plan.sheets) <= 0.75 * plan.in_a_row


def test_every_piece_is_placed_once_in_the_patterns_order(plan, pattern):
    assert [p.piece for p in plan.placed] == [p.name for p in pattern.pieces]
    assert all(plan.sheets_of(piece.name) for piece in pattern.pieces)


def test_a_place_without_a_sheet_is_none(plan):
    assert plan.sheet_at(0, 0) is not None or plan.sheet_at(0, 1) is not None
    assert plan.sheet_at(99, 99) is None


def test_planning_twice_gives_the_same_plan(plan, pattern):
    assert plan_sheets(pattern, plan.paper, tries=2) == plan


def test_one_small_piece_needs_one_sheet():
    one = Pattern("Pocket", (rectangle("pocket", "Pocket", 120.0, 140.0),), (), (), ())
    plan = plan_sheets(one, PAPERS["a4"])
    assert [s.name for s in plan.sheets] == ["A1"]


def test_words_beside_a_tiny_piece_belong_to_its_ground():
    ground = ground_of(tab(), DrawingLook())
    assert ground.shape.bounds[2] > ground.cutting.bounds[2] + 10.0
    assert ground_of(skirt_panel(), DrawingLook()).shape.equals(ground_of(skirt_panel(), DrawingLook()).cutting)


def test_runs_of_sheets_are_drawn_together(plan, pattern):
    words = [sheet_list(plan.sheets_of(p.name)) for p in pattern.pieces]
    assert all(words)
    row = tuple(s for s in plan.sheets if s.row == 0)
    if len(row) > 1:
        assert sheet_list(row) == f"{row[0].name}–{row[-1].name}"


def test_a_pattern_without_pieces_is_refused():
    (problem,) = plan_sheets(Pattern("Nothing", (), (), (), ()), PAPERS["a4"]).problems
    assert problem.code == "sheets.no-pieces"


def test_a_piece_with_an_empty_outline_is_refused_by_name():
    flat = replace(skirt_panel(), cutting=straight((0, 0), (100, 0), (0, 0)))
    (problem,) = plan_sheets(Pattern("Flat", (flat,), (), (), ()), PAPERS["a4"]).problems
    assert problem.code == "sheets.no-outline"
    assert "Skirt panel is empty" in problem.message.replace("The cutting line of ", "")


def test_a_cutting_line_that_crosses_itself_is_refused():
    bow = replace(skirt_panel(), cutting=straight((0, 0), (100, 100), (100, 0), (0, 60), (0, 0)))
    (problem,) = piece_problems(bow)
    assert "crosses itself" in problem.message
    assert problem.where.piece == "skirt"


def test_a_paper_without_room_is_refused(pattern):
    (problem,) = plan_sheets(pattern, Paper("slip", "Slip", 15.0, 300.0)).problems
    assert problem.code == "sheets.no-room"


def test_a_larger_paper_needs_fewer_sheets(pattern):
    assert len(plan_sheets(pattern, PAPERS["a0"], tries=0).sheets) == 1
    small, large = (len(plan_sheets(pattern, PAPERS[n], tries=0).sheets) for n in ("a4", "a3"))
    assert large < small


def test_shapes_move_as_points_do():
    shape = moved(Polygon([(0, 0), (2, 0), (0, 1)]), quarter(1).then(Transform.move(10.0, 5.0)))
    assert shape.bounds == pytest.approx((9.0, 5.0, 10.0, 7.0))


def test_a_piece_wider_than_a_table_is_still_planned_on_few_sheets():
    cloak = Pattern("Cloak", (rectangle("cloak", "Cloak", 1150.0, 1080.0),), (), (), ())
    plan = plan_sheets(cloak, PAPERS["a4"], tries=0)
    assert len(plan.sheets) <= 7 * 4
    assert isinstance(plan, SheetPlan)


@settings(max_examples=20, deadline=None)
@given(st.lists(st.tuples(st.floats(15.0, 500.0), st.floats(15.0, 500.0)), min_size=1, max_size=4))
def test_no_plan_takes_more_sheets_than_a_row(sides):
    pieces = tuple(rectangle(f"p{i}", f"Piece {i}", w, h) for i, (w, h) in enumerate(sides))
    some = Pattern("Some", pieces, (), (), ())
    plan = plan_sheets(some, PAPERS["a4"], tries=0)
    assert len(plan.sheets) <= plan.in_a_row
