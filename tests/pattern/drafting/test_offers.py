"""Where a thing of one kind stands and one of another belongs, the remedy says what to write."""

from __future__ import annotations

import pytest

from app.pattern.drafting import Program, compiled

SHAPE = "This is a traced shape;"
DRAFT = """\
draft "T"
sheet s
    a     = at 0, 0
    b     = a right 40cm
    c     = b up 60cm
    waist = line a to b
    side  = line b to c
    back  = line c to a
    block = trace waist, side, back
"""


@pytest.mark.parametrize(
    ("step", "message", "fix"),
    [
        ("x = waist * 2", "This is a path; a plain number or a length belongs here.", "Its length is length(waist)."),
        ("x = a down waist", "This is a path; a length belongs here.", "Its length is length(waist)."),
        ("x = min(waist, 3cm)", "This is a path; a length belongs here.", "Its length is length(waist)."),
        ("x = a going 90 by 3cm", "This is a plain number; an angle belongs here.", "Write 90deg."),
        ("x = a going (9 * 2) by 3cm", "This is a plain number; an angle belongs here.", "Write (9 * 2) * 1deg."),
        ("x = a down 90deg", "This is an angle; a length belongs here.", "Write a measure such as 5cm."),
        ("x = a down 5", "5 what? A length needs its unit.", "Write 5cm."),
        (
            "x = a down b",
            "This is a point; a length belongs here.",
            "How far it is from another is distance(b, other_point).",
        ),
        (
            "x = line a to waist",
            "This is a path; a point belongs here.",
            "A point of it is (start of waist), (end of waist) or (along waist by 5cm).",
        ),
        (
            "x = length(block)",
            "This is a traced shape; a path belongs here.",
            "Take a side of it, such as block.waist.",
        ),
        (
            "x = 2 * block",
            "This is a traced shape; a plain number or a length belongs here.",
            "Take a side of it, such as length(block.waist).",
        ),
        (
            "x = curve a to b leaving c arriving up",
            "This is a point; an angle belongs here.",
            "The way to it is toward c, or angle(other_point, c).",
        ),
        (
            "x = between a and b at 3cm",
            "This is a length; a plain number belongs here.",
            "Write a plain number such as 2 or 1/3, or divide 3cm by another length.",
        ),
    ],
)
def test_a_wrong_kind_is_told_with_what_to_write(step, message, fix):
    (problem,) = compiled(f"{DRAFT}    {step}\n", "t").problems
    assert (problem.message, problem.fix) == (message, fix)


@pytest.mark.parametrize(
    ("limits", "message", "fix"),
    [
        ("90cm to 45cm", "The limits stand the wrong way round: the lower comes first.", "Write: from 45cm to 90cm."),
        ("70cm to 90cm", "The default lies outside its own limits.", "Widen the limits."),
    ],
)
def test_limits_upside_down_are_told_apart_from_a_default_outside_them(limits, message, fix):
    (problem,) = compiled(f'draft "T"\nchoices\n    long = 65cm from {limits} "Length"\n', "t").problems
    assert (problem.message, problem.fix) == (message, fix)


def test_a_seam_picture_may_be_of_a_seam_under_a_condition():
    text = DRAFT.replace("sheet s", 'choices\n    lined = no "Lined"\nfabrics\n    main "M" width 140cm\nsheet s')
    text += 'piece s "S" cut 2 main\n    outline of block\n    grain along side\n    allowance 1cm\n'
    text += "sew s.side to s.side when lined\nsteps\n    ## Sew\n    As {seam s.side} shows.\n"
    assert isinstance(compiled(text, "t"), Program)
    (problem,) = compiled(text.replace("sew s.side to s.side when lined\n", ""), "t").problems
    assert problem.fix == "Write the seam first: sew EDGE to EDGE."
    unread = compiled(text.replace("when lined", "whenn lined"), "t")
    assert [problem.code for problem in unread.problems] == ["language.unreadable"]
