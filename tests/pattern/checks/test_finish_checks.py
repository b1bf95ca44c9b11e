"""Finishes, hems, cloth widths, children's cords and counted darts: each damage is heard by its own check alone."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.checks import fits_cloth, hem_fullness, run_checks
from app.pattern.checks.table import lay_on_table
from app.pattern.geometry import Path, Point, arc_centre
from app.pattern.pieces.model import Allowance, CornerCut, Edge, EdgeRun, Fabric, Grain, Notion, Seam
from app.pattern.problem import Severity

TURNED = CornerCut.TURNED_BACK


def with_allowance(garment, bench, piece, edge, allowance):
    """The garment with one edge's allowance written otherwise, the piece cut anew."""
    specs = {
        "skirt_front": bench.skirt("skirt_front"),
        "front": bench.bodice("front", 60.0),
        "back": bench.bodice("back", 5.0),
    }
    return bench.with_recut(garment, bench.with_edge(specs[piece], edge, allowance=allowance))


# ---- finishes


def test_a_sewn_edge_needs_an_allowance_that_holds(garment, bench):
    assert bench.codes(with_allowance(garment, bench, "front", "shoulder", Allowance(4.0))) == {"checks.seam-narrow"}
    just_enough = with_allowance(garment, bench, "front", "shoulder", Allowance(5.0))
    assert bench.codes(with_allowance(just_enough, bench, "back", "shoulder", Allowance(5.0))) == set()


def test_edges_sewn_together_have_like_allowances(garment, bench):
    (found,) = run_checks(with_allowance(garment, bench, "front", "shoulder", Allowance(15.0)))
    assert (found.code, found.severity) == ("checks.allowance-unlike", Severity.WARNING)
    assert "15 mm" in found.message and "10 mm" in found.message


def test_what_is_sewn_to_a_hem_that_is_turned_up_first_may_have_an_allowance_of_its_own(garment):
    """The frill of the garment, 1 cm, hangs from a hem of 4 cm."""
    assert garment.piece("skirt_front").edge("hem").allowance.width == 40.0
    assert run_checks(garment) == ()


def test_an_edge_that_is_not_sewn_may_have_none(garment, bench):
    raw = with_allowance(garment, bench, "front", "neck", Allowance(0.0))
    assert "checks.seam-narrow" not in bench.codes(raw)


def test_a_hem_of_a_few_millimetres_cannot_be_turned(garment, bench):
    narrow = with_allowance(garment, bench, "front", "hem", Allowance(4.0, TURNED))
    found = run_checks(narrow)
    assert [(p.code, p.severity) for p in found] == [("checks.hem-narrow", Severity.WARNING)]
    assert (found[0].where.piece, found[0].where.edge) == ("front", "hem")
    assert "4 mm" in found[0].message and "5 mm" in found[0].fix


def zipped(garment, width, title="Concealed zip"):
    """The garment with a zip and every seam of one edge to one edge cut with that allowance."""
    pieces = tuple(
        replace(p, edges=tuple(e if e.fold else replace(e, allowance=Allowance(width)) for e in p.edges))
        for p in garment.pieces
    )
    return replace(garment, pieces=pieces, notions=(Notion("closing", title, 1.0),))


def zip_codes(pattern):
    return {p.code for p in run_checks(pattern) if p.code == "checks.zip-narrow"}


def test_a_zip_asks_for_one_seam_as_wide_as_half_its_tape(garment, bench):
    assert zip_codes(zipped(garment, 11.0)) == {"checks.zip-narrow"}
    assert zip_codes(zipped(garment, 12.0)) == set()
    assert zip_codes(zipped(garment, 11.0, "Buttons")) == set()
    notions = (Notion("zip", "Zip, 20 cm", 1.0),)
    assert bench.codes(replace(garment, notions=notions)) == set(), "the side seams have 15 mm"


# ---- hems


def hem_edge(radius, width, sweep=pi / 2.0):
    """A hem that is a quarter of a circle, outwards when the radius is positive."""
    path = arc_centre(Point(0.0, 0.0), abs(radius), 0.0, sweep)
    path = path if radius > 0 else path.reversed()
    return Edge("hem", path, Allowance(width, TURNED))


