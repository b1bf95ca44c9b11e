"""Lay plans as wholes: sound by the second opinion, as short as known rectangles allow, and true to the cloth."""

from dataclasses import replace
from itertools import combinations
from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from app.pattern.geometry import Point
from app.pattern.lay import (
    EFFORT_FULL,
    EFFORT_QUICK,
    EFFORT_STEADY,
    FOLD_CLEAR,
    GAP,
    LayEffort,
    LayItem,
    LayPlan,
    lay_plan_for,
    length_to_buy,
    overlaps,
)
from app.pattern.pieces.model import Fabric

BRIEF = LayEffort(runs=1, seconds=0.05, orders=30, beside=4)
OPEN = Fabric("main", "Linen", 1120.0, folded=False)
FOLDED = Fabric("main", "Linen", 1120.0, folded=True)


def rectangle(length, depth):
    return (Point(0.0, 0.0), Point(length, 0.0), Point(length, depth), Point(0.0, depth))


def planned(items, cloth, effort=BRIEF, seed=1) -> LayPlan:
    lay = lay_plan_for(items, cloth, effort=effort, seed=seed)
    assert isinstance(lay, LayPlan), [str(p) for p in lay.problems]
    return lay


@st.composite
def garments(draw):
    """Two to five kinds of piece, hollow ones among them, some in pairs and some on the fold."""
    items = []
    for index in range(draw(st.integers(2, 5))):
        corners = draw(st.integers(3, 9))
        on_fold, pair = draw(st.sampled_from([(True, False), (False, True), (False, False)]))
        radii = draw(st.lists(st.integers(40, 240), min_size=corners, max_size=corners))
        span = pi if on_fold else 2 * pi
        steps = corners - 1 if on_fold else corners
        outline = tuple(Point(r * cos(span * k / steps), r * sin(span * k / steps)) for k, r in enumerate(radii))
        fold = (outline[0], outline[-1]) if on_fold else None
        count = draw(st.integers(1, 2 if on_fold else 4))
        items.append(LayItem(f"piece-{index}", f"Piece {index}", outline, count, pair, on_fold, fold))
    return tuple(items)


cloths = st.builds(
    Fabric,
    st.just("main"),
    st.just("Linen"),
    st.sampled_from([980.0, 1120.0, 1433.0]),
    folded=st.booleans(),
    one_way=st.booleans(),
    shrinkage=st.sampled_from([0.0, 0.04]),
)


@settings(max_examples=24, deadline=None)
@given(garments(), cloths)
def test_every_plan_is_free_of_overlap_and_inside_the_cloth(items, cloth):
    lay = planned(items, cloth)
    assert overlaps(lay, items) == ()
    shapes = [Polygon(p.outline) for p in lay.placements]
    for one, other in combinations(shapes, 2):
        assert one.distance(other) >= GAP - 1e-6
    for shape in shapes:
        left, bottom, right, top = shape.bounds
        assert left >= -1e-9
        assert bottom >= -1e-9
        assert right <= lay.length + 1e-9
        assert top <= cloth.depth + 1e-9


@settings(max_examples=10, deadline=None)
@given(garments(), cloths)
def test_the_figures_follow_from_the_placements(items, cloth):
    lay = planned(items, cloth)
    assert lay.length == pytest.approx(max(x for p in lay.placements for x, _ in p.outline))
    assert lay.buy == length_to_buy(lay.length, cloth.shrinkage)
    whole = sum(Polygon(i.outline).area * i.count * (2 if i.on_fold else 1) for i in items)
    assert lay.utilisation == pytest.approx(whole / (cloth.width * lay.length), rel=1e-6)
    assert 0.0 < lay.utilisation <= 1.0


def test_a_lone_rectangle_takes_its_own_length():
    lay = planned([LayItem("band", "Band", rectangle(800.0, 100.0), 1)], OPEN)
    assert lay.length == pytest.approx(800.0, abs=1e-6)
    assert lay.buy == 850.0


