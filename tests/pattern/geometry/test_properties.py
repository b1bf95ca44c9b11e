"""What must hold of any segment, path, crossing or parallel, tried on many shapes."""

from __future__ import annotations

import itertools
from math import cos, hypot, pi, sin

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from app.pattern.geometry import (
    Arc,
    Cubic,
    GeometryError,
    Line,
    Path,
    Point,
    Transform,
    arc_between,
    crossings,
    curve,
    distance_to,
    is_simple,
    nearest,
    offset,
    smooth,
    spans_at,
)

tried = settings(deadline=None, max_examples=30)

ordinates = st.floats(-500.0, 500.0).map(lambda x: round(x, 3))
points = st.builds(Point, ordinates, ordinates)
ratios = st.floats(0.0, 1.0)
lines = st.builds(Line, points, points)
sweeps = st.floats(-6.2, 6.2).filter(lambda a: abs(a) > 1e-3)
arcs = st.builds(Arc, points, st.floats(1.0, 400.0), st.floats(-pi, pi), sweeps)
cubics = st.builds(Cubic, points, points, points, points)
segments = st.one_of(lines, arcs, cubics).filter(lambda s: s.length > 0.01)


@st.composite
def gentle_curves(draw):
    """A curve as pattern edges are: up to half a metre long, turning less than a half circle one way or both."""
    a, angle = draw(points), draw(st.floats(-pi, pi))
    chord = draw(st.floats(40.0, 500.0))
    out, back = draw(st.floats(-1.2, 1.2)), draw(st.floats(-1.2, 1.2))
    return curve(a, a.polar(chord, angle), angle + out, angle + back, draw(st.floats(0.7, 1.3)))


@st.composite
def transforms(draw):
    """Any movement of the plane, with or without turning it over."""
    parts = [Transform.turn(draw(st.floats(-7.0, 7.0)), draw(points)), Transform.move(draw(ordinates), draw(ordinates))]
    if draw(st.booleans()):
        a = draw(points)
        parts.append(Transform.mirror(a, a.polar(100.0, draw(st.floats(-pi, pi)))))
    whole = Transform()
    for part in parts:
        whole = whole.then(part)
    return whole


@st.composite
def blobs(draw):
    """A closed outline round the origin without crossings: radii at rising angles, smoothed."""
    count = draw(st.integers(5, 9))
    radii = [draw(st.floats(90.0, 200.0)) for _ in range(count)]
    return smooth([Point(0, 0).polar(r, 2 * pi * i / count) for i, r in enumerate(radii)], closed=True)


@st.composite
def pieces(draw):
    """A closed outline with corners, of lines, curves and arcs as the pieces of a pattern have."""
    count = draw(st.integers(4, 7))
    turns = [(i + draw(st.floats(-0.2, 0.2))) * 2 * pi / count for i in range(count)]
    corners = [Point(0, 0).polar(draw(st.floats(120.0, 260.0)), turn) for turn in turns]
    return Path(tuple(_edge(draw, a, b) for a, b in itertools.pairwise([*corners, corners[0]])))


def _edge(draw, a, b):
    kind, along = draw(st.integers(0, 2)), a.angle_to(b)
    if kind == 0:
        return Line(a, b)
    if kind == 1:
        return curve(a, b, along + draw(st.floats(-0.9, 0.9)), along + draw(st.floats(-0.9, 0.9))).segments[0]
    off = draw(st.floats(0.5, 3.0)) * draw(st.sampled_from([-1.0, 1.0]))
    centre = Point((a.x + b.x) / 2.0 - off * (b.y - a.y), (a.y + b.y) / 2.0 + off * (b.x - a.x))
    return arc_between(a, b, centre).segments[0]


@tried
@given(segments)
def test_reversal_keeps_the_length_and_swaps_the_ends(segment):
    back = segment.reversed()
    assert back.length == pytest.approx(segment.length, abs=1e-3)
    assert back.start.distance(segment.end) < 1e-9
    assert back.end.distance(segment.start) < 1e-9
    assert back.point(0.3).distance(segment.point(0.7)) < 1e-9


@tried
@given(segments, ratios)
def test_split_lengths_add_up(segment, t):
    before, after = segment.split(t)
    assert before.length + after.length == pytest.approx(segment.length, abs=1e-3)
    assert before.end.distance(after.start) < 1e-9
    assert before.end.distance(segment.point(t)) < 1e-9


@tried
@given(segments, transforms())
def test_movements_keep_lengths(segment, transform):
    moved = segment.transformed(transform)
    fresh = type(moved)(*(getattr(moved, name) for name in _fields(moved)))
    assert fresh.length == pytest.approx(segment.length, abs=1e-3)


def _fields(segment):
    return {Line: ("start", "end"), Arc: ("centre", "radius", "start_angle", "sweep")}.get(
        type(segment), ("start", "c1", "c2", "end")
    )


