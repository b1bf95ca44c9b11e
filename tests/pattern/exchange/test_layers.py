"""Which layer each line of a piece is written on."""

from dataclasses import replace

import pytest

from app.pattern.exchange import Layer, StyleInfo
from app.pattern.exchange.contents import LineKind, handed_pieces
from app.pattern.exchange.layers import layer_of
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Mark, MarkKind, Pattern
from tests.pattern.drawing.hand_pieces import bodice_front, tab


def lines_of(piece):
    (found,) = handed_pieces(Pattern("One", (piece,), (), (), ()), StyleInfo("One"))
    return found.lines


def test_layers_are_named_by_their_numbers():
    assert [int(layer) for layer in Layer] == [1, 2, 3, 4, 6, 7, 8, 13, 14, 15]


@pytest.mark.parametrize(
    ("kind", "layer"),
    [
        (LineKind.STITCHING, Layer.SEW),
        (LineKind.FOLD, Layer.MIRROR),
        (LineKind.GRAIN, Layer.GRAIN),
        (LineKind.NOTCHES, Layer.INTERNAL),
    ],
)
def test_lines_of_one_meaning_lie_on_one_layer(kind, layer):
    assert {layer_of(line) for line in lines_of(bodice_front()) if line.kind is kind} == {layer}


def test_a_darts_legs_and_cap_are_sewn_and_its_fold_is_drawn():
    layers = {
        dict(line.facts)["part"]: layer_of(line) for line in lines_of(bodice_front()) if line.kind is LineKind.DARTS
    }
    assert layers == {"cap": Layer.SEW, "leg a": Layer.SEW, "leg b": Layer.SEW, "fold": Layer.INTERNAL}


@pytest.mark.parametrize("kind", [kind for kind in MarkKind if kind is not MarkKind.DRILL])
def test_only_rows_of_stitching_are_sewn_all_other_marks_are_drawn(kind):
    mark = Mark(kind, Path.through(Point(2.0, 10.0), Point(12.0, 10.0)), Point(7.0, 10.0))
    (line,) = (line for line in lines_of(replace(tab(), marks=(mark,))) if line.kind is LineKind.MARKS)
    assert layer_of(line) is (Layer.SEW if kind is MarkKind.STITCH else Layer.INTERNAL)


def test_no_mark_is_ever_cut():
    assert Layer.BOUNDARY not in {
        layer_of(line) for line in lines_of(bodice_front()) if line.kind is not LineKind.CUTTING
    }
