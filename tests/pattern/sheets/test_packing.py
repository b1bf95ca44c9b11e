"""Pieces laid on few sheets: never on each other, never more sheets than in a row, always the same."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from app.pattern.sheets.footprint import Ground, moved, quarter
from app.pattern.sheets.packing import pack, row_of
from app.pattern.sheets.raster import CLEAR, Taste, Tile, Wall, quarter_turns

A4 = Tile(190.0, 277.0)


def ground(name, shape):
    return Ground(name, shape, shape)


def shapes_on_wall(grounds, laid):
    shapes = {g.piece: g.shape for g in grounds}
    return {one.piece: moved(shapes[one.piece], one.transform) for one in laid}


def sheets_touched(shapes, tile):
    """Counted anew, one sheet after another."""
    found = set()
    for row in range(40):
        for column in range(40):
            sheet = box(column * tile.width, -(row + 1) * tile.height, (column + 1) * tile.width, -row * tile.height)
            if any(shape.intersection(sheet).area > 1e-6 for shape in shapes):
                found.add((row, column))
    return found


sides = st.floats(20.0, 420.0)
triangles_and_boxes = st.lists(
    st.one_of(
        st.builds(lambda w, h: box(0, 0, w, h), sides, sides),
        st.builds(lambda w, h: Polygon([(0, 0), (w, 0), (w / 3, h)]), sides, sides),
    ),
    min_size=1,
    max_size=6,
)


@settings(max_examples=12, deadline=None)
@given(triangles_and_boxes)
def test_pieces_keep_clear_of_each_other_and_of_the_walls_edge(shapes):
    grounds = [ground(str(i), s) for i, s in enumerate(shapes)]
    placed = list(shapes_on_wall(grounds, pack(grounds, A4, widths=3, tries=1)).values())
    for index, shape in enumerate(placed):
        assert shape.bounds[0] >= CLEAR - 1e-6
        assert shape.bounds[3] <= -CLEAR + 1e-6
        for other in placed[index + 1 :]:
            assert shape.distance(other) >= 2.0 * CLEAR - 0.2


@settings(max_examples=8, deadline=None)
@given(triangles_and_boxes)
def test_pieces_are_turned_by_quarters_and_never_mirrored_or_scaled(shapes):
    grounds = [ground(str(i), s) for i, s in enumerate(shapes)]
    for one in pack(grounds, A4, widths=3, tries=0):
        spun = quarter(one.turns)
        assert (one.transform.re, one.transform.im) == (spun.re, spun.im)
        assert not one.transform.flips


def test_the_same_pieces_always_give_the_same_plan():
    grounds = [ground(n, box(0, 0, w, h)) for n, w, h in (("a", 150, 260), ("b", 300, 90), ("c", 80, 80))]
    assert pack(grounds, A4, tries=8) == pack(grounds, A4, tries=8)


def test_a_piece_that_fits_one_sheet_lies_on_one_sheet():
    grounds = [ground("wide", box(0, 0, 260.0, 180.0))]
    placed = shapes_on_wall(grounds, pack(grounds, A4, tries=0))
    assert len(sheets_touched(placed.values(), A4)) == 1


def test_small_pieces_fill_up_the_sheets_that_large_ones_began():
    grounds = [ground("large", box(0, 0, 100.0, 270.0))]
    grounds += [ground(f"small {n}", box(0, 0, 60.0, 60.0)) for n in range(4)]
    placed = shapes_on_wall(grounds, pack(grounds, A4, tries=0))
    assert len(sheets_touched(placed.values(), A4)) == 1


def test_pieces_interlock():
    triangle = Polygon([(0, 0), (180, 0), (0, 268)])
    grounds = [ground("one", triangle), ground("two", triangle)]
    placed = shapes_on_wall(grounds, pack(grounds, Tile(200.0, 277.0), tries=0))
    assert len(sheets_touched(placed.values(), Tile(200.0, 277.0))) == 1


def test_more_tries_are_never_worse():
    grounds = [ground(str(n), box(0, 0, 70.0 + 37.0 * (n % 5), 90.0 + 61.0 * (n % 4))) for n in range(9)]
    few, many = (len(sheets_touched(shapes_on_wall(grounds, pack(grounds, A4, tries=t)).values(), A4)) for t in (0, 20))
    assert many <= few


def test_a_piece_wider_than_every_wall_tried_is_reported():
    assert pack([ground("huge", box(0, 0, 900.0, 900.0))], A4, widths=2, tries=0) is None


def test_a_row_stands_the_pieces_side_by_side_as_drafted():
    grounds = [ground("a", box(10, 10, 60, 110)), ground("b", box(-5, 0, 35, 50))]
    placed = shapes_on_wall(grounds, row_of(grounds, gap=10.0))
    assert placed["a"].bounds == pytest.approx((CLEAR, -CLEAR - 100.0, CLEAR + 50.0, -CLEAR))
    assert placed["b"].bounds[0] == pytest.approx(CLEAR + 60.0)


def test_a_turn_that_looks_the_same_is_tried_once():
    assert len(quarter_turns(ground("square", box(0, 0, 100.0, 100.0)), Tile(200.0, 200.0))) == 1
    assert len(quarter_turns(ground("strip", box(0, 0, 100.0, 40.0)), Tile(200.0, 200.0))) == 2
    assert len(quarter_turns(ground("wedge", Polygon([(0, 0), (90, 0), (0, 140)])), A4)) == 4


def test_a_wall_counts_the_sheets_that_are_touched_and_how_unevenly():
    wall = Wall(3, 3, A4, Taste())
    turns = quarter_turns(ground("a", box(0, 0, 150.0, 400.0)), A4)
    wall.take(wall.best(turns))
    assert wall.sheets == 2
    assert 0.0 < wall.crowding() < 1.0


def test_a_turn_of_four_quarters_is_none():
    assert quarter(4) == quarter(0)
    assert [quarter(n).angle for n in range(2)] == pytest.approx([0.0, 1.5707963])
