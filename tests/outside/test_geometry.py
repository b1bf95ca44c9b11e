"""The plane geometry against general-purpose libraries and closed forms.

- svgpathtools (Bézier lengths, points, splits, boxes, meetings),
- scipy.integrate.quad (arc length), scipy.interpolate.CubicSpline (natural and closed splines),
- shapely / GEOS (areas, buffers, meetings of polylines),
- closed forms: circle, circular segment, parabola, Steiner's formula for parallel curves; each named where it is used.
"""

from __future__ import annotations

import itertools
from math import asinh, cos, hypot, pi, sin, sqrt, tan

import numpy as np
import pytest
import shapely
import svgpathtools
from scipy.integrate import quad
from scipy.interpolate import CubicSpline

from app.pattern.geometry import (
    Arc,
    Cubic,
    Line,
    Path,
    Point,
    Transform,
    arc_between,
    arc_centre,
    circle_circle,
    crossings,
    curve,
    line_circle,
    offset,
    smooth,
    spans_at,
)

CURVES = {
    "armhole": Cubic(Point(0, 0), Point(2, 95), Point(60, 150), Point(128, 152)),
    "s of a sleeve cap": Cubic(Point(0, 0), Point(80, 0), Point(70, 130), Point(170, 140)),
    "nearly straight side seam": Cubic(Point(0, 0), Point(3, 140), Point(-4, 260), Point(5, 410)),
    "handle without length": Cubic(Point(0, 0), Point(0, 0), Point(40, 90), Point(120, 30)),
    "loop": Cubic(Point(0, 0), Point(300, 200), Point(-200, 200), Point(100, 0)),
    "cusp": Cubic(Point(0, 0), Point(100, 100), Point(0, 100), Point(100, 0)),
}


def _theirs(cubic):
    return svgpathtools.CubicBezier(*(complex(*p) for p in (cubic.start, cubic.c1, cubic.c2, cubic.end)))


curves = pytest.mark.parametrize("cubic", CURVES.values(), ids=CURVES.keys())


@curves
def test_length_of_a_curve_agrees_with_scipy_quad(cubic):
    ax, bx, cx, ay, by, cy = cubic.velocity
    speed = lambda t: hypot((ax * t + bx) * t + cx, (ay * t + by) * t + cy)  # noqa: E731
    expected, error = quad(speed, 0.0, 1.0, epsabs=1e-9, limit=400, points=[0.5])
    assert error < 1e-4
    assert cubic.length == pytest.approx(expected, abs=1e-3)


@curves
def test_length_of_a_curve_agrees_with_svgpathtools(cubic):
    assert cubic.length == pytest.approx(_theirs(cubic).length(error=1e-8), abs=1e-3)


@curves
@pytest.mark.parametrize("t", [0.0, 0.125, 0.37, 0.5, 0.9, 1.0])
def test_points_of_a_curve_agree_with_svgpathtools(cubic, t):
    assert complex(*cubic.point(t)) == pytest.approx(_theirs(cubic).point(t), abs=1e-9)


@curves
@pytest.mark.parametrize("t", [0.1, 0.37, 0.8])
def test_both_halves_of_a_split_agree_with_svgpathtools(cubic, t):
    for mine, theirs in zip(cubic.split(t), _theirs(cubic).split(t), strict=True):
        assert [complex(*p) for p in (mine.start, mine.c1, mine.c2, mine.end)] == pytest.approx(list(theirs.bpoints()))


@curves
def test_boxes_of_curves_agree_with_svgpathtools(cubic):
    left, right, bottom, top = _theirs(cubic).bbox()
    assert tuple(cubic.bounds) == pytest.approx((left, bottom, right, top), abs=1e-6)


@curves
def test_curvature_agrees_with_svgpathtools(cubic):
    for t in (0.2, 0.35, 0.8):
        assert abs(cubic.curvature(t)) == pytest.approx(_theirs(cubic).curvature(t), rel=1e-6)


