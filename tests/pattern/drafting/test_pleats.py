"""Pleats and tucks: folded up, the paper is the flat shape again, and every layer ends along its edge."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.drafting.shapes.shape import outline_path
from app.pattern.geometry import Path, Point, distance_to
from tests.pattern.drafting.drawn import draw, drawn

#: A panel 60 cm wide whose top rises to the right and whose hem is a curve.
PANEL = """
a = at 0, 0
b = at 60cm, 4cm
c = at 60cm, 50cm
d = at 0, 45cm
hem = curve a to b leaving right arriving right
far = line b to c
top = line c to d
near = line d to a
panel = trace hem, far, top, near
s = line (along hem by 30cm) to ((along hem by 30cm) up 70cm)
slash = line (along hem by 30cm) to (crossing of s and top)
"""


def another(cm: float) -> str:
    """A second slash `u`, straight up from the hem."""
    foot = f"(along hem by {cm}cm)"
    return f"t = line {foot} to ({foot} up 70cm)\nu = line {foot} to (crossing of t and top)\n"


def folded_x(p: float, depth: float, way: str) -> float:
    """Where paper p mm right of the slash's left edge comes to lie, right (or left, < 0) of it, once folded.

    Written down from how such a pleat is folded, not from the drafting code: a knife
    pleat and a tuck go under to the left and come back; the other two do so both ways.
    """
    if way in ("pleat", "tuck"):
        return -p if p <= depth else p - 2 * depth
    if p <= depth:
        return -p
    return p - 2 * depth if p <= 3 * depth else 4 * depth - p


def height_at(path: Path, x: float) -> float:
    """Height of a path over x, by halving; the paths here rise and fall gently from side to side."""
    low, high = 0.0, path.length
    forward = path.end.x > path.start.x
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if (path.point_at(middle).x < x) == forward else (low, middle)
    return path.point_at(low).y


@pytest.mark.parametrize("way", ["pleat", "box pleat", "inverted pleat", "tuck"])
@settings(max_examples=25, deadline=None)
@given(depth=st.floats(4, 90))
def test_folded_layers_end_along_the_flat_edge(way, depth):
    values = draw(PANEL + f"result = {way} panel along slash deep {depth:.2f}mm")
    depth, at = round(depth, 2), values["slash"].start.x
    paper = (2 if way in ("pleat", "tuck") else 4) * depth
    for name in ("hem", "top"):
        flat, side = values[name], values["result"].side(name)
        for point in side.path.flatten(0.2):
            p = point.x - at
            x = at + (p if p < 0 else folded_x(p, depth, way) if p < paper else p - paper)
            assert point.y == pytest.approx(height_at(flat, x), abs=0.05)


@pytest.mark.parametrize("way", ["pleat", "box pleat", "inverted pleat", "tuck"])
def test_a_folded_side_is_as_long_as_the_flat_one(way):
    values = draw(PANEL + f"result = {way} panel along slash deep 3cm")
    for name in ("hem", "top"):
        side = values["result"].side(name)
        assert side.path.length - side.taken_in == pytest.approx(values[name].length, abs=1e-3)
    assert values["result"].side("far").path.length == pytest.approx(values["far"].length)


@pytest.mark.parametrize(
    ("way", "lines"),
    [
        ("pleat", {"edge": 0, "turn": 1, "place": 2}),
        ("box pleat", {"left_place": -1, "left_turn": 0, "left_edge": 1, "right_edge": 3, "right_turn": 4}),
        ("inverted pleat", {"left_edge": 0, "left_turn": 1, "meet": 2, "right_turn": 3, "right_edge": 4}),
        ("tuck", {"left_stitch": 0, "fold": 1, "right_stitch": 2}),
    ],
)
def test_each_line_of_a_fold_runs_from_edge_to_edge_in_its_place(way, lines):
    values = draw(PANEL + f"result = {way} panel along slash deep 3cm")
    shape, at = values["result"], values["slash"].start.x
    outline = outline_path(shape.items)
    word = "tuck" if way == "tuck" else "pleat"
    for line, depths in lines.items():
        path = shape.find(f"{word}_1_{line}").what
        assert [path.start.x, path.end.x] == pytest.approx([at + depths * 30.0] * 2)
        assert distance_to(outline, path.start) < 0.01
        assert distance_to(outline, path.end) < 0.01


def test_edges_of_a_box_pleat_come_to_lie_on_their_places():
    values = draw(PANEL + "result = box pleat panel along slash deep 3cm")
    shape, slash = values["result"], values["slash"].start.x
    at = {name: shape.find(f"pleat_1_{name}").what.start.x - slash for name in ("left_place", "left_edge")}
    assert folded_x(at["left_edge"], 30.0, "box pleat") == pytest.approx(at["left_place"])


def test_a_fold_square_to_its_edges_leaves_them_straight():
    lines = PANEL.replace("at 60cm, 4cm", "at 60cm, 0").replace("at 0, 45cm", "at 0, 50cm")
    lines = lines.replace("hem = curve a to b leaving right arriving right", "hem = line a to b")
    shape = draw(lines + "result = inverted pleat panel along slash deep 3cm")["result"]
    assert {round(point.y, 6) for point in shape.side("top").path.flatten()} == {500.0}


def test_pleats_may_be_listed_in_any_order_and_lie_over_one_another():
    """Deeper than they are apart: each fold lies over the next, as in a full kilted skirt (common practice)."""
    slashes = "".join(f"s{i} = line (at {i * 10}cm, 50cm) to (at {i * 10}cm, 0)\n" for i in (2, 3, 4))
    lines = PANEL.replace("at 60cm, 4cm", "at 60cm, 0").replace("at 0, 45cm", "at 0, 50cm")
    lines = lines.replace("hem = curve a to b leaving right arriving right", "hem = line a to b") + slashes
    one = draw(lines + "result = pleat panel along s2, s3, s4 deep 13cm")["result"]
    other = draw(lines + "result = pleat panel along s4, s2, s3 deep 13cm")["result"]
    assert one.side("top").path.length == pytest.approx(600 + 3 * 260)
    ends = sorted(t.what.start.x for t in one.inside if t.name.endswith("_edge"))
    assert ends == pytest.approx(sorted(t.what.start.x for t in other.inside if t.name.endswith("_edge")))


def test_box_pleats_that_would_lie_over_one_another_are_refused():
    more = another(33)
    _, problems = drawn(PANEL + more + "result = box pleat panel along slash, u deep 4cm")
    assert [problem.code for problem in problems] == ["drafting.pleat-crowded"]


def test_a_tuck_stitched_part_of_the_way_lets_its_fullness_go():
    values = draw(PANEL + "result = tuck panel along slash deep 1cm stitched 8cm")
    hem, top = values["result"].side("hem"), values["result"].side("top")
    assert hem.path.length - hem.taken_in == pytest.approx(values["hem"].length, abs=1e-3)
    assert top.taken_in == 0
    assert top.path.length == pytest.approx(values["top"].length + 20, abs=0.1)
    assert values["result"].find("tuck_1_fold").what.length == pytest.approx(80, abs=0.5)


def test_a_tuck_cannot_be_stitched_further_than_it_is_long():
    _, problems = drawn(PANEL + "result = tuck panel along slash deep 1cm stitched 80cm")
    assert [problem.code for problem in problems] == ["drafting.tuck-stitched"]


def test_a_pleat_near_a_seam_goes_on_under_the_next_panel():
    values = draw(PANEL + another(1) + "result = pleat panel along u deep 4cm")
    side = values["result"].side("top")
    assert side.path.length - side.taken_in == pytest.approx(values["top"].length, abs=1e-3)
    assert side.path.start.distance(Point(600 + 80, 500)) < 0.01


def test_a_pleat_slanted_to_the_grain_folds_true_too():
    """A fan of pleats: the same figure turned as a whole gives the same paper turned."""
    turned = draw(PANEL + "result = box pleat (panel turned 25deg about a) along (slash turned 25deg about a) deep 3cm")
    plain = draw(PANEL + "result = box pleat panel along slash deep 3cm")
    for point in plain["result"].side("hem").path.flatten(0.5):
        assert distance_to(turned["result"].side("hem").path, point.turned(25 * pi / 180, Point(0, 0))) < 0.01


@pytest.mark.parametrize(
    ("way", "moves"),
    [
        ("pleat", {("edge", "place")}),
        ("box pleat", {("left_edge", "left_place"), ("right_edge", "right_place")}),
        ("inverted pleat", {("left_edge", "meet"), ("right_edge", "meet")}),
    ],
)
def test_arrows_lead_from_the_edge_that_is_folded_to_where_it_is_laid(way, moves):
    shape = draw(PANEL + f"result = {way} panel along slash deep 3cm")["result"]
    arrows = [thing.what for thing in shape.inside if thing.kind == "lay"]
    lines = {t.name.removeprefix("pleat_1_"): t.what for t in shape.inside if t.kind == "fold"}

    def on(point):
        return {name for name, line in lines.items() if distance_to(line, point) < 1e-6}

    assert {(a, b) for arrow in arrows for a in on(arrow.start) for b in on(arrow.end)} == moves


def test_a_side_is_measured_as_it_is_once_folded():
    values = draw(PANEL + "full = pleat panel along slash deep 3cm\nflat = length(full.top)\nsewn = folded(full.top)")
    assert values["flat"] == pytest.approx(values["top"].length + 60, abs=0.5)
    assert values["sewn"] == pytest.approx(values["top"].length, abs=1e-3)


def test_only_an_edge_or_a_side_is_measured_folded():
    _, problems = drawn(PANEL + "sewn = folded(top)")
    assert [problem.code for problem in problems] == ["drafting.folded"]