@tried
@given(segments, transforms(), ratios)
def test_a_movement_moves_every_point_alike(segment, transform, t):
    assert segment.transformed(transform).point(t).distance(transform.apply(segment.point(t))) < 1e-8


@tried
@given(points, transforms(), transforms())
def test_one_movement_after_another(point, first, second):
    assert first.then(second).apply(point).distance(second.apply(first.apply(point))) < 1e-8


@tried
@given(segments)
def test_the_box_holds_the_segment_and_no_more(segment):
    box = segment.bounds
    walk = [segment.point(i / 200) for i in range(201)]
    assert all(box.distance(p) < 1e-9 for p in walk)
    reach = segment.length / 100
    assert min(p.x for p in walk) - box.left < reach
    assert box.top - max(p.y for p in walk) < reach


@tried
@given(segments, st.floats(0.01, 2.0))
def test_chords_stay_within_the_tolerance(segment, tolerance):
    flat = segment.flatten(tolerance)
    assert flat[0].distance(segment.start) < 1e-9
    assert flat[-1].distance(segment.end) < 1e-9
    polygon = Path.through(*flat)
    assert all(distance_to(polygon, segment.point(i / 97)) <= tolerance + 1e-9 for i in range(98))


@tried
@given(segments, ratios)
def test_parameter_and_distance_agree(segment, ratio):
    distance = ratio * segment.length
    assert segment.length_to(segment.t_at(distance)) == pytest.approx(distance, abs=1e-3)


@tried
@given(segments, st.floats(0.02, 0.98))
def test_the_tangent_is_the_direction_of_travel(segment, t):
    way = segment.tangent(t)
    assert hypot(*way) == pytest.approx(1.0)
    step = 1e-6
    before, after = segment.point(t - step), segment.point(t + step)
    assume(before.distance(after) > 1e-5)
    chord = Line(before, after).tangent(0.5)
    assert way.x * chord.x + way.y * chord.y > 0.99


@tried
@given(segments, points)
def test_no_point_is_nearer_than_the_nearest(segment, point):
    path = Path((segment,))
    found = path.point_at(nearest(path, point)).distance(point)
    assert found <= min(segment.point(i / 300).distance(point) for i in range(301)) + 1e-6
    assert distance_to(path, point) == pytest.approx(found, abs=1e-5)


@tried
@given(st.lists(points, min_size=2, max_size=6), ratios, ratios)
def test_parts_of_a_path_add_up(knots, a, b):
    assume(all(p.distance(q) > 0.1 for p, q in itertools.pairwise(knots)))
    path = smooth(knots)
    low, high = sorted((a * path.length, b * path.length))
    assume(low > 0.01 and high - low > 0.01 and path.length - high > 0.01)
    parts = [path.part(0.0, low), path.part(low, high), path.part(high, path.length)]
    assert [p.length for p in parts] == pytest.approx([low, high - low, path.length - high], abs=1e-3)
    whole = parts[0].joined(parts[1]).joined(parts[2])
    assert whole.length == pytest.approx(path.length, abs=1e-3)
    assert parts[1].start.distance(path.point_at(low)) < 1e-3


@tried
@given(segments, segments)
def test_crossings_lie_on_both(a, b):
    first, second = Path((a,)), Path((b,))
    for crossing in crossings(first, second):
        assert first.point_at(crossing.along_a).distance(crossing.point) < 1e-5
        assert second.point_at(crossing.along_b).distance(crossing.point) < 1e-5
        assert distance_to(first, crossing.point) < 1e-6
        assert distance_to(second, crossing.point) < 2e-6


@tried
@given(segments, segments)
def test_crossings_are_the_same_from_either_side(a, b):
    first, second = Path((a,)), Path((b,))
    there, back = crossings(first, second), crossings(second, first)
    assert len(there) == len(back)
    for crossing in there:
        assert min(crossing.point.distance(other.point) for other in back) < 1e-4


@tried
@given(segments, segments)
def test_no_crossing_of_the_flattened_segments_is_missed(a, b):
    first, second = Path((a,)), Path((b,))
    found = crossings(first, second)
    for crossing in crossings(Path.through(*a.flatten(0.05)), Path.through(*b.flatten(0.05))):
        u, v = first.tangent_at(nearest(first, crossing.point)), second.tangent_at(nearest(second, crossing.point))
        if abs(u.x * v.y - u.y * v.x) < 0.2 or _near_an_end(crossing.point, a, b):
            continue
        assert min((crossing.point.distance(c.point) for c in found), default=99.0) < 2.0


def _near_an_end(point, *both):
    return any(point.distance(end) < 2.0 for s in both for end in (s.start, s.end))


