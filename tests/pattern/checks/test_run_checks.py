"""The checks as a whole: a garment that holds is passed in silence, and every finding says where and what to do."""

from __future__ import annotations

import sys
from dataclasses import replace

import pytest

from app.pattern.checks import CHECKS, Check, run_checks
from app.pattern.checks.table import finding, lay_on_table
from app.pattern.pieces.model import Cut, Girth, Grain, Seam
from app.pattern.problem import Measured, Place, Severity, Span, Told


def test_a_garment_that_holds_is_passed_in_silence(garment):
    assert run_checks(garment) == ()


def test_checks_leave_the_pattern_as_it_is(garment):
    before = repr(garment)
    run_checks(garment)
    assert repr(garment) == before


def test_every_check_is_named_after_a_module_of_its_own_whose_words_begin_with_its_title():
    for check in CHECKS:
        module = sys.modules[check.run.__module__]
        assert module.__name__.rpartition(".")[2] == check.name
        assert module.__doc__.startswith(f"{check.title}:")
    assert len({check.name for check in CHECKS}) == len({check.title for check in CHECKS}) == len(CHECKS)


def test_a_check_that_gives_what_it_never_declared_is_a_fault_of_ours_told_at_once(garment):
    said, unsaid = (Told(f"checks.{name}", "Something would go wrong.") for name in ("said", "unsaid"))

    def run(table):
        yield finding(unsaid, "x", "y", Place())

    with pytest.raises(ValueError, match=r"declares no error checks\.unsaid"):
        list(Check("odd", "Odd", run, (said,)).on(lay_on_table(garment)))
    gentler = replace(unsaid, severity=Severity.WARNING)
    with pytest.raises(ValueError, match=r"declares no error checks\.unsaid"):
        list(Check("odd", "Odd", run, (gentler,)).on(lay_on_table(garment)))


@pytest.mark.parametrize("codes", [(), ("checks.a", "checks.a"), ("drafting.a",)])
def test_a_check_declares_codes_of_its_own_each_once(codes):
    with pytest.raises(ValueError, match="declares its codes"):
        Check("odd", "Odd", lambda table: (), tuple(Told(code, "Words.") for code in codes))


@pytest.mark.parametrize(("code", "words"), [("checks.silent", " "), ("checks", "Words."), ("", "Words.")])
def test_a_kind_of_problem_without_words_for_who_sews_cannot_exist(code, words):
    with pytest.raises(ValueError, match="words for the person who will sew"):
        Told(code, words)


def test_no_two_checks_share_a_code():
    codes = [told.code for check in CHECKS for told in check.findings]
    assert len(set(codes)) == len(codes)


def test_everything_wrong_is_told_at_once_in_the_order_of_the_checks(garment, bench):
    broken = bench.with_piece(
        garment, "frill", cuts=(), grain=Grain(garment.pieces[0].grain.start, garment.pieces[0].grain.start)
    )
    broken = replace(broken, girths=(Girth("hip", "Hip", 900.0, 1000.0, 40.0, "hip_girth", opens_fully=True),))
    assert [p.code for p in run_checks(broken)] == ["checks.no-cuts", "checks.grain-short", "checks.finished-size"]


def test_a_finding_names_its_place_both_figures_and_a_remedy_and_points_at_the_draft(garment):
    longer = replace(garment.seams[0], b=(*garment.seams[0].b, *garment.seams[1].b))
    found = [
        p for p in run_checks(replace(garment, seams=(longer, *garment.seams[1:]))) if p.code == "checks.seam-walk"
    ]
    assert len(found) == 1
    problem = found[0]
    assert (problem.where.piece, problem.where.edge) == ("skirt_front", "side")
    assert 200.0 < problem.where.at.x < 241.0 and 5.0 < problem.where.at.y < 606.0, "a point of that edge"
    assert problem.severity is Severity.ERROR
    assert "skirt_front.side is 60" in problem.message and "back.shoulder is 73" in problem.message
    assert "127.1 mm" in problem.fix
    back = sum(garment.piece(run.piece).edge(run.edge).path.length for run in longer.b)
    front = garment.piece("skirt_front").edge("side").path.length
    assert problem.measured == Measured(pytest.approx(front), pytest.approx(back), pytest.approx(back))
    assert problem.related[0].where == Span("test.draft", 20, 1, 9)
    assert problem.related[1].where.piece == "skirt_back", "the other side of the seam can be pointed at too"


def test_a_pattern_without_seams_or_girths_is_still_checked(garment, bench):
    bare = replace(garment, seams=(), girths=())
    assert bench.codes_of_seams(bare) == set()
    assert bench.codes_of_seams(bench.with_piece(bare, "frill", cuts=(Cut("lace", 1, on_fold=True),))) == {
        "checks.cut-fabric"
    }


def test_checks_do_not_speak_of_a_seam_twice(garment):
    doubled = Seam(garment.seams[1].a, garment.seams[1].b)
    assert run_checks(replace(garment, seams=(*garment.seams, doubled))) == ()