def test_a_piece_exactly_as_wide_as_the_cloth_is_laid():
    lay = planned([LayItem("curtain", "Curtain", rectangle(700.0, 1120.0), 2)], OPEN)
    assert lay.length == pytest.approx(1400.0 + GAP, abs=2.0)


def test_four_rectangles_two_abreast_reach_the_shortest_length():
    """Two of 300 mm lie abreast on 620 mm and no three do: the shortest lay is two lengths and the gap."""
    lay = planned([LayItem("panel", "Panel", rectangle(500.0, 300.0), 4)], replace(OPEN, width=620.0))
    shortest = 2 * 500.0 + GAP
    assert shortest <= lay.length <= shortest + 2.0


def test_folded_cloth_takes_a_pair_through_both_layers_at_once():
    """On 560 mm of doubled cloth a 270 mm half on the fold and a 280 mm pair lie abreast."""
    items = [
        LayItem("front", "Front", rectangle(600.0, 270.0), 1, on_fold=True, fold=(Point(0.0, 0.0), Point(600.0, 0.0))),
        LayItem("back", "Back", rectangle(600.0, 280.0), 2, pair=True),
    ]
    lay = planned(items, FOLDED)
    assert lay.length == pytest.approx(600.0, abs=1e-6)
    assert {(p.piece, p.layers, p.on_fold) for p in lay.placements} == {("front", 2, True), ("back", 2, False)}
    assert lay.utilisation == pytest.approx(2 * (270 + 280) / 1120, rel=1e-6)


def test_halves_lie_with_their_fold_on_the_fold(dress):
    lay = planned(dress, FOLDED)
    held = [p for p in lay.placements if p.on_fold]
    assert {p.piece for p in held} == {"front", "skirt-front", "facing"}
    for placement in held:
        on_fold = [x for x, y in placement.outline if y == 0.0]
        item = next(i for i in dress if i.piece == placement.piece)
        assert max(on_fold) - min(on_fold) == pytest.approx(item.fold[0].distance(item.fold[1]), abs=1e-6)
        assert min(y for _, y in placement.outline) == 0.0


@pytest.mark.parametrize("width", [1120.0, 2100.0, 3200.0])
def test_what_is_not_on_the_fold_keeps_clear_of_it(dress, width):
    lay = planned(dress, replace(FOLDED, width=width))
    loose = [p for p in lay.placements if not p.on_fold]
    assert len(loose) == 8
    assert min(y for p in loose for _, y in p.outline) >= FOLD_CLEAR - 1e-9


def test_the_nester_keeps_clear_of_the_fold_too():
    snug = Fabric("main", "Linen", 1000.0, folded=True)
    items = [
        LayItem("panel", "Panel", rectangle(400.0, 491.0), 4, pair=True),
        LayItem("tab", "Tab", rectangle(90.0, 50.0), 6, pair=True),
    ]
    lay = planned(items, snug, LayEffort(runs=1, seconds=0.1, orders=1, beside=1))
    assert min(y for p in lay.placements for _, y in p.outline) >= FOLD_CLEAR - 1e-9


def test_open_cloth_takes_whole_pieces_and_turns_half_of_each_pair_over(dress):
    lay = planned(dress, OPEN)
    assert len(lay.placements) == 17
    assert not any(p.on_fold for p in lay.placements)
    assert sum(p.mirrored for p in lay.placements if p.piece == "pocket") == 2
    assert sum(p.mirrored for p in lay.placements if p.piece == "sleeve") == 1
    front = next(p for p in lay.placements if p.piece == "front")
    half = next(i for i in dress if i.piece == "front")
    assert Polygon(front.outline).area == pytest.approx(2 * Polygon(half.outline).area, rel=1e-6)


@pytest.mark.parametrize("cloth", [OPEN, FOLDED])
def test_on_cloth_with_one_direction_no_piece_is_turned(dress, cloth):
    lay = planned(dress, replace(cloth, one_way=True))
    assert not any(p.turned for p in lay.placements)


