"""A piece turned over holds like the piece itself: same lengths, same seams, outlines anticlockwise."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.checks import run_checks
from app.pattern.geometry import Point
from app.pattern.pieces import cut_piece, mirrored
from app.pattern.pieces.measure import edge_length, width_at
from app.pattern.pieces.mirror import mirror_in_fold
from app.pattern.pieces.model import Cut, EdgeRun, Fabric, Mark, MarkKind, Notch, Pattern, Seam

UPRIGHT = (Point(0.0, 0.0), Point(0.0, 1.0))


@pytest.fixture(scope="module")
def skirt(kit):
    marks = (Mark(MarkKind.LENGTHEN, kit.path((0.0, 300.0), (200.0, 300.0)), Point(0.0, 300.0)),)
    spec = replace(kit.skirt(), name="skirt", cuts=(Cut("main", 1, on_fold=True),), marks=marks)
    return cut_piece(replace(spec, notches=(Notch("side", 150.0, seam=0),)))


def test_outlines_stay_anticlockwise_and_as_large(skirt):
    over = mirrored(skirt, *UPRIGHT)
    for mine, theirs in ((over.stitching, skirt.stitching), (over.cutting, skirt.cutting)):
        assert mine.closed
        assert mine.signed_area == pytest.approx(theirs.signed_area)
        assert mine.bounds.left == pytest.approx(-theirs.bounds.right)


def test_edges_are_drawn_as_before_and_follow_the_outline_the_other_way(skirt):
    over = mirrored(skirt, *UPRIGHT)
    for edge in skirt.edges:
        twin = over.edge(edge.name)
        assert twin.path.start == pytest.approx((-edge.path.start.x, edge.path.start.y))
        assert twin.with_outline is not edge.with_outline
        assert edge_length(over, edge.name) == pytest.approx(edge.path.length)


def test_darts_keep_their_place_between_the_same_edges(skirt):
    over = mirrored(skirt, *UPRIGHT)
    dart, twin = skirt.darts[0], over.darts[0]
    names = [e.name for e in over.edges]
    mouth = over.mouths[0]
    assert {names[mouth], names[(mouth + 1) % len(names)]} == {"waist_middle", "waist_side"}
    assert (twin.cap.start, twin.cap.end) == (twin.a, twin.b)
    assert twin.a == pytest.approx((-dart.b.x, dart.b.y))
    assert twin.pressed_to != dart.pressed_to, "towards the same edge"
    assert twin.intake == pytest.approx(dart.intake)


@pytest.mark.parametrize("y", [100.0, 500.0, 590.0])
def test_widths_are_the_same(skirt, y):
    assert width_at(mirrored(skirt, *UPRIGHT), y) == pytest.approx(width_at(skirt, y))


def test_a_pair_sewn_together_passes_every_check(skirt):
    """The piece and its mirror image are a pattern that holds: notches match, edges walk, the hem runs on."""
    skirt = replace(skirt, edges=tuple(replace(edge, finish="" if edge.fold else "turned in") for edge in skirt.edges))
    twin = replace(mirrored(skirt, *UPRIGHT), name="twin")
    seam = Seam((EdgeRun("skirt", "side"),), (EdgeRun("twin", "side"),))
    found = run_checks(Pattern("t", (skirt, twin), (seam,), (), (Fabric("main", "Cloth", 1400.0),)))
    assert {problem.code for problem in found} == {"checks.no-girth"}, "two pieces alone state no girth"


@settings(max_examples=25, deadline=None)
@given(x=st.floats(-300.0, 300.0), y=st.floats(-300.0, 300.0), angle=st.floats(0.0, 3.1))
def test_turned_over_twice_is_the_piece_again(skirt, x, y, angle):
    a = Point(x, y)
    b = a.polar(10.0, angle)
    again = mirrored(mirrored(skirt, a, b), a, b)
    assert [e.name for e in again.edges] == [e.name for e in skirt.edges]
    assert again.mouths == skirt.mouths
    assert again.darts[0].tip == pytest.approx(skirt.darts[0].tip, abs=1e-6)
    assert again.grain.start == pytest.approx(skirt.grain.start, abs=1e-6)
    assert again.marks[0].at == pytest.approx(skirt.marks[0].at, abs=1e-6)
    assert again.cutting.point_at(500.0) == pytest.approx(skirt.cutting.point_at(500.0), abs=1e-6)


def test_the_mirror_in_the_fold_sends_a_half_onto_the_other(kit):
    piece = cut_piece(kit.skirt())
    there = piece.cutting.transformed(mirror_in_fold(piece))
    assert there.bounds.right == pytest.approx(0.0, abs=1e-6)
    assert there.bounds.left == pytest.approx(-piece.cutting.bounds.right)


def test_a_piece_without_a_fold_has_no_mirror_in_it(kit):
    with pytest.raises(ValueError, match="no fold edge"):
        mirror_in_fold(cut_piece(kit.bodice()))
