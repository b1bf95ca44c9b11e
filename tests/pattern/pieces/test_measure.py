"""Lengths and widths as a tape reads them: seams on the stitching line, widths with the darts closed."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.geometry import Arc, Path, Point
from app.pattern.pieces import DartSpec, cut_piece
from app.pattern.pieces.measure import edge_length, edge_passes, run_length, seam_lengths, width_at
from app.pattern.pieces.model import EdgeRun, Pattern, Seam


@pytest.fixture(scope="module")
def pieces(kit):
    return {"skirt": cut_piece(replace(kit.skirt(), name="skirt")), "bodice": cut_piece(kit.bodice())}


def test_an_edge_is_as_long_as_it_was_drawn(pieces):
    assert edge_length(pieces["skirt"], "waist_middle") == pytest.approx(80.0)
    assert edge_length(pieces["bodice"], "shoulder") == pytest.approx((120.0**2 + 42.0**2) ** 0.5)


def test_a_dart_is_not_counted_in_the_seam_it_lies_on(pieces):
    waist = [EdgeRun("skirt", "waist_middle"), EdgeRun("skirt", "waist_side")]
    sewn = run_length(pieces, waist)
    across = pieces["skirt"].darts[0].intake
    ends = Point(0.0, 600.0).distance(Point(200.0, 606.0))
    assert sewn == pytest.approx(ends - across, abs=1.5)


def test_seams_are_measured_in_a_pattern_or_in_a_mapping(pieces):
    seam = Seam((EdgeRun("skirt", "side"),), (EdgeRun("bodice", "side"), EdgeRun("bodice", "shoulder", times=2)))
    pattern = Pattern("t", tuple(pieces.values()), (seam,), (), ())
    expected = (edge_length(pieces["skirt"], "side"), edge_length(pieces["bodice"], "side") + 2.0 * 127.1377)
    assert seam_lengths(pieces, seam) == seam_lengths(pattern, seam) == pytest.approx(expected, abs=1e-3)


def test_an_edge_named_wrongly_is_our_own_mistake(pieces):
    with pytest.raises(KeyError):
        edge_length(pieces["skirt"], "sleeve")
    with pytest.raises(KeyError):
        run_length(pieces, [EdgeRun("coat", "side")])


@given(along=st.floats(0.0, 80.0), backwards=st.booleans())
def test_positions_along_a_walk_and_along_an_edge_are_each_others_inverse(pieces, along, backwards):
    runs = [EdgeRun("bodice", "side"), EdgeRun("skirt", "waist_middle", backwards)]
    last = list(edge_passes(pieces, runs))[-1]
    assert last.along_edge(last.position(along)) == pytest.approx(along)
    assert last.before == pytest.approx(edge_length(pieces["bodice"], "side"))
    expected = 80.0 - along if backwards else along
    assert last.position(along) - last.before == pytest.approx(expected)


def test_an_edge_walked_twice_is_walked_there_and_back(pieces):
    there, back = edge_passes(pieces, [EdgeRun("skirt", "waist_middle", times=2)])
    assert (there.backwards, back.backwards, back.before) == (False, True, pytest.approx(80.0))


@pytest.mark.parametrize("y", [100.0, 300.0, 479.0])
def test_below_its_tip_a_dart_takes_nothing_from_the_width(kit, pieces, y):
    whole = kit.shape(pieces["skirt"].stitching)
    assert width_at(pieces["skirt"], y) == pytest.approx(_across(whole, y), abs=0.02)


@pytest.mark.parametrize(("y", "taken"), [(480.0, 0.0), (540.0, 12.0), (590.0, 22.0), (599.0, 23.8)])
def test_between_its_legs_a_dart_is_closed(kit, pieces, y, taken):
    whole = kit.shape(pieces["skirt"].stitching)
    assert width_at(pieces["skirt"], y) == pytest.approx(_across(whole, y) - taken, abs=0.02)


def _across(shape, y):
    return shapely.LineString([(-1000.0, y), (1000.0, y)]).intersection(shape).length


def test_widths_are_read_off_the_true_curve(kit):
    disc = cut_piece(kit.spec(kit.edge("ring", Path((Arc(Point(0.0, 0.0), 100.0, 0.0, 2.0 * pi),)))))
    assert width_at(disc, 60.0) == pytest.approx(160.0, abs=1e-6)
    assert width_at(disc, 101.0) == 0.0


def test_a_hollow_piece_is_measured_in_each_of_its_limbs(kit):
    fork = (
        (0.0, 0.0),
        (100.0, 0.0),
        (100.0, 100.0),
        (70.0, 100.0),
        (70.0, 40.0),
        (40.0, 40.0),
        (40.0, 100.0),
        (0.0, 100.0),
    )
    piece = cut_piece(kit.spec(*kit.polygon_edges(*fork)))
    assert width_at(piece, 80.0) == pytest.approx(70.0)
    assert width_at(piece, 20.0) == pytest.approx(100.0)


def test_a_dart_that_lies_across_takes_nothing_from_a_width(kit):
    items = (
        kit.edge("hem", kit.path((0.0, 0.0), (200.0, 0.0))),
        kit.edge("side_low", kit.path((200.0, 0.0), (200.0, 90.0))),
        DartSpec("bust", Point(120.0, 100.0)),
        kit.edge("side_high", kit.path((200.0, 110.0), (200.0, 200.0))),
        kit.edge("top", kit.path((200.0, 200.0), (0.0, 200.0))),
        kit.edge("centre", kit.path((0.0, 200.0), (0.0, 0.0))),
    )
    piece = cut_piece(kit.spec(*items))
    assert width_at(piece, 95.0) == pytest.approx(200.0, abs=2.0)
    assert width_at(piece, 50.0) == pytest.approx(200.0)
