"""Places in a text: what is told of a line points at that line, whatever was lost, doubled or moved in it."""

import random
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.language import parse
from app.pattern.language.format import format_draft
from app.pattern.language.outline import outline
from app.pattern.make import DraftCard, read_draft
from app.pattern.problem import Span, in_order
from tests.pattern.drafting.drawn import FRAME
from tests.pattern.drafting.made_up import sheets
from tests.places import APRON, DRAFT_FILES
from tests.proved import SMALL_DRAFT

tried = settings(deadline=None, max_examples=30)
TOKEN = re.compile(r'"[^"\n]*"|[A-Za-z_]\w*|\d+(?:\.\d+)?(?:cm|mm|in|deg)?|[^\s\w]')
ROWS = APRON.split("\n")
#: Rows of the apron that say something and are no instructions, which may say anything.
SAYING = [
    number for number, row in enumerate(ROWS[: ROWS.index("steps")], 1) if row.strip() and not row.startswith("#")
]


def problems_of(text):
    found = read_draft(text, "t.draft")
    return () if isinstance(found, DraftCard) else found.problems


def spoiled(number, change):
    """The apron with one row changed."""
    return "\n".join([*ROWS[: number - 1], change(ROWS[number - 1]), *ROWS[number:]])


def assert_well_told(problems, text):
    """Each with a sentence, a remedy, and a place that is in the text, in the order of the lines."""
    rows = text.split("\n")
    for problem in problems:
        assert problem.message.strip()
        assert problem.fix.strip()
        if isinstance(problem.where, Span):
            assert 1 <= problem.where.line <= len(rows)
            assert 1 <= problem.where.column <= len(rows[problem.where.line - 1]) + 1
            assert problem.where.end_column > problem.where.column
            assert f"{problem.where.line} |" in problem.excerpt
    assert in_order(problems) == tuple(problems)


# ---- one word lost, doubled or moved


@tried
@given(st.sampled_from(SAYING), st.randoms(use_true_random=False))
def test_a_word_that_is_lost_is_told_in_place(number, chance):
    words = list(TOKEN.finditer(ROWS[number - 1]))
    lost = chance.choice(words)
    text = spoiled(number, lambda row: row[: lost.start()] + row[lost.end() :])
    assert_well_told(problems_of(text), text)


@tried
@given(st.sampled_from(SAYING), st.randoms(use_true_random=False))
def test_a_word_typed_twice_is_told_in_place(number, chance):
    words = list(TOKEN.finditer(ROWS[number - 1]))
    twice = chance.choice(words)
    text = spoiled(number, lambda row: f"{row[: twice.end()]} {twice[0]}{row[twice.end() :]}")
    assert_well_told(problems_of(text), text)


@tried
@given(st.sampled_from(SAYING), st.randoms(use_true_random=False))
def test_two_words_that_changed_places_are_told_in_place(number, chance):
    words = [match[0] for match in TOKEN.finditer(ROWS[number - 1])]
    at = chance.randrange(max(1, len(words) - 1))
    words[at : at + 2] = reversed(words[at : at + 2])
    indent = re.match(r" *", ROWS[number - 1])[0]
    text = spoiled(number, lambda row: indent + " ".join(words))
    assert_well_told(problems_of(text), text)


@tried
@given(st.sampled_from(SAYING), st.sampled_from("§$&;€~^`@!?\\|"))
def test_an_odd_sign_is_told_on_its_own_line(number, sign):
    text = spoiled(number, lambda row: f"{row} {sign}")
    problems = problems_of(text)
    assert_well_told(problems, text)
    assert {problem.where.line for problem in problems if isinstance(problem.where, Span)} == {number}


@tried
@given(st.sampled_from([number for number in SAYING if ROWS[number - 1].startswith("    ")]), st.integers(1, 3))
def test_a_line_of_another_depth_is_read_or_told(number, more):
    text = spoiled(number, lambda row: " " * more + row)
    assert_well_told(problems_of(text), text)


