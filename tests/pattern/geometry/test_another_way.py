"""Geometry worked out another way: shapely, scipy, numpy's complex numbers, and the definitions themselves."""

import itertools
from math import cos, degrees, hypot, pi, sin

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.optimize import minimize_scalar

from app.pattern.geometry import (
    Arc,
    Box,
    Cubic,
    GeometryError,
    Line,
    Path,
    Point,
    Transform,
    circle_circle,
    contains,
    crossings,
    distance_to,
    foot,
    is_simple,
    line_circle,
    line_line,
    nearest,
    offset,
    spans_at,
)

tried = settings(deadline=None, max_examples=40)

ordinates = st.integers(-4000, 4000).map(lambda n: n / 8)
points = st.builds(Point, ordinates, ordinates)
apart = st.tuples(points, points).filter(lambda pair: pair[0].distance(pair[1]) > 1.0)
radii = st.integers(8, 3000).map(lambda n: n / 8)
cubics = st.builds(Cubic, points, points, points, points).filter(lambda cubic: cubic.length > 1.0)
arcs = st.builds(Arc, points, radii, st.floats(-pi, pi), st.floats(-6.2, 6.2).filter(lambda a: abs(a) > 0.01))
lines = apart.map(lambda pair: Line(*pair))
polylines = st.lists(points, min_size=2, max_size=8).filter(
    lambda ps: all(a.distance(b) > 1.0 for a, b in itertools.pairwise(ps))
)
angles = st.floats(-pi, pi)


def whole(point):
    return complex(point.x, point.y)


def line_string(path, tolerance=0.001):
    return shapely.linestrings([tuple(point) for point in path.flatten(tolerance)])


# ---- points and straight lines


@tried
@given(apart, points)
def test_a_foot_is_the_projection_on_the_line(pair, point):
    a, b = pair
    on = foot(point, a, b)
    line = whole(b) - whole(a)
    along = ((whole(point) - whole(a)) * line.conjugate()).real / abs(line) ** 2
    assert whole(on) == pytest.approx(whole(a) + along * line, abs=1e-6)
    assert abs(((whole(point) - whole(on)) * line.conjugate()).real) < 1e-5 * abs(line)


@tried
@given(apart, points)
def test_a_mirror_image_lies_as_far_behind_the_line_and_turns_over_areas(pair, point):
    a, b = pair
    image = point.mirrored(a, b)
    unit = (whole(b) - whole(a)) / abs(whole(b) - whole(a))
    assert whole(image) == pytest.approx(
        whole(a) + unit * (unit.conjugate() * (whole(point) - whole(a))).conjugate(), abs=1e-6
    )
    assert point.distance(a) == pytest.approx(image.distance(a), abs=1e-6)


@tried
@given(apart, apart)
def test_lines_cross_where_shapely_lets_them(first, second):
    (a, b), (c, d) = first, second
    found = line_line(a, b, c, d)
    area = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x)
    assume(abs(area) > 1e-3 * a.distance(b) * c.distance(d))
    solved = np.linalg.solve(
        [[b.x - a.x, c.x - d.x], [b.y - a.y, c.y - d.y]],
        [c.x - a.x, c.y - a.y],
    )
    assert tuple(found) == pytest.approx((a.x + solved[0] * (b.x - a.x), a.y + solved[0] * (b.y - a.y)), abs=1e-5)
    segments = shapely.linestrings([[a, b], [c, d]])
    if segments[0].intersects(segments[1]):
        assert segments[0].intersection(segments[1]).distance(shapely.Point(found)) < 1e-6


@tried
@given(apart, points, radii)
def test_a_line_meets_a_circle_at_its_radius_in_the_order_of_travel(pair, centre, radius):
    a, b = pair
    away = abs(((whole(centre) - whole(a)) * (whole(b) - whole(a)).conjugate()).imag) / abs(whole(b) - whole(a))
    assume(abs(away - radius) > 1e-3)
    found = line_circle(a, b, centre, radius)
    assert len(found) == (2 if away < radius else 0)
    for point in found:
        assert point.distance(centre) == pytest.approx(radius, abs=1e-6)
        assert foot(point, a, b).distance(point) < 1e-6
    if found:
        way = whole(b) - whole(a)
        assert ((whole(found[1]) - whole(found[0])) * way.conjugate()).real > 0


