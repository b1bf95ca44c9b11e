"""Drafts laid over each other: what a later layer replaces, what it adds to, and that nothing else is lost."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.guide.layers import laid_over, sections_of, whole_text, written
from app.pattern.language.format import format_draft
from app.pattern.language.parse import SECTIONS
from tests.places import APRON, DRAFT_FILES
from tests.proved import SMALL_DRAFT

UNDER = """draft "Under"

# Taken first.
needs
    waist_girth, hip_girth

choices
    length = 60cm from 40cm to 90cm  "Length"
    ease   = 2cm from 1cm to 4cm     "Ease"

sheet panel
    a = at 0, 0

piece panel "Panel" cut 1 main
    outline a

sew panel.side to panel.other
sew panel.low to panel.top
"""


def over(text):
    return laid_over(sections_of(UNDER), sections_of(text))


def texts(sections):
    return {section.key: section.text for section in sections}


# ---- sections


def test_a_section_has_its_head_its_rows_and_the_comments_right_above_it():
    found = {section.key: section for section in sections_of(UNDER)}
    assert list(found) == ["draft", "needs", "choices", "sheet panel", "piece panel", "sew panel.side", "sew panel.low"]
    assert found["needs"].comments == ("# Taken first.",)
    assert found["needs"].text == "# Taken first.\nneeds\n    waist_girth, hip_girth"
    assert found["choices"].rows_under
    assert not found["sew panel.side"].rows_under
    assert found["sew panel.low"].word == "sew"


def test_a_comment_apart_from_a_section_belongs_to_the_one_before():
    first, second = sections_of("needs\n    a\n# still the first\n\nsheet s\n    b = at 0, 0\n")
    assert "# still the first" in first.text
    assert second.comments == ()


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda path: path.stem)
def test_the_sections_of_a_draft_written_again_say_what_the_draft_does(path):
    text = path.read_text("utf-8")
    again, before = (format_draft(each, "x.draft") for each in (written(sections_of(text)) + "\n", text))
    # Empty rows between seams of several rows are not the same; everything that is said is.
    assert [row for row in again.split("\n") if row] == [row for row in before.split("\n") if row]


@settings(max_examples=50)
@given(st.lists(st.sampled_from(UNDER.split("\n\n")), min_size=1, max_size=6, unique=True))
def test_no_row_of_a_text_is_lost_in_its_sections(parts):
    text = "\n\n".join(parts)
    rows = [row for row in text.split("\n") if row.strip()]
    kept = [row for section in sections_of(text) for row in section.text.split("\n") if row.strip()]
    begun = next((at for at, row in enumerate(rows) if not row.startswith((" ", "#"))), len(rows))
    assert kept == rows[begun if not rows[0].startswith("#") else 0 :]


# ---- laid over


def test_a_section_that_begins_alike_takes_the_place_of_the_one_below():
    laid = texts(over("sheet panel\n    a = at 1cm, 0\n"))
    assert laid["sheet panel"] == "sheet panel\n    a = at 1cm, 0"
    assert "sheet panel\n    a = at 0, 0" not in laid.values()
    assert laid["piece panel"].startswith('piece panel "Panel"')


def test_a_section_of_another_name_stands_beside():
    laid = texts(over("sheet band\n    b = at 0, 0\n"))
    assert {"sheet panel", "sheet band"} <= set(laid)


def test_a_seam_of_the_same_edge_is_replaced_and_another_stays():
    laid = texts(over("sew panel.side to sleeve.side\n"))
    assert laid["sew panel.side"] == "sew panel.side to sleeve.side"
    assert laid["sew panel.low"] == "sew panel.low to panel.top"


def test_a_list_grows_by_the_rows_of_the_upper_layer():
    laid = texts(over("needs\n    arm_length\n"))
    assert laid["needs"].split("\n") == ["needs", "    waist_girth, hip_girth", "    arm_length"]


def test_a_named_line_is_given_anew_and_its_neighbours_stay():
    laid = texts(over('choices\n    ease = 3cm from 1cm to 5cm  "Room"\n'))
    rows = laid["choices"].split("\n")
    assert '    length = 60cm from 40cm to 90cm  "Length"' in rows
    assert '    ease = 3cm from 1cm to 5cm  "Room"' in rows
    assert not any('"Ease"' in row for row in rows)


def test_a_list_that_was_not_there_is_added():
    laid = texts(over('notions\n    thread "Thread" count 1\n'))
    assert laid["notions"] == 'notions\n    thread "Thread" count 1'


def test_steps_are_told_one_after_the_other():
    below = "steps\n    ## Sew\n    Sew it.\n"
    laid = laid_over(sections_of(below), sections_of("steps\n    ## Press\n    Press it.\n"))
    text = texts(laid)["steps"]
    assert text.index("## Sew") < text.index("## Press")
    assert text.count("steps") == 1


def test_an_empty_layer_changes_nothing():
    assert laid_over(sections_of(UNDER), ()) == sections_of(UNDER)
    assert laid_over((), sections_of(UNDER)) == sections_of(UNDER)


@pytest.mark.parametrize("text", [SMALL_DRAFT, APRON])
def test_a_draft_laid_over_itself_is_that_draft_but_for_steps_told_twice(text):
    sections = tuple(section for section in sections_of(text) if section.word != "steps")
    needs = [section for section in sections if section.word == "needs"]
    laid = laid_over(sections, [section for section in sections if section.word != "needs"])
    assert whole_text(laid) == whole_text(sections)
    assert len(needs) == 1


# ---- the whole


def test_sections_come_in_the_order_of_the_language_whatever_their_layers():
    shuffled = sections_of(SMALL_DRAFT)[::-1]
    whole = whole_text(shuffled)
    words = [row.split()[0] for row in whole.split("\n") if row and not row.startswith((" ", "#"))]
    ranks = [list(SECTIONS).index(word) for word in words]
    assert ranks == sorted(ranks)
    assert whole == format_draft(SMALL_DRAFT, "x.draft")


def test_lines_of_one_word_that_stand_alone_follow_one_another():
    text = written(sections_of("sew a.b to c.d\nsew e.f to g.h\n\nsheet s\n    a = at 0, 0\n"))
    assert text == "sew a.b to c.d\nsew e.f to g.h\n\nsheet s\n    a = at 0, 0"


def test_layers_that_make_no_draft_are_our_own_mistake():
    with pytest.raises(ValueError, match="the layers make no draft"):
        whole_text(sections_of("sheet s\n    a = at\n"))
