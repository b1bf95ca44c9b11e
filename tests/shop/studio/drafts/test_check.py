"""What is found out about a draft's text: everything wrong in it, and what it draws for one body."""

import pytest

from app.pattern.checks import CHECKS
from app.pattern.guide.drawing import DrawnDraft
from app.pattern.lay import LayPlan
from app.shop.studio.drafts.check import MOST_KINDS, MOST_LAID, draft_source, draw_source, read_text, try_draft
from app.shop.studio.drafts.parts import change_rows, draft_result, lines_of, outline_groups, problem_line
from tests.places import APRON

PIECE = APRON[APRON.index("piece skirt") : APRON.index("piece band")]


def subject(text=APRON, **settled):
    return draft_source(text, "apron.draft", settled)


def line_of(words, text=APRON):
    return next(number for number, row in enumerate(text.split("\n"), 1) if words in row)


def test_everything_wrong_is_told_in_the_order_of_the_lines():
    text = APRON.replace("hip_girth", "hip_girht").replace("top_fold down length", "top_fold dwon length")
    text = text.replace("sew skirt.top", "swe skirt.top")
    problems = read_text(subject(text)).problems
    lines = [problem.where.line for problem in problems]
    assert lines == sorted(lines)
    assert set(lines) == {line_of("hip_girht", text), line_of("dwon", text), line_of("swe ", text)}
    assert read_text(subject(text)).outline is None
    assert read_text(subject(text)).sizes == ()


def test_a_problem_stands_beside_its_line_with_the_place_marked():
    text = APRON.replace("top_fold down length", "top_fold dwon length")
    line = problem_line(read_text(subject(text)).problems[0], text.split("\n"))
    assert (line.line, line.marked, line.kind) == (line_of("dwon", text), "dwon", "grave")
    assert (line.before + line.marked + line.after).strip() == "hem_fold = top_fold dwon length"
    assert "down" in line.fix


def test_the_sizes_are_those_of_the_people_it_is_for():
    assert read_text(subject()).size("size 92").id == "size 92"
    assert read_text(subject()).size("size 7").id == "size 96"
    child = read_text(subject(APRON.replace("for women", "for children from 110cm to 128cm")))
    assert [size.id for size in child.sizes] == ["size 110", "size 116", "size 122", "size 128"]


def test_a_text_that_holds_gives_pieces_checks_and_cloth():
    found = try_draft(subject(), "size 92")
    assert [piece.name for piece in found.pattern.pieces] == ["skirt", "band"]
    assert [title for title, _ in found.findings] == ["Cutting out", *(check.title for check in CHECKS)]
    assert not any(some for _, some in found.findings)
    assert isinstance(found.cloths[0].plan, LayPlan)
    look = draft_result(found, APRON.split("\n"))
    assert look.checks_words == f"All {len(CHECKS) + 1} checks hold."
    assert look.drawing.startswith("<svg")
    assert "of cloth 140 cm wide" in look.cloths[0].words


def test_a_check_that_fails_says_what_it_found():
    found = try_draft(subject(APRON.replace("gather 1.2..2.1", "gather 2.5..3")), "size 92")
    look = draft_result(found, APRON.split("\n"))
    assert [row.title for row in look.checks] == ["Seam walk"]
    assert look.checks_words == f"1 of {len(CHECKS) + 1} checks does not hold."
    assert "Seam walk" not in look.held
    assert "a ratio of 1.60" in look.checks[0].findings[0].message
    assert look.drawing, "the pieces are drawn all the same"


def test_where_drawing_stops_is_told_with_its_line_and_what_was_drawn_before_can_be_played():
    text = APRON.replace("waist_girth * 0.3", "waist_girth * sin(arccos(waist_girth / 50cm))")
    found = try_draft(subject(text), "size 92")
    assert found.pattern is None
    assert found.problems[0].where.line == line_of("across ", text)
    drawing = draw_source(subject(text), "size 92")
    assert isinstance(drawing, DrawnDraft)
    assert drawing.problems


def test_settled_choices_are_drawn_as_they_are_settled():
    short, long = (try_draft(subject(length=length), "size 92").pattern.piece("skirt") for length in (450.0, 800.0))
    assert long.cutting.bounds.top - long.cutting.bounds.bottom > short.cutting.bounds.top - short.cutting.bounds.bottom
    assert "fit" in read_text(subject(fit="close")).problems[0].message


def test_a_draft_has_only_so_many_pieces_and_a_page_lays_only_so_much():
    many = APRON + "".join(PIECE.replace("piece skirt", f"piece skirt_{i}") for i in range(60))
    (told,) = read_text(subject(many)).problems
    assert (told.code, told.message) == ("language.too-many", "The draft has 62 pieces; 60 are the most.")
    laid = try_draft(subject(APRON.replace("cut 1 on fold main", f"cut {MOST_LAID} on fold main")), "")
    assert [cloth.plan.problems[0].code for cloth in laid.cloths] == ["studio.much-to-lay"]
    unlike = APRON + "".join(PIECE.replace("piece skirt", f"piece skirt_{i}") for i in range(MOST_KINDS))
    assert [cloth.plan.problems[0].code for cloth in try_draft(subject(unlike), "").cloths] == ["studio.much-to-lay"]


def test_the_outline_knows_the_lines_and_where_each_sheet_is_played():
    drawing = draw_source(subject(), "")
    lines = lines_of(drawing)
    assert lines["skirt"][0] == line_of("across ")
    groups = {group.title: group.entries for group in outline_groups(read_text(subject()).outline, {"skirt": (1, 9)})}
    assert list(groups) == ["Measurements", "Choices", "Cloth and notions", "Sheets", "Pieces", "Seams", "Steps"]
    assert [(entry.name, entry.plays) for entry in groups["Sheets"]] == [("skirt", 1), ("band", 0)]
    assert groups["Pieces"][0].words == "Apron skirt: centre, hem, side, top"
    assert groups["Pieces"][0].plays == 9
    assert (groups["Seams"][0].name, groups["Seams"][0].words) == ("skirt.top to band.lower", "gather")


def test_changes_show_what_is_gone_and_new_with_a_little_round_them():
    rows = change_rows(APRON, APRON.replace("waist_girth * 0.3", "waist_girth * 0.35"))
    at = line_of("across ")
    assert [(row.kind, row.before, row.after) for row in rows] == [
        ("gap", 0, 0),
        ("same", at - 2, at - 2),
        ("same", at - 1, at - 1),
        ("gone", at, 0),
        ("new", 0, at),
        ("same", at + 1, at + 1),
        ("same", at + 2, at + 2),
    ]
    assert change_rows(APRON, APRON) == ()


@pytest.mark.parametrize("text", ["", "draft", "\n\n", '"', "sheet\n" * 500, "steps\n    ## A\n    {", "🧵"])
def test_any_text_is_read_or_told_what_is_wrong(text):
    reading = read_text(subject(text))
    assert reading.problems
    assert all(problem.message and problem.fix for problem in reading.problems)
