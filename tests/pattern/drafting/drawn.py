"""Draws a few lines of the language and hands back what they stand for."""

from __future__ import annotations

from app.pattern.drafting import choose, compile_draft, draw_sheets
from app.pattern.language import parse

FRAME = """draft "Test"
needs
    waist_girth, bust_girth
choices
    ease = 2cm from 1cm to 4cm "Ease"
    lined = no "Lined"
    length = knee one of knee, calf "Length"
fabrics
    main "Cloth" width 140cm
sheet s
"""
BODY = {"waist_girth": 760.0, "bust_girth": 920.0}


def draw(lines: str, body=BODY, **choices):
    """The values of the sheet's names after `lines`; fails the test on any problem."""
    values, problems = drawn(lines, body, **choices)
    assert not problems, "\n".join(map(str, problems))
    return values


def drawn(lines: str, body=BODY, **choices):
    """The sheet's values and every problem."""
    text = FRAME + "\n".join("    " + line for line in lines.strip("\n").split("\n")) + "\n"
    parsed = parse(text, "t.draft")
    program = compile_draft(parsed.draft, parsed.source)
    if parsed.problems or program.problems:
        return {}, (*parsed.problems, *program.problems)
    env = draw_sheets(program, body, choose(program.choices, choices))
    values = {key.removeprefix("sheet s."): value for key, value in env.values.items() if key.startswith("sheet s.")}
    return values, env.problems
