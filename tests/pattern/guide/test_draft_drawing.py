"""A draft drawn for the command line: one line, or all of them."""

from __future__ import annotations

from app.pattern.body import size_body
from app.pattern.guide.drawing import DrawnDraft, draw_draft
from app.pattern.guide.first_skirt import FIRST_SKIRT

BODY = size_body("92")


def test_a_line_is_drawn_on_its_sheet():
    drawing = draw_draft(FIRST_SKIRT, "t.draft", BODY, {})
    assert isinstance(drawing, DrawnDraft)
    line = FIRST_SKIRT.split("\n").index("    centre     = line waist to hem_centre") + 1
    assert f"Sheet panel, line {line}: centre" in drawing.picture(line)


def test_all_lines_are_drawn_under_names_that_sort():
    pictures = draw_draft(FIRST_SKIRT, "t.draft", BODY, {}).all_pictures()
    assert len(pictures) == 9
    assert list(pictures) == sorted(pictures)
    assert next(iter(pictures)).startswith("panel-00")


def test_what_is_wrong_with_a_draft_is_handed_back():
    wrong = draw_draft(FIRST_SKIRT.replace("at 0, 0", "at 0 0"), "t.draft", BODY, {})
    assert [p.code for p in wrong.problems] == ["language.unreadable"]
    unknown = draw_draft(FIRST_SKIRT.replace("hip_side level", "hipside level"), "t.draft", BODY, {})
    assert "drafting.unknown-name" in [p.code for p in unknown.problems]


def test_a_body_that_lacks_a_measurement_is_told():
    lacking = draw_draft(FIRST_SKIRT, "t.draft", {"waist_girth": 700.0}, {})
    assert [p.code for p in lacking.problems] == ["body.missing"] * 2


def test_a_choice_that_is_not_allowed_is_told():
    assert [p.code for p in draw_draft(FIRST_SKIRT, "t.draft", BODY, {"length": "9m"}).problems] == ["choice.wrong"]


def test_a_drawing_that_stops_keeps_what_came_before():
    text = FIRST_SKIRT.replace("hip_side level with waist", "waist toward waist by 1cm")
    drawing = draw_draft(text, "t.draft", BODY, {})
    assert [p.code for p in drawing.problems] == ["drafting.no-direction"]
    assert len(drawing.all_pictures()) == 2


def test_what_pattern_work_changed_is_told_by_its_line():
    text = FIRST_SKIRT.replace(
        "\npiece panel",
        "    flat       = trace centre, hem, side, top\n    longer     = move hem of flat out by 5cm\n\npiece panel",
    )
    line = text.split("\n").index("    longer     = move hem of flat out by 5cm") + 1
    drawing = draw_draft(text, "t.draft", BODY, {})
    told = drawing.changes(line)
    assert list(told) == [line] == list(drawing.changes())
    assert "centre: 60 cm, now 65 cm" in told[line]
