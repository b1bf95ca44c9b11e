"""What is laid how often and through how many layers, and the problems of an impossible lay."""

from dataclasses import replace

import pytest

from app.pattern.geometry import Point
from app.pattern.lay import LayItem
from app.pattern.lay.layers import least_width, parts_for
from app.pattern.pieces.model import Fabric
from app.pattern.problem import Problem, Refused

OPEN = Fabric("main", "Linen", 1400.0, folded=False)
FOLDED = Fabric("main", "Linen", 1400.0, folded=True)


def ring(*points):
    return tuple(Point(float(x), float(y)) for x, y in points)


#: A right-angled corner piece: not its own mirror image, whichever way it is turned.
CORNER = ring((0, 0), (400, 0), (400, 60), (100, 60), (100, 250), (0, 250))
#: A strip with a pointed end: its own mirror image across the grain line.
STRIP = ring((0, 0), (300, 0), (350, 30), (300, 60), (0, 60))
#: Half of a piece, its fold along y = 0.
HALF = ring((0, 0), (500, 0), (480, 200), (0, 300))
FOLD = (Point(0.0, 0.0), Point(500.0, 0.0))


def laid(item, cloth):
    return [(part.copies, part.layers, part.mirrored, part.held) for part in parts_for([item], cloth)]


def the_problem(items, cloth) -> Problem:
    problems = parts_for(items, cloth).problems
    assert len(problems) == 1
    assert problems[0].message
    assert problems[0].fix
    return problems[0]


def test_a_pair_is_cut_once_through_folded_cloth():
    assert laid(LayItem("sleeve", "Sleeve", CORNER, 2, pair=True), FOLDED) == [(1, 2, False, False)]


def test_a_pair_on_open_cloth_is_laid_twice_and_once_turned_over():
    assert laid(LayItem("sleeve", "Sleeve", CORNER, 2, pair=True), OPEN) == [(1, 1, False, False), (1, 1, True, False)]


def test_an_odd_piece_of_pairs_is_cut_through_one_layer():
    item = LayItem("tab", "Tab", CORNER, 5, pair=True)
    assert laid(item, FOLDED) == [(2, 2, False, False), (1, 1, False, False)]
    assert laid(item, OPEN) == [(3, 1, False, False), (2, 1, True, False)]


def test_pieces_that_are_not_a_pair_are_never_cut_reversed():
    assert laid(LayItem("corner", "Corner", CORNER, 2), FOLDED) == [(2, 1, False, False)]


def test_pieces_that_are_their_own_mirror_image_are_cut_two_at_a_time():
    assert laid(LayItem("strip", "Strip", STRIP, 4), FOLDED) == [(2, 2, False, False)]


def test_a_piece_that_must_turn_to_be_its_own_mirror_image_is_not_on_cloth_with_one_direction():
    wedge = ring((0, 0), (300, 0), (250, 80), (50, 80))  # the same again when turned over end for end
    assert laid(LayItem("wedge", "Wedge", wedge, 2), FOLDED) == [(1, 2, False, False)]
    assert laid(LayItem("wedge", "Wedge", wedge, 2), replace(FOLDED, one_way=True)) == [(2, 1, False, False)]


def test_a_single_piece_on_folded_cloth_takes_one_layer():
    assert laid(LayItem("yoke", "Yoke", CORNER, 1), FOLDED) == [(1, 1, False, False)]


def test_a_half_is_held_on_the_fold_of_folded_cloth():
    item = LayItem("front", "Front", HALF, 2, on_fold=True, fold=FOLD)
    assert laid(item, FOLDED) == [(2, 2, False, True)]


def test_a_half_is_opened_out_on_open_cloth():
    parts = parts_for([LayItem("front", "Front", HALF, 1, on_fold=True, fold=FOLD)], OPEN)
    assert parts[0].shape.area == pytest.approx(2 * (480 * 250 + 20 * 100), abs=1e-6)
    assert parts[0].height == pytest.approx(600.0)


