"""Cutting lines: each edge at its width, corners as asked, smooth joints smooth, true curves kept; on any outline."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import atan2, cos, pi, radians, sin, sqrt

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.pattern.geometry import Arc, Cubic, Line, Path, Point, curve, self_crossings
from app.pattern.pieces import DartSpec
from app.pattern.pieces.model import Allowance, CornerCut

RECTANGLE = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))


def corners(outline):
    """The corner points of a cutting line of straight lines, rounded to the hundredth of a millimetre."""
    return {(round(s.start.x, 2) + 0.0, round(s.start.y, 2) + 0.0) for s in outline.segments}


def with_allowances(edges, **allowances):
    return [replace(e, allowance=allowances.get(e.name, e.allowance)) for e in edges]


# ---- plain corners
def test_plain_corners_run_on_until_they_cross(kit):
    cutting = kit.cutting(*kit.polygon_edges(*RECTANGLE))
    assert {(-10.0, -10.0), (210.0, -10.0), (210.0, 110.0), (-10.0, 110.0)} <= corners(cutting)
    assert cutting.signed_area == pytest.approx(220.0 * 120.0)


def test_unequal_allowances_cross_at_their_own_widths(kit):
    edges = with_allowances(kit.polygon_edges(*RECTANGLE), e0=Allowance(40.0), e2=Allowance(0.0))
    assert {(-10.0, -40.0), (210.0, -40.0), (210.0, 100.0), (-10.0, 100.0)} <= corners(kit.cutting(*edges))


def test_a_fold_edge_is_the_cutting_line_run_straight_on(kit):
    edges = kit.polygon_edges((0.0, 0.0), (200.0, 20.0), (200.0, 100.0), (0.0, 90.0))
    edges[3] = replace(edges[3], fold=True)
    cutting = kit.cutting(*edges)
    on_fold = [s for s in cutting.segments if abs(s.start.x) < 1e-6 and abs(s.end.x) < 1e-6]
    assert min(s.end.y for s in on_fold) == pytest.approx(-10.0 * sqrt(1.01))
    assert cutting.bounds.left == pytest.approx(0.0, abs=1e-6)


def test_a_very_sharp_corner_is_cut_off_at_four_allowances(kit):
    cutting = kit.cutting(*kit.polygon_edges((0.0, 0.0), (300.0, 0.0), (0.0, 60.0)))
    assert cutting.bounds.right == pytest.approx(300.0 + 40.0, abs=0.5)
    tip = Point(300.0, 0.0)
    assert max(s.start.distance(tip) for s in cutting.segments if s.start.x > 300.0) < 43.0


def test_a_hollow_corner_is_trimmed_where_the_lines_cross(kit):
    ell = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (100.0, 100.0), (100.0, 200.0), (0.0, 200.0))
    cutting = kit.cutting(*kit.polygon_edges(*ell))
    assert (110.0, 110.0) in corners(cutting)
    assert cutting.signed_area == pytest.approx(220.0 * 220.0 - 100.0 * 100.0)


def test_unequal_allowances_nearly_in_line_step_square_at_the_joint(kit):
    edges = kit.polygon_edges((0.0, 0.0), (100.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))
    cutting = kit.cutting(*with_allowances(edges, e1=Allowance(30.0)))
    assert {(100.0, -10.0), (100.0, -30.0)} <= corners(cutting)


@pytest.mark.parametrize("rise", [-8.0, -3.0, 3.0, 8.0])
def test_a_slight_bend_between_unequal_allowances_keeps_both_widths(kit, rise):
    edges = kit.polygon_edges((0.0, 0.0), (100.0, 0.0), (200.0, rise), (200.0, 100.0), (0.0, 100.0))
    cutting = kit.cutting(*with_allowances(edges, e1=Allowance(30.0)))
    ring = shapely.LinearRing(cutting.flatten(0.01))
    for share in (0.1, 0.5, 0.9):
        assert ring.distance(shapely.Point(100.0 * share * 0.95, 0.0)) == pytest.approx(10.0, abs=0.01)
        out = Point(100.0, 0.0).between(Point(200.0, rise), share)
        beside = out.polar(30.0, atan2(rise, 100.0) - pi / 2.0)
        assert ring.distance(shapely.Point(beside)) < 0.01
    assert ring.is_simple


def test_an_edge_swallowed_in_a_hollow_corner_leaves_a_clean_line(kit):
    notch = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (103.0, 100.0), (100.0, 103.0), (100.0, 200.0), (0.0, 200.0))
    cutting = kit.cutting(*kit.polygon_edges(*notch, width=20.0))
    assert self_crossings(cutting) == ()
    assert (120.0, 120.0) in corners(cutting)


@pytest.mark.parametrize("bend", [-6.0, -3.7, -1.0, -0.3, 0.3, 1.0, 3.7])
def test_two_curves_that_meet_almost_smoothly_make_a_clean_line(kit, bend):
    """Hollow or full by a few degrees: the cutting lines meet in one point, without a whisker."""
    first = curve(Point(300.0, 200.0), Point(0.0, 150.0), radians(178.0), radians(225.0))
    second = curve(Point(0.0, 150.0), Point(-260.0, -80.0), radians(225.0 + bend), radians(222.0))
    edges = [
        kit.edge("first", first),
        kit.edge("second", second),
        kit.edge("under", kit.path((-260.0, -80.0), (300.0, -80.0))),
        kit.edge("right", kit.path((300.0, -80.0), (300.0, 200.0))),
    ]
    cutting = kit.shape(kit.cutting(*edges), 0.001)
    assert cutting.is_valid
    near = shapely.Point(0.0, 150.0).buffer(20.0)
    outside = near.difference(kit.shape(kit.traced(*edges).stitching, 0.001).buffer(10.0, quad_segs=64))
    assert cutting.intersection(outside).area < 0.2


@pytest.mark.parametrize("lean", [0.0, -4.0, 4.0])
def test_a_seam_that_goes_on_in_line_with_a_fold_steps_out_square(kit, lean):
    """A centre edge on the fold below and open above: the opening's allowance starts square at the fold's end."""
    edges = kit.polygon_edges((0.0, 0.0), (120.0, 0.0), (120.0, 200.0), (lean, 200.0), (0.0, 120.0))
    edges[4] = replace(edges[4], fold=True)
    edges = with_allowances(edges, e3=Allowance(25.0))
    cutting = kit.cutting(*edges)
    ring = shapely.LinearRing(cutting.flatten(0.01))
    assert ring.is_simple
    for share in (0.1, 0.5, 0.9):
        on = Point(0.0, 120.0).between(Point(lean, 200.0), share)
        out = on.polar(25.0, Point(0.0, 120.0).angle_to(Point(lean, 200.0)) + pi / 2.0)
        assert ring.distance(shapely.Point(out)) < 0.01
    assert ring.distance(shapely.Point(0.0, 60.0)) < 0.01, "the fold is cut nowhere but on its line"


# ---- squared corners
def test_a_squared_end_is_square_to_its_own_stitching_line(kit):
    trapezium = ((0.0, 0.0), (200.0, 0.0), (160.0, 100.0), (40.0, 100.0))
    edges = with_allowances(kit.polygon_edges(*trapezium), e0=Allowance(15.0, CornerCut.SQUARED))
    beyond = 10.0 * sqrt(1.0 + 0.4**2)
    want = [(-beyond, 0.0), (-beyond, -15.0), (200.0 + beyond, -15.0), (200.0 + beyond, 0.0)]
    assert {(round(x, 2), y) for x, y in want} <= corners(kit.cutting(*edges))


def test_squared_on_both_sides_of_a_corner_is_plain(kit):
    trapezium = ((0.0, 0.0), (200.0, 0.0), (160.0, 100.0), (40.0, 100.0))
    plain = kit.polygon_edges(*trapezium)
    squared = [replace(e, allowance=Allowance(10.0, CornerCut.SQUARED)) for e in plain]
    assert kit.cutting(*squared) == kit.cutting(*plain)


def test_a_squared_allowance_holds_the_neighbours_width_too(kit):
    items = kit.bodice().items
    items = [replace(i, allowance=Allowance(10.0, CornerCut.SQUARED)) if i.name == "shoulder" else i for i in items]
    cutting = kit.shape(kit.cutting(*items))
    assert cutting.is_valid
    assert cutting.buffer(0.02).contains(kit.shape(kit.traced(*items).stitching))


@pytest.mark.parametrize("corner", list(CornerCut))
@pytest.mark.parametrize("rise", [-40.0, 0.0, 40.0, 80.0])
def test_at_a_fold_every_allowance_runs_on_to_the_fold_line(kit, corner, rise):
    """A neckline that meets the fold at any angle: the cut cloth must reach the fold and not cross it."""
    edges = kit.polygon_edges((0.0, 0.0), (120.0, 0.0), (120.0, 100.0 + rise), (0.0, 100.0))
    edges[3] = replace(edges[3], fold=True)
    edges = with_allowances(edges, e0=Allowance(30.0, corner), e2=Allowance(10.0, corner))
    cutting = kit.cutting(*edges)
    assert cutting.bounds.left == pytest.approx(0.0, abs=1e-6)
    on_fold = [y for s in cutting.segments for x, y in (s.start, s.end) if abs(x) < 1e-6]
    assert min(on_fold) == pytest.approx(-30.0)
    assert max(on_fold) == pytest.approx(100.0 + 10.0 * sqrt(1.0 + (rise / 120.0) ** 2))


# ---- turned-back hems
def turned_hem(kit, slope, side=10.0, hem=40.0):
    """A skirt-like piece whose sides spread by `slope` mm on 200 towards the hem."""
    outline = ((-slope, 0.0), (100.0 + slope, 0.0), (100.0, 200.0), (0.0, 200.0))
    edges = kit.polygon_edges(*outline, width=side)
    return kit.cutting(*with_allowances(edges, e0=Allowance(hem, CornerCut.TURNED_BACK)))


@pytest.mark.parametrize("slope", [-30.0, -5.0, 0.0, 12.0, 40.0])
def test_a_hem_turned_up_lies_within_the_piece_it_covers(kit, slope):
    cutting = kit.shape(turned_hem(kit, slope))
    below = shapely.intersection(cutting, shapely.box(-500.0, -500.0, 500.0, 0.0))
    turned_up = shapely.affinity.scale(below, 1.0, -1.0, origin=(0.0, 0.0))
    covered = shapely.intersection(cutting, shapely.box(-500.0, 0.0, 500.0, 40.0))
    assert turned_up.symmetric_difference(covered).area < 0.05


def test_a_hem_deeper_than_the_edge_beside_it_runs_on(kit):
    edges = kit.polygon_edges((0.0, 0.0), (100.0, 0.0), (105.0, 25.0), (-5.0, 25.0))
    cutting = kit.cutting(*with_allowances(edges, e0=Allowance(60.0, CornerCut.TURNED_BACK)))
    assert self_crossings(cutting) == ()
    assert cutting.bounds.bottom == pytest.approx(-60.0)


def test_a_curved_hem_turns_back_at_its_corner_tangent(kit):
    traced = kit.traced(*kit.skirt().items)
    cutting = kit.shape(kit.cutting(*kit.skirt().items))
    hem = next(e for e in traced.edges if e.name == "hem")
    corner, way = hem.path.start, hem.path.segments[0].tangent(0.0)
    near = shapely.Point(corner).buffer(35.0)
    angle = Point(0.0, 0.0).angle_to(way)
    folded = shapely.affinity.rotate(cutting, -angle, origin=corner, use_radians=True)
    folded = shapely.intersection(folded, near)
    outer = shapely.intersection(folded, shapely.box(corner.x - 60.0, corner.y, corner.x + 60.0, corner.y + 60.0))
    inner = shapely.intersection(folded, shapely.box(corner.x - 60.0, corner.y - 60.0, corner.x + 60.0, corner.y))
    assert shapely.affinity.scale(outer, 1.0, -1.0, origin=corner).symmetric_difference(inner).area < 1.0


def test_a_turned_hem_ends_straight_at_the_fold(kit):
    cutting = kit.cutting(*kit.skirt().items)
    assert cutting.bounds.left == pytest.approx(0.0, abs=1e-6)
    assert any(
        s.start == pytest.approx((0.0, -40.0), abs=0.01) or s.end == pytest.approx((0.0, -40.0), abs=0.01)
        for s in cutting.segments
    )


# ---- smooth joints, true curves, darts
def test_two_halves_of_one_line_leave_no_nick(kit):
    whole = curve(Point(0.0, 0.0), Point(200.0, 0.0), radians(-30.0), radians(30.0))
    halves = [whole.part(0.0, 80.0), whole.part(80.0, whole.length)]
    rest = [
        kit.edge("right", kit.path((200.0, 0.0), (200.0, 100.0))),
        kit.edge("top", kit.path((200.0, 100.0), (0.0, 100.0))),
        kit.edge("left", kit.path((0.0, 100.0), (0.0, 0.0))),
    ]
    cutting = kit.cutting(*(kit.edge(f"half{i}", half) for i, half in enumerate(halves)), *rest)
    bottom = [s for s in cutting.segments if isinstance(s, Cubic)]
    turns = [abs(_turn(a.tangent(1.0), b.tangent(0.0))) for a, b in pairwise(bottom)]
    assert max(turns) < radians(0.3)
    assert all(s.length > 1.0 for s in cutting.segments)


def _turn(a, b):
    return atan2(a.x * b.y - a.y * b.x, a.x * b.x + a.y * b.y)


def test_curves_stay_curves_and_arcs_stay_arcs(kit):
    round_end = Path((Arc(Point(100.0, 50.0), 50.0, -pi / 2.0, pi),))
    edges = [
        kit.edge("bottom", kit.path((0.0, 0.0), (100.0, 0.0))),
        kit.edge("round", round_end),
        kit.edge("top", kit.path((100.0, 100.0), (0.0, 100.0))),
        kit.edge("left", kit.path((0.0, 100.0), (0.0, 0.0))),
    ]
    cutting = kit.cutting(*edges)
    arcs = [s for s in cutting.segments if isinstance(s, Arc)]
    assert [a.radius for a in arcs] == [pytest.approx(60.0)]
    assert len(cutting.segments) < 12
    assert kit.cutting(*kit.bodice().items).segments.__len__() < 40


def test_a_circle_is_one_edge_all_round(kit):
    ring = kit.edge("ring", Path((Arc(Point(0.0, 0.0), 90.0, 0.0, 2.0 * pi),)))
    assert kit.cutting(ring).signed_area == pytest.approx(pi * 100.0**2)


def test_a_dart_cap_keeps_its_peak_in_the_cutting_line(kit):
    items = kit.skirt().items
    traced = kit.traced(*items)
    cutting = kit.cutting(*items)
    peak = traced.darts[0].cap.segments[0].end
    assert kit.shape(traced.stitching).exterior.distance(shapely.Point(peak)) < 0.01
    cut_peak = max((s.start for s in cutting.segments if 70.0 < s.start.x < 114.0), key=lambda p: p.y)
    assert cut_peak.x == pytest.approx(peak.x, abs=0.05), "the peak lies on the dart's fold"
    assert 10.0 < cut_peak.y - peak.y < 10.5, "run on to the crossing, ten millimetres square from each half"


def test_a_dart_between_unequal_allowances_changes_width_at_its_peak(kit):
    items = list(kit.skirt().items)
    items[2] = replace(items[2], allowance=Allowance(14.0))
    assert self_crossings(kit.cutting(*items)) == ()


def test_a_corner_inside_an_edge_is_cornered_in_the_cutting_line(kit):
    square_neck = kit.path((0.0, 60.0), (60.0, 60.0), (60.0, 100.0))
    edges = [
        kit.edge("neck", square_neck),
        kit.edge("shoulder", kit.path((60.0, 100.0), (150.0, 90.0))),
        kit.edge("side", kit.path((150.0, 90.0), (150.0, 0.0))),
        kit.edge("hem", kit.path((150.0, 0.0), (0.0, 0.0))),
        kit.edge("centre", kit.path((0.0, 0.0), (0.0, 60.0)), fold=True),
    ]
    cutting = kit.cutting(*edges)
    assert (50.0, 70.0) in corners(cutting)


@pytest.mark.parametrize("width", [6.0, 10.0, 15.0, 18.0, 25.0])
def test_a_bend_tighter_than_the_allowance_leaves_no_loop(kit, width):
    """A flat back neck that turns up sharply at the shoulder: its parallel line doubles back on itself there."""
    neck = curve(Point(0.0, -5.0), Point(70.0, 22.0), 0.0, radians(80.0))
    items = [kit.edge("neck", neck, width) if i.name == "neck" else i for i in kit.bodice().items]
    items[-1] = kit.edge("centre", kit.path((0.0, -400.0), (0.0, -5.0)))
    cutting = kit.cutting(*items)
    assert self_crossings(cutting) == ()
    assert kit.shape(cutting).buffer(0.05).covers(kit.shape(kit.traced(*items).stitching))


# ---- on any outline
@st.composite
def star_polygons(draw):
    """Polygons round a centre, hollow corners included, with sides long enough for the widest allowance."""
    count = draw(st.integers(3, 7))
    radii = draw(st.lists(st.floats(150.0, 400.0), min_size=count, max_size=count))
    shift = draw(st.lists(st.floats(-0.25, 0.25), min_size=count, max_size=count))
    angles = [(i + s) * 2.0 * pi / count for i, s in enumerate(shift)]
    points = [(r * cos(a), r * sin(a)) for r, a in zip(radii, angles, strict=True)]
    for i, p in enumerate(points):
        before, after = points[i - 1], points[(i + 1) % count]
        into, out = Point(p[0] - before[0], p[1] - before[1]), Point(after[0] - p[0], after[1] - p[1])
        assume(abs(_turn(into, out)) < radians(140.0))
    return points


@settings(max_examples=60, deadline=None)
@given(points=star_polygons(), width=st.floats(3.0, 20.0))
def test_straight_edges_agree_with_a_mitred_buffer(kit, points, width):
    cutting = kit.shape(kit.cutting(*kit.polygon_edges(*points, width=width)))
    wanted = shapely.Polygon(points).buffer(width, join_style="mitre", mitre_limit=10.0)
    assert cutting.is_valid
    assert cutting.symmetric_difference(wanted).area < 0.01


@settings(max_examples=60, deadline=None)
@given(points=star_polygons(), widths=st.lists(st.floats(0.0, 40.0), min_size=7, max_size=7))
def test_unequal_widths_hold_along_the_middle_of_every_edge(kit, points, widths):
    edges = [replace(e, allowance=Allowance(w)) for e, w in zip(kit.polygon_edges(*points), widths, strict=False)]
    cutting = kit.cutting(*edges)
    ring = shapely.LinearRing(cutting.flatten(0.01))
    assert ring.is_simple and ring.is_ccw
    assert shapely.Polygon(ring).buffer(0.01).covers(shapely.Polygon(points))
    for edge in edges:
        middle, way = edge.path.point_at(edge.path.length / 2.0), edge.path.tangent_at(edge.path.length / 2.0)
        w = edge.allowance.width
        if edge.path.length > 8.0 * max(widths):
            assert ring.distance(shapely.Point(middle.x + w * way.y, middle.y - w * way.x)) < 0.01


@settings(max_examples=40, deadline=None)
@given(
    width=st.floats(3.0, 20.0),
    tip=st.tuples(st.floats(170.0, 230.0), st.floats(-50.0, -10.0)),
    depth=st.floats(150.0, 260.0),
    hollow=st.floats(-25.0, 10.0),
    neck=st.floats(15.0, 110.0),
)
def test_a_bodice_of_any_shape_is_cut_at_its_width_all_round(kit, width, tip, depth, hollow, neck):
    slope = Point(70.0, 22.0).angle_to(Point(*tip))
    under = Point(tip[0] + 35.0, tip[1] - depth)
    lines = {
        "neck": curve(Point(0.0, -neck), Point(70.0, 22.0), 0.0, slope + pi / 2.0),
        "shoulder": kit.path((70.0, 22.0), tip),
        "armhole": curve(Point(*tip), under, slope - pi / 2.0 + radians(hollow), 0.0),
        "side": Path.through(under, Point(under.x - 10.0, -420.0)),
        "hem": Path.through(Point(under.x - 10.0, -420.0), Point(0.0, -420.0)),
        "centre": kit.path((0.0, -420.0), (0.0, -neck)),
    }
    items = [kit.edge(name, line, width) for name, line in lines.items()]
    stitching, cutting = kit.shape(kit.traced(*items).stitching, 0.0002), kit.shape(kit.cutting(*items))
    assert cutting.is_valid and cutting.exterior.is_ccw
    assert cutting.buffer(0.05).covers(stitching.buffer(width, quad_segs=64)), "nowhere narrower than the allowance"
    widest = stitching.buffer(width, join_style="mitre", mitre_limit=10.0)
    over = cutting.difference(widest.buffer(0.05, join_style="mitre")).area
    assert over < 1.0, "nowhere wider than lines run on to their crossing (bar the flattened tangents at corners)"


@settings(max_examples=30, deadline=None)
@given(turn=st.floats(0.0, 2.0 * pi), dx=st.floats(-500.0, 500.0))
def test_turning_and_moving_a_piece_turns_and_moves_its_cutting_line(kit, turn, dx):
    items = kit.skirt().items

    def moved(point):
        return point.turned(turn, Point(30.0, 40.0)).moved(dx, 7.0)

    def moved_path(line):
        return Path(tuple(_moved_segment(s, moved) for s in line.segments))

    there = [
        replace(i, tip=moved(i.tip)) if isinstance(i, DartSpec) else replace(i, path=moved_path(i.path)) for i in items
    ]
    one, two = kit.cutting(*items), kit.cutting(*there)
    assert two.signed_area == pytest.approx(one.signed_area, abs=0.5)
    assert kit.shape(moved_path(one), 0.02).symmetric_difference(kit.shape(two, 0.02)).area < 20.0


def _moved_segment(segment, moved):
    if isinstance(segment, Line):
        return Line(moved(segment.start), moved(segment.end))
    return Cubic(moved(segment.start), moved(segment.c1), moved(segment.c2), moved(segment.end))


@pytest.mark.parametrize("corner", [CornerCut.SQUARED, CornerCut.TURNED_BACK])
@pytest.mark.parametrize(("rise", "plain"), [(20.0, True), (50.0, True), (70.0, False), (150.0, False)])
def test_shallow_corners_are_plain_whatever_they_ask_for(kit, corner, rise, plain):
    """The turn between the lower edges is 11, 27, 35 and 56 degrees: from 30 degrees a shaped end is worth having."""
    points = ((0.0, 0.0), (100.0, 0.0), (200.0, rise), (200.0, 300.0), (0.0, 300.0))
    edges = kit.polygon_edges(*points)
    shaped = with_allowances(edges, e0=Allowance(10.0, corner))
    ends = [{c for c in corners(kit.cutting(*way)) if c[0] > 50.0} for way in (shaped, edges)]
    assert (ends[0] == ends[1]) is plain
