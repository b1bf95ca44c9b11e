"""The formatter: one layout, nothing said otherwise, nothing lost."""

from __future__ import annotations

import random
import re
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.language import nodes as n
from app.pattern.language import parse
from app.pattern.language.format import WIDTH, format_draft
from app.pattern.language.parse import HEADS, SECTIONS, UNDER
from app.pattern.problem import Span
from tests.places import DRAFTS

DRAFTS = sorted(DRAFTS.glob("*.draft")) + sorted((Path(__file__).parent / "small").glob("*.draft"))


def formatted(text: str) -> str:
    """The formatted text; fails the test when it was refused."""
    out = format_draft(text, "t.draft")
    assert isinstance(out, str), "\n".join(map(str, out))
    return out


def plain(node):
    """A tree without its spans; words of the instructions without the blank ends of a step."""
    if isinstance(node, Span):
        return None
    if isinstance(node, tuple | list):
        return tuple(plain(part) for part in node)
    if isinstance(node, n.StepSection):
        return node.title, words(node.parts), plain(node.seams), plain(node.when)
    if is_dataclass(node):
        return type(node).__name__, tuple(plain(getattr(node, f.name)) for f in fields(node))
    return node


def words(parts):
    """The parts of a step: text joined where it meets, rows of nothing but spaces empty, the ends trimmed."""
    said = "".join(p if isinstance(p, str) else "\0" for p in parts)
    said = re.sub(r"^[^\S\n]+$", "", said, flags=re.MULTILINE).strip()
    return said, tuple(plain(p) for p in parts if not isinstance(p, str))


def tree(text: str):
    """The tree of a text without spans; fails the test when it cannot be read."""
    parsed = parse(text, "t.draft")
    assert not parsed.problems, "\n".join(map(str, parsed.problems))
    return plain(parsed.draft)


@pytest.mark.parametrize("path", DRAFTS, ids=lambda p: p.stem)
def test_a_draft_says_the_same_after_formatting_and_is_formatted_once(path):
    text = path.read_text("utf-8")
    once = formatted(text)
    assert tree(once) == tree(text)
    assert formatted(once) == once


@pytest.mark.parametrize("path", DRAFTS, ids=lambda p: p.stem)
def test_lines_with_lists_keep_to_the_width_and_no_row_ends_in_a_space(path):
    for row in formatted(path.read_text("utf-8")).split("\n"):
        assert row == row.rstrip()
        if row.startswith("    outline") or row.endswith(","):
            assert len(row) <= WIDTH


def test_spaces_stand_round_operators_and_not_inside_brackets():
    text = 'draft "T"\nsheet s\n  a=at 0,0\n  b=a down -3cm*( 2+1/4 )-  length( l )\n'
    assert "    b = a down -3cm * (2 + 1/4) - length(l)\n" in formatted(text)


def test_a_fraction_of_an_inch_stays_whole():
    assert "a = 38 1/2in + 5/8in\n" in formatted('draft "T"\nfigures\n    a = 38  1/2in+5/8in\n'.replace("  1", " 1"))


def test_equal_signs_are_aligned_in_a_block_and_each_block_has_its_own():
    text = """draft "T"
sheet s
    a = at 0, 0
    # a remark between
    longer = a down 3cm
    solve h from 1cm to 2cm until h = 1cm
        of_its_own = a down h
        b = a

    c = a
"""
    assert (
        formatted(text)
        == """draft "T"

sheet s
    a      = at 0, 0
    # a remark between
    longer = a down 3cm
    solve h from 1cm to 2cm until h = 1cm
        of_its_own = a down h
        b          = a

    c = a
"""
    )


def test_choices_cloths_and_notions_stand_in_columns():
    text = """draft "T"
choices
  ease=2cm from 1cm to 14cm "Room"
  lined=no "Lined"
  length = knee one of knee,calf "Length"
fabrics
  main "Cloth" width 140cm
  interfacing "Firm" open
notions
  tape "Tape" length 2cm
"""
    assert (
        formatted(text)
        == """draft "T"

choices
    ease   = 2cm  from 1cm to 14cm   "Room"
    lined  = no                      "Lined"
    length = knee one of knee, calf  "Length"

fabrics
    main         "Cloth"  width 140cm
    interfacing  "Firm"   open

notions
    tape  "Tape"  length 2cm
"""
    )


def test_comments_stay_where_they_were():
    text = """# first
draft "T"   # title
# about the sheet
sheet s # one

    # the nape
    a = smooth b,   # from here
        c,
        d      # to there
    # last of the sheet
# about the girth


girth g = 3cm
"""
    assert (
        formatted(text)
        == """# first
draft "T"  # title

# about the sheet
sheet s  # one
    # the nape
    # from here
    a = smooth b, c, d  # to there
    # last of the sheet

# about the girth

girth g = 3cm
"""
    )


