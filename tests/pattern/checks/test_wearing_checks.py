"""Wearing ease, getting in and shirring: each damage is heard by its own check alone."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.checks import getting_in, run_checks, wearing_ease
from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Fabric, Girth, Mark, MarkKind, Notion
from app.pattern.problem import Severity, Span

#: The garment is put on by its front, so that only the girth that is tried has to let somebody in.
FRONT = Girth("front", "Front", 1000.0, 0.0, 1000.0, opens_fully=True)


def worn(garment, girth, *, stretch=0.0, notions=()):
    fabrics = (Fabric("main", "Cloth", 1400.0, stretch=stretch),)
    return replace(garment, girths=(girth, FRONT), fabrics=fabrics, notions=notions)


def over(measure, ease, body=1000.0):
    return Girth("here", "Here", body + ease, body, ease, measure)


# ---- wearing ease


@pytest.mark.parametrize(("measure", "least"), wearing_ease.LEAST_WOVEN.items())
def test_woven_cloth_leaves_the_least_room_over_each_part_of_the_body(garment, bench, measure, least):
    assert bench.codes(worn(garment, over(measure, least - 0.9))) == set()
    assert bench.codes(worn(garment, over(measure, least - 2.0))) == {"checks.wearing-ease"}


def test_a_part_of_the_body_that_nobody_wrote_of_has_no_least_room(garment, bench):
    assert bench.codes(worn(garment, over("knee_girth", 0.0))) == set()


def test_half_of_the_stretch_may_be_used_in_wear(garment, bench):
    assert bench.codes(worn(garment, over("bust_girth", -140.0), stretch=0.4)) == set()
    assert bench.codes(worn(garment, over("bust_girth", -160.0), stretch=0.4)) == {"checks.wearing-ease"}


def test_more_than_the_cloth_gives_is_heard_once_and_as_an_error(garment, bench):
    assert bench.codes(worn(garment, over("bust_girth", -450.0), stretch=0.4)) == {"checks.ease-minimum"}


def test_room_is_a_warning_with_both_figures_and_what_is_missing(garment):
    found = run_checks(worn(garment, over("hip_girth", 10.0)))
    assert [p.severity for p in found] == [Severity.WARNING]
    assert "10 mm" in found[0].message and "25 mm" in found[0].message and "15 mm" in found[0].fix


@given(st.floats(300.0, 2000.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_cloth_that_stretches_further_never_needs_more_room(body, one, other):
    less, more = sorted((one, other))
    for measure in wearing_ease.LEAST_WOVEN:
        assert wearing_ease.least_ease(measure, body, more) <= wearing_ease.least_ease(measure, body, less)


# ---- getting in


def closed(measured=700.0, passes=1000.0, **ways):
    return Girth("waist", "Waist", measured, 0.0, measured, "", Span("t.draft", 9, 1, 5), passes=passes, **ways)


@pytest.mark.parametrize(
    ("girth", "codes"),
    [
        (closed(), {"checks.getting-in"}),
        (closed(opens=150.0), set()),
        (closed(opens=149.0), {"checks.getting-in"}),
        (closed(opens_fully=True), set()),
        (closed(stretches_to=1000.0), set()),
        (closed(stretches_to=950.0), {"checks.getting-in"}),
        (closed(stretches_to=900.0, opens=50.0), set()),
        (closed(passes=0.0), set()),
        (closed(measured=999.5), set()),
    ],
)
def test_a_girth_must_let_the_body_through(garment, bench, girth, codes):
    assert bench.codes(worn(garment, girth)) == codes


def test_stretch_cloth_lets_through_what_it_gives(garment, bench):
    assert bench.codes(worn(garment, closed(measured=800.0), stretch=0.25)) == set()
    assert bench.codes(worn(garment, closed(measured=800.0), stretch=0.24)) == {"checks.getting-in"}


def test_what_is_too_tight_names_every_figure_the_remedy_and_the_line(garment):
    found = run_checks(worn(garment, closed(opens=100.0)))[0]
    for figure in ("700 mm", "1000 mm", "a slit of 100 mm", "900 mm", "100 mm too little"):
        assert figure in found.message
    assert "Lengthen its opening by 50 mm" in found.fix
    assert (found.severity, found.where.point) == (Severity.ERROR, "waist")
    assert found.related[0].where.line == 9


def test_a_girth_that_nothing_opens_says_so(garment):
    assert "nothing opens it" in run_checks(worn(garment, closed()))[0].message


@given(st.floats(100.0, 2000.0), st.floats(0.0, 0.8), st.floats(0.0, 600.0))
def test_a_slit_opens_by_both_its_sides(measured, stretch, opens):
    plain = getting_in.widest(closed(measured=measured), stretch)
    slit = getting_in.widest(closed(measured=measured, opens=opens), stretch)
    assert slit == pytest.approx(plain + 2 * opens)


# ---- shirring and elastic

ROW = Path.through(Point(10.0, 50.0), Point(120.0, 50.0))


def shirred(garment, bench, *girths, notions=()):
    marks = (Mark(MarkKind.STITCH, ROW, Point(60.0, 50.0), "Shirr"),)
    return replace(bench.with_piece(garment, "frill", marks=marks), girths=(*girths, FRONT), notions=notions)


def waist(relaxed, full):
    return Girth("waist", "Waist, relaxed", relaxed, 0.0, relaxed, stretches_to=full)


def test_shirring_rows_ask_for_both_widths(garment, bench):
    assert bench.codes(shirred(garment, bench)) == {"checks.shirring-unstated"}
    assert bench.codes(shirred(garment, bench, waist(600.0, 900.0))) == set()


def test_elastic_asks_for_both_widths_and_its_length(garment, bench):
    elastic = Notion("elastic", "Elastic, 2 cm", length=600.0)
    assert bench.codes(replace(garment, notions=(elastic,))) == {"checks.shirring-unstated"}
    unmeasured = shirred(garment, bench, waist(600.0, 900.0), notions=(replace(elastic, length=None),))
    assert bench.codes(unmeasured) == {"checks.elastic-length"}


def test_stay_tape_of_elastic_draws_nothing_in(garment, bench):
    tape = Notion("tape", "Stay tape or clear elastic for the shoulders", length=300.0)
    assert bench.codes(replace(garment, notions=(tape,))) == set()


def test_a_full_width_under_the_relaxed_one_is_an_error(garment, bench):
    found = run_checks(shirred(garment, bench, waist(900.0, 600.0)))
    assert [(p.code, p.severity) for p in found] == [("checks.stretched-width", Severity.ERROR)]
    assert "900 mm" in found[0].message and "600 mm" in found[0].message


@pytest.mark.parametrize("full", [610.0, 1900.0])
def test_a_width_that_hardly_draws_in_or_never_recovers_is_a_warning(garment, bench, full):
    found = run_checks(shirred(garment, bench, waist(600.0, full)))
    assert [(p.code, p.severity) for p in found] == [("checks.stretched-ratio", Severity.WARNING)]
