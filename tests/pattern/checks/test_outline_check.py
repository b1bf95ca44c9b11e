"""The outline check hears outlines that cross, run the wrong way, bend on the fold, crumble or kink."""

from __future__ import annotations

from dataclasses import replace
from math import radians

import pytest

from app.pattern.checks import run_checks
from app.pattern.geometry import Path, Point, curve
from app.pattern.pieces.model import Allowance, Edge
from app.pattern.problem import Severity


def path(*points):
    return Path.through(*(Point(*p) for p in points))


def test_a_clockwise_outline_is_heard(garment, bench):
    frill = garment.piece("frill")
    assert bench.codes(bench.with_piece(garment, "frill", stitching=frill.stitching.reversed())) == {
        "checks.outline-clockwise"
    }


def test_an_open_outline_is_heard(garment, bench):
    frill = garment.piece("frill")
    opened = Path(frill.stitching.segments[:-1])
    assert bench.codes(bench.with_piece(garment, "frill", stitching=opened)) == {"checks.outline-open"}


def test_an_outline_that_crosses_itself_is_heard_alone_with_its_place(garment, bench):
    crossed = path((0, 0), (100, 100), (100, 0), (0, 100), (0, 0))
    broken = replace(bench.with_piece(garment, "frill", stitching=crossed, marks=()))
    problem = next(p for p in run_checks(broken) if p.code == "checks.outline-crosses")
    assert bench.codes(broken) == {"checks.outline-crosses"}
    assert problem.where.at == pytest.approx((50.0, 50.0), abs=0.01)
    assert "50.0, 50.0 mm" in problem.message


def test_a_bent_fold_is_heard(garment, bench):
    frill = garment.piece("frill")
    bent = path((0, 100), (2, 50), (0, 0))
    edges = tuple(replace(e, path=bent) if e.fold else e for e in frill.edges)
    found = run_checks(bench.with_piece(garment, "frill", edges=edges))
    assert [p.code for p in found] == ["checks.fold-bent"]
    assert "2 mm" in found[0].message


def test_a_fold_drawn_in_two_straight_lines_passes(garment, bench):
    frill = garment.piece("frill")
    edges = tuple(replace(e, path=path((0, 100), (0, 40), (0, 0))) if e.fold else e for e in frill.edges)
    assert bench.codes(bench.with_piece(garment, "frill", edges=edges)) == set()


def test_a_crumb_of_an_edge_is_heard(garment, bench):
    frill = garment.piece("frill")
    crumb = Edge("crumb", path((0, 0), (0.5, 0)), Allowance(0.0))
    assert bench.codes(bench.with_piece(garment, "frill", edges=(*frill.edges, crumb))) == {"checks.short-edge"}


def kinked(garment, bench, turn):
    """The bodice front with its neck in two lines that meet at an angle."""
    spec = bench.bodice("front", 60.0)
    old = next(i for i in spec.items if i.name == "neck").path
    middle = old.point_at(old.length / 2.0)
    way = old.tangent_at(old.length / 2.0)
    heading = Point(0.0, 0.0).angle_to(way)
    first = curve(old.start, middle, 0.0, heading)
    second = curve(middle, old.end, heading + radians(turn), Point(0.0, 0.0).angle_to(old.tangent_at(old.length)))
    return bench.with_recut(garment, bench.with_edge(spec, "neck", path=first.joined(second)))


@pytest.mark.parametrize("turn", [-30.0, -10.0, 10.0, 30.0])
def test_a_slight_corner_inside_a_curve_is_a_warning(garment, bench, turn):
    found = run_checks(kinked(garment, bench, turn))
    assert [p.code for p in found] == ["checks.kink"]
    assert found[0].severity is Severity.WARNING
    assert f"{abs(turn):.0f}°" in found[0].message


@pytest.mark.parametrize("turn", [0.0, 3.0, -5.0])
def test_a_smooth_enough_curve_passes(garment, bench, turn):
    assert bench.codes(kinked(garment, bench, turn)) == set()


def test_a_bold_corner_inside_an_edge_is_a_design(garment, bench):
    spec = bench.bodice("front", 60.0)
    square = path((0, -60), (70, -60), (70, 22))
    spec = bench.with_edge(spec, "neck", path=square)
    assert "checks.kink" not in bench.codes(bench.with_recut(garment, spec))