@given(st.floats(200.0, 2000.0), st.floats(5.0, 80.0))
def test_raw_edge_and_landing_line_are_arcs_of_their_own_radius(radius, width):
    """Outside check by plane geometry: parallels of an arc are arcs of radius r + w and r - w."""
    raw, landing = hem_fullness.raw_and_landing(hem_edge(radius, width))
    assert raw == pytest.approx((radius + width) * pi / 2.0, rel=1e-6)
    assert landing == pytest.approx((radius - width) * pi / 2.0, rel=1e-6)


@given(st.floats(200.0, 2000.0), st.floats(5.0, 80.0))
def test_a_hollow_hem_is_short_by_as_much_as_a_full_one_is_long(radius, width):
    full, hollow = (hem_fullness.raw_and_landing(hem_edge(sign * radius, width)) for sign in (1, -1))
    assert full == pytest.approx(hollow[::-1], rel=1e-6)


def test_an_edge_drawn_against_the_outline_is_read_the_same():
    edge = hem_edge(500.0, 30.0)
    other = replace(edge, path=edge.path.reversed(), with_outline=False)
    assert hem_fullness.raw_and_landing(other) == pytest.approx(hem_fullness.raw_and_landing(edge))


def hemmed(garment, bench, edge, stretch=0.0):
    frill = garment.piece("frill")
    edges = tuple(edge if e.name == "hem" else e for e in frill.edges)
    pattern = replace(garment, fabrics=(Fabric("main", "Cloth", 1400.0, stretch=stretch),))
    return bench.with_piece(pattern, "frill", edges=edges)


def hem_codes(pattern):
    return [p for p in run_checks(pattern) if p.code == "checks.hem-fullness"]


def test_a_deep_hem_on_a_circle_is_too_full_and_a_narrow_one_lies_flat(garment, bench):
    found = hem_codes(hemmed(garment, bench, hem_edge(500.0, 40.0)))
    assert [p.severity for p in found] == [Severity.WARNING]
    assert "848.2 mm" in found[0].message and "722.6 mm" in found[0].message and "17.4%" in found[0].message
    assert not hem_codes(hemmed(garment, bench, hem_edge(500.0, 20.0)))


def test_a_hollow_hem_does_not_reach_unless_the_cloth_gives(garment, bench):
    found = hem_codes(hemmed(garment, bench, hem_edge(-500.0, 20.0)))
    assert "too short to reach" in found[0].message
    assert not hem_codes(hemmed(garment, bench, hem_edge(-500.0, 20.0), stretch=0.3))


def test_a_hem_that_is_not_turned_back_is_not_a_turned_hem(garment, bench):
    edge = replace(hem_edge(500.0, 40.0), allowance=Allowance(40.0))
    assert not hem_codes(hemmed(garment, bench, edge))


# ---- cloth widths


def laid(garment, name):
    return next(one for one in lay_on_table(garment).pieces if one.piece.name == name)


def test_a_piece_on_the_fold_is_opened_out_and_measured_square_to_its_grain(garment):
    skirt = garment.piece("skirt_front")
    widest = max(p.x for p in skirt.cutting.flatten())
    assert fits_cloth.width_across(laid(garment, "skirt_front")) == pytest.approx(2 * widest, abs=0.1)


def test_turning_the_grain_turns_the_width(garment, bench):
    sleeve = laid(garment, "sleeve")
    box = sleeve.piece.cutting.bounds
    assert fits_cloth.width_across(sleeve) == pytest.approx(box.right - box.left, abs=0.1)
    across = bench.with_piece(garment, "sleeve", grain=Grain(Point(-80.0, -50.0), Point(80.0, -50.0)))
    assert fits_cloth.width_across(laid(across, "sleeve")) == pytest.approx(box.top - box.bottom, abs=0.1)


def test_a_piece_wider_than_its_cloth_is_heard(garment, bench):
    narrow = replace(garment, fabrics=(Fabric("main", "Ribbon cloth", 400.0),))
    found = run_checks(narrow)
    assert {p.code for p in found} == {"checks.cloth-width"}
    assert all(p.severity is Severity.WARNING and "400 mm" in p.message and p.where.at for p in found)
    assert bench.codes(replace(garment, fabrics=(Fabric("main", "Cloth", 1400.0),))) == set()


