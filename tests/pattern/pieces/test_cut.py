"""Cutting a piece: one door that fills the whole piece, or tells everything that is wrong with it."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest

from app.pattern.geometry import Arc, Path, Point, self_crossings
from app.pattern.pieces import cut_piece
from app.pattern.pieces.model import Allowance, Grain, Mark, MarkKind, Notch, Piece
from app.pattern.problem import Place, Span


def test_a_cut_piece_has_everything_filled_in(kit):
    spec = replace(
        kit.skirt(),
        note="Cut on the straight.",
        span=Span("a.draft", 9, 1, 6),
        marks=(Mark(MarkKind.DRILL, None, Point(92.0, 490.0)),),
        notches=(Notch("side", 200.0),),
    )
    piece = cut_piece(spec)
    assert isinstance(piece, Piece)
    assert [e.name for e in piece.edges] == ["centre", "hem", "side", "waist_side", "waist_middle"]
    assert piece.mouths == (3,), "the dart follows the waist's side part, going anticlockwise"
    assert piece.darts[0].intake == pytest.approx(24.0)
    assert piece.stitching.closed and piece.cutting.closed
    assert piece.cutting.signed_area > piece.stitching.signed_area > 0.0
    assert (piece.note, piece.span, piece.marks, piece.notches) == (spec.note, spec.span, spec.marks, spec.notches)
    assert piece.fold_edge is not None and piece.fold_edge.name == "centre"


def test_the_stitching_line_takes_in_caps_and_leaves_out_legs(kit):
    piece = cut_piece(kit.skirt())
    edges = sum(e.path.length for e in piece.edges)
    assert piece.stitching.length == pytest.approx(edges + piece.darts[0].cap.length)


def test_the_grain_line_starts_at_its_lower_end(kit):
    upside_down = Grain(Point(60.0, 400.0), Point(60.0, 100.0))
    piece = cut_piece(replace(kit.skirt(), grain=upside_down))
    assert piece.grain == Grain(Point(60.0, 100.0), Point(60.0, 400.0))


@pytest.mark.parametrize(
    ("notch", "code", "words"),
    [
        (Notch("sleeve", 10.0), "pieces.notch-edge", "centre, hem, side"),
        (Notch("centre", 700.0), "pieces.notch-off-edge", "600 mm"),
        (Notch("centre", -1.0), "pieces.notch-off-edge", "600 mm"),
    ],
)
def test_a_notch_off_the_piece_is_told(kit, notch, code, words):
    found = cut_piece(replace(kit.skirt(), notches=(notch,))).problems
    assert [p.code for p in found] == [code]
    assert words in found[0].fix
    assert found[0].where == Place("piece", notch.edge)


def test_an_allowance_below_nothing_is_told_along_with_other_faults(kit):
    items = list(kit.skirt().items)
    items[3] = replace(items[3], allowance=Allowance(-5.0))
    items[4] = replace(items[4], path=kit.path((240.0, 9.0), (0.0, 0.0)))
    found = cut_piece(replace(kit.skirt(), items=tuple(items))).problems
    assert [p.code for p in found] == ["pieces.allowance-negative", "pieces.outline-gap"]
    assert "-5 mm" in found[0].message


def pocket(kit, radius, width):
    """A rectangle with a half-round hollow in its top edge."""
    left, right = 68.0 - radius, 68.0 + radius
    hollow = Path((Arc(Point(68.0, 100.0), radius, 0.0, -pi),))
    lines = {
        "bottom": kit.path((0.0, 0.0), (136.0, 0.0)),
        "right": kit.path((136.0, 0.0), (136.0, 100.0)),
        "after": kit.path((136.0, 100.0), (right, 100.0)),
        "hollow": hollow,
        "before": kit.path((left, 100.0), (0.0, 100.0)),
        "left": kit.path((0.0, 100.0), (0.0, 0.0)),
    }
    return kit.spec(*(kit.edge(name, line, width) for name, line in lines.items()))


def test_a_bend_too_tight_for_its_allowance_is_told_by_its_edge(kit):
    found = cut_piece(pocket(kit, 8.0, 10.0)).problems
    assert [p.code for p in found] == ["pieces.cutting"]
    assert "hollow bends too tightly for an allowance of 10 mm" in found[0].message
    assert "narrower" in found[0].fix
    assert found[0].where == Place("piece", "hollow")


@pytest.mark.parametrize(("radius", "width"), [(12.0, 10.0), (8.0, 4.0), (30.0, 10.0)])
def test_a_bend_wider_than_its_allowance_is_cut_round_its_hollow(kit, radius, width):
    piece = cut_piece(pocket(kit, radius, width))
    assert isinstance(piece, Piece)
    arcs = [s.radius for s in piece.cutting.segments if isinstance(s, Arc)]
    assert arcs == [pytest.approx(radius - width)]
    assert self_crossings(piece.cutting) == ()
