"""Every kind of mistake in a draft, as a pair of text files: the draft, and what is said of it.

Each `wrong/CODE.draft` must produce a problem with that code; the whole of what is said
stands beside it in `CODE.txt`, so that every message is read by a person when it
changes. Write the texts anew with UPDATE_MESSAGES=1.

A draft is made for size 92 with its own choices on its own cloths; a comment at its top says otherwise:

    #: size 116
    #: choice ease = 9cm
    #: cloth main = 60cm
"""

from __future__ import annotations

import os
import re
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest

from app.pattern.body import size_body
from app.pattern.drafting import Program, compiled
from app.pattern.drafting.advice import advice_of
from app.pattern.lay import EFFORT_QUICK, LayPlan, items_for, lay_plan_for
from app.pattern.make import make_pattern
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, Refused
from app.pattern.units import Unit, read_length
from tests.house.test_manners import problem_codes

WRONG = sorted((Path(__file__).parent / "wrong").glob("*.draft"))
ASKED = re.compile(r"^#: (size|choice|cloth) +(\w+)(?: *= *(.+))?$", re.MULTILINE)

_OURS = "only a fault of our own could bring it about, so the test damages what was made"
_EARLIER = "drafting refuses the draft before this check could see it; the check guards against a fault of our own"
_PRINTER = "it hangs on the paper, the roll or the sizes that are asked for, not on the draft"
#: Codes that no draft's text can provoke, each with the reason.
NO_TEXT = {
    "language.too-long": "a text of thousands of lines, made by tests/pattern/language/test_parse.py",
    **dict.fromkeys(
        (
            "checks.allowance-width",
            "checks.cut-fabric",
            "checks.cutting-open",
            "checks.no-cuts",
            "checks.notch-missing",
            "checks.notch-unlike",
            "checks.notch-walk",
            "checks.outline-clockwise",
            "checks.outline-open",
            "checks.stitching-outside",
            "lay.bad-outline",
            "lay.miscounted",
            "lay.misstated",
            "lay.near-fold",
            "lay.outside",
            "lay.overlap",
            "lay.reversed",
            "lay.unsound",
            "lay.wrong-layers",
            "lay.wrong-shape",
            "lay.wrong-way",
            "sheets.letters-lacking",
            "sheets.no-outline",
            "sheets.no-pieces",
        ),
        _OURS,
    ),
    **dict.fromkeys(
        (
            "checks.cut-count",
            "checks.cut-pairs",
            "checks.notch-off-edge",
            "lay.bad-count",
            "lay.bad-fold",
            "lay.bad-width",
            "lay.no-fold",
            "lay.nothing",
            "pieces.name-twice",
            "pieces.notch-edge",
        ),
        _EARLIER,
    ),
    **dict.fromkeys(
        (
            "sheets.no-room",
            "sheets.no-sizes",
            "sheets.paper-too-large",
            "sheets.paper-too-small",
            "sheets.paper-unknown",
            "sheets.roll-too-narrow",
            "sheets.sizes-differ",
            "sheets.too-long",
            "sheets.too-wide",
        ),
        _PRINTER,
    ),
}


@dataclass
class Asked:
    """What a draft is made for: a size, and choices and widths of cloth (mm) by name."""

    size: str = "92"
    choices: dict[str, str] = field(default_factory=dict)
    widths: dict[str, float] = field(default_factory=dict)


def asked_of(text: str) -> Asked:
    asked = Asked()
    for what, name, value in ASKED.findall(text):
        if what == "size":
            asked.size = name
        elif what == "choice":
            asked.choices[name] = value
        else:
            asked.widths[name] = read_length(value, Unit.CM)
    return asked


def problems_of(path: Path) -> tuple[Problem, ...]:
    """All that is said of a draft, from its reading to the laying of its pieces on the cloth.

    Advice is left out of the texts that are for something else: these drafts use little of what they list.
    """
    text = path.read_text("utf-8")
    asked = asked_of(text)
    program = compiled(text, path.name)
    advice = advice_of(program) if isinstance(program, Program) else ()
    advice = advice if path.stem in {p.code for p in advice} else ()
    made = make_pattern(text, path.name, size_body(asked.size), asked.choices)
    if isinstance(made, Refused):
        return (*advice, *made.problems)
    return (*advice, *made.findings, *laid(made.pattern, asked.widths))


def laid(pattern: Pattern, widths: dict[str, float]) -> tuple[Problem, ...]:
    """What stands against cutting a pattern from its cloths, at the widths asked for or its own."""
    found: list[Problem] = []
    for fabric in pattern.fabrics:
        items = items_for(pattern, fabric.name)
        if items:
            lay = lay_plan_for(items, replace(fabric, width=widths.get(fabric.name, fabric.width)), effort=EFFORT_QUICK)
            found += () if isinstance(lay, LayPlan) else lay.problems
    return tuple(found)


@pytest.mark.parametrize("path", WRONG, ids=lambda p: p.stem)
def test_a_wrong_draft_is_told_what_is_wrong_where_and_how_to_mend_it(path):
    problems = problems_of(path)
    assert path.stem in {p.code for p in problems}
    for problem in problems:
        assert problem.message.strip()
        assert problem.fix.strip()
        assert problem.where is not None
    said = "\n".join(map(str, problems)) + "\n"
    expected = path.with_suffix(".txt")
    if os.environ.get("UPDATE_MESSAGES"):
        expected.write_text(said, "utf-8")
    assert said == expected.read_text("utf-8")


def test_every_code_that_a_drafts_text_can_provoke_has_such_a_draft():
    codes = {code for code in problem_codes() if not code.startswith(("body.", "proof."))}
    fixtures = {path.stem for path in WRONG}
    missing = codes - fixtures - set(NO_TEXT)
    assert not missing, (
        f"write tests/pattern/wrong/CODE.draft for each of {sorted(missing)} and read what is said with "
        "UPDATE_MESSAGES=1, or add the code to NO_TEXT with the reason why no text can provoke it"
    )
    assert not fixtures & set(NO_TEXT), "these have a draft: take them out of NO_TEXT"
    assert set(NO_TEXT) <= codes, f"these codes are gone: {sorted(set(NO_TEXT) - codes)}"
    assert fixtures <= codes, f"these codes are gone: {sorted(fixtures - codes)}"
