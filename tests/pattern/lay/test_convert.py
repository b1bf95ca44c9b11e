"""What a pattern gives the lay: cutting outlines with the grain along the cloth, and their folds."""

from dataclasses import replace
from math import pi

import pytest
from shapely import Polygon

from app.pattern.geometry import Path, Point
from app.pattern.lay import LayEffort, LayPlan, items_for, lay_plan_for
from app.pattern.pieces.cut import cut_piece
from app.pattern.pieces.model import Allowance, Cloth, Cut, Edge, Fabric, Grain, Pattern, Piece
from app.pattern.pieces.spec import PieceSpec

BRIEF = LayEffort(runs=1, seconds=0.05, orders=8, beside=4)
SEAM, NONE = Allowance(10.0), Allowance(0.0)


def piece(name, *, grain, cuts, fold=False) -> Piece:
    """A panel 200 mm wide and 500 mm long, its left edge the fold if it has one."""
    a, b, c, d = Point(0.0, 0.0), Point(200.0, 0.0), Point(180.0, 500.0), Point(0.0, 500.0)
    edges = (
        Edge("hem", Path.through(a, b), SEAM),
        Edge("side", Path.through(b, c), SEAM),
        Edge("top", Path.through(c, d), SEAM),
        Edge("centre", Path.through(d, a), NONE if fold else SEAM, fold=fold),
    )
    made = cut_piece(PieceSpec(name=name, title=name.title(), items=edges, grain=grain, cuts=cuts))
    assert isinstance(made, Piece), made
    return made


UPWARDS = Grain(Point(100.0, 50.0), Point(100.0, 400.0))
ACROSS = Grain(Point(20.0, 250.0), Point(150.0, 250.0))
BIAS = Grain(Point(50.0, 50.0), Point(150.0, 150.0))
SHELL = Fabric("shell", "Linen", 1400.0, one_way=True, folded=True, shrinkage=0.04)


def pattern(*pieces) -> Pattern:
    return Pattern("Panel", pieces, (), (), (SHELL, Fabric("lining", "Voile", 1100.0)))


def bounds(item):
    left, bottom, right, top = Polygon(item.outline).bounds
    return right - left, top - bottom


def test_the_grain_lies_along_the_cloth():
    made = pattern(piece("panel", grain=UPWARDS, cuts=(Cut("shell", 2, pair=True),)))
    (item,) = items_for(made, "shell")
    assert (item.piece, item.title, item.count, item.pair, item.on_fold) == ("panel", "Panel", 2, True, False)
    length, depth = bounds(item)
    assert length == pytest.approx(520.0, abs=0.5)
    assert depth == pytest.approx(220.0, abs=2.0)


def test_the_upper_end_of_the_grain_points_along_the_cloth():
    """The panel is wider at its hem: the hem comes first along the cloth, and the piece is not turned over."""
    made = pattern(piece("panel", grain=UPWARDS, cuts=(Cut("shell", 1),)))
    outline = Polygon(items_for(made, "shell")[0].outline)
    left, _, right, _ = outline.bounds
    assert outline.centroid.x < (left + right) / 2
    assert outline.exterior.is_ccw


def test_a_cross_grain_piece_is_laid_across():
    made = pattern(piece("panel", grain=ACROSS, cuts=(Cut("shell", 1),)))
    length, depth = bounds(items_for(made, "shell")[0])
    assert length == pytest.approx(220.0, abs=2.0)
    assert depth == pytest.approx(520.0, abs=0.5)


def test_a_bias_piece_keeps_its_area():
    straight = items_for(pattern(piece("panel", grain=UPWARDS, cuts=(Cut("shell", 1),))), "shell")[0]
    bias = items_for(pattern(piece("panel", grain=BIAS, cuts=(Cut("shell", 1),))), "shell")[0]
    assert Polygon(bias.outline).area == pytest.approx(Polygon(straight.outline).area, rel=1e-9)
    assert bounds(bias)[0] == pytest.approx((520 + 220) * 0.5**0.5, abs=20.0)


def test_the_fold_turns_with_its_piece():
    made = pattern(piece("front", grain=UPWARDS, cuts=(Cut("shell", 1, on_fold=True),), fold=True))
    (item,) = items_for(made, "shell")
    a, b = item.fold
    assert a.angle_to(b) % pi == pytest.approx(0.0, abs=1e-9) or a.angle_to(b) % pi == pytest.approx(pi, abs=1e-9)
    lay = lay_plan_for([item], SHELL, effort=BRIEF)
    assert isinstance(lay, LayPlan), [str(p) for p in lay.problems]
    assert lay.placements[0].on_fold
    assert lay.length == pytest.approx(520.0, abs=0.5)


def test_each_fabric_has_its_own_items():
    made = pattern(
        piece("front", grain=UPWARDS, cuts=(Cut("shell", 2), Cut("lining", 2, pair=True))),
        piece("back", grain=UPWARDS, cuts=(Cut("shell", 1),)),
    )
    assert [i.piece for i in items_for(made, "shell")] == ["front", "back"]
    assert [(i.piece, i.pair) for i in items_for(made, "lining")] == [("front", True)]
    assert items_for(made, "interfacing") == ()


def test_a_fabric_is_laid_as_the_customers_cloth_and_as_the_designers_where_she_chose_none():
    assert SHELL.laid_as(None) is SHELL
    assert SHELL.laid_as(SHELL.suggested) == SHELL
    hers = replace(SHELL, one_way=False).laid_as(Cloth(1480.0, folded=False, one_way=True))
    assert (hers.width, hers.folded, hers.one_way, hers.shrinkage) == (1480.0, False, True, 0.04)


def test_what_has_a_nap_for_the_designer_has_one_for_the_customer_too():
    assert SHELL.laid_as(Cloth(1480.0, one_way=False)).one_way