@curves
def test_distance_along_a_curve_agrees_with_svgpathtools(cubic):
    for ratio in (0.1, 0.42, 0.77):
        there = _theirs(cubic).ilength(ratio * cubic.length, s_tol=1e-7)
        assert complex(*Path((cubic,)).point_at(ratio * cubic.length)) == pytest.approx(
            _theirs(cubic).point(there), abs=2e-3
        )


def test_meetings_of_two_curves_agree_with_svgpathtools():
    a = Cubic(Point(0, 0), Point(50, 160), Point(90, -120), Point(150, 40))
    b = Cubic(Point(0, 40), Point(50, -60), Point(100, 110), Point(150, -10))
    theirs = sorted(ta for ta, _ in _theirs(a).intersect(_theirs(b), tol=1e-10))
    mine = [a.t_at(c.along_a) for c in crossings(Path((a,)), Path((b,)))]
    assert len(mine) == 3
    assert mine == pytest.approx(theirs, abs=1e-6)


def test_meetings_of_a_line_and_a_curve_agree_with_svgpathtools():
    a, line = CURVES["s of a sleeve cap"], Line(Point(0, -20), Point(160, 150))
    theirs = sorted(t for t, _ in _theirs(a).intersect(svgpathtools.Line(-20j, 160 + 150j)))
    mine = [a.t_at(c.along_a) for c in crossings(Path((a,)), Path((line,)))]
    assert mine == pytest.approx(theirs, abs=1e-7)
    assert mine


def test_length_of_a_parabola_in_closed_form():
    """y = x²/(2p) from the apex to x = h: (h/2) sqrt(1 + h²/p²) + (p/2) asinh(h/p) (any calculus text)."""
    p, h = 80.0, 150.0
    quarter = Cubic(Point(0, 0), Point(h / 3, 0), Point(2 * h / 3, h * h / (6 * p)), Point(h, h * h / (2 * p)))
    assert quarter.length == pytest.approx(h / 2 * sqrt(1 + (h / p) ** 2) + p / 2 * asinh(h / p), abs=1e-6)


def test_length_of_a_semicubical_parabola_with_its_cusp_in_closed_form():
    """y² = x³ from the cusp to x = a: ((4 + 9a)^(3/2) - 8) / 27 (Neile 1657, the first curve ever rectified)."""
    a = 40.0
    half = Cubic(Point(0, 0), Point(0, 0), Point(a / 3, 0), Point(a, a**1.5))
    assert half.length == pytest.approx(((4 + 9 * a) ** 1.5 - 8) / 27, abs=1e-3)


@pytest.mark.parametrize("degrees", [1, 30, 90, 179, 270, 359])
def test_circle_formulas(degrees):
    """Length r θ, chord 2 r sin(θ/2), segment area r² (θ - sin θ) / 2 (any handbook of mathematics)."""
    angle, radius = degrees * pi / 180, 130.0
    arc = Arc(Point(20, -30), radius, 0.4, angle)
    assert arc.length == pytest.approx(radius * angle)
    assert arc.start.distance(arc.end) == pytest.approx(2 * radius * sin(angle / 2), abs=1e-9)
    closed = Path((arc, Line(arc.end, arc.start)))
    assert closed.signed_area == pytest.approx(radius**2 * (angle - sin(angle)) / 2, abs=1e-6)


def test_an_arc_from_its_chord_and_radius_in_closed_form():
    """Height of a segment over a chord c: r - sqrt(r² - c²/4)."""
    arc = arc_between(Point(0, 0), Point(120, 0), Point(60, 80))
    assert -arc.bounds.bottom == pytest.approx(100 - sqrt(100**2 - 60**2))
    assert arc.length == pytest.approx(2 * 100 * np.arcsin(0.6))


def test_the_third_corner_of_a_triangle_by_two_compasses():
    """The 3-4-5 triangle."""
    assert circle_circle(Point(0, 0), 30, Point(50, 0), 40)[0] == pytest.approx((18, 24))
    assert circle_circle(Point(0, 0), 30, Point(50, 0), 40)[1] == pytest.approx((18, -24))