def test_one_direction_needs_no_less_cloth_for_pieces_that_dovetail():
    """Two wedges fill a rectangle head to tail; all one way they cannot."""
    wedge = (Point(0.0, 0.0), Point(600.0, 0.0), Point(600.0, 60.0), Point(0.0, 500.0))
    items = [LayItem("godet", "Godet", wedge, 2)]
    cloth = Fabric("main", "Linen", 570.0, folded=False)
    two_way = planned(items, cloth)
    one_way = planned(items, replace(cloth, one_way=True))
    assert two_way.length < 620.0
    assert one_way.length > two_way.length + 100.0


def test_a_look_without_the_clock_gives_the_same_lay_each_time(dress):
    steady = replace(EFFORT_STEADY, orders=30, beside=8)
    for cloth in (OPEN, FOLDED):
        assert planned(dress, cloth, steady) == planned(dress, cloth, steady)


def test_the_plan_that_is_printed_takes_no_more_cloth_than_the_one_that_was_shown(dress):
    """What a customer was told to buy must be enough for the plan she is sent."""
    assert EFFORT_QUICK.orders <= EFFORT_STEADY.orders == EFFORT_FULL.orders
    assert EFFORT_QUICK.beside <= EFFORT_STEADY.beside == EFFORT_FULL.beside
    assert EFFORT_QUICK.runs == EFFORT_STEADY.runs == 0
    shown = planned(dress, OPEN, LayEffort(runs=0, seconds=0.0, orders=8, beside=8))
    printed = planned(dress, OPEN, LayEffort(runs=1, seconds=0.1, orders=8, beside=8))
    assert printed.length <= shown.length


def test_the_same_seed_gives_the_same_lay_when_pieces_are_held_on_the_fold(dress):
    assert planned(dress, FOLDED, seed=7) == planned(dress, FOLDED, seed=7)


@pytest.mark.parametrize("cloth", [OPEN, FOLDED])
def test_more_orders_never_make_a_longer_lay(dress, cloth):
    lengths = [planned(dress, cloth, LayEffort(0, 0.0, orders, orders)).length for orders in (4, 30, 120)]
    assert lengths == sorted(lengths, reverse=True)


def test_labels_lie_inside_their_pieces(dress):
    for placement in planned(dress, OPEN).placements:
        x, y = placement.label
        assert Polygon(placement.outline).buffer(1e-6).covers(Polygon([(x, y), (x + 1e-7, y), (x, y + 1e-7)]))


def test_two_cuts_of_one_piece_from_the_same_cloth_are_both_laid():
    """A collar cut on the fold once for the outside and as a pair for the inside."""
    collar = rectangle(300.0, 80.0)
    items = (
        LayItem("collar", "Collar", collar, 1, on_fold=True, fold=(collar[0], collar[1])),
        LayItem("collar", "Collar", collar, 2, pair=True),
    )
    lay = planned(items, FOLDED)
    assert sum(p.gives for p in lay.placements) == 3
    assert overlaps(lay, items) == ()


def test_problems_come_back_instead_of_a_plan():
    outcome = lay_plan_for([LayItem("cape", "Cape", rectangle(500.0, 1500.0), 1)], OPEN, effort=BRIEF)
    assert [p.code for p in outcome.problems] == ["lay.too-wide"]


def test_single_pieces_are_better_cut_from_open_cloth():
    """Two unlike single pieces lie abreast on open cloth and one after the other on folded cloth."""
    lopsided = (Point(0.0, 0.0), Point(600.0, 0.0), Point(600.0, 300.0), Point(0.0, 520.0))
    items = [LayItem("panel", "Panel", lopsided, 2)]
    folded, opened = (lay_plan_for(items, cloth, effort=BRIEF) for cloth in (FOLDED, OPEN))
    assert folded.buy - opened.buy >= 500.0
