"""The tutorial: a draft that holds, told line by line."""

from __future__ import annotations

import pytest

from app.pattern.body import draw_bodies, size_body
from app.pattern.guide import first_skirt
from app.pattern.guide.first_skirt import FIRST_SKIRT, TWENTY_LINES
from app.pattern.language.format import format_draft
from app.pattern.make import Made, make_pattern


@pytest.mark.parametrize("text", [TWENTY_LINES, FIRST_SKIRT], ids=["twenty lines", "for sale"])
def test_both_drafts_are_in_canonical_layout(text):
    assert format_draft(text, "first_skirt.draft") == text


def test_the_skirt_takes_twenty_lines():
    assert len([row for row in TWENTY_LINES.split("\n") if row.strip()]) == 20


@pytest.mark.parametrize("text", [TWENTY_LINES, FIRST_SKIRT], ids=["twenty lines", "for sale"])
@pytest.mark.parametrize("size", ["80", "92", "104", "116"])
def test_the_skirt_holds_for_many_sizes(size, text):
    made = make_pattern(text, "first_skirt.draft", size_body(size), {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    # The twenty lines say nothing yet of how it fits: that is what the skirt for sale adds
    assert {finding.code for finding in made.findings} == ({"checks.no-girth"} if text is TWENTY_LINES else set())


def test_the_skirt_holds_for_bodies_as_they_are():
    for body in draw_bodies(20, seed=5):
        made = make_pattern(FIRST_SKIRT, "first_skirt.draft", body, {"length": "50cm"})
        assert isinstance(made, Made), "\n".join(map(str, made.problems))


def plain(rows):
    return [" ".join(row.split()) for row in rows if row.strip()]


def test_the_lessons_tell_the_twenty_lines_in_order_and_then_the_rest():
    told = plain(row for lesson in first_skirt() for row in lesson.lines)
    assert told[:20] == plain(TWENTY_LINES.split("\n"))
    assert set(told) >= set(plain(FIRST_SKIRT.split("\n")))


def test_each_step_of_the_sheet_and_the_piece_and_the_seam_are_drawn():
    drawn = [lesson for lesson in first_skirt() if lesson.drawing]
    assert len(drawn) == 9 + 2 + 1
    assert all(lesson.title and lesson.says.endswith(".") for lesson in first_skirt())
