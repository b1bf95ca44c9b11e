"""A folded band ends square to its fold whatever the neck beside it does, and a facing's inner edge lies loose."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.make import make_pattern
from app.pattern.problem import Refused
from tests.places import DRAFT_FILES

DRAFTS = {path.stem: path.read_text("utf-8") for path in DRAFT_FILES}


def truing(text):
    made = make_pattern(text, "t.draft", size_body("96"), {})
    problems = made.problems if isinstance(made, Refused) else made.findings
    return [problem for problem in problems if problem.code == "checks.truing"]


@pytest.mark.parametrize("name", ["set_in_blouse", "yoke_shirt", "wrap_dress"])
def test_a_bands_square_end_and_a_facings_inner_edge_are_no_untrue_seam(name):
    assert truing(DRAFTS[name]) == []


def test_the_same_end_without_a_fold_is_one():
    text = DRAFTS["yoke_shirt"]
    band = text[text.index("piece band") : text.index("piece stand")]
    assert [p.where.edge for p in truing(text.replace(band, band.replace('    mark fold fold_line "Fold"\n', "")))]
