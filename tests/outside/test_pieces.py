"""Pieces and checks held against general libraries, plane geometry and figures of the trade."""

from __future__ import annotations

from math import atan2, cos, pi, sin, tan

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from svgpathtools import CubicBezier

from app.pattern.checks import run_checks
from app.pattern.geometry import Arc, Path, Point, curve
from app.pattern.pieces import DartSpec, PieceSpec, cut_piece
from app.pattern.pieces.matching import NotchWish, match_notches
from app.pattern.pieces.measure import edge_length, run_length, width_at
from app.pattern.pieces.mirror import mirror_in_fold
from app.pattern.pieces.model import Allowance, Cut, Edge, EdgeRun, Fabric, Grain, Pattern, Piece, Seam


def path(*points):
    return Path.through(*(Point(*p) for p in points))


def polygon_piece(points, width):
    count = len(points)
    sides = (path(points[i], points[(i + 1) % count]) for i in range(count))
    items = tuple(Edge(f"e{i}", side, Allowance(width)) for i, side in enumerate(sides))
    piece = cut_piece(PieceSpec("p", "P", items, Grain(Point(0, -20), Point(0, 20)), (Cut("main", 1),)))
    assert isinstance(piece, Piece), piece
    return piece


@st.composite
def convex_polygons(draw):
    """Corner points of a convex polygon inscribed in an ellipse, anticlockwise."""
    count = draw(st.integers(4, 9))
    shares = draw(st.lists(st.floats(0.55, 1.0), min_size=count, max_size=count))
    rx, ry = draw(st.floats(120.0, 400.0)), draw(st.floats(120.0, 400.0))
    angles = [2.0 * pi * sum(shares[: i + 1]) / sum(shares) for i in range(count)]
    return [(rx * cos(a), ry * sin(a)) for a in angles]


def turns(points):
    """The turn at each corner, radians."""
    count = len(points)
    heads = [
        atan2(points[(i + 1) % count][1] - points[i][1], points[(i + 1) % count][0] - points[i][0])
        for i in range(count)
    ]
    return [(heads[i] - heads[i - 1] + pi) % (2.0 * pi) - pi for i in range(count)]


# ---- allowances
@settings(max_examples=60, deadline=None)
@given(points=convex_polygons(), width=st.floats(2.0, 40.0))
def test_plain_allowances_have_the_area_of_a_mitred_buffer(points, width):
    """Shapely (GEOS) grows the same polygon with mitred corners."""
    if any(2.0 * pi / 3.0 < turn for turn in turns(points)):
        return
    wanted = shapely.Polygon(points).buffer(width, join_style="mitre", mitre_limit=10.0).area
    assert polygon_piece(points, width).cutting.signed_area == pytest.approx(wanted, rel=1e-9)


@settings(max_examples=40, deadline=None)
@given(points=convex_polygons(), width=st.floats(2.0, 40.0))
def test_plain_allowances_follow_the_theorem_of_parallel_polygons(points, width):
    """Steiner's formula for polygons with mitred corners: A' = A + w P + w² sum of tan(turn / 2) (plane geometry)."""
    if any(2.0 * pi / 3.0 < turn for turn in turns(points)):
        return
    shape = shapely.Polygon(points)
    wanted = shape.area + width * shape.length + width * width * sum(tan(t / 2.0) for t in turns(points))
    assert polygon_piece(points, width).cutting.signed_area == pytest.approx(wanted, rel=1e-9)


def bodice(width):
    slope = Point(70.0, 22.0).angle_to(Point(190.0, -20.0))
    lines = {
        "neck": curve(Point(0.0, -60.0), Point(70.0, 22.0), 0.0, slope + pi / 2.0),
        "shoulder": path((70.0, 22.0), (190.0, -20.0)),
        "armhole": curve(Point(190.0, -20.0), Point(230.0, -200.0), slope - pi / 2.0, 0.0),
        "side": path((230.0, -200.0), (225.0, -400.0)),
        "waist": path((225.0, -400.0), (0.0, -400.0)),
        "centre": path((0.0, -400.0), (0.0, -60.0)),
    }
    items = tuple(Edge(name, line, Allowance(width)) for name, line in lines.items())
    return cut_piece(PieceSpec("b", "B", items, Grain(Point(60, -350), Point(60, -150)), (Cut("main", 2, pair=True),)))


@pytest.mark.parametrize("width", [6.35, 10.0, 12.7, 15.0, 15.875, 25.4])
def test_curved_edges_lie_at_their_allowance_by_another_routine(width):
    """Usual allowances (common practice: 1/4, 1/2, 5/8 and 1 in; 1 and 1.5 cm), measured by Shapely (GEOS)."""
    piece = bodice(width)
    ring = shapely.LinearRing(piece.stitching.flatten(0.001))
    ends = shapely.MultiPoint([p for e in piece.edges for p in (e.path.start, e.path.end)])
    points = shapely.points(piece.cutting.flatten(0.05))
    clear = points[shapely.distance(points, ends) > 1.6 * width]
    assert len(clear) > 20
    assert shapely.distance(clear, ring) == pytest.approx(width, abs=0.03)


