"""Laying pieces one after the other, and the search for a good order."""

from random import Random

import pytest

from app.pattern.geometry import Point
from app.pattern.lay import FOLD_CLEAR, GAP, LayItem
from app.pattern.lay.layers import parts_for, short_enough
from app.pattern.lay.nest import nested
from app.pattern.lay.orders import WORN_OUT, _fresh, lay_in_rows
from app.pattern.lay.rows import ClothRoom, NextPart, ShiftTables, lay_down, turned_shape
from app.pattern.pieces.model import Fabric

OPEN = ClothRoom(700.0, 0.0, (False, True))
FOLDED = ClothRoom(700.0, FOLD_CLEAR, (False, True))


def rectangle(length, depth):
    return (Point(0.0, 0.0), Point(length, 0.0), Point(length, depth), Point(0.0, depth))


def parts(*items, folded=False):
    return parts_for(items, Fabric("main", "Linen", 1400.0 if folded else 700.0, folded=folded))


LONG = LayItem("long", "Long", rectangle(600.0, 300.0), 1)
SHORT = LayItem("short", "Short", rectangle(200.0, 300.0), 2)
TALL = LayItem("tall", "Tall", rectangle(100.0, 600.0), 1)
WEDGE = LayItem("wedge", "Wedge", (Point(0, 0), Point(600, 0), Point(600, 60), Point(0, 600)), 2)


def ends(laid, spots):
    return max(spot.x + laid[spot.part].shape.bounds[2] for spot in spots)


def test_pieces_are_laid_beside_each_other_before_they_are_laid_behind():
    laid = parts(LONG, SHORT)
    length, spots = lay_down([NextPart(0), NextPart(1), NextPart(1)], ShiftTables(laid, OPEN), float("inf"))
    assert length == 600.0
    assert [(s.x, s.y) for s in spots[:2]] == [(0.0, 0.0), (0.0, 303.0)]
    assert GAP <= spots[2].x - 200.0 <= GAP + 2.0
    assert spots[2].y == 303.0


def test_the_order_decides_the_length():
    laid = parts(LONG, SHORT, TALL)
    tables = ShiftTables(laid, OPEN)
    better, _ = lay_down([NextPart(0), NextPart(1), NextPart(1), NextPart(2)], tables, float("inf"))
    worse, _ = lay_down([NextPart(1), NextPart(2), NextPart(0), NextPart(1)], tables, float("inf"))
    assert better < worse


def test_a_piece_called_to_the_far_side_lies_there():
    laid = parts(SHORT)
    _, spots = lay_down([NextPart(0, far=True), NextPart(0)], ShiftTables(laid, OPEN), float("inf"))
    assert spots[0].y == pytest.approx(399.0)
    assert spots[1].y == 0.0
    assert spots[1].x == 0.0


def test_a_piece_turns_when_it_ends_further_left_so():
    laid = parts(WEDGE)
    length, spots = lay_down([NextPart(0), NextPart(0)], ShiftTables(laid, OPEN), float("inf"))
    assert {spot.turned for spot in spots} == {False, True}
    assert length < 700.0


def test_a_piece_called_in_one_way_lies_that_way():
    laid = parts(WEDGE)
    length, spots = lay_down(
        [NextPart(0, turned=False), NextPart(0, turned=False)], ShiftTables(laid, OPEN), float("inf")
    )
    assert not any(spot.turned for spot in spots)
    assert length > 700.0


def test_a_lay_is_given_up_as_soon_as_it_is_too_long():
    laid = parts(LONG, SHORT)
    assert lay_down([NextPart(0), NextPart(1), NextPart(1)], ShiftTables(laid, OPEN), 600.0) == (float("inf"), [])


def test_a_half_stays_on_the_fold_when_it_is_turned():
    half = (Point(0, 0), Point(500, 0), Point(400, 200), Point(0, 300))
    item = LayItem("front", "Front", half, 1, on_fold=True, fold=(Point(0, 0), Point(500, 0)))
    (part,) = parts(item, folded=True)
    around = turned_shape(part)
    assert around.bounds == part.shape.bounds
    assert around.centroid.y == pytest.approx(part.shape.centroid.y)
    assert around.centroid.x == pytest.approx(500.0 - part.shape.centroid.x)


def test_every_copy_of_every_part_is_laid_once():
    laid = parts(LONG, SHORT, TALL, WEDGE)
    for spots in (lay_in_rows(laid, OPEN, 20, 1), nested(laid, OPEN, 0.05, 1)):
        assert sorted(spot.part for spot in spots) == [0, 1, 1, 2, 3, 3]
        assert min(spot.x for spot in spots) == pytest.approx(0.0, abs=1e-9)


def test_the_nester_keeps_to_the_depth_and_clear_of_the_fold():
    laid = parts(LONG, SHORT, folded=True)
    for spot in nested(laid, FOLDED, 0.05, 3):
        assert FOLD_CLEAR <= spot.y <= 700.0 - laid[spot.part].height


def test_the_search_ends_when_no_lay_can_be_shorter():
    """With the longest piece alone in its length the first order is as good as ten thousand."""
    laid = parts(LONG)
    assert short_enough(laid) == 600.0
    assert ends(laid, lay_in_rows(laid, OPEN, 10_000, 1)) == 600.0


def test_more_orders_begin_with_the_same_ones():
    laid = parts(LONG, SHORT, TALL, WEDGE)
    lengths = [ends(laid, lay_in_rows(laid, OPEN, orders, 5)) for orders in (1, 4, 12, 40)]
    assert lengths == sorted(lengths, reverse=True)


def test_a_worn_out_order_is_noticed():
    """One piece on cloth with one direction has two calls only: beside the fold and far from it."""
    order, tried = (NextPart(0),), {(NextPart(0),), (NextPart(0, far=True),)}
    assert WORN_OUT > 0
    assert _fresh(order, tries=tried, turns=(False,), random=Random(1)) is None