@tried
@given(gentle_curves(), st.floats(-20.0, 20.0).filter(lambda d: abs(d) > 1.0))
def test_a_parallel_keeps_its_distance_everywhere(path, distance):
    assume(_widest_bend(path) * abs(distance) < 0.9)
    parallel = offset(path, distance)
    for i in range(101):
        point = parallel.point_at(parallel.length * i / 100)
        along = nearest(path, point)
        assert abs(path.point_at(along).distance(point) - abs(distance)) < 0.02


def _widest_bend(path):
    return max(abs(s.curvature(i / 40)) for s in path.segments for i in range(41))


@tried
@given(gentle_curves(), st.floats(-20.0, 20.0).filter(lambda d: abs(d) > 1.0))
def test_a_parallel_starts_and_ends_square_to_the_path(path, distance):
    assume(_widest_bend(path) * abs(distance) < 0.9)
    parallel = offset(path, distance)
    for mine, its, way in (
        (path.start, parallel.start, path.tangent_at(0.0)),
        (path.end, parallel.end, path.tangent_at(path.length)),
    ):
        assert its.distance(mine.moved(-distance * way.y, distance * way.x)) < 1e-6


@tried
@given(gentle_curves(), st.floats(5.0, 60.0))
def test_a_parallel_never_comes_nearer_than_its_distance(path, distance):
    try:
        parallel = offset(path, distance)
    except GeometryError:
        assert _widest_bend(path) * distance > 0.9
        return
    assert min(distance_to(path, parallel.point_at(parallel.length * i / 60)) for i in range(61)) > distance - 0.02


@tried
@given(blobs(), st.floats(-15.0, 15.0).filter(lambda d: abs(d) > 1.0))
def test_the_parallel_of_a_smooth_outline_is_closed_and_lies_on_its_side(path, distance):
    assume(is_simple(path) and _widest_bend(path) * abs(distance) < 0.9)
    parallel = offset(path, distance)
    assert parallel.closed
    assert (parallel.signed_area < path.signed_area) == (distance > 0.0)
    # Steiner: the area changes by length times distance less pi times its square, while nothing folds over.
    assert parallel.signed_area == pytest.approx(
        path.signed_area - distance * path.length + pi * distance * distance, abs=0.02 * path.length
    )


@tried
@given(blobs(), st.floats(-80.0, 80.0))
def test_the_width_at_a_height_is_where_the_outline_is(path, y):
    assume(is_simple(path))
    for low, high in spans_at(path, y):
        assert low < high
        assert distance_to(path, Point(low, y)) < 1e-5
        assert distance_to(path, Point(high, y)) < 1e-5


@tried
@given(st.lists(points, min_size=3, max_size=7), st.booleans())
@example([Point(0, 0), Point(100, 0), Point(100, 100)], True)
def test_a_smooth_curve_has_no_corner_and_steady_curvature(knots, closed):
    ring = [*knots, knots[0]] if closed else knots
    assume(all(p.distance(q) > 20.0 for p, q in itertools.pairwise(ring)))
    path = smooth(knots, closed=closed)
    assert path.closed or not closed
    pairs = list(zip(path.segments, path.segments[1:], strict=False))
    for before, after in pairs + ([(path.segments[-1], path.segments[0])] if closed else []):
        u, v = before.derivative(1.0).scaled(1.0 / before.start.distance(before.end)), after.derivative(0.0)
        v = v.scaled(1.0 / after.start.distance(after.end))
        assert u.distance(v) < 1e-6
        h, k = before.start.distance(before.end), after.start.distance(after.end)
        assert before.second(1.0).scaled(1 / h**2).distance(after.second(0.0).scaled(1 / k**2)) < 1e-6


@tried
@given(points, points, st.floats(-1.5, 1.5), st.floats(-1.5, 1.5), transforms())
def test_a_curve_turns_with_its_ends(a, b, out, back, transform):
    assume(a.distance(b) > 1.0)
    along = a.angle_to(b)
    here = curve(a, b, along + out, along + back)
    p, q = transform.apply(a), transform.apply(b)
    sign = -1.0 if transform.flips else 1.0
    there = curve(p, q, p.angle_to(q) + sign * out, p.angle_to(q) + sign * back)
    assert there.length == pytest.approx(here.length, rel=1e-6, abs=1e-3)
    assert there.segments[0].point(0.4).distance(transform.apply(here.segments[0].point(0.4))) < 1e-4


@tried
@given(points, points, st.floats(-1.5, 1.5), st.floats(-1.5, 1.5))
def test_a_curve_leaves_and_arrives_as_told(a, b, out, back):
    assume(a.distance(b) > 1.0)
    path = curve(a, b, out, back)
    assert path.tangent_at(0.0).distance(Point(cos(out), sin(out))) < 1e-6
    assert path.tangent_at(path.length).distance(Point(cos(back), sin(back))) < 1e-6