def test_power_of_a_point():
    """Euclid III.36: both distances from an outside point to a circle multiply to the square of the tangent."""
    out, centre, radius = Point(-150, 20), Point(30, 60), 80.0
    near, far = line_circle(out, Point(0, 30), centre, radius)
    assert out.distance(near) * out.distance(far) == pytest.approx(out.distance(centre) ** 2 - radius**2)


def test_a_quarter_turn_matches_the_circle_within_a_twentieth_of_a_percent():
    quarter = curve(Point(100, 0), Point(0, 100), pi / 2, pi)
    assert quarter.length == pytest.approx(50 * pi, rel=5e-4)
    assert all(abs(hypot(*quarter.segments[0].point(i / 50)) - 100) < 0.05 for i in range(51))


def test_a_quarter_turn_on_unequal_legs_matches_the_ellipse():
    """Perimeter quarter of an ellipse: a E(e) by numerical integration (scipy quad)."""
    quarter = curve(Point(90, 0), Point(0, 60), pi / 2, pi)
    expected, _ = quad(lambda t: hypot(90 * sin(t), 60 * cos(t)), 0, pi / 2)
    assert quarter.length == pytest.approx(expected, rel=1e-3)
    points = [quarter.segments[0].point(i / 40) for i in range(41)]
    assert all(abs((p.x / 90) ** 2 + (p.y / 60) ** 2 - 1) < 1e-3 for p in points)


def test_handles_of_shallow_turns_match_the_circle():
    """A circular arc of angle θ has handles of 4/3 tan(θ/4) radii (standard Bézier approximation of arcs)."""
    for degrees in (10, 40, 75, 90, 120):
        turn = degrees * pi / 180
        a, b = Point(100, 0), Point(100 * cos(turn), 100 * sin(turn))
        cubic = curve(a, b, pi / 2, pi / 2 + turn).segments[0]
        assert cubic.start.distance(cubic.c1) == pytest.approx(400 / 3 * tan(turn / 4), rel=0.01)


def test_a_natural_spline_agrees_with_scipy():
    knots = [Point(0, 0), Point(40, 35), Point(95, 20), Point(140, 70), Point(220, 60)]
    chords = np.concatenate([[0], np.cumsum([a.distance(b) for a, b in itertools.pairwise(knots)])])
    theirs = CubicSpline(chords, np.array(knots), bc_type="natural")
    _same_spline(smooth(knots), theirs, chords)


def test_a_clamped_spline_agrees_with_scipy():
    knots = [Point(0, 0), Point(40, 35), Point(95, 20), Point(140, 70)]
    chords = np.concatenate([[0], np.cumsum([a.distance(b) for a, b in itertools.pairwise(knots)])])
    ends = ((1, np.array([cos(0.2), sin(0.2)])), (1, np.array([cos(1.0), sin(1.0)])))
    _same_spline(smooth(knots, 0.2, 1.0), CubicSpline(chords, np.array(knots), bc_type=ends), chords)


def test_a_closed_spline_agrees_with_scipy():
    knots = [Point(0, 0), Point(80, -20), Point(130, 60), Point(60, 120), Point(-30, 70)]
    ring = [*knots, knots[0]]
    chords = np.concatenate([[0], np.cumsum([a.distance(b) for a, b in itertools.pairwise(ring)])])
    _same_spline(smooth(knots, closed=True), CubicSpline(chords, np.array(ring), bc_type="periodic"), chords)


def _same_spline(path, theirs, chords):
    for i, segment in enumerate(path.segments):
        for t in (0.0, 0.2, 0.5, 0.9, 1.0):
            at = chords[i] + t * (chords[i + 1] - chords[i])
            assert tuple(segment.point(t)) == pytest.approx(tuple(theirs(at)), abs=1e-9)


def _outline():
    knots = [Point(0, 0).polar(r, 2 * pi * i / 6) for i, r in enumerate((150, 110, 140, 120, 160, 130))]
    return smooth(knots, closed=True)