@pytest.mark.parametrize("number", SAYING)
def test_a_row_that_is_left_out_breaks_nothing_but_what_needs_it(number):
    text = "\n".join([*ROWS[: number - 1], *ROWS[number:]])
    assert_well_told(problems_of(text), text)


@pytest.mark.parametrize("number", SAYING)
def test_a_row_that_stands_twice_breaks_nothing_but_itself(number):
    text = "\n".join([*ROWS[:number], *ROWS[number - 1 :]])
    problems = problems_of(text)
    assert_well_told(problems, text)


@pytest.mark.parametrize("end", [1, 17, 100, 400, 700, 1100, 1500])
def test_a_text_that_was_cut_off_is_told_at_its_end_or_reads_as_less(end):
    text = APRON[:end]
    assert_well_told(problems_of(text), text)


# ---- names


@tried
@given(sheets())
def test_the_outline_of_made_up_lines_names_each_in_its_row(made):
    lines, worth = made
    text = FRAME + "".join(f"    {line}\n" for line in lines)
    parsed = parse(text, "t.draft")
    assert parsed.problems == ()
    [sheet] = outline(parsed.draft).sheets
    assert [name.name for name in sheet.names] == list(worth)
    rows = text.split("\n")
    for name in sheet.names:
        assert rows[name.line - 1].strip().startswith(f"{name.name} =")


@tried
@given(sheets(), st.data())
def test_a_misspelt_name_is_told_at_every_place_where_it_was_meant(made, data):
    lines, worth = made
    known = [name for name in worth if any(name in line for line in lines if not line.startswith(f"{name} ="))]
    if not known:
        return
    name = data.draw(st.sampled_from(known))
    text = FRAME + "".join(f"    {line}\n" for line in lines)
    wrong = text.replace(f"{name} =", f"{name}x =")
    problems = problems_of(wrong)
    assert problems
    for problem in problems:
        assert name in wrong.split("\n")[problem.where.line - 1]
        assert f"“{name}”" in problem.message


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda path: path.stem)
def test_the_first_sign_of_every_name_of_a_draft_is_where_it_is_told_to_be(path):
    text = path.read_text("utf-8")
    rows = text.split("\n")
    draft = parse(text, path.name).draft
    for node in (*draft.choices, *draft.fabrics, *draft.notions, *draft.sheets, *draft.pieces, *draft.girths):
        row = rows[node.span.line - 1]
        assert node.name in row
        assert 1 <= node.span.column <= len(row)


# ---- many wrong things


@tried
@given(st.integers(0, 10_000), st.integers(2, 6))
def test_several_spoiled_rows_are_told_each_and_none_that_is_sound(seed, many):
    """An odd sign at the end of some rows is told on just these rows, all of them at once."""
    chance = random.Random(seed)
    chosen = set(chance.sample(SAYING, many))
    text = "\n".join(f"{row} ¶" if number in chosen else row for number, row in enumerate(ROWS, 1))
    problems = problems_of(text)
    assert_well_told(problems, text)
    assert {problem.where.line for problem in problems if isinstance(problem.where, Span)} == chosen


@tried
@given(st.text(st.characters(exclude_categories=("Cs",)), max_size=80))
def test_any_title_is_the_title_or_told(title):
    text = SMALL_DRAFT.replace("Linnet apron", title)
    card = read_draft(text, "t.draft")
    if isinstance(card, DraftCard):
        assert card.title == title
    else:
        assert_well_told(card.problems, text)


@tried
@given(st.text("abc {}[]()<>*_#`\\\"'&|.,;:-1234567890 ", max_size=60))
def test_instructions_may_say_anything_and_are_kept_or_told(words):
    text = SMALL_DRAFT.replace("Turn every edge of the panel under.", f"Turn. {words}")
    problems = problems_of(text)
    assert_well_told(problems, text)
    if not problems and "{" not in words:
        laid = format_draft(text, "t.draft")
        assert isinstance(laid, str)
        assert f"Turn. {words}".rstrip() in laid