@tried
@given(points, radii, points, radii)
def test_two_circles_meet_at_both_radii_first_on_the_left(centre, radius, other, other_radius):
    way = centre.distance(other)
    assume(way > 0.5)
    assume(abs(way - radius - other_radius) > 1e-3)
    assume(abs(way - abs(radius - other_radius)) > 1e-3)
    found = circle_circle(centre, radius, other, other_radius)
    assert len(found) == (2 if abs(radius - other_radius) < way < radius + other_radius else 0)
    for point in found:
        assert point.distance(centre) == pytest.approx(radius, abs=1e-6)
        assert point.distance(other) == pytest.approx(other_radius, abs=1e-6)
    if found:
        side = ((whole(found[0]) - whole(centre)) * (whole(other) - whole(centre)).conjugate()).imag
        assert side > 0


@tried
@given(points, angles, radii)
def test_polar_and_toward_walk_the_same_way(start, angle, distance):
    end = start.polar(distance, angle)
    assert whole(end) == pytest.approx(whole(start) + distance * complex(cos(angle), sin(angle)), abs=1e-9)
    half = start.toward(end, distance / 2)
    assert half.distance(start.between(end, 0.5)) < 1e-6
    assert start.toward(end, -distance).distance(end) == pytest.approx(2 * distance, abs=1e-6)


@tried
@given(points, points, angles)
def test_a_turn_is_a_product_of_complex_numbers(point, about, angle):
    turned = point.turned(angle, about)
    expected = whole(about) + (whole(point) - whole(about)) * complex(cos(angle), sin(angle))
    assert whole(turned) == pytest.approx(expected, abs=1e-8)
    assert whole(Transform.turn(angle, about).apply(point)) == pytest.approx(expected, abs=1e-8)


@tried
@given(st.lists(points, min_size=1, max_size=6), st.lists(points, min_size=1, max_size=6), points)
def test_boxes_agree_with_shapely(some, others, point):
    def box(of):
        xs, ys = [p.x for p in of], [p.y for p in of]
        return Box(min(xs), min(ys), max(xs), max(ys))

    one, other = box(some), box(others)
    both = shapely.MultiPoint([*some, *others]).bounds
    assert tuple(one.joined(other)) == both
    assert one.distance(point) == pytest.approx(shapely.box(*one).distance(shapely.Point(point)), abs=1e-9)
    assert one.meets(other) == shapely.box(*one).intersects(shapely.box(*other))


# ---- segments


@tried
@given(cubics)
def test_a_curves_length_is_the_integral_of_its_speed(cubic):
    ax, bx, cx, ay, by, cy = cubic.velocity
    speed = lambda t: hypot((ax * t + bx) * t + cx, (ay * t + by) * t + cy)  # noqa: E731
    found = sum(quad(speed, low / 16, (low + 1) / 16, epsabs=1e-8, limit=200)[0] for low in range(16))
    assert cubic.length == pytest.approx(found, abs=2e-3)


@tried
@given(cubics, st.floats(0.0, 1.0))
def test_a_curve_is_its_control_points_blended(cubic, t):
    control = np.array([cubic.start, cubic.c1, cubic.c2, cubic.end])
    blend = np.array([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3])
    assert tuple(cubic.point(t)) == pytest.approx(tuple(blend @ control), abs=1e-8)


@tried
@given(arcs, st.floats(0.0, 1.0))
def test_an_arc_is_its_circle_between_two_angles(arc, t):
    on = arc.point(t)
    assert on.distance(arc.centre) == pytest.approx(arc.radius, abs=1e-8)
    length = arc.length
    assert arc.length_to(t) == pytest.approx(length * t, abs=1e-8)
    fine = [arc.point(i / 2000) for i in range(2001)]
    assert sum(a.distance(b) for a, b in itertools.pairwise(fine)) == pytest.approx(length, rel=1e-5)


