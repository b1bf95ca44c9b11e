"""Clipping follows the curve: inward edges are clipped, outward ones notched, gentle ones left alone."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.geometry import Path, Point, arc_centre
from app.pattern.pieces.model import Allowance, Cut, Edge, EdgeRun, Grain, Pattern, Piece, Seam
from app.pattern.steps import clip_advice


def piece(path: Path, *, with_outline: bool = True) -> Piece:
    """A piece of which only the sewn edge matters here."""
    edge = Edge("curve", path, Allowance(10.0), with_outline=with_outline)
    grain = Grain(Point(0, 0), Point(0, 10))
    return Piece("collar", "Collar", (edge,), grain, (Cut("main", 1),), stitching=path, cutting=path)


def advice(path: Path, *, kind: str = "plain", with_outline: bool = True):
    seam = Seam((EdgeRun("collar", "curve"),), (EdgeRun("collar", "curve"),), kind=kind)
    return clip_advice(Pattern("", (piece(path, with_outline=with_outline),), (seam,), (), ()))


def arc(radius: float, turn: float) -> Path:
    """An arc that bends to the left of travel for a positive turn: outward on an anticlockwise outline."""
    start = 0.0 if turn > 0 else pi
    return arc_centre(Point(0, 0), radius, start, start + turn)


def test_an_edge_that_bends_outward_is_notched():
    (found,) = advice(arc(80.0, pi / 2))
    assert found.how == "notch"
    assert found.radius == pytest.approx(80.0, rel=0.02)


def test_an_edge_that_bends_inward_is_clipped():
    (found,) = advice(arc(80.0, -pi / 2))
    assert (found.how, found.where) == ("clip", "Collar (curve)")


def test_an_edge_drawn_against_the_outline_is_seen_from_the_piece():
    (found,) = advice(arc(80.0, pi / 2), with_outline=False)
    assert found.how == "clip"


def test_a_tight_curve_is_clipped_more_closely_than_a_gentle_one():
    assert advice(arc(60.0, -pi / 2))[0].spacing == 10.0
    assert advice(arc(200.0, -pi / 2))[0].spacing == 25.0


def test_a_straight_or_nearly_straight_seam_needs_nothing():
    assert advice(Path.through(Point(0, 0), Point(300, 0))) == ()
    assert advice(arc(900.0, pi / 3)) == ()
    assert advice(arc(80.0, pi / 12)) == ()


def test_fullness_that_is_eased_in_is_never_notched():
    assert advice(arc(80.0, pi / 2), kind="ease") == ()
    assert advice(arc(80.0, pi / 2), kind="gather") == ()


def test_an_s_shaped_edge_is_clipped_and_notched():
    inward = arc_centre(Point(160.0, 0.0), 80.0, pi, pi / 2)
    path = arc_centre(Point(0.0, 0.0), 80.0, -pi / 2, 0.0).joined(inward)
    assert [found.how for found in advice(path)] == ["clip", "notch"]


def test_the_neckline_and_the_armholes_of_a_tunic_are_clipped(tunic):
    found = clip_advice(tunic)
    assert [(clip.seam, clip.how) for clip in found] == [(1, "clip"), (3, "clip")]
    assert "Back (neck)" in found[0].where


def test_a_seam_with_fullness_is_clipped_at_its_tightest_part_only(tunic):
    neckline, armhole = clip_advice(tunic)
    assert (neckline.part, armhole.part) == ("whole", "tightest")


def test_a_tunic_without_curved_seams_gets_no_advice(tunic):
    assert clip_advice(replace(tunic, seams=(tunic.seams[0], tunic.seams[4]))) == ()


@given(st.floats(30.0, 280.0), st.floats(0.5, 3.0), st.booleans())
def test_the_radius_said_is_the_radius_of_the_arc(radius, turn, inward):
    (found,) = advice(arc(radius, -turn if inward else turn))
    assert found.how == ("clip" if inward else "notch")
    assert found.radius == pytest.approx(radius, rel=0.05)


def test_the_zigzag_of_a_tuck_on_the_paper_is_no_bend():
    """A straight seam that slopes to its tucks: mirrored over each fold on the paper, straight again when sewn."""
    zigzag = Path.through(Point(0, 0), Point(100, 40), Point(110, 36), Point(120, 40), Point(220, 80))
    flat = piece(zigzag)
    slope = Point(0, 0).distance(Point(100, 40))
    edge = replace(flat.edges[0], folds=((slope, zigzag.length - slope),))
    seam = Seam((EdgeRun("collar", "curve"),), (EdgeRun("collar", "curve"),))
    assert clip_advice(Pattern("", (replace(flat, edges=(edge,)),), (seam,), (), ())) == ()
    assert clip_advice(Pattern("", (flat,), (seam,), (), ())) != ()
