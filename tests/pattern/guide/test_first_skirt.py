"""The tutorial: a draft that holds, told line by line."""

from __future__ import annotations

import pytest

from app.pattern.body import draw_bodies, size_body
from app.pattern.guide import first_skirt
from app.pattern.guide.first_skirt import FIRST_SKIRT
from app.pattern.language.format import format_draft
from app.pattern.make import Made, make_pattern


def test_the_draft_is_in_canonical_layout():
    assert format_draft(FIRST_SKIRT, "first_skirt.draft") == FIRST_SKIRT


@pytest.mark.parametrize("size", ["80", "92", "104", "116"])
def test_the_skirt_holds_for_many_sizes(size):
    made = make_pattern(FIRST_SKIRT, "first_skirt.draft", size_body(size), {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    assert not made.findings


def test_the_skirt_holds_for_bodies_as_they_are():
    for body in draw_bodies(20, seed=5):
        made = make_pattern(FIRST_SKIRT, "first_skirt.draft", body, {"length": "50cm"})
        assert isinstance(made, Made), "\n".join(map(str, made.problems))


def test_the_lessons_tell_the_whole_draft_in_order():
    told = [" ".join(row.split()) for lesson in first_skirt() for row in lesson.lines]
    rows = [" ".join(row.split()) for row in FIRST_SKIRT.split("\n")]
    assert [row for row in told if row] == [row for row in rows if row and row != "sheet panel"]


def test_each_step_of_the_sheet_is_drawn():
    lessons = first_skirt()
    drawn = [lesson for lesson in lessons if lesson.drawing]
    assert len(drawn) == 12
    assert all(lesson.title and lesson.says.endswith(".") for lesson in lessons)
    assert len(FIRST_SKIRT.split("sheet panel\n")[1].split("steps\n")[0].strip().split("\n")) <= 22