# ---- children


def for_children(garment, *notions, statures=None):
    return replace(garment, group="children", statures=statures, notions=notions)


NECK_TIE = Notion("tie", "Ribbon for the neck", length=600.0)
SASH = Notion("sash", "Sash", length=900.0)


@pytest.mark.parametrize(
    ("notion", "statures", "code", "severity"),
    [
        (NECK_TIE, None, "checks.child-neck-cord", Severity.ERROR),
        (NECK_TIE, (1040.0, 1340.0), "checks.child-neck-cord", Severity.ERROR),
        (NECK_TIE, (1400.0, 1640.0), "checks.child-cord", Severity.WARNING),
        (SASH, (1040.0, 1340.0), "checks.child-cord", Severity.WARNING),
    ],
)
def test_cords_on_childrens_garments(garment, notion, statures, code, severity):
    found = run_checks(for_children(garment, notion, statures=statures))
    assert [(p.code, p.severity) for p in found] == [(code, severity)]
    assert "Ask what rules hold where it is worn" in found[0].fix


def test_the_same_cords_on_grown_ups_are_no_finding(garment):
    assert run_checks(replace(garment, notions=(NECK_TIE, SASH))) == ()


def test_a_garment_for_grown_people_drawn_for_somebody_no_taller_than_a_child_is_warned_of(garment):
    """She may be a small woman, who wears her bow: it is no error, and it is not passed over."""
    small = replace(garment, stature=1300.0, notions=(NECK_TIE,))
    (found,) = run_checks(small)
    assert (found.code, found.severity) == ("checks.child-cord", Severity.WARNING)
    assert run_checks(replace(small, stature=1341.0)) == ()
    assert run_checks(replace(small, stature=None)) == ()


def test_a_draft_for_children_of_every_stature_stays_one_for_young_children_whoever_it_is_drawn_for(garment):
    tall = replace(for_children(garment, NECK_TIE, statures=(1040.0, 1640.0)), stature=1600.0)
    assert [found.code for found in run_checks(tall)] == ["checks.child-neck-cord"]


def test_a_childs_garment_without_cords_is_passed_in_silence(garment):
    assert run_checks(for_children(garment, Notion("buttons", "Buttons", 3.0))) == ()


def test_a_tie_that_is_sewn_to_a_neck_edge_sits_at_the_neck(garment, bench):
    pattern = for_children(bench.with_piece(garment, "frill", title="Tie end"))
    seams = (*pattern.seams, Seam((EdgeRun("frill", "side"),), (EdgeRun("front", "neck"),), "ease", (-900.0, 900.0)))
    codes = {p.code for p in run_checks(replace(pattern, seams=seams))}
    assert codes == {"checks.child-neck-cord", "checks.allowance-unlike"}


# ---- a dart's intake that was counted


def test_sides_that_differ_by_a_darts_intake_are_told_so(garment):
    skirt = garment.piece("skirt_front")
    intake = skirt.darts[0].intake
    assert intake == pytest.approx(24.0, abs=0.01)
    waist = (EdgeRun("skirt_front", "waist_middle"), EdgeRun("skirt_front", "waist_side"))
    long = waisted(garment, intake)
    found = run_checks(replace(long, seams=(Seam(waist, (EdgeRun("band", "attach"),)),)))
    walk = next(p for p in found if p.code == "checks.seam-walk")
    assert "They differ by the intake of skirt_front.waist_dart" in walk.fix
    other = run_checks(replace(waisted(garment, 19.0), seams=(Seam(waist, (EdgeRun("band", "attach"),)),)))
    assert "intake" not in next(p for p in other if p.code == "checks.seam-walk").fix


def waisted(garment, longer):
    """The garment with a band that is longer than the skirt's waist by so much."""
    skirt = garment.piece("skirt_front")
    length = sum(skirt.edge(name).path.length for name in ("waist_middle", "waist_side")) + longer
    frill = garment.piece("frill")
    line = Edge("attach", Path.through(Point(0.0, 100.0), Point(length, 100.0)), Allowance(10.0))
    band = replace(frill, name="band", edges=tuple(line if e.name == "top" else e for e in frill.edges))
    return replace(garment, pieces=(*garment.pieces, band))