def test_areas_agree_with_shapely():
    path = _outline()
    polygon = shapely.Polygon(path.flatten(0.0005))
    assert path.signed_area == pytest.approx(polygon.area, rel=1e-5)
    assert path.reversed().signed_area == pytest.approx(-path.signed_area)


def test_areas_of_lines_and_arcs_agree_with_closed_forms():
    """A stadium: rectangle and circle together."""
    sides = Path.through(Point(0, 0), Point(100, 0))
    sides = sides.joined(arc_centre(Point(100, 30), 30, -pi / 2, pi / 2))
    sides = sides.joined(Path.through(Point(100, 60), Point(0, 60)))
    stadium = sides.joined(arc_centre(Point(0, 30), 30, pi / 2, 3 * pi / 2))
    assert stadium.closed
    assert stadium.signed_area == pytest.approx(100 * 60 + pi * 30**2)
    assert stadium.length == pytest.approx(200 + 2 * pi * 30)


@pytest.mark.parametrize("distance", [8.0, -10.0, -15.0])
def test_parallels_of_a_smooth_outline_follow_steiner(distance):
    """Steiner 1840: a parallel curve's length is L - 2 π d and its area A - L d + π d² (d > 0 inwards)."""
    path = _outline()
    parallel = offset(path, distance)
    assert parallel.length == pytest.approx(path.length - 2 * pi * distance, abs=0.05)
    assert parallel.signed_area == pytest.approx(path.signed_area - path.length * distance + pi * distance**2, rel=1e-5)


@pytest.mark.parametrize("distance", [10.0, 25.0, 45.0])
def test_inner_parallels_with_dropped_loops_agree_with_a_shapely_buffer(distance):
    path = _outline()
    buffered = shapely.Polygon(path.flatten(0.001)).buffer(-distance, quad_segs=64)
    parallel = offset(path, distance)
    assert parallel.signed_area == pytest.approx(buffered.area, rel=1e-3)
    assert parallel.length == pytest.approx(buffered.length, rel=1e-3)


def test_mitred_parallels_of_a_cornered_outline_agree_with_a_shapely_buffer():
    corners = [Point(0, 0), Point(200, 20), Point(180, 150), Point(100, 90), Point(20, 160), Point(0, 0)]
    for distance in (12.0, -12.0):
        theirs = shapely.Polygon(corners).buffer(-distance, join_style="mitre", mitre_limit=4)
        mine = offset(Path.through(*corners), distance)
        assert mine.signed_area == pytest.approx(theirs.area, rel=1e-9)
        assert mine.length == pytest.approx(theirs.length, rel=1e-9)


def test_widths_at_a_height_agree_with_shapely():
    path = _outline()
    polygon = shapely.Polygon(path.flatten(0.001))
    for y in (-90.0, -20.0, 0.0, 55.5, 100.0):
        cut = polygon.intersection(shapely.LineString([(-500, y), (500, y)]))
        assert sum(b - a for a, b in spans_at(path, y)) == pytest.approx(cut.length, abs=0.02)


def test_movements_agree_with_complex_numbers():
    """Turning multiplies by e^(iθ); mirroring in a line through the origin at angle φ conjugates, then turns by 2φ."""
    point = Point(31.0, -7.5)
    z, about = complex(*point), complex(5, 6)
    turned = (z - about) * np.exp(0.7j) + about
    assert complex(*Transform.turn(0.7, Point(5, 6)).apply(point)) == pytest.approx(turned)
    mirrored = z.conjugate() * np.exp(0.6j)
    mirror = Transform.mirror(Point(0, 0), Point(cos(0.3), sin(0.3)))
    assert complex(*mirror.apply(point)) == pytest.approx(mirrored)
    assert complex(*point.mirrored(Point(0, 0), Point(cos(0.3), sin(0.3)))) == pytest.approx(mirrored)


def test_an_arc_between_two_points_is_the_shorter_way():
    arc = arc_between(Point(50, 0), Point(0, 50), Point(0, 0))
    assert arc.length == pytest.approx(25 * pi)
    assert arc_between(Point(0, 50), Point(50, 0), Point(0, 0)).length == pytest.approx(25 * pi)
