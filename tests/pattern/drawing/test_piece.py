"""What is drawn on a piece, seen through a pen that remembers."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as ShapelyPoint

from app.pattern.drawing import (
    DrawingLook,
    FillStyle,
    LineStyle,
    RecordPen,
    draw_lines,
    piece_marks,
    preview_svg,
    replay,
)
from app.pattern.drawing.arrows import readable
from app.pattern.drawing.details import notch_ticks
from app.pattern.drawing.outline import fold_line, inward, reach_of, without_folds
from app.pattern.drawing.record import Filled, Lined, Said, text_corners
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Cut, Mark, MarkKind, Notch
from app.pattern.units import Unit
from tests.pattern.drawing.hand_pieces import (
    bodice_front,
    edge,
    pattern,
    placket,
    rectangle,
    skirt_panel,
    straight,
    tab,
    waistband,
    yoke,
)
from tests.pattern.drawing.hand_pieces import piece as hand_piece

LOOK = DrawingLook(garment="Harbour dress", order_number="K7F2Q", customer="Marit", fabrics={"shell": "Shell"})


def drawn(piece, look=LOOK):
    pen = RecordPen()
    replay(piece_marks(piece, look), pen)
    return pen


def words_of(pen, words):
    return next(m for m in pen.marks if isinstance(m, Said) and m.words == words)


def area_of(path):
    return Polygon(path.flatten(0.02))


def test_a_plain_piece_has_one_closed_cutting_line_and_one_dashed_stitching_line():
    pen = drawn(skirt_panel())
    (cutting,) = pen.lines(LineStyle.CUTTING)
    assert cutting == skirt_panel().cutting
    assert pen.lines(LineStyle.STITCHING) == (skirt_panel().stitching,)


def test_true_arcs_reach_the_pen_as_arcs():
    (cutting,) = drawn(yoke()).lines(LineStyle.CUTTING)
    assert cutting.segments == yoke().cutting.segments


def test_the_fold_edge_is_not_a_line_to_cut():
    pen = drawn(bodice_front())
    for path in pen.lines(LineStyle.CUTTING):
        for segment in path.segments:
            assert not (abs(segment.start.x) < 1e-6 and abs(segment.end.x) < 1e-6)


def test_the_fold_line_runs_from_cutting_line_to_cutting_line():
    front = bodice_front()
    path = fold_line(front, front.fold_edge)
    ring = LineString(front.cutting.flatten(0.01))
    assert sorted([path.start.y, path.end.y]) == pytest.approx([-10.0, 360.0], abs=0.1)
    for end in (path.start, path.end):
        assert end.x == pytest.approx(0.0)
        assert ring.distance(ShapelyPoint(end)) < 1e-6


def test_cutting_and_fold_together_make_the_whole_outline():
    front = bodice_front()
    cut = sum(path.length for path in without_folds(front.cutting, (front.fold_edge,), reach_of(front)))
    assert cut + fold_line(front, front.fold_edge).length == pytest.approx(front.cutting.length, abs=0.01)


def test_an_open_edge_in_line_with_the_fold_is_still_cut():
    """A fold below and an opening above it on one line, the opening without allowance."""
    edges = (
        edge("hem", straight((0, 0), (120, 0))),
        edge("side", straight((120, 0), (120, 400))),
        edge("top", straight((120, 400), (0, 400))),
        edge("opening", straight((0, 400), (0, 250)), width=0.0),
        edge("fold", straight((0, 250), (0, 0)), fold=True),
    )
    cutting = straight((0, -10), (130, -10), (130, 410), (0, 410), (0, 250), (0, -10))
    half = hand_piece("half", "Half", edges, ((60, 50), (60, 300)), (Cut("shell", 1, on_fold=True),), cutting=cutting)
    (cut,) = drawn(half).lines(LineStyle.CUTTING)
    assert cut.end == Point(0.0, 250.0)
    assert cut.length == pytest.approx(130.0 + 420.0 + 130.0 + 160.0)
    folds = drawn(half).lines(LineStyle.FOLD)
    assert [(f.start, f.end) for f in folds] == [(Point(0.0, 250.0), Point(0.0, -10.0))]


def test_a_fold_says_so_and_its_arrows_point_at_it():
    pen = drawn(bodice_front())
    assert "place on fold" in pen.words()
    tips = [m.path.start for m in pen.marks if isinstance(m, Filled) and m.style is FillStyle.INK]
    assert sum(abs(tip.x) < 1e-9 for tip in tips) == 2


def test_a_long_fold_says_so_more_than_once():
    assert drawn(bodice_front(), DrawingLook(scale=0.4)).words().count("place on fold") > 1


def test_a_piece_without_a_fold_says_nothing_of_one():
    assert "place on fold" not in drawn(skirt_panel()).words()


def test_an_edge_knows_its_inside_whichever_way_it_was_drawn():
    edge = skirt_panel().edge("side")
    against = replace(edge, path=edge.path.reversed(), with_outline=False)
    there, back = inward(edge, 100.0), inward(against, edge.path.length - 100.0)
    assert there.distance(back) < 1e-9
    assert there.x < 0.0


def test_dart_legs_run_from_the_cutting_line_to_the_point():
    front = bodice_front()
    legs = drawn(front).lines(LineStyle.DART)
    assert len(legs) == 4
    ring = LineString(front.cutting.flatten(0.01))
    for leg, dart in zip(legs, [d for d in front.darts for _ in "ab"], strict=True):
        assert leg.end == dart.tip
        assert ring.distance(ShapelyPoint(leg.start)) < 0.02


def test_a_dart_folds_along_its_middle_and_ends_in_a_drill_dot():
    front = bodice_front()
    pen = drawn(front)
    folds = pen.lines(LineStyle.DART_FOLD)
    assert [f.end for f in folds] == [d.tip for d in front.darts]
    dots = [m.path.bounds for m in pen.marks if isinstance(m, Filled)]
    for dart in front.darts:
        assert any(
            abs((b.left + b.right) / 2 - dart.tip.x) < 1e-6 and abs((b.bottom + b.top) / 2 - dart.tip.y) < 1e-6
            for b in dots
        )


def test_a_dart_says_its_name_beside_its_leg_and_small_pictures_leave_it_out():
    front = bodice_front()
    pen = drawn(front)
    for dart in front.darts:
        said = words_of(pen, dart.label)
        leg = LineString([dart.b, dart.tip])
        corners = Polygon(text_corners(said.at, said.words, said.lettering))
        assert not leg.intersects(corners)
        assert leg.distance(corners) < 4.0
    assert "waist dart" not in preview_svg(pattern(), Unit.CM)


def test_a_notch_is_one_tick_from_the_cutting_line_to_the_stitching_line_at_most():
    panel = skirt_panel()
    (tick,) = notch_ticks(panel, panel.notches[0])
    ring = LineString(panel.cutting.flatten(0.01))
    at = panel.edge("side").path.point_at(400.0)
    assert ring.distance(ShapelyPoint(tick.start)) < 0.02
    assert tick.length == pytest.approx(8.0)
    assert tick.end.distance(at) == pytest.approx(2.0, abs=0.05)


def test_a_double_notch_is_two_ticks_six_millimetres_apart_about_its_place():
    panel = skirt_panel()
    one, two = notch_ticks(panel, panel.notches[1])
    assert one.start.distance(two.start) == pytest.approx(6.0, abs=0.01)
    middle = one.end.between(two.end, 0.5)
    assert middle.distance(panel.edge("centre").path.point_at(200.0)) == pytest.approx(2.0, abs=0.05)


def test_a_notch_never_passes_the_stitching_line_of_a_narrow_allowance():
    panel = rectangle("narrow", "Narrow", 200.0, 100.0)
    narrow = replace(panel, edges=tuple(replace(e, allowance=replace(e.allowance, width=4.0)) for e in panel.edges))
    narrow = replace(narrow, cutting=straight((-4, -4), (204, -4), (204, 104), (-4, 104), (-4, -4)))
    (tick,) = notch_ticks(narrow, Notch("hem", 50.0))
    assert (tick.start.y, tick.end.y) == pytest.approx((-4.0, 0.0), abs=0.01)


def test_an_edge_without_allowance_is_ticked_inwards():
    front = bodice_front()
    (tick,) = notch_ticks(front, Notch("centre", 100.0))
    assert tick.start.x == pytest.approx(0.0)
    assert tick.end.x == pytest.approx(5.0)


def test_the_grain_arrow_has_a_head_at_both_ends_and_no_words_over_it():
    panel = skirt_panel()
    pen = drawn(panel)
    assert Path.through(panel.grain.start, panel.grain.end) in pen.lines(LineStyle.GRAIN)
    arrow = LineString([panel.grain.start, panel.grain.end])
    for mark in pen.marks:
        if isinstance(mark, Said):
            assert not arrow.intersects(Polygon(text_corners(mark.at, mark.words, mark.lettering)))


@pytest.mark.parametrize("piece", [bodice_front(), skirt_panel(), yoke(), placket(), waistband()])
def test_the_title_block_lies_inside_the_stitching_line_and_clear_of_marks(piece):
    pen = drawn(piece)
    inside = area_of(piece.stitching)
    titles = {piece.title, "Harbour dress · K7F2Q", "for Marit"}
    said = [m for m in pen.marks if isinstance(m, Said) and (m.words in titles or m.words.startswith("cut "))]
    assert len(said) == 3 + len(piece.cuts)
    others = [LineString(m.path.flatten(0.2)) for m in pen.marks if isinstance(m, Lined)]
    for mark in said:
        box = Polygon(text_corners(mark.at, mark.words, mark.lettering))
        assert inside.contains(box)
        assert not any(line.intersects(box) for line in others)


def test_a_tiny_piece_is_labelled_beside_itself_with_a_leader_to_its_inside():
    pen = drawn(tab())
    (leader,) = pen.lines(LineStyle.LABEL_LEADER)
    outline = area_of(tab().cutting)
    title = words_of(pen, "Belt carrier")
    assert outline.disjoint(Polygon(text_corners(title.at, title.words, title.lettering)))
    assert outline.contains(ShapelyPoint(leader.end))
    assert not outline.contains(ShapelyPoint(leader.start))
    assert "cut 5 Shell" in pen.words()
    assert "for Marit" not in pen.words()


def test_a_piece_full_of_rows_keeps_a_readable_title_and_blanks_what_lies_under_it():
    rows = tuple(Mark(MarkKind.STITCH, straight((x, 0.0), (x, 300.0)), Point(x, 150.0)) for x in range(12, 200, 12))
    piece = rectangle("panel", "Shirred panel", 200.0, 300.0, marks=rows)
    pen = drawn(piece)
    blank = [m for m in pen.marks if isinstance(m, Filled) and m.style is FillStyle.PAPER]
    assert len(blank) == 1
    title = words_of(pen, "Shirred panel")
    assert title.lettering.size >= 6.0
    assert area_of(blank[0].path).buffer(0.5).contains(Polygon(text_corners(title.at, title.words, title.lettering)))


def test_a_cut_list_reads_as_words():
    cuts = (Cut("shell", 2, pair=True), Cut("lining", 1, on_fold=True), Cut("shell", 3))
    pen = drawn(rectangle("pocket", "Pocket", 200.0, 200.0, cuts=cuts))
    assert [w for w in pen.words() if w.startswith("cut ")] == [
        "cut 2 Shell, mirrored",
        "cut 1 lining on fold",
        "cut 3 Shell",
    ]


def test_a_note_is_part_of_the_title_block():
    piece = replace(rectangle("pocket", "Pocket", 200.0, 200.0), note="Cut on the bias.")
    assert "Cut on the bias." in drawn(piece).words()


def test_words_along_edges_are_drawn_only_when_asked_for():
    assert "hem" not in drawn(skirt_panel()).words()
    names = {("skirt", name): name for name in ("hem", "side", "waist", "centre")}
    assert {"hem", "side", "waist", "centre"} <= set(drawn(skirt_panel(), replace(LOOK, edge_words=names)).words())


@pytest.mark.parametrize(
    ("kind", "style", "count"),
    [
        (MarkKind.STITCH, LineStyle.SEWN, 1),
        (MarkKind.FOLD, LineStyle.FOLD, 1),
        (MarkKind.LENGTHEN, LineStyle.LENGTHEN, 2),
        (MarkKind.GATHER, LineStyle.GATHER, 1),
        (MarkKind.PLACE, LineStyle.MARK, 1),
        (MarkKind.BUTTONHOLE, LineStyle.MARK, 3),
    ],
)
def test_each_kind_of_line_mark_is_drawn_in_its_own_way(kind, style, count):
    path = straight((20, 50), (120, 50))
    pen = RecordPen()
    draw_lines(rectangle("p", "P", 200.0, 200.0, marks=(Mark(kind, path, Point(70, 50)),)), pen, LOOK)
    assert len(pen.lines(style)) == count


@pytest.mark.parametrize(
    ("kind", "lines"),
    [
        (MarkKind.BUTTON, 3),
        (MarkKind.DRILL, 1),
        (MarkKind.PLACE, 2),
        (MarkKind.LENGTHEN, 2),
        (MarkKind.BUTTONHOLE, 3),
    ],
)
def test_each_kind_of_point_mark_is_drawn_about_its_point(kind, lines):
    pen = RecordPen()
    draw_lines(rectangle("p", "P", 200.0, 200.0, marks=(Mark(kind, None, Point(70, 50)),)), pen, LOOK)
    paths = pen.lines(LineStyle.MARK)
    assert len(paths) == lines
    for path in paths:
        box = path.bounds
        assert ((box.left + box.right) / 2, (box.bottom + box.top) / 2) == pytest.approx((70.0, 50.0))


def test_lengthen_lines_are_three_millimetres_apart_and_explain_themselves():
    pen = drawn(bodice_front())
    one, two = pen.lines(LineStyle.LENGTHEN)
    assert abs(one.start.y - two.start.y) == pytest.approx(3.0)
    assert "lengthen or shorten here" in pen.words()


def test_a_mark_says_its_own_words():
    assert "topstitch" in drawn(skirt_panel()).words()
    mark = Mark(MarkKind.BUTTON, None, Point(70, 50), "button 1")
    assert "button 1" in drawn(rectangle("p", "P", 200.0, 200.0, marks=(mark,))).words()


def test_nobody_reads_upside_down():
    for step in range(-40, 41):
        angle = readable(step * pi / 20.0)
        assert -pi / 2.0 < angle <= pi / 2.0 + 1e-9
        turns = (step * pi / 20.0 - angle) / pi
        assert abs(turns - round(turns)) < 1e-6


def test_the_same_piece_is_always_drawn_the_same():
    for piece in pattern().pieces:
        assert piece_marks(piece, LOOK) == piece_marks(piece, LOOK)


@settings(max_examples=40, deadline=None)
@given(
    wide=st.floats(12.0, 400.0),
    high=st.floats(12.0, 400.0),
    words=st.text(st.sampled_from("abcdefgh MW"), min_size=1, max_size=30).filter(str.strip),
)
def test_a_title_lies_wholly_inside_its_piece_or_wholly_beside_it(wide, high, words):
    pen = drawn(rectangle("p", words, wide, high))
    inside, outline = (
        area_of(rectangle("p", words, wide, high).stitching),
        area_of(rectangle("p", "", wide, high).cutting),
    )
    title = words_of(pen, words)
    box = Polygon(text_corners(title.at, title.words, title.lettering))
    assert inside.contains(box) or outline.disjoint(box)
    assert bool(pen.lines(LineStyle.LABEL_LEADER)) == outline.disjoint(box)