# ---- nearness


@tried
@given(polylines, points)
def test_the_way_to_lines_is_what_shapely_measures(corners, point):
    path = Path.through(*corners)
    string = shapely.linestrings(corners)
    assert distance_to(path, point) == pytest.approx(string.distance(shapely.Point(point)), abs=1e-7)
    along = nearest(path, point)
    assert path.point_at(along).distance(point) == pytest.approx(distance_to(path, point), abs=1e-6)


@tried
@given(cubics, points)
def test_no_place_of_a_curve_is_nearer_by_scipys_search(cubic, point):
    path = Path((cubic,))
    squares = lambda t: (cubic.point(t).x - point.x) ** 2 + (cubic.point(t).y - point.y) ** 2  # noqa: E731
    found = min(
        minimize_scalar(squares, bounds=(low / 24, (low + 1) / 24), method="bounded", options={"xatol": 1e-10}).fun
        for low in range(24)
    )
    assert distance_to(path, point) <= found**0.5 + 1e-6


@tried
@given(arcs, points)
def test_the_way_to_an_arc_is_what_shapely_measures_on_a_fine_line(arc, point):
    assume(point.distance(arc.centre) > 0.1)
    path = Path((arc,))
    assert distance_to(path, point) == pytest.approx(line_string(path).distance(shapely.Point(point)), abs=5e-3)


# ---- paths


