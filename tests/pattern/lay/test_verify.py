"""The second opinion finds every way in which a sound lay can be spoilt."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.geometry import Point
from app.pattern.lay import LayEffort, LayItem, LayPlan, lay_plan_for, overlaps
from app.pattern.lay.plan import shortest_sound
from app.pattern.pieces.model import Fabric

BRIEF = LayEffort(runs=1, seconds=0.05, orders=8, beside=4)


@pytest.fixture(scope="module", params=["open", "folded"])
def lay(request, dress) -> LayPlan:
    cloth = Fabric("main", "Linen", 1120.0, folded=request.param == "folded")
    outcome = lay_plan_for(dress, cloth, effort=BRIEF)
    assert isinstance(outcome, LayPlan)
    return outcome


def codes(lay, items):
    return {problem.code for problem in overlaps(lay, items)}


def with_one(lay, index, **changes):
    placements = list(lay.placements)
    placements[index] = replace(placements[index], **changes)
    return replace(lay, placements=tuple(placements))


def moved(outline, dx, dy):
    return tuple(p.moved(dx, dy) for p in outline)


def index_of(lay, piece):
    return next(k for k, p in enumerate(lay.placements) if p.piece == piece)


def test_a_sound_lay_has_no_problems(lay, dress):
    assert overlaps(lay, dress) == ()


def test_a_piece_laid_on_another_is_found(lay, dress):
    onto = lay.placements[index_of(lay, "sleeve")]
    one = index_of(lay, "pocket")
    x, y = onto.label
    ring = lay.placements[one].outline
    middle = Point(sum(p.x for p in ring) / len(ring), sum(p.y for p in ring) / len(ring))
    spoilt = with_one(lay, one, outline=moved(ring, x - middle.x, y - middle.y))
    found = [p for p in overlaps(spoilt, dress) if p.code == "lay.overlap"]
    assert found
    assert "overlaps" in found[0].message


@given(st.sampled_from([(-0.01, 0.0), (0.0, 2000.0), (0.0, -2000.0), (5000.0, 0.0)]))
def test_a_piece_beyond_the_edge_of_the_cloth_is_found(shift):
    item = LayItem("tab", "Tab", (Point(0, 0), Point(90, 0), Point(90, 40), Point(0, 30)), 1)
    lay = lay_plan_for([item], Fabric("main", "Linen", 1120.0, folded=False), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    spoilt = with_one(lay, 0, outline=moved(lay.placements[0].outline, *shift))
    assert "lay.outside" in codes(spoilt, [item])


def test_a_missing_piece_is_found(lay, dress):
    assert "lay.miscounted" in codes(replace(lay, placements=lay.placements[1:]), dress)


def test_a_piece_laid_twice_is_found(lay, dress):
    assert {"lay.miscounted", "lay.overlap"} <= codes(
        replace(lay, placements=lay.placements + lay.placements[:1]), dress
    )


def test_a_piece_that_is_not_to_be_cut_is_found(lay, dress):
    assert "lay.miscounted" in codes(lay, dress[1:])


def test_a_whole_pair_of_one_side_is_found(dress):
    lay = lay_plan_for(dress, Fabric("main", "Linen", 1120.0, folded=False), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    over = next(k for k, p in enumerate(lay.placements) if p.mirrored)
    assert {"lay.miscounted", "lay.wrong-shape"} <= codes(with_one(lay, over, mirrored=False), dress)


def test_a_piece_off_its_grain_is_found(lay, dress):
    one = index_of(lay, "waistband")
    x, y = lay.placements[one].label
    tilted = tuple(p.turned(0.02, Point(x, y)) for p in lay.placements[one].outline)
    assert "lay.wrong-shape" in codes(with_one(lay, one, outline=tilted), dress)


def test_an_outline_a_size_too_small_is_found(lay, dress):
    one = index_of(lay, "sleeve")
    x, y = lay.placements[one].label
    shrunk = tuple(Point(x, y).toward(p, 0.99 * Point(x, y).distance(p)) for p in lay.placements[one].outline)
    assert "lay.wrong-shape" in codes(with_one(lay, one, outline=shrunk), dress)


def test_a_turned_piece_on_cloth_with_one_direction_is_found(lay, dress):
    one = index_of(lay, "back")
    ring = lay.placements[one].outline
    x, y = lay.placements[one].label
    turned = tuple(Point(2 * x - p.x, 2 * y - p.y) for p in ring)
    spoilt = with_one(lay, one, outline=turned, turned=not lay.placements[one].turned)
    placements = tuple(p for p in spoilt.placements if p.piece != "back" or p.turned)
    one_way = replace(spoilt, cloth=replace(lay.cloth, one_way=True), placements=placements)
    if any(p.turned for p in placements):
        assert "lay.wrong-way" in codes(one_way, dress)
    assert "lay.wrong-shape" in codes(with_one(lay, one, turned=not lay.placements[one].turned), dress)


def test_a_half_lifted_off_the_fold_is_found():
    half = (Point(0, 0), Point(500, 0), Point(480, 200), Point(0, 300))
    item = LayItem("front", "Front", half, 1, on_fold=True, fold=(half[0], half[1]))
    lay = lay_plan_for([item], Fabric("main", "Linen", 1120.0, folded=True), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    lifted = with_one(lay, 0, outline=moved(lay.placements[0].outline, 0.0, 1.0))
    assert codes(lifted, [item]) == {"lay.wrong-shape"}


def test_a_loose_piece_against_the_fold_is_found():
    item = LayItem("tab", "Tab", (Point(0, 0), Point(90, 0), Point(90, 40), Point(0, 30)), 2, pair=True)
    lay = lay_plan_for([item], Fabric("main", "Linen", 1120.0, folded=True), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    down = min(y for _, y in lay.placements[0].outline)
    assert codes(with_one(lay, 0, outline=moved(lay.placements[0].outline, 0.0, -down)), [item]) == {"lay.near-fold"}


def test_a_fold_or_a_second_layer_on_open_cloth_is_found(dress):
    lay = lay_plan_for(dress, Fabric("main", "Linen", 1120.0, folded=False), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    one = index_of(lay, "waistband")
    assert "lay.wrong-layers" in codes(with_one(lay, one, layers=2), dress)
    assert "lay.wrong-layers" in codes(with_one(lay, one, on_fold=True), dress)


def test_a_piece_that_would_come_out_reversed_is_found():
    lopsided = (Point(0, 0), Point(400, 0), Point(400, 100), Point(0, 250))
    items = [LayItem("panel", "Panel", lopsided, 2)]
    lay = lay_plan_for(items, Fabric("main", "Linen", 1120.0, folded=True), effort=BRIEF)
    assert isinstance(lay, LayPlan)
    doubled = replace(lay, placements=(replace(lay.placements[0], layers=2),))
    assert "lay.reversed" in codes(doubled, items)


@pytest.mark.parametrize(("figure", "value"), [("length", 10000.0), ("buy", 50.0), ("utilisation", 0.99)])
def test_figures_that_do_not_follow_from_the_outlines_are_found(lay, dress, figure, value):
    assert codes(replace(lay, **{figure: value}), dress) == {"lay.misstated"}


def test_a_lay_that_does_not_hold_is_never_kept_however_short(lay, dress):
    spoilt = replace(lay, placements=lay.placements[1:], length=lay.length / 2)
    assert shortest_sound([spoilt, lay, spoilt], dress) == lay


def test_when_no_lay_holds_the_reasons_are_told(lay, dress):
    spoilt = replace(lay, placements=lay.placements[1:])
    (problem,) = shortest_sound([spoilt], dress).problems
    assert problem.code == "lay.unsound"
    assert any("instead of" in reason.message for reason in problem.related)


def test_an_outline_that_crosses_itself_is_found(lay, dress):
    crossed = (Point(0, 0), Point(100, 100), Point(100, 0), Point(0, 100))
    assert codes(with_one(lay, 0, outline=crossed), dress) == {"lay.bad-outline"}