def test_a_comment_in_a_block_stands_in_the_block():
    text = """draft "T"

sheet s
    # how high
    solve h from 1cm to 9cm until length(l) = 5cm
        a = at 0, 0
        # up to the crown
        l = line a to (a up h)
    # after the block
    b = at 0, 0
"""
    assert formatted(text) == text


def test_a_long_list_is_broken_after_a_comma_outside_brackets():
    names = ", ".join(f"point_number_{i}" for i in range(20))
    rows = formatted(f'draft "T"\nsheet s\n    line_one = smooth {names}, nearest(side_seam, waist_point)\n').split(
        "\n"
    )
    assert max(map(len, rows)) <= WIDTH
    assert len(rows) == 8
    assert all(row.endswith(",") for row in rows[3:-2])
    assert all(row.startswith("            ") for row in rows[4:-1])


def test_seams_and_girths_follow_one_another_without_blank_lines_unless_there_were_some():
    text = 'draft "T"\nsew a.b to c.d\nsew a.b to c.d notch at 3cm ease 1cm..2cm\n\n\nsew a.c to c.d\ngirth g = 1cm\n'
    text = text.replace("notch at 3cm ease 1cm..2cm", "ease 1cm ..2cm notch at 3cm")
    assert formatted(text) == (
        'draft "T"\n\nsew a.b to c.d\nsew a.b to c.d  ease 1cm..2cm  notch at 3cm\n\nsew a.c to c.d\n\ngirth g = 1cm\n'
    )


def test_instructions_keep_their_markdown_under_a_margin_of_four():
    text = "\n\n  ##   Sew  {when a}\n     Stitch {b}:\n\n\n     - one\n       - two  \n   \n  ## Press\n  At once.\n\n"
    assert formatted('draft "T"\nsteps' + text) == (
        'draft "T"\n\nsteps\n    ## Sew  {when a}\n    Stitch {b}:\n\n\n    - one\n      - two  \n\n'
        "    ## Press\n    At once.\n"
    )


def test_a_draft_that_cannot_be_read_is_handed_back_as_its_problems():
    (problem,) = format_draft('draft "T"\nsheet s\n    a = at 0 0\n', "t.draft").problems
    assert problem.where.line == 3


def test_every_section_of_the_language_has_a_rule_for_its_lines():
    assert set(SECTIONS) == set(HEADS) | set(UNDER) | {"steps"}


# ---- jumbles


def _lines_of(word: str) -> list[list[str]]:
    """The catalogue's sections that begin with this word, as rows."""
    found = []
    for path in DRAFTS:
        for section in re.split(r"\n(?=\S)", path.read_text("utf-8")):
            if section.startswith(word):
                found.append(section.rstrip().split("\n"))
    return found


SHEETS, CHOICES, PIECES = _lines_of("sheet"), _lines_of("choices"), _lines_of("piece")
LOOSE = _lines_of("sew") + _lines_of("girth")


def _jumbled(seed: int) -> str:
    """Sections of the catalogue put together at random: spaces stretched, remarks and blank lines between."""
    draw = random.Random(seed)
    rows = ['draft "Jumble"']
    for section in draw.choices([*SHEETS, *CHOICES, *PIECES, *LOOSE], k=draw.randint(1, 6)):
        rows += section
    return "\n".join(_stretched(draw, row) for row in rows) + "\n" * draw.randrange(3)


def _stretched(draw: random.Random, row: str) -> str:
    body = row.lstrip()
    margin = row[: len(row) - len(body)]
    if '"' not in body and "#" not in body and not re.search(r"\d/\d", body):
        body = re.sub(r" ", lambda m: " " * draw.choice((1, 1, 2, 5)), body)
        body = re.sub(r" ([*+=]) ", lambda m: draw.choice((m[1], m[0])), body)
        body = re.sub(r", ", lambda m: draw.choice((",", ", ", " , ", ",\n" + margin + "      ")), body)
    after = draw.choice(("", "", "", "   # a remark", "\n", "\n" + margin + "# alone"))
    goes_on = body.rstrip().endswith(",")
    return margin + body + (after if "#" not in body and not goes_on else "")


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 10**9))
def test_a_jumble_of_valid_lines_says_the_same_and_is_formatted_once(seed):
    text = _jumbled(seed)
    once = formatted(text)
    assert tree(once) == tree(text)
    assert formatted(once) == once
    assert once.count("# a") == text.count("# a")
