"""Pieces on the fold opened out: both halves in one closed line, the fold gone from it."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.geometry import Line, Point, Transform, self_crossings
from app.pattern.pieces import cut_piece, mirror_in_fold, unfolded_cutting, unfolded_stitching


def test_both_halves_are_there_and_the_fold_is_not(kit):
    piece = cut_piece(kit.skirt())
    for half, whole in ((piece.cutting, unfolded_cutting(piece)), (piece.stitching, unfolded_stitching(piece))):
        assert whole.closed and self_crossings(whole) == ()
        assert whole.signed_area == pytest.approx(2.0 * half.signed_area)
        box = whole.bounds
        assert (box.left, box.right) == pytest.approx((-half.bounds.right, half.bounds.right))
        upright = [s for s in whole.segments if isinstance(s, Line) and abs(s.start.x) + abs(s.end.x) < 1e-3]
        assert upright == []


def test_the_halves_mirror_each_other(kit):
    piece = cut_piece(kit.skirt())
    whole = kit.shape(unfolded_cutting(piece))
    mirrored = shapely.affinity.scale(whole, -1.0, 1.0, origin=(0.0, 0.0))
    assert whole.symmetric_difference(mirrored).area < 0.01


def test_a_piece_without_a_fold_is_left_as_it_is(kit):
    piece = cut_piece(kit.bodice())
    assert unfolded_cutting(piece) is piece.cutting
    assert unfolded_stitching(piece) is piece.stitching
    with pytest.raises(ValueError, match="no fold edge"):
        mirror_in_fold(piece)


@settings(max_examples=25, deadline=None)
@given(turn=st.floats(0.0, 2.0 * pi), dx=st.floats(-900.0, 900.0))
def test_the_fold_may_lie_anywhere(kit, turn, dx):
    move = Transform.turn(turn, Point(0.0, 0.0)).then(Transform.move(dx, 55.0))
    items = [
        replace(i, tip=move.apply(i.tip)) if hasattr(i, "tip") else replace(i, path=i.path.transformed(move))
        for i in kit.skirt().items
    ]
    piece = cut_piece(kit.spec(*items))
    whole = unfolded_cutting(piece)
    assert whole.closed
    assert whole.signed_area == pytest.approx(2.0 * piece.cutting.signed_area)


def test_the_mirror_sends_a_half_onto_the_other(kit):
    piece = cut_piece(kit.skirt())
    there = piece.cutting.transformed(mirror_in_fold(piece))
    assert there.bounds.right == pytest.approx(0.0, abs=1e-6)
    assert there.bounds.left == pytest.approx(-piece.cutting.bounds.right)