def test_the_half_beyond_the_fold_is_the_one_that_another_routine_mirrors():
    """Shapely mirrors the half in the line x = 0, on which the fold lies."""
    lines = {
        "hem": path((0.0, 0.0), (180.0, 0.0)),
        "side": path((180.0, 0.0), (150.0, 300.0)),
        "waist": curve(Point(150.0, 300.0), Point(0.0, 290.0), pi + 0.1, pi),
    }
    items = [Edge(name, line, Allowance(12.0)) for name, line in lines.items()]
    items.append(Edge("centre", path((0.0, 290.0), (0.0, 0.0)), Allowance(0.0), fold=True))
    piece = cut_piece(
        PieceSpec("s", "S", tuple(items), Grain(Point(9, 9), Point(9, 99)), (Cut("main", 1, on_fold=True),))
    )
    half = shapely.Polygon(piece.cutting.flatten(0.005))
    theirs = shapely.affinity.scale(half, -1.0, 1.0, origin=(0.0, 0.0))
    ours = shapely.Polygon(piece.cutting.transformed(mirror_in_fold(piece)).flatten(0.005))
    assert ours.symmetric_difference(theirs).area < 0.01


# ---- darts
@settings(max_examples=60, deadline=None)
@given(half=st.floats(4.0, 25.0), depth=st.floats(60.0, 200.0), slope=st.floats(-0.3, 0.3), side=st.sampled_from("ab"))
def test_a_paper_dart_folded_and_cut_straight_has_the_same_mouth(half, depth, slope, side):
    """What a cutter does: fold the dart, press it to one side, cut the paper along the seam, unfold.

    Folding is mirroring (Shapely's affinities): the flap is first laid on the leg it
    is pressed to, then its outer half is folded back under about the dart's middle.
    """
    a, tip, b = Point(-half, 0.0), Point(0.0, -depth), Point(half, 0.0)
    left, right = Point(-150.0, 150.0 * slope), Point(150.0, 150.0 * slope)
    items = (
        Edge("middle", path(left, a), Allowance(10.0)),
        DartSpec("d", tip, pressed_to=side),
        Edge("outer", path(b, right), Allowance(10.0)),
        Edge("right", path(right, (150.0, -300.0)), Allowance(10.0)),
        Edge("bottom", path((150.0, -300.0), (-150.0, -300.0)), Allowance(10.0)),
        Edge("left", path((-150.0, -300.0), left), Allowance(10.0)),
    )
    piece = cut_piece(PieceSpec("p", "P", items, Grain(Point(-90, -200), Point(-90, -50)), (Cut("main", 1),)))
    assert isinstance(piece, Piece), piece
    dart = piece.darts[0]
    foot, beyond = (a, left) if side == "a" else (b, right)
    peak = shapely.Point(dart.cap.segments[0].end)
    flap = _mirrored(peak, foot, tip)
    seam = shapely.LineString([foot, beyond])
    assert seam.distance(flap) < 1e-6, "folded under, the peak lies on the stitching line beside the leg"
    assert _mirrored(peak, tip, Point(0.0, 0.0)).distance(peak) < 1e-6, "the peak lies on the dart's middle"
    inner, outer = (shapely.LineString([s.start, s.end]) for s in dart.cap.segments)
    assert _mirrored(inner, tip, Point(0.0, 0.0)).hausdorff_distance(outer) < 1e-6


def _mirrored(shape, a, b):
    """Mirror image in the line through a and b, by three affine maps."""
    angle = atan2(b[1] - a[1], b[0] - a[0])
    flat = shapely.affinity.rotate(shape, -angle, origin=(a[0], a[1]), use_radians=True)
    turned = shapely.affinity.scale(flat, 1.0, -1.0, origin=(a[0], a[1]))
    return shapely.affinity.rotate(turned, angle, origin=(a[0], a[1]), use_radians=True)


# ---- lengths and widths
def test_curved_edges_are_as_long_as_another_library_says():
    """svgpathtools integrates the same cubic curves."""
    piece = bodice(10.0)
    for name in ("neck", "armhole"):
        cubics = piece.edge(name).path.segments
        other = sum(
            CubicBezier(*(complex(*p) for p in (c.start, c.c1, c.c2, c.end))).length(error=1e-9) for c in cubics
        )
        assert edge_length(piece, name) == pytest.approx(other, abs=0.001)


