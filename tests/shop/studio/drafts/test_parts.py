"""The parts of the draft page: problems beside their lines, the outline, numbered lines, sizes, cloth and changes."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.checks import CHECKS
from app.pattern.problem import Place, Problem, Related, Severity, Span
from app.shop.studio.drafts.check import draft_source, draw_source, read_text, try_draft
from app.shop.studio.drafts.parts import (
    change_rows,
    draft_result,
    lines_of,
    numbered_rows,
    outline_groups,
    problem_line,
)
from tests.places import APRON, DRAFTS
from tests.proved import SMALL_DRAFT

ROWS = ["first", "    second = at 0, 0", "third"]
SKIRT = (DRAFTS / "gore_skirt.draft").read_text("utf-8")


def at(line, column, end):
    return Problem("a.b", "Message.", "Fix.", Span("a.draft", line, column, end))


def look(text=SMALL_DRAFT, size="size 92"):
    return draft_result(try_draft(draft_source(text, "a.draft", {}), size), text.split("\n"))


# ---- problems beside their lines


@pytest.mark.parametrize(
    ("span", "parts"),
    [
        ((2, 5, 11), ("    ", "second", " = at 0, 0")),
        ((1, 1, 6), ("", "first", "")),
        ((1, 6, 7), ("first", "", "")),
        ((3, 3, 3), ("th", "i", "rd")),
    ],
)
def test_a_problem_marks_its_place_in_its_row(span, parts):
    line = problem_line(at(*span), ROWS)
    assert (line.line, line.column) == span[:2]
    assert (line.before, line.marked, line.after) == parts
    assert line.place == ""


def test_a_problem_behind_the_last_row_marks_nothing_and_keeps_its_place():
    line = problem_line(at(9, 4, 6), ROWS)
    assert (line.line, line.column, line.before, line.marked, line.after) == (9, 4, "", "", "")


@given(st.integers(1, 5), st.integers(1, 40), st.integers(1, 40))
def test_the_three_parts_of_a_row_are_the_row_wherever_the_problem_lies(line, column, end):
    shown = problem_line(at(line, column, end), ROWS)
    assert shown.before + shown.marked + shown.after == (ROWS[line - 1] if line <= len(ROWS) else "")


@pytest.mark.parametrize(
    ("where", "place"),
    [
        (Place("front", "side"), "front, edge side"),
        (Place(point="hip"), "hip"),
        (Place(), ""),
        (None, ""),
    ],
)
def test_a_problem_in_the_work_itself_is_told_by_its_place(where, place):
    line = problem_line(Problem("a.b", "Message.", "Fix.", where), ROWS)
    assert (line.line, line.column, line.place) == (0, 0, place)
    assert (line.message, line.fix) == ("Message.", "Fix.")


@pytest.mark.parametrize(
    ("severity", "kind"), [(Severity.ERROR, "grave"), (Severity.WARNING, "slight"), (Severity.NOTE, "slight")]
)
def test_a_warning_is_not_as_grave_as_an_error(severity, kind):
    assert problem_line(Problem("a.b", "m", "f", None, severity), ROWS).kind == kind


def test_other_lines_that_explain_a_problem_are_told_with_their_numbers():
    related = (Related("first given here", Span("a.draft", 2, 5, 6)), Related("in a piece", Place("front")))
    line = problem_line(Problem("a.b", "m", "f", Span("a.draft", 3, 1, 2), related=related), ROWS)
    assert [(seen.words, seen.fix) for seen in line.see] == [("first given here", "2")]


# ---- the outline and the numbered text


def groups(text, ends=None):
    reading = read_text(draft_source(text, "a.draft", {}))
    return {group.title: group.entries for group in outline_groups(reading.outline, ends or {})}


def test_a_small_draft_has_no_group_for_what_it_lacks():
    found = groups(SMALL_DRAFT)
    assert list(found) == ["Measurements", "Cloth and notions", "Sheets", "Pieces", "Steps"]
    assert [(entry.name, entry.words) for entry in found["Sheets"]] == [("panel", "8 steps")]
    assert found["Pieces"][0].words == "Panel: top, side, low, near"


def test_every_entry_of_an_outline_stands_in_the_line_it_names():
    rows = SKIRT.split("\n")
    found = groups(SKIRT)
    for title in ("Measurements", "Choices", "Cloth and notions", "Sheets", "Pieces", "Girths"):
        for entry in found[title]:
            assert entry.name in rows[entry.line - 1], (title, entry)
    for entry in found["Steps"]:
        assert entry.name in rows[entry.line - 1]


def test_a_sheet_is_played_from_its_first_line_and_a_piece_to_the_last_of_its_sheet():
    found = groups(SMALL_DRAFT, {"panel": (8, 15)})
    assert found["Sheets"][0].plays == 8
    assert found["Pieces"][0].plays == 15


@pytest.mark.parametrize(
    ("sheets", "piece", "played"),
    [
        (("panel",), "piece panel", 15),
        (("panel",), "piece apron", 15),
        (("panel", "other"), "piece panel", 15),
        (("panel", "other"), "piece apron", 15),
    ],
)
def test_a_piece_that_does_not_say_its_sheet_is_played_from_the_one_it_is_traced_from(sheets, piece, played):
    spare = "sheet other\n    z = at 0, 0\n" if "other" in sheets else ""
    said = " from panel" if spare and piece == "piece apron" else ""
    text = SMALL_DRAFT.replace("piece panel", f"{spare}{piece}").replace('"Panel"', f'"Panel"{said}')
    assert groups(text, {"panel": (8, 15), "other": (16, 17)})["Pieces"][0].plays == played


def test_rows_are_numbered_with_what_draws_and_what_is_wrong():
    rows = numbered_rows(ROWS, {"one": (2,), "two": (3,)}, {3})
    assert [(row.number, row.text, row.plays, row.wrong) for row in rows] == [
        (1, "first", False, False),
        (2, "    second = at 0, 0", True, False),
        (3, "third", True, True),
    ]


def test_the_lines_that_draw_are_those_of_the_sheets_in_order_and_nothing_else():
    lines = lines_of(draw_source(draft_source(APRON, "a.draft", {}), "size 92"))
    rows = APRON.split("\n")
    assert list(lines) == ["skirt", "band"]
    for sheet, some in lines.items():
        assert list(some) == sorted(set(some))
        start = rows.index(f"sheet {sheet}") + 1
        assert all(line > start and "=" in rows[line - 1] for line in some)
    assert not set(lines["skirt"]) & set(lines["band"])


# ---- what is drawn


def test_a_draft_that_holds_lists_every_check_that_held():
    shown = look()
    assert shown.checks == ()
    assert len(shown.held) == len(CHECKS) + 1
    assert shown.checks_words == f"All {len(CHECKS) + 1} checks hold."
    assert shown.refused == ()


def test_a_remark_is_no_check_that_does_not_hold():
    """A check with a warning holds, and what it remarks on is shown all the same."""
    found = try_draft(draft_source(SMALL_DRAFT, "a.draft", {}), "size 92")
    remark = Problem("checks.kink", "It has a kink.", "Look.", Place("panel"), Severity.WARNING)
    title, _ = found.findings[3]
    remarked = replace(found, findings=(*found.findings[:3], (title, (remark,)), *found.findings[4:]))
    shown = draft_result(remarked, SMALL_DRAFT.split("\n"))
    assert shown.checks_words == f"All {len(CHECKS) + 1} checks hold; 1 has a remark."
    assert [row.title for row in shown.checks] == [title]
    assert title not in shown.held


def test_two_checks_that_fail_are_counted_as_two():
    text = APRON.replace("gather 1.2..2.1", "gather 2.5..3").replace("allowance 1cm, side", "allowance 40cm, side")
    shown = look(text)
    grave = [row for row in shown.checks if any(line.kind == "grave" for line in row.findings)]
    verb = "does" if len(grave) == 1 else "do"
    assert grave
    assert shown.checks_words == f"{len(grave)} of {len(CHECKS) + 1} checks {verb} not hold."


def test_girths_are_shown_beside_the_body_with_the_ease_between():
    waist, *_ = look(SKIRT).girths
    assert waist.title
    body, ease, garment = (float(words.removesuffix(" cm")) for words in (waist.body, waist.ease, waist.garment))
    assert body + ease == pytest.approx(garment, abs=0.051)


def test_cloth_is_told_by_its_length_its_width_and_how_it_is_laid():
    [cloth] = look().cloths
    assert cloth.title == "Cloth"
    metres, _, rest = cloth.words.partition(" of cloth ")
    assert 0.5 < float(metres.removesuffix(" m")) < 2.0
    assert rest in ("140 cm wide, folded along its length", "140 cm wide, laid open")
    assert (cloth.problem, cloth.drawing[:4]) == ("", "<svg")


def test_cloth_too_narrow_for_a_piece_says_so_instead_of_a_plan():
    shown = look(SMALL_DRAFT.replace("width 140cm", "width 20cm"))
    [cloth] = shown.cloths
    assert cloth.words == ""
    assert "wide" in cloth.problem
    assert cloth.drawing == ""


def test_a_text_that_cannot_be_drawn_for_a_body_shows_why_and_no_pieces():
    text = SMALL_DRAFT.replace("hip_girth / 4", "hip_girth * sin(arccos(hip_girth / 50cm))")
    shown = look(text)
    assert shown.drawing == ""
    assert (shown.girths, shown.cloths) == ((), ())
    assert shown.refused[0].line == next(n for n, row in enumerate(text.split("\n"), 1) if "arccos" in row)


# ---- what changed


def rows_of(before, after):
    return [(row.kind, row.before, row.after, row.text) for row in change_rows(before, after)]


@pytest.mark.parametrize(
    ("before", "after", "rows"),
    [
        ("a", "a", []),
        ("a", "b", [("gone", 1, 0, "a"), ("new", 0, 1, "b")]),
        ("a\nb", "a", [("same", 1, 1, "a"), ("gone", 2, 0, "b")]),
        ("a", "a\nb", [("same", 1, 1, "a"), ("new", 0, 2, "b")]),
        ("", "a", [("gone", 1, 0, ""), ("new", 0, 1, "a")]),
        (
            "1\n2\n3\n4\n5",
            "1\n2\n3\n4\nx",
            [("gap", 0, 0, ""), ("same", 3, 3, "3"), ("same", 4, 4, "4"), ("gone", 5, 0, "5"), ("new", 0, 5, "x")],
        ),
    ],
)
def test_changes_are_shown_row_by_row(before, after, rows):
    assert rows_of(before, after) == rows


@given(st.lists(st.sampled_from("abcd"), max_size=30), st.lists(st.sampled_from("abcd"), max_size=30))
def test_every_row_of_the_changes_is_the_row_of_its_text_and_all_that_differs_is_among_them(old, new):
    rows = change_rows("\n".join(old), "\n".join(new))
    before, after = ("\n".join(old)).split("\n"), ("\n".join(new)).split("\n")
    for row in rows:
        if row.kind in ("same", "gone"):
            assert before[row.before - 1] == row.text
        if row.kind in ("same", "new"):
            assert after[row.after - 1] == row.text
    gone = {row.before for row in rows if row.kind == "gone"}
    new_rows = {row.after for row in rows if row.kind == "new"}
    kept_before = [text for number, text in enumerate(before, 1) if number not in gone]
    kept_after = [text for number, text in enumerate(after, 1) if number not in new_rows]
    assert kept_before == kept_after, "without what is gone and what is new both texts are one"


def test_changes_of_a_whole_book_are_cut_off():
    before, after = "\n".join(map(str, range(600))), "\n".join(f"{number}." for number in range(600))
    assert len(change_rows(before, after)) == 400
