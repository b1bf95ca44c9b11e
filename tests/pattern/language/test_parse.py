"""Reading a draft: lines, blocks, comments, spans, and every error told at once."""

from __future__ import annotations

import random
import string

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.language import nodes as n
from app.pattern.language import parse
from app.pattern.language.lines import LIMITS


def steps_of(lines: str):
    """The steps of a sheet with these lines; fails on any problem."""
    parsed = parse('draft "T"\nsheet s\n' + "\n".join("    " + row for row in lines.split("\n")), "t.draft")
    assert not parsed.problems, "\n".join(map(str, parsed.problems))
    return parsed.draft.sheets[0].steps


def test_comments_and_blank_lines_say_nothing():
    steps = steps_of("# a remark\na = at 0, 0   # the nape\n\nb = a down 3cm")
    assert [s.name for s in steps] == ["a", "b"]


def test_a_hash_inside_quotes_is_text():
    parsed = parse('draft "No. #7"', "t.draft")
    assert parsed.draft.title == "No. #7"


def test_a_line_goes_on_after_a_comma_or_an_operator():
    steps = steps_of("l = smooth a,\n    b,\n    c\nx = 3cm +\n    4cm")
    assert len(steps) == 2
    assert len(steps[0].value.args) == 3


def test_a_span_points_at_the_very_word_on_a_continued_line():
    (step,) = steps_of("l = smooth a,\n    bee, c")
    assert (step.value.args[1].span.line, step.value.args[1].span.column) == (4, 9)
    assert step.value.args[1].span.end_column == 12


def test_arithmetic_binds_as_at_school():
    (step,) = steps_of("x = a + b * c - d / 2")
    assert step.value.form == "subtract"
    assert step.value.args[0].form == "add"
    assert step.value.args[0].args[1].form == "multiply"


def test_moves_follow_one_another():
    (step,) = steps_of("p = a down 3cm right b + 1cm")
    assert step.value.form == "go right"
    assert step.value.args[0].form == "go down"
    assert step.value.args[1].form == "add"


def test_names_may_begin_with_words_of_the_language():
    steps = steps_of("upper = down_point up left_width\nlength_all = length(line_a)")
    assert steps[0].value.args[0] == n.Name("down_point", steps[0].value.args[0].span)


def test_blocks_hold_their_steps():
    (solve,) = steps_of("solve h from 1cm to 2cm until x = y\n    when lined\n        a = at 0, 0\n    b = at 1cm, 0")
    assert isinstance(solve, n.Solve)
    assert isinstance(solve.steps[0], n.WhenBlock)
    assert solve.steps[1].name == "b"


def test_instructions_keep_their_words_and_find_their_braces():
    text = 'draft "T"\nsteps\n    ## Sew {when lined}\n    Stitch {length(a.b)} of it. {seam a.b}\n\n    - one\n'
    text += "      - two\n"
    (step,) = parse(text, "t.draft").draft.steps
    assert step.title == "Sew"
    assert step.when is not None
    assert [(s.owner, s.name) for s in step.seams] == [("a", "b")]
    words = "".join(p if isinstance(p, str) else "*" for p in step.parts)
    assert words.startswith("Stitch * of it. ")
    assert "- one\n  - two" in words


def test_windows_line_ends_and_a_byte_order_mark_are_read_too():
    parsed = parse('\ufeffdraft "T"\r\nsheet s\r\n    a = at 0, 0\r\n', "t.draft")
    assert not parsed.problems
    assert parsed.draft.sheets[0].steps[0].span.line == 3


def test_every_wrong_line_is_told_and_the_rest_is_still_read():
    text = 'draft "T"\nsheet s\n    a = at 0 0\n    b = at 0, 0\n    c = b donw 3cm\nfabrcs\n'
    parsed = parse(text, "t.draft")
    assert [p.where.line for p in parsed.problems] == [3, 5, 6]
    assert parsed.draft.sheets[0].steps[0].name == "b"
    assert "Did you mean “down”?" in parsed.problems[1].fix
    assert "Did you mean “fabrics”?" in parsed.problems[2].fix


def test_the_excerpt_marks_the_place():
    (problem,) = parse('draft "T"\nsheet s\n    c = b donw 3cm\n', "t.draft").problems
    line, mark = problem.excerpt.split("\n")
    assert line[mark.index("^") : mark.rindex("^") + 1] == "donw"
    assert str(problem).startswith("t.draft:3:11: error:")


@pytest.mark.parametrize(
    "text",
    [
        "x" * (LIMITS.characters + 1),
        "\n" * (LIMITS.lines + 1),
        "a" * (LIMITS.line_length + 1),
        'draft "T"\nsheet s\n    a = ' + "(" * 900,
        "\x00\x01",
        "",
        "\n\n",
        'draft "',
        "steps\n    ## {" + "{" * 50,
    ],
)
def test_a_text_beyond_the_limits_ends_in_a_plain_error(text):
    problems = parse(text, "t.draft").problems
    assert problems
    assert all(p.fix and p.where for p in problems)


def test_too_many_lines_are_told_with_the_limit():
    (problem,) = parse("\n" * (LIMITS.lines + 1), "t.draft").problems
    assert problem.code == "language.too-long"
    assert str(LIMITS.lines) in problem.message


def test_thousands_of_lines_of_rubbish_are_told_line_by_line():
    draws = random.Random(4)
    rows = ["".join(draws.choices(string.printable[:94], k=30)) for _ in range(3900)]
    parsed = parse("\n".join(rows), "t.draft")
    assert len(parsed.problems) > 3000


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_no_text_breaks_the_reader(text):
    for problem in parse(text, "t.draft").problems:
        assert problem.fix


WORDS = (
    "draft sheet piece needs choices fabrics sew girth steps solve when otherwise from to until at line curve smooth "
    "dart trace pivot cut of as tape on spread along by fan pleat deep move in out true unite face shorten repeat "
    'down up left right toward by along of and or not is ( ) , . = + - * / 3cm 5/8in 20% a b c "T" \n \n \n    \n     '
)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(WORDS.split(" ")), max_size=60).map(" ".join))
def test_no_jumble_of_the_languages_own_words_breaks_the_reader(text):
    for problem in parse(text, "t.draft").problems:
        assert problem.where is not None


def test_instructions_with_thousands_of_braces_end_in_one_plain_error():
    text = 'draft "T"\nsteps\n    ## Sew\n' + ("    " + "{a}" * 300 + "\n") * 270
    (problem,) = parse(text, "t.draft").problems
    assert problem.code == "language.too-long"
    assert "braces" in problem.message


def test_a_line_that_goes_on_without_end_is_told_once_with_its_beginning():
    text = 'draft "T"\nfigures\n    x = 1cm' + " +\n        1cm" * 3000 + "\n"
    first = parse(text, "t.draft").problems[0]
    assert (first.code, first.where.line) == ("language.long-line", 3)


@pytest.mark.parametrize("line", ["x = " + "-" * 900 + "1cm", "when " + "not " * 200 + "yes", "x = 1" + " + 1" * 200])
def test_parts_inside_parts_without_end_are_told(line):
    (problem, *_) = parse(f'draft "T"\nfigures\n    {line}\n', "t.draft").problems
    assert problem.code == "language.nesting"
