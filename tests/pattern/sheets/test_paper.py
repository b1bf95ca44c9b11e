"""Papers, their printable part, and papers on which nothing true can be printed."""

import pytest

from app.pattern.sheets import PAPERS, Paper, paper_problems


def test_every_paper_on_offer_can_be_printed_on():
    for paper in PAPERS.values():
        assert paper_problems(paper) == ()


def test_the_printable_part_is_what_the_margins_leave():
    assert PAPERS["a4"].printable == (190.0, 277.0)
    assert Paper("own", "Own", 300.0, 400.0, 15.0).printable == (270.0, 370.0)


@pytest.mark.parametrize("paper", [Paper("slip", "Slip", 20.0, 300.0), Paper("odd", "Odd", 210.0, 297.0, -1.0)])
def test_a_paper_smaller_than_its_margins_is_refused(paper):
    (problem,) = paper_problems(paper)
    assert problem.code == "sheets.no-room"
    assert problem.fix


def test_a_paper_too_small_for_the_first_page_is_refused_with_both_figures():
    (problem,) = paper_problems(Paper("card", "Card", 100.0, 150.0))
    assert problem.code == "sheets.paper-too-small"
    assert "80 × 130 mm" in problem.message
    assert "170 × 225 mm" in problem.message
