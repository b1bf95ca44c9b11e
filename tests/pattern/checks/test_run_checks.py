"""The checks as a whole: a garment that holds is passed in silence, and every finding says where and what to do."""

from __future__ import annotations

from dataclasses import replace

from app.pattern.checks import CHECKS, for_maker, run_checks
from app.pattern.pieces.model import Cut, Girth, Grain, Seam
from app.pattern.problem import Place, Problem, Severity, Span


def test_a_garment_that_holds_is_passed_in_silence(garment):
    assert run_checks(garment) == ()


def test_checks_leave_the_pattern_as_it_is(garment):
    before = repr(garment)
    run_checks(garment)
    assert repr(garment) == before


def test_every_check_has_a_module_of_its_own_that_says_why():
    modules = [check.__module__ for check in CHECKS]
    assert len(set(modules)) == len(modules)
    assert all(check.__doc__ for check in CHECKS)


def test_everything_wrong_is_told_at_once_in_the_order_of_the_checks(garment, bench):
    broken = bench.with_piece(
        garment, "frill", cuts=(), grain=Grain(garment.pieces[0].grain.start, garment.pieces[0].grain.start)
    )
    broken = replace(broken, girths=(Girth("hip", "Hip", 900.0, 1000.0, 40.0, "hip_girth"),))
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
    assert problem.related[0].where == Span("test.draft", 20, 1, 9)
    assert problem.related[1].where.piece == "skirt_back", "the other side of the seam can be pointed at too"


def test_a_pattern_without_seams_or_girths_is_still_checked(garment, bench):
    bare = replace(garment, seams=(), girths=())
    assert run_checks(bare) == ()
    assert bench.codes(bench.with_piece(bare, "frill", cuts=(Cut("lace", 1, on_fold=True),))) == {"checks.cut-fabric"}


def test_checks_do_not_speak_of_a_seam_twice(garment):
    doubled = Seam(garment.seams[1].a, garment.seams[1].b)
    assert run_checks(replace(garment, seams=(*garment.seams, doubled))) == ()


def test_what_only_the_designer_can_mend_is_not_told_to_the_maker():
    warned = [
        Problem(code, "said", "mend it", Place()) for code in ("checks.kink", "checks.walk-order", "checks.cloth-width")
    ]
    assert [problem.code for problem in for_maker(warned)] == ["checks.cloth-width"]
