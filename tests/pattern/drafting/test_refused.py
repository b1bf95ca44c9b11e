"""What cannot be drawn for any body is told before there is one, and what cannot be for one body ends plainly."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.drafting import Program, compiled
from app.pattern.drafting.limits import work_of
from app.pattern.geometry import Path, Point
from app.pattern.make import make_pattern, read_draft
from app.pattern.problem import Refused
from tests.pattern.drafting.drawn import draw, drawn

DRAFT = """draft "T"
needs
    waist_girth
choices
    CHOICE
fabrics
    main "Cloth" WIDTH
sheet s
    a = at 0, 0
    b = a right 40cm
    c = b up 60cm
    d = a up 60cm
    low = line a to b
    side = line b to c
    top = line d to c
    near = line a to d
    low_dart = dart (a right 10cm) to (a right 11cm up 9cm) to (a right 12cm) pressed left
piece p "P" from s cut 1 main
    outline low, side, top, near
    grain (a right 5cm up 5cm) to (a right 5cm up 30cm)
    ALLOWANCE
SEW
"""


def text(**parts: str) -> str:
    """The draft with parts of it put in."""
    own = {"CHOICE": "ease = 2cm from 1cm to 4cm", "WIDTH": "width 140cm", "ALLOWANCE": "allowance 1cm", "SEW": ""}
    out = DRAFT
    for word, said in {**own, **parts}.items():
        out = out.replace(word, said)
    return out


def codes(draft: str) -> list[str]:
    """What is said of the draft and a body, by code."""
    made = make_pattern(draft, "t.draft", size_body("92"), {})
    return [p.code for p in made.problems] if isinstance(made, Refused) else []


def test_the_draft_itself_holds():
    assert codes(text()) == []


@pytest.mark.parametrize(
    ("choice", "code"),
    [
        ("ease = 2cm / 0 from 1cm to 4cm", "drafting.division"),
        ("ease = waist_girth from 1cm to 4cm", "drafting.unknown-name"),
        ("ease = length(low) from 1cm to 4cm", "drafting.unknown-name"),
        ("ease = 2cm from (at 0, 0) to 4cm", "drafting.kind"),
        ("ease = (at 1cm, 0) from 1cm to 4cm", "drafting.kind"),
        ("ease = 2cm * 999999 * 999999 / 1cm from 1cm to 4cm", "drafting.huge"),
    ],
)
def test_a_choice_hangs_on_nothing_else(choice, code):
    problems = read_draft(text(CHOICE=choice), "t.draft").problems
    assert code in [p.code for p in problems]


@pytest.mark.parametrize(
    ("width", "code"),
    [
        ("width waist_girth", "drafting.unknown-name"),
        ("width 1m / 0", "drafting.division"),
        ("width 3", "drafting.no-unit"),
    ],
)
def test_a_cloths_width_is_known_before_anyone_is_measured(width, code):
    problems = read_draft(text(WIDTH=width), "t.draft").problems
    assert [p.code for p in problems] == [code]


def test_a_name_where_there_can_be_none_is_told_what_to_write():
    (problem,) = read_draft(text(WIDTH="width waist_girth"), "t.draft").problems
    assert "Write a measure" in problem.fix


@pytest.mark.parametrize("allowance", ["width(p, a) / 20", "length(p.side) / 60"])
def test_a_piece_cannot_measure_itself_before_it_is_cut(allowance):
    (code,) = codes(text(ALLOWANCE=f"allowance {allowance}"))
    assert code in ("drafting.width", "drafting.piece-left-out")


@pytest.mark.parametrize(
    ("sew", "code"),
    [
        ("sew p.side to p.a", "drafting.unknown-edge"),
        ("sew p.low_dart to p.side", "drafting.unknown-edge"),
        ("sew s.side to p.side", "drafting.unknown-owner"),
        ("sew p.side to p.near notch at -3cm", "pieces.notch-off-seam"),
    ],
)
def test_a_seam_names_edges_of_pieces(sew, code):
    assert code in codes(text(SEW=sew))


def test_a_form_in_a_mark_that_cannot_be_drawn_is_told():
    assert codes(text(ALLOWANCE="allowance 1cm\n    mark place (smooth a, a)")) == ["drafting.geometry"]


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("when (at 0, 0) < (at 1cm, 0)\n    x = 1", "drafting.kind"),
        ("when (line (at 0, 0) to (at 1cm, 0)) > 3cm\n    x = 1", "drafting.kind"),
        ("x = abs(1cm, 2cm)", "drafting.parts"),
        ("solve x from 1cm to 2cm until (at 0, 0) = (at 1cm, 0)\n    y = x", "drafting.kind"),
        ("solve x from 1cm to 90deg until x = 1cm\n    y = x", "drafting.kind"),
        ("x = 999999 * 999999", "drafting.huge"),
        ("x = sin(999999deg * 999999 * 999999)", "drafting.huge"),
    ],
)
def test_what_has_no_sense_is_told(line, code):
    _, problems = drawn(line)
    assert code in [p.code for p in problems]


def test_a_solve_may_begin_at_nothing():
    values = draw("solve x from 0 to 5cm until 2 * x = 4cm\n    y = x")
    assert values["x"] == pytest.approx(20.0)


def test_the_work_of_a_value_grows_with_what_it_is_made_of():
    short = Path.through(Point(0.0, 0.0), Point(10.0, 0.0))
    long = Path.through(*(Point(float(i), float(i % 2)) for i in range(31)))
    assert 0 == work_of(1.0) < work_of(short) < work_of(long) == 30 * work_of(short)


def test_a_sheet_of_a_piece_s_name_is_still_reached():
    """The piece comes from another sheet; what only its namesake has is read off that."""
    text = """draft "T"

fabrics
    main  "Cloth"  width 140cm

sheet panel
    a   = at 0, 0
    top = line a to (a right 20cm)

sheet flat
    a     = at 0, 0
    b     = a right length(panel.top)
    low   = line a to b
    right = line b to (b up 30cm)
    high  = line (b up 30cm) to (a up 30cm)
    left  = line (a up 30cm) to a

sheet after
    c = at length(panel.top), 0

piece panel "Panel" from flat cut 1 main
    outline   low, right, high, left
    grain     along left
    allowance 1cm

sew panel.left to panel.right backwards
"""
    program = compiled(text, "t.draft")
    assert isinstance(program, Program), program