@pytest.mark.parametrize("flip", [1.0, -1.0])
@pytest.mark.parametrize("backwards", [False, True])
def test_a_half_lies_above_the_fold_whichever_side_it_was_drawn_on(flip, backwards):
    outline = tuple(Point(p.x, 700.0 + flip * p.y) for p in HALF)
    fold = (Point(0.0, 700.0), Point(500.0, 700.0))
    item = LayItem("front", "Front", outline, 1, on_fold=True, fold=fold[::-1] if backwards else fold)
    (part,) = parts_for([item], FOLDED)
    assert part.shape.bounds == pytest.approx((0.0, 0.0, 500.0, 300.0))
    assert part.shape.boundary.intersection(part.shape.envelope.boundary).length > 500.0


def test_a_fold_across_the_grain_is_opened_out_even_on_folded_cloth():
    across = tuple(Point(p.y, p.x) for p in HALF)
    fold = (Point(0.0, 0.0), Point(0.0, 500.0))
    item = LayItem("yoke", "Yoke", across, 1, on_fold=True, fold=fold)
    (part,) = parts_for([item], FOLDED)
    assert not part.held
    assert part.layers == 1
    assert part.shape.bounds[2:] == pytest.approx((600.0, 500.0))


def test_a_fold_slightly_off_the_grain_is_laid_straight_on_the_fold():
    leaning = tuple(Point(p.x, p.y + 0.004 * p.x) for p in HALF)
    item = LayItem("front", "Front", leaning, 1, on_fold=True, fold=(Point(0.0, 0.0), Point(500.0, 2.0)))
    (part,) = parts_for([item], FOLDED)
    on_fold = [x for x, y in part.shape.exterior.coords if y == 0.0]
    assert max(on_fold) - min(on_fold) == pytest.approx(500.0, abs=0.01)


def test_nothing_to_cut_is_a_problem():
    assert the_problem([], OPEN).code == "lay.nothing"


@pytest.mark.parametrize("width", [0.0, -10.0, float("nan"), float("inf")])
def test_cloth_without_a_width_is_a_problem(width):
    item = LayItem("strip", "Strip", STRIP, 1)
    assert the_problem([item], Fabric("main", "Linen", width, folded=False)).code == "lay.bad-width"


@pytest.mark.parametrize("shrinkage", [-0.01, 0.5, 1.0, float("nan")])
def test_impossible_shrinkage_is_a_problem(shrinkage):
    item = LayItem("strip", "Strip", STRIP, 1)
    assert the_problem([item], replace(OPEN, shrinkage=shrinkage)).code == "lay.bad-shrinkage"


def test_a_count_of_nothing_is_a_problem():
    assert the_problem([LayItem("strip", "Strip", STRIP, 0)], OPEN).code == "lay.bad-count"


def test_a_count_that_must_be_a_slip_is_a_problem():
    assert the_problem([LayItem("strip", "Strip", STRIP, 201)], OPEN).code == "lay.too-many"


@pytest.mark.parametrize(
    "outline",
    [
        ring((0, 0), (100, 100), (100, 0), (0, 100)),
        ring((0, 0), (100, 0)),
        ring((0, 0), (100, 0), (200, 0)),
        ring((0, 0), (float("nan"), 0), (50, 80)),
    ],
)
def test_an_outline_that_encloses_nothing_is_a_problem(outline):
    problem = the_problem([LayItem("odd", "Odd piece", outline, 1)], OPEN)
    assert problem.code == "lay.bad-outline"
    assert problem.where.piece == "odd"


def test_on_the_fold_without_a_fold_edge_is_a_problem():
    assert the_problem([LayItem("front", "Front", HALF, 1, on_fold=True)], FOLDED).code == "lay.no-fold"


