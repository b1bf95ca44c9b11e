"""Tracing an outline: edges drawn in any direction close up anticlockwise, and a gap is named with its remedy."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.geometry import Point
from app.pattern.pieces import DartSpec, trace_outline
from app.pattern.pieces.model import Allowance
from app.pattern.problem import Place, Span

SQUARE = ((0.0, 0.0), (200.0, 0.0), (200.0, 100.0), (0.0, 100.0))


def drawn(edges, backwards):
    """The edges, some of them drawn the other way."""
    return [replace(e, path=e.path.reversed()) if flip else e for e, flip in zip(edges, backwards, strict=True)]


@given(backwards=st.lists(st.booleans(), min_size=4, max_size=4), start=st.integers(0, 3), other_way=st.booleans())
def test_directions_and_listing_never_matter(kit, backwards, start, other_way):
    edges = drawn(kit.polygon_edges(*SQUARE), backwards)
    edges = edges[start:] + edges[:start]
    traced = kit.traced(*(reversed(edges) if other_way else edges))
    assert traced.stitching.closed
    assert traced.stitching.signed_area == pytest.approx(20000.0)
    names = [e.name for e in traced.edges]
    turn = names.index("e0")
    assert names[turn:] + names[:turn] == ["e0", "e1", "e2", "e3"]
    drawn_as = {e.name: e.path for e in edges}
    assert all(e.path == drawn_as[e.name] for e in traced.edges), "edges keep the direction they were drawn in"
    assert [e.with_outline for e in sorted(traced.edges, key=lambda e: e.name)] == [not b for b in backwards]


def test_each_edge_meets_the_next_in_the_direction_of_travel(kit):
    traced = kit.traced(*kit.skirt().items)
    travelled = [e.path if e.with_outline else e.path.reversed() for e in traced.edges]
    for i, line in enumerate(travelled):
        after = travelled[(i + 1) % len(travelled)]
        if i in traced.mouths:
            dart = traced.darts[traced.mouths.index(i)]
            assert (line.end, after.start) == (dart.a, dart.b)
            assert (dart.cap.start, dart.cap.end) == (dart.a, dart.b)
        else:
            assert line.end == after.start


def test_a_dart_turns_round_with_its_outline(kit):
    items = kit.skirt().items
    one, two = kit.traced(*items), kit.traced(*reversed(items))
    assert one.darts[0].a == two.darts[0].a == Point(104.0, 600.0)
    pressed = [DartSpec("dart", Point(92.0, 480.0), pressed_to=leg) for leg in "ab"]
    to_middle, to_side = (kit.traced(items[0], dart, *items[2:]).darts[0] for dart in pressed)
    assert to_middle.pressed_to == "b", "leg a as listed is leg b going anticlockwise"
    assert to_side.pressed_to == "a"


def test_an_edge_between_two_darts_is_turned_by_the_legs(kit):
    """Neither end of the middle edge touches another edge: only equal legs can tell its direction."""
    top = [kit.path((0, 100), (60, 100)), kit.path((140, 100), (80, 100)), kit.path((160, 100), (220, 100))]
    items = [
        kit.edge("bottom", kit.path((0, 0), (220, 0))),
        kit.edge("right", kit.path((220, 0), (220, 100))),
        kit.edge("t3", top[2]),
        DartSpec("d2", Point(150.0, 40.0)),
        kit.edge("t2", top[1]),
        DartSpec("d1", Point(70.0, 40.0)),
        kit.edge("t1", top[0]),
        kit.edge("left", kit.path((0, 0), (0, 100))),
    ]
    traced = kit.traced(*items)
    assert [d.intake for d in traced.darts] == [20.0, 20.0]
    assert next(e for e in traced.edges if e.name == "t2").with_outline


def test_a_dart_may_open_the_list(kit):
    items = kit.skirt().items
    moved = (*items[1:], items[0])
    assert kit.traced(*moved).stitching.signed_area == pytest.approx(kit.traced(*items).stitching.signed_area)


def test_one_closed_edge_is_an_outline(kit):
    ring = kit.edge("ring", kit.path((0, 0), (100, 0), (50, 80), (0, 0)))
    assert kit.traced(ring).stitching.signed_area == pytest.approx(4000.0)


@given(gap=st.floats(1e-7, 0.049), angle=st.floats(0.0, 6.28))
def test_ends_within_the_tolerance_are_drawn_together(kit, gap, angle):
    edges = kit.polygon_edges(*SQUARE)
    off = edges[1].path.start.polar(gap, angle)
    edges[1] = replace(edges[1], path=kit.path(off, (200.0, 100.0)))
    traced = kit.traced(*edges)
    assert traced.edges[1].path.start == pytest.approx(traced.edges[0].path.end, abs=1e-9)
    assert traced.stitching.closed


def test_a_gap_names_piece_edges_distance_and_remedy(kit):
    edges = kit.polygon_edges(*SQUARE)
    edges[2] = replace(edges[2], path=kit.path((200.0, 103.0), (0.0, 100.0)), span=Span("a.draft", 4, 3, 9))
    (problem,) = trace_outline(edges, "yoke").problems
    assert problem.code == "pieces.outline-gap"
    assert "e1" in problem.message and "e2" in problem.message and "3 mm" in problem.message
    assert "same point" in problem.fix
    assert problem.where == Span("a.draft", 4, 3, 9)
    assert problem.related[0].where == Place("yoke", "e1", at=Point(200.0, 100.0))
    assert problem.related[1].where == Place("yoke", "e2", at=Point(200.0, 103.0))


def test_every_gap_is_told(kit):
    edges = kit.polygon_edges(*SQUARE)
    edges[0] = replace(edges[0], path=kit.path((1.0, 0.0), (198.0, 0.0)))
    found = trace_outline(edges, "yoke").problems
    assert [p.code for p in found] == ["pieces.outline-gap"] * 2


def test_a_fold_edge_has_no_allowance(kit):
    edges = kit.polygon_edges(*SQUARE, width=12.0)
    edges[3] = replace(edges[3], fold=True)
    traced = kit.traced(*edges)
    assert traced.edges[3].allowance == Allowance(0.0)


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (lambda edges: [], "pieces.no-edges"),
        (lambda edges: [*edges, edges[0]], "pieces.name-twice"),
        (lambda edges: [*edges, DartSpec("d", Point(1, 1)), DartSpec("f", Point(2, 2))], "pieces.darts-touch"),
        (lambda edges: [edges[0], replace(edges[0], name="back")], "pieces.outline-flat"),
        (lambda edges: [*edges, DartSpec("d", Point(50.0, 50.0))], "pieces.dart-closed"),
    ],
)
def test_lists_that_make_no_outline_are_told(kit, change, code):
    found = trace_outline(change(kit.polygon_edges(*SQUARE)), "yoke").problems
    assert code in [p.code for p in found]
    assert all(p.fix and p.where is not None for p in found)


def test_a_dart_leg_off_its_edge_is_told(kit):
    items = list(kit.skirt().items)
    items[1] = replace(items[1], a=Point(80.0, 600.0), b=Point(106.0, 600.0))
    found = trace_outline(items, "skirt").problems
    assert [p.code for p in found] == ["pieces.dart-gap"]
    assert "Leg b" in found[0].message and "2 mm" in found[0].message and "waist_side" in found[0].message


def test_a_dart_that_cannot_be_folded_is_told(kit):
    items = list(kit.skirt().items)
    items[0] = kit.edge("waist_middle", kit.path((0.0, 600.0), (95.0, 540.0), (80.0, 600.0)))
    found = trace_outline(items, "skirt").problems
    assert [p.code for p in found] == ["pieces.dart-cap"]
