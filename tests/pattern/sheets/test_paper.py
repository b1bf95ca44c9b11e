"""Papers, their printable part, and papers on which nothing true can be printed."""

import pytest

from app.pattern.sheets import PAPERS, Paper, paper_of, paper_problems


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


@pytest.mark.parametrize(
    ("words", "width", "height"),
    [
        ("A4", 210.0, 297.0),
        ("legal", 215.9, 355.6),
        ("tabloid-landscape", 431.8, 279.4),
        ("a3 landscape", 420.0, 297.0),
        ("210x330mm", 210.0, 330.0),
        ("8.5x13in", 215.9, 330.2),
        ("21 × 33 cm", 210.0, 330.0),
        ("330x210mm", 330.0, 210.0),
    ],
)
def test_papers_are_found_by_name_or_by_their_sides(words, width, height):
    paper = paper_of(words.replace(" × ", "x").replace(" cm", "cm"), 7.0)
    assert (paper.width, paper.height, paper.margin) == pytest.approx((width, height, 7.0))
    assert paper_problems(paper) == ()


@pytest.mark.parametrize(
    "words", ["papyrus", "", "a4 upside", "210x", "210x330", "-210x330mm", "a4 landscape landscape"]
)
def test_what_no_paper_is_called_is_refused_with_those_there_are(words):
    (problem,) = paper_of(words).problems
    assert problem.code == "sheets.paper-unknown"
    assert "a4" in problem.fix
    assert "210x330mm" in problem.fix


def test_a_paper_longer_than_a_pdf_page_is_refused():
    (problem,) = paper_problems(Paper("banner", "Banner", 900.0, 6000.0))
    assert problem.code == "sheets.paper-too-large"


def test_paper_laid_sideways_stays_the_same_paper():
    wide = PAPERS["a4"].sideways()
    assert (wide.width, wide.height) == (297.0, 210.0)
    assert wide.title == "A4 landscape"
    assert wide.sideways() is wide
    assert wide.upright.printable == PAPERS["a4"].printable