@pytest.mark.parametrize(
    "fold",
    [
        (Point(0.0, 50.0), Point(500.0, 50.0)),  # inside the half
        (Point(0.0, 0.0), Point(0.0, 0.0)),
        (Point(0.0, -80.0), Point(500.0, -80.0)),  # beside it
    ],
)
def test_a_fold_that_is_no_outer_edge_is_a_problem(fold):
    item = LayItem("front", "Front", HALF, 1, on_fold=True, fold=fold)
    assert the_problem([item], FOLDED).code == "lay.bad-fold"


def test_a_piece_wider_than_the_cloth_is_named_with_both_widths():
    wide = ring((0, 0), (500, 0), (500, 1500), (0, 1500))
    problem = the_problem([LayItem("cape", "Cape", wide, 1)], OPEN)
    assert problem.code == "lay.too-wide"
    assert "Cape is 150.0 cm across" in problem.message
    assert "140.0 cm" in problem.message
    assert "at least 150 cm wide" in problem.fix


def test_a_piece_too_wide_for_folded_cloth_may_be_cut_open():
    wide = ring((0, 0), (500, 0), (500, 900), (0, 900))
    problem = the_problem([LayItem("cape", "Cape", wide, 2, pair=True)], FOLDED)
    assert problem.code == "lay.too-wide"
    assert problem.fix == "Lay the cloth open, or take one at least 182 cm wide."


def test_a_half_too_deep_for_the_fold_needs_wider_cloth():
    deep = ring((0, 0), (500, 0), (500, 750), (0, 750))
    problem = the_problem([LayItem("cape", "Cape", deep, 1, on_fold=True, fold=FOLD)], FOLDED)
    assert "at least 150 cm wide" in problem.fix


def test_a_loose_piece_must_fit_beside_the_strip_kept_clear_of_the_fold():
    snug = ring((0, 0), (500, 0), (500, 691), (0, 691))
    assert laid(LayItem("cape", "Cape", snug, 2, pair=True), FOLDED) == [(1, 2, False, False)]
    tight = ring((0, 0), (500, 0), (500, 692), (0, 692))
    assert the_problem([LayItem("cape", "Cape", tight, 2, pair=True)], FOLDED).code == "lay.too-wide"


def test_every_problem_is_told_at_once():
    wide = ring((0, 0), (500, 0), (500, 1500), (0, 1500))
    items = [LayItem("a", "A", wide, 1), LayItem("b", "B", HALF, 1, on_fold=True), LayItem("c", "C", STRIP, 2)]
    problems = parts_for(items, FOLDED).problems
    assert [p.code for p in problems] == ["lay.no-fold", "lay.too-wide"]


def test_pieces_of_different_widths_are_all_told_the_one_width_that_serves_them():
    wide, wider = (ring((0, 0), (500, 0), (500, high), (0, high)) for high in (1500, 1620))
    problems = parts_for([LayItem("a", "A", wide, 1), LayItem("b", "B", wider, 1)], OPEN).problems
    assert {p.fix for p in problems} == {"Take a cloth at least 162 cm wide, or divide the piece with a seam."}


@pytest.mark.parametrize("cloth", [OPEN, FOLDED])
def test_the_least_width_is_just_enough(cloth):
    pair = ring((0, 0), (500, 0), (500, 912), (0, 912))
    items = [LayItem("cape", "Cape", pair, 2, pair=True), LayItem("yoke", "Yoke", HALF, 1, on_fold=True, fold=FOLD)]
    least = least_width(items, cloth)
    assert least.piece == "Cape"
    assert not isinstance(parts_for(items, replace(cloth, width=least.mm)), Refused)
    assert isinstance(parts_for(items, replace(cloth, width=least.mm - 0.1)), Refused)


def test_where_nothing_can_be_laid_there_is_no_least_width():
    assert least_width([], OPEN) is None
    assert least_width([LayItem("b", "B", HALF, 1, on_fold=True)], OPEN) is None
