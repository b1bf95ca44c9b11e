"""Cut list, grain and finished size: each damage is heard by its own check alone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.pattern.checks import run_checks
from app.pattern.geometry import Point
from app.pattern.pieces.model import Cut, Fabric, Girth, Grain
from app.pattern.problem import Severity


@pytest.mark.parametrize(
    ("piece", "cuts", "code"),
    [
        ("frill", (), "checks.no-cuts"),
        ("frill", (Cut("lace", 1, on_fold=True),), "checks.cut-fabric"),
        ("frill", (Cut("main", 0, on_fold=True),), "checks.cut-count"),
        ("frill", (Cut("main", 2),), "checks.cut-fold"),
        ("sleeve", (Cut("main", 1, on_fold=True),), "checks.cut-fold"),
        ("sleeve", (Cut("main", 3, pair=True),), "checks.cut-pairs"),
    ],
)
def test_a_wrong_cut_is_heard(garment, bench, piece, cuts, code):
    assert bench.codes(bench.with_piece(garment, piece, cuts=cuts)) == {code}


def test_the_fabrics_that_there_are_stand_in_the_remedy(garment, bench):
    found = run_checks(bench.with_piece(garment, "sleeve", cuts=(Cut("lace", 2, pair=True),)))
    assert "main" in found[0].fix and "lace" in found[0].message


def test_a_second_cloth_is_no_problem(garment, bench):
    lined = replace(garment, fabrics=(*garment.fabrics, Fabric("lining", "Lining", 1400.0)))
    cuts = (Cut("main", 2, pair=True), Cut("lining", 2, pair=True))
    assert bench.codes(bench.with_piece(lined, "sleeve", cuts=cuts)) == set()


def test_two_fold_edges_are_heard(garment, bench):
    frill = garment.piece("frill")
    edges = tuple(replace(e, fold=e.name in ("centre", "side")) for e in frill.edges)
    assert "checks.fold-edges" in bench.codes(bench.with_piece(garment, "frill", edges=edges))


def test_a_grain_line_of_no_length_is_heard(garment, bench):
    short = Grain(Point(60.0, 100.0), Point(60.0, 104.0))
    found = run_checks(bench.with_piece(garment, "skirt_front", grain=short))
    assert [p.code for p in found] == ["checks.grain-short"]
    assert "4 mm" in found[0].message


def test_a_grain_line_outside_the_piece_is_heard(garment, bench):
    outside = Grain(Point(60.0, 100.0), Point(60.0, 700.0))
    assert bench.codes(bench.with_piece(garment, "skirt_front", grain=outside)) == {"checks.grain-outside"}


def test_a_grain_line_that_crosses_a_hollow_is_heard(garment, bench):
    across = Grain(Point(225.0, -195.0), Point(185.0, -25.0))
    assert bench.codes(bench.with_piece(garment, "back", grain=across)) == {"checks.grain-outside", "checks.grain-fold"}


def test_a_grain_line_on_the_fold_passes(garment, bench):
    on_fold = Grain(Point(0.0, 100.0), Point(0.0, 500.0))
    assert bench.codes(bench.with_piece(garment, "skirt_front", grain=on_fold)) == set()


def with_girth(garment, stretch=0.0, **changes):
    fabrics = (replace(garment.fabrics[0], stretch=stretch),)
    return replace(garment, girths=(replace(garment.girths[0], **changes),), fabrics=fabrics)


@pytest.mark.parametrize(
    ("off", "codes"), [(0.9, set()), (-0.9, set()), (1.2, {"checks.finished-size"}), (-6.0, {"checks.finished-size"})]
)
def test_a_girth_is_heard_beyond_one_millimetre(garment, bench, off, codes):
    assert bench.codes(with_girth(garment, measured=garment.girths[0].measured + off)) == codes


def test_the_finished_size_names_all_its_figures(garment):
    girth = Girth("hip", "Hip", 1012.0, 980.0, 40.0, "hip_girth")
    message = next(iter(run_checks(replace(garment, girths=(girth,))))).message
    assert all(figure in message for figure in ("Hip", "1012 mm", "980 mm", "40 mm", "1020 mm", "8 mm too narrow"))


def test_negative_ease_needs_cloth_that_stretches(garment, bench):
    tight = {"measured": 950.0, "body": 1000.0, "ease": -50.0}
    assert bench.codes(with_girth(garment, **tight)) == {"checks.ease-minimum"}
    assert bench.codes(with_girth(garment, stretch=0.03, **tight)) == {"checks.ease-minimum"}
    assert bench.codes(with_girth(garment, stretch=0.2, **tight)) == set()


def test_a_girth_with_no_body_under_it_has_no_least_ease(garment, bench):
    assert bench.codes(with_girth(garment, measured=480.0, body=0.0, ease=480.0, measure="")) == set()


def test_findings_on_size_are_errors(garment):
    found = run_checks(with_girth(garment, measured=1.0))
    assert {p.severity for p in found} == {Severity.ERROR}