@tried
@given(polylines, st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_part_of_a_path_is_the_substring_between_two_distances(corners, one, other):
    path, string = Path.through(*corners), shapely.linestrings(corners)
    low, high = sorted((one * path.length, other * path.length))
    assume(high - low > 0.01)
    part = path.part(low, high)
    assert part.length == pytest.approx(high - low, abs=1e-6)
    assert tuple(part.start) == pytest.approx(tuple(string.interpolate(low).coords[0]), abs=1e-6)
    assert tuple(part.end) == pytest.approx(tuple(string.interpolate(high).coords[0]), abs=1e-6)
    assert tuple(path.point_at(low)) == pytest.approx(tuple(part.start), abs=1e-6)


@tried
@given(st.lists(points, min_size=3, max_size=8))
def test_areas_of_polygons_are_gausss_and_turn_over_with_the_travel(corners):
    ring = [*corners, corners[0]]
    assume(all(a.distance(b) > 1.0 for a, b in itertools.pairwise(ring)))
    path = Path.through(*ring)
    gauss = sum(a.x * b.y - b.x * a.y for a, b in itertools.pairwise(ring)) / 2
    assert path.signed_area == pytest.approx(gauss, abs=1e-4)
    assert path.reversed().signed_area == pytest.approx(-gauss, abs=1e-4)


@tried
@given(st.lists(points, min_size=3, max_size=7), points)
def test_what_lies_inside_a_polygon_is_what_shapely_covers(corners, point):
    ring = [*corners, corners[0]]
    assume(all(a.distance(b) > 1.0 for a, b in itertools.pairwise(ring)))
    polygon = shapely.Polygon(ring)
    assume(polygon.is_valid and polygon.boundary.distance(shapely.Point(point)) > 1e-3)
    assert contains(Path.through(*ring), point) == polygon.covers(shapely.Point(point))


@tried
@given(polylines)
def test_lines_are_simple_where_shapely_says_so(corners):
    # One edge there and the same back encloses nothing, which the making of pieces tells by itself.
    assume(corners[0].distance(corners[-1]) > 1.0)
    assert is_simple(Path.through(*corners)) == shapely.linestrings(corners).is_simple


@tried
@given(polylines, polylines)
def test_two_lines_meet_wherever_shapely_finds_them_meeting(first, second):
    a, b = Path.through(*first), Path.through(*second)
    met = shapely.linestrings(first).intersection(shapely.linestrings(second))
    found = crossings(a, b)
    assert bool(found) == (not met.is_empty)
    for crossing in found:
        assert met.distance(shapely.Point(crossing.point)) < 1e-4
        assert a.point_at(crossing.along_a).distance(b.point_at(crossing.along_b)) < 1e-4
    for part in shapely.get_parts(met):
        if part.geom_type == "Point":
            assert any(crossing.point.distance(Point(part.x, part.y)) < 1e-4 for crossing in found)


@tried
@given(st.lists(points, min_size=3, max_size=7), ordinates)
def test_widths_of_a_polygon_are_what_shapely_cuts_at_that_height(corners, y):
    ring = [*corners, corners[0]]
    assume(all(a.distance(b) > 1.0 for a, b in itertools.pairwise(ring)))
    polygon = shapely.Polygon(ring)
    assume(polygon.is_valid)
    # At the very height of a corner or a level edge both answers are right.
    assume(all(abs(point.y - y) > 0.01 for point in corners))
    level = shapely.linestrings([(-1000.0, y), (1000.0, y)])
    cut = sorted(
        (part.bounds[0], part.bounds[2])
        for part in shapely.get_parts(polygon.intersection(level))
        if part.length > 1e-3
    )
    spans = [span for span in spans_at(Path.through(*ring), y) if span[1] - span[0] > 1e-3]
    assert len(spans) == len(cut)
    for span, other in zip(spans, cut, strict=True):
        assert span == pytest.approx(other, abs=1e-4)


@tried
@given(st.floats(20.0, 400.0), st.floats(20.0, 400.0), angles, st.floats(1.0, 9.0))
def test_a_rectangles_parallel_is_a_rectangle_in_any_position(wide, high, angle, distance):
    turn = Transform.turn(angle, Point(3.0, -7.0))
    corners = [Point(0, 0), Point(wide, 0), Point(wide, high), Point(0, high), Point(0, 0)]
    ring = Path.through(*corners).transformed(turn)
    inner, outer = offset(ring, distance), offset(ring, -distance)
    assert inner.signed_area == pytest.approx((wide - 2 * distance) * (high - 2 * distance), rel=1e-6)
    assert outer.signed_area == pytest.approx((wide + 2 * distance) * (high + 2 * distance), rel=1e-6)
    assert inner.length == pytest.approx(2 * (wide + high - 4 * distance), rel=1e-6)


# ---- movements


@tried
@given(st.lists(st.tuples(angles, points, points), min_size=1, max_size=4), points)
def test_movements_one_after_another_are_one_matrix(moves, point):
    chain, matrix = Transform(), np.eye(3)
    for angle, about, by in moves:
        chain = chain.then(Transform.turn(angle, about)).then(Transform.move(by.x, by.y))
        c, s = cos(angle), sin(angle)
        turn = np.array(
            [[c, -s, about.x - c * about.x + s * about.y], [s, c, about.y - s * about.x - c * about.y], [0, 0, 1]]
        )
        matrix = np.array([[1, 0, by.x], [0, 1, by.y], [0, 0, 1]]) @ turn @ matrix
    assert tuple(chain.apply(point)) == pytest.approx(tuple((matrix @ [point.x, point.y, 1.0])[:2]), abs=1e-6)
    assert chain.factor == pytest.approx(1.0)
    turned = degrees(chain.angle) - degrees(sum(angle for angle, _, _ in moves))
    assert abs((turned + 180.0) % 360.0 - 180.0) < 1e-6


def test_what_has_no_answer_says_so_in_plain_words():
    here = Point(1.0, 2.0)
    for ask in (
        lambda: foot(here, here, here),
        lambda: here.toward(here, 1.0),
        lambda: circle_circle(here, 2.0, here, 2.0),
        lambda: Path.through(here, here),
        lambda: Transform.scale(0.0),
    ):
        with pytest.raises(GeometryError, match=r"^[a-z].*[a-z]$"):
            ask()
