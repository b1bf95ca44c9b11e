"""The allowance check hears cutting lines that cross, leave the stitching line out or miss a width, and marks."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.pattern.checks import run_checks
from app.pattern.geometry import Path, Point, Transform
from app.pattern.pieces import PieceSpec
from app.pattern.pieces.model import Allowance, Cut, Edge, Grain, Mark, MarkKind


def path(*points):
    return Path.through(*(Point(*p) for p in points))


def test_a_cutting_line_that_crosses_itself_is_heard(garment, bench):
    crossed = path((-50, -50), (400, 200), (400, -50), (-50, 200), (-50, -50))
    assert "checks.cutting-crosses" in bench.codes(bench.with_piece(garment, "frill", cutting=crossed))


def test_a_cutting_line_moved_aside_is_heard(garment, bench):
    frill = garment.piece("frill")
    moved = frill.cutting.transformed(Transform.move(5.0, 0.0))
    assert bench.codes(bench.with_piece(garment, "frill", cutting=moved)) == {
        "checks.stitching-outside",
        "checks.allowance-width",
    }


def test_a_declared_width_that_was_not_cut_is_heard_with_both_figures(garment, bench):
    back = garment.piece("back")
    edges = tuple(replace(e, allowance=Allowance(8.0)) if e.name == "neck" else e for e in back.edges)
    found = run_checks(bench.with_piece(garment, "back", edges=edges))
    assert [p.code for p in found] == ["checks.allowance-width"]
    assert "8 mm" in found[0].message and "6 mm" in found[0].message
    assert (found[0].where.piece, found[0].where.edge) == ("back", "neck")


@pytest.mark.parametrize("edge", ["neck", "shoulder", "armhole", "side", "hem"])
def test_a_quarter_of_a_millimetre_is_heard_on_every_edge(garment, bench, edge):
    back = garment.piece("back")
    width = back.edge(edge).allowance.width + 0.25
    edges = tuple(replace(e, allowance=Allowance(width)) if e.name == edge else e for e in back.edges)
    assert bench.codes_of_seams(bench.with_piece(garment, "back", edges=edges)) == {"checks.allowance-width"}


def test_a_slot_too_narrow_for_its_allowance_is_heard(bench, garment):
    slot = path((0, 200), (95, 200), (95, 20), (105, 20), (105, 200), (200, 200))
    spec = PieceSpec(
        "slotted",
        "Slotted",
        (
            Edge("bottom", path((0, 0), (200, 0)), Allowance(10.0)),
            Edge("right", path((200, 0), (200, 200)), Allowance(10.0)),
            Edge("slot", slot, Allowance(10.0)),
            Edge("left", path((0, 200), (0, 0)), Allowance(10.0)),
        ),
        Grain(Point(50.0, 50.0), Point(50.0, 150.0)),
        (Cut("main", 1),),
    )
    alone = replace(garment, pieces=(bench.cut(spec),), seams=(), girths=())
    assert bench.codes(alone) & {"checks.cutting-crosses", "checks.allowance-width"}


def test_a_mark_over_the_cutting_line_is_heard(garment, bench):
    mark = Mark(MarkKind.LENGTHEN, path((0, 300), (400, 300)), Point(0.0, 300.0), "lengthen here")
    found = run_checks(bench.with_piece(garment, "skirt_front", marks=(mark,)))
    assert [p.code for p in found] == ["checks.mark-outside"]
    assert "lengthen here" in found[0].message


def test_a_point_mark_outside_is_heard_and_one_inside_is_not(garment, bench):
    outside = Mark(MarkKind.DRILL, None, Point(300.0, 300.0))
    inside = Mark(MarkKind.DRILL, None, Point(92.0, 490.0))
    assert bench.codes(bench.with_piece(garment, "skirt_front", marks=(outside,))) == {"checks.mark-outside"}
    assert bench.codes(bench.with_piece(garment, "skirt_front", marks=(inside,))) == set()


def test_a_cutting_line_that_does_not_close_is_heard(garment, bench):
    opened = Path(garment.piece("frill").cutting.segments[:-1])
    assert bench.codes(bench.with_piece(garment, "frill", cutting=opened)) == {"checks.cutting-open"}


def test_a_piece_on_the_fold_that_reaches_over_it_is_heard(garment, bench):
    """An opening that goes on in line with the fold has its allowance on the far side of it."""
    spec = bench.bodice("back", 5.0)
    spec = bench.with_edge(spec, "centre", path=path((0, -200), (0, -400)))
    opening = Edge("opening", path((0, -5), (0, -200)), Allowance(15.0), finish="turned in")
    recut = bench.with_recut(garment, replace(spec, items=(*spec.items, opening)))
    found = run_checks(recut)
    assert [p.code for p in found] == ["checks.over-fold"]
    assert "15 mm over it" in found[0].message
    assert (found[0].where.piece, found[0].where.edge) == ("back", "centre")
