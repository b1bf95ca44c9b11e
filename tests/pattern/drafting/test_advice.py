"""What a draft leaves unused or unsaid is told, and a draft that leaves nothing so hears nothing."""

from __future__ import annotations

from pathlib import Path

import pytest

from app.pattern.drafting import compiled
from app.pattern.drafting.advice import advice_of
from app.pattern.guide.first_skirt import FIRST_SKIRT
from app.pattern.problem import Severity
from tests.places import DRAFT_FILES

WHOLE = Path(__file__).parents[1] / "checks" / "whole.draft"
CROTCH = "fit crotch = 60cm body total_crotch_length ease 0cm..9cm"


def advice(old: str = "", new: str = ""):
    assert not old or FIRST_SKIRT.count(old) == 1
    return [(p.code, p.where.line) for p in advice_of(compiled(FIRST_SKIRT.replace(old, new), "t.draft"))]


def row(text: str) -> int:
    return next(i for i, line in enumerate(FIRST_SKIRT.split("\n"), 1) if text in line)


def test_a_draft_that_uses_all_it_lists_hears_nothing():
    assert advice() == []


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_the_catalogues_drafts_hear_nothing(path):
    told = {problem.code for problem in advice_of(compiled(path.read_text("utf-8"), path.name))}
    # The pinafore's chest, which the hips may decide, is still stated as what was drawn less the body
    assert told <= ({"drafting.ease-reckoned"} if path.stem == "childs_pinafore" else set())


@pytest.mark.parametrize(
    ("old", "new", "code", "at"),
    [
        (
            "    waist_girth, hip_girth",
            "    waist_girth, knee_girth, hip_girth",
            "drafting.unused-need",
            "waist_girth,",
        ),
        ('"Length"\n', '"Length"\n    slit = no "Slit"\n', "drafting.unused-choice", "fabrics"),
        ("\nsheet panel", "\nfigures\n    odd = 3cm\nsheet panel", "drafting.unused-figure", "    waist      ="),
        ("width 140cm\n", 'width 140cm\n    lining "Lining"\n', "drafting.unused-fabric", "notions"),
        ("\npiece panel", "\nsheet spare\n    here = at 0, 0\npiece panel", "drafting.unused-sheet", "piece panel"),
        ("  passes hip_girth", "", "drafting.getting-in-unsaid", "girth hip"),
    ],
)
def test_what_is_listed_and_never_used_or_left_unsaid_is_told_with_its_line(old, new, code, at):
    told = advice(old, new)
    assert [found for found, _ in told] == [code]
    assert told[0][1] in (row(at), row(at) - 1)


@pytest.mark.parametrize(
    ("kept", "codes"),
    [
        ("", ["drafting.fit-unsaid"]),
        ("fit armhole", []),
        ("girth arm ", []),
    ],
)
def test_a_draft_with_armholes_says_how_much_room_they_leave_by_a_fit_line_or_a_girth(kept, codes):
    rows = WHOLE.read_text("utf-8").split("\n")
    said = [row for row in rows if (kept and row.startswith(kept)) or not row.startswith(("fit armhole", "girth arm "))]
    found = advice_of(compiled("\n".join(said).replace(", armscye_girth", ""), "t.draft"))
    unsaid = [problem for problem in found if problem.code == "drafting.fit-unsaid"]
    assert [problem.code for problem in unsaid] == codes
    assert all("armhole" in problem.fix for problem in unsaid)


@pytest.mark.parametrize(("line", "codes"), [("", ["drafting.fit-unsaid"]), (CROTCH, [])])
def test_trousers_say_how_much_room_their_crotch_leaves(line, codes):
    asked = FIRST_SKIRT.replace("    waist_girth, hip_girth", "    waist_girth, hip_girth, total_crotch_length")
    drawn = asked.replace("\nsteps", f"\nfigures\n    rise = total_crotch_length / 2\n\n{line}\nsteps")
    found = advice_of(compiled(drawn, "t.draft"))
    assert [problem.code for problem in found if problem.code == "drafting.fit-unsaid"] == codes


def test_advice_never_stops_a_draft():
    program = compiled(FIRST_SKIRT.replace("  passes hip_girth", ""), "t.draft")
    assert {p.severity for p in advice_of(program)} == {Severity.WARNING}


def test_a_stature_may_be_asked_for_without_a_line_that_uses_it():
    assert advice("    waist_girth, hip_girth", "    stature, waist_girth, hip_girth") == []


def test_a_figure_that_only_an_instruction_tells_is_used():
    text = FIRST_SKIRT.replace("\nsheet panel", "\nfigures\n    odd = 3cm\nsheet panel").replace(
        "{waist_girth - 5cm}", "{odd}"
    )
    assert "drafting.unused-figure" not in {p.code for p in advice_of(compiled(text, "t.draft"))}
