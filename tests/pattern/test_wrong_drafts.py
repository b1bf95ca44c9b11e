"""Every kind of mistake in a draft, as a pair of text files: the draft, and what is said of it.

Each `wrong/CODE.draft` must produce a problem with that code; the whole of what is said
stands beside it in `CODE.txt`, so that every message is read by a person when it
changes. Write the texts anew with UPDATE_MESSAGES=1.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from app.pattern.body import size_body
from app.pattern.make import Made, make_pattern

WRONG = sorted((Path(__file__).parent / "wrong").glob("*.draft"))
CHOICES = {"choice.wrong": {"ease": "9cm", "lined": "perhaps", "length": "clf"}, "choice.unknown": {"lenght": "calf"}}


def problems_of(path: Path):
    made = make_pattern(path.read_text("utf-8"), path.name, size_body("92"), CHOICES.get(path.stem, {}))
    return made.findings if isinstance(made, Made) else made.problems


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