@pytest.mark.parametrize("y", [-390.0, -250.0, -150.0, -90.0, -30.0, 10.0])
def test_widths_agree_with_another_routine(y):
    """Shapely cuts the flattened outline with a level line."""
    piece = bodice(10.0)
    level = shapely.LineString([(-1000.0, y), (1000.0, y)])
    wanted = level.intersection(shapely.Polygon(piece.stitching.flatten(0.001))).length
    assert width_at(piece, y) == pytest.approx(wanted, abs=0.01)


#: Waist 68 cm: radii of full, half and quarter circle skirts, cm, as a dressmaking page prints them (flairbeat.com).
CIRCLE_SKIRTS = [(1.0, 10.8), (0.5, 21.6), (0.25, 43.3)]


@pytest.mark.parametrize(("part", "printed"), CIRCLE_SKIRTS)
@pytest.mark.parametrize("length", [450.0, 700.0])
def test_circle_skirts_come_to_the_printed_waist_and_hem(part, printed, length):
    """A quarter of the skirt on the fold: four of its waist edges are the waist, and hem = waist + 2 pi f L."""
    radius, sweep = printed * 10.0, part * pi / 2.0
    centre = Point(0.0, 0.0)
    waist, hem = (Path((Arc(centre, r, -pi / 2.0, sweep),)) for r in (radius, radius + length))
    items = (
        Edge("waist", waist, Allowance(10.0)),
        Edge("side", Path.through(waist.end, hem.end), Allowance(10.0)),
        Edge("hem", hem, Allowance(10.0)),
        Edge("centre", Path.through(hem.start, waist.start), Allowance(0.0), fold=True),
    )
    grain = Grain(hem.start.toward(waist.start, 50.0).moved(5.0, 0.0), waist.start.moved(5.0, -50.0))
    piece = cut_piece(PieceSpec("skirt", "Skirt", items, grain, (Cut("main", 2, on_fold=True),)))
    assert isinstance(piece, Piece), piece
    pieces = {"skirt": piece}
    assert run_length(pieces, [EdgeRun("skirt", "waist", times=4)]) == pytest.approx(680.0, abs=2.0 * pi * part * 0.5)
    girth = 4.0 * edge_length(piece, "waist") + 2.0 * pi * part * length
    assert run_length(pieces, [EdgeRun("skirt", "hem", times=4)]) == pytest.approx(girth, abs=0.01)
    cutting = [s.radius for s in piece.cutting.segments if isinstance(s, Arc)]
    assert sorted(cutting) == [pytest.approx(radius - 10.0), pytest.approx(radius + length + 10.0)]


# ---- gathers
def gathered(finished, flat):
    def strip(name, length):
        lines = {
            "top": path((0.0, 60.0), (length, 60.0)),
            "right": path((length, 0.0), (length, 60.0)),
            "bottom": path((0.0, 0.0), (length, 0.0)),
            "left": path((0.0, 0.0), (0.0, 60.0)),
        }
        items = tuple(
            Edge(n, line, Allowance(10.0), finish="" if n == "top" else "hemmed") for n, line in lines.items()
        )
        return cut_piece(PieceSpec(name, name, items, Grain(Point(20, 30), Point(80, 30)), (Cut("main", 1),)))

    pieces = (strip("frill", flat), strip("band", finished))
    ratio = flat / finished
    seam = Seam((EdgeRun("frill", "top"),), (EdgeRun("band", "top"),), kind="gather", ratio=(ratio, ratio))
    return Pattern("g", pieces, (seam,), (), (Fabric("main", "Cloth", 1400.0),))


@pytest.mark.parametrize("ratio", [1.5, 2.0, 2.5, 3.0])
def test_the_usual_gathers_pass(ratio):
    """Common practice: 2 gentle, 2.5 medium, 3 full; tiers 1.5 to 2 times the tier above.

    The tiers are from the Government of India's trade manual (NIMI, CITS Dress Making, Trade Theory, 2024, p. 235).
    """
    assert run_checks(gathered(200.0, 200.0 * ratio)) == ()


def test_twenty_gathered_two_and_a_half_times_needs_fifty():
    """The worked figure of many sewing books: 20 x 2.5 = 50; its middle stays the middle (common practice)."""
    pattern = gathered(200.0, 500.0)
    assert edge_length(pattern.piece("frill"), "top") == pytest.approx(500.0)
    assert run_checks(pattern) == ()
    placed = match_notches(pattern, pattern.seams[0], 0, [NotchWish(250.0)])
    assert [(p.piece, pytest.approx(p.notch.along)) for p in placed] == [("frill", 250.0), ("band", 100.0)]


def test_a_fuller_gather_than_any_book_gives_is_questioned():
    assert [p.code for p in run_checks(gathered(200.0, 900.0))] == ["checks.fullness"]
