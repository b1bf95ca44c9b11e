"""Everything wrong with a draft is told at once, in the order of its lines; nothing is blamed for another's slip."""

from __future__ import annotations

import pytest

from app.pattern.drafting import Program, compiled
from tests.places import DRAFT_FILES

GARMENT = """\
draft "Garment"
needs
    waist_girth, hip_girth
choices
    ease = 2cm from 1cm to 4cm "Ease"
    length = knee one of knee, calf "Length"
fabrics
    main "Cloth" width 140cm
figures
    quarter = (hip_girth + ease) / 4
sheet flat
    a = at 0, 0
    b = a right quarter
    c = b up 60cm
    d = a up 60cm
    low = line a to b
    side = line b to c
    top = line d to c
    near = line a to d
    when length is calf
        knee = middle of a and d
    whole = trace low, side, top, near
    longer = move low of whole out by 3cm
piece panel "Panel" from flat cut 2 main
    outline low, side, top, near
    grain (a right 10cm up 5cm) to (d right 10cm down 5cm)
    allowance 1cm
piece facing "Facing" from flat cut 2 main
    outline of longer
    grain along near
    allowance 1cm
sew panel.side to facing.side
girth around "Around" = 2 * length(panel.low)
steps
    ## Sew
    Stitch {length(panel.side)}, {quarter} and {length(flat.low)}.
"""


def told(text: str):
    """The problems of a text, as (line, message) in the order told."""
    found = compiled(text, "t.draft")
    return [] if isinstance(found, Program) else [(p.where.line, p.message) for p in found.problems]


def lines_of(text: str) -> list[int]:
    return [line for line, _ in told(text)]


def spoilt(old: str, new: str) -> str:
    assert GARMENT.count(old) == 1
    return GARMENT.replace(old, new)


def test_the_garment_itself_reads_well():
    assert told(GARMENT) == []


def test_a_misspelt_name_is_told_beside_a_line_that_cannot_be_read():
    text = spoilt("d = a up 60cm", "d = a upp 60cm").replace("low = line a to b", "low = line a to bee")
    assert lines_of(text) == [15, 16]
    assert told(text)[1][1] == "Nothing named “bee” is known here."


def test_errors_of_every_sort_come_in_the_order_of_their_lines():
    text = GARMENT.replace("waist_girth, hip", "waist_grith, hip").replace("c = b up 60cm", "c = b up 60")
    text = text.replace("allowance 1cm\nsew", "allowence 1cm\nsew").replace("panel.side to", "panel.sdie to")
    assert lines_of(text) == [3, 14, 31, 32]


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("    waist_girth, hip_girth", "    waist_girth; hip_girth", 3),
        ("    ease = 2cm from", "    ease 2cm from", 5),
        ("one of knee, calf", "of knee, calf", 6),
        ('    main "Cloth"', "    main Cloth", 8),
        ("    quarter = (hip", "    quarter = hip", 10),
        ("sheet flat", "sheet", 11),
        ("sheet flat", "shet flat", 11),
        ("    a = at 0, 0", "    a = at 0 0", 12),
        ("    a = at 0, 0", "a = at 0, 0", 12),
        ("    low = line a to b", "    low line a to b", 16),
        ("    low = line a to b", "    = line a to b", 16),
        ("    when length is calf", "    whn length is calf", 20),
        ("    whole = trace", "    whole = trce", 22),
        ("    longer = move low of", "    longer = mvoe low of", 23),
        ('piece panel "Panel" from flat cut', 'piece panel "Panel" form flat cut', 24),
        ('piece panel "Panel" from flat cut', 'peice panel "Panel" from flat cut', 24),
        ("    outline low, side", "    outline low side", 25),
        ("    outline low, side", "outline low, side", 25),
        ("    outline of longer", "    outlin of longer", 29),
        ("{length(panel.side)}", "{length(panel.side}", 36),
    ],
)
def test_a_line_that_cannot_be_read_is_told_once_and_nothing_else_is_blamed(old, new, line):
    assert lines_of(spoilt(old, new)) == [line]


def test_a_wrong_name_of_a_sheet_or_an_edge_is_told_once():
    assert lines_of(spoilt("from flat cut 2 main\n    outline low", "from falt cut 2 main\n    outline low")) == [24]
    assert lines_of(spoilt("    outline low, side", "    outline lowe, side")) == [25]


def test_a_line_at_the_margin_goes_on_with_the_section_above_it():
    text = spoilt("    b = a right quarter", "b = a right quarter").replace("top = line d to c", "top = line d to cc")
    assert lines_of(text) == [13, 18]


def test_an_unknown_name_among_the_parts_of_max_is_told_once():
    assert lines_of(spoilt("(hip_girth + ease) / 4", "max(hipgirth, 90cm) / 4")) == [10]


def test_a_block_too_deep_is_told_once():
    deep = "".join("    " * depth + "when length is calf\n" for depth in range(1, 12)) + "    " * 12 + "z = a\n"
    assert len(told(spoilt("    whole = trace", deep + "    whole = trace"))) == 1


@pytest.mark.parametrize("path", DRAFT_FILES, ids=lambda p: p.stem)
def test_one_odd_sign_in_any_line_of_a_catalogue_draft_is_told_on_that_line_alone(path):
    rows = path.read_text("utf-8").split("\n")
    blamed = {}
    for index in range(len(path.stem) % 9, rows.index("steps"), 9):
        row = rows[index]
        if not row.strip() or row.lstrip().startswith("#") or goes_on(rows, index):
            continue
        margin = len(row) - len(row.lstrip())
        at = (len(row), (margin + len(row)) // 2, margin + 2)[index % 3]
        found = compiled("\n".join([*rows[:index], f"{row[:at]}§{row[at:]}", *rows[index + 1 :]]), path.name)
        elsewhere = [] if isinstance(found, Program) else [p for p in found.problems if p.where.line != index + 1]
        blamed |= {index + 1: str(elsewhere[0])} if elsewhere else {}
    assert not blamed


def goes_on(rows: list[str], index: int) -> bool:
    """True for a row that is part of a longer line: its slip may be told where the line goes on."""
    ends = (",", "+", "-", "*", "/", "=", "(")
    return rows[index].rstrip().endswith(ends) or rows[index - 1].rstrip().endswith(ends)


def test_a_measurement_forgotten_among_the_needs_is_asked_for_and_no_other_name_is_offered():
    text = 'draft "D"\nneeds\n    back_waist_length\nsheet s\n    a = at 0, 0\n    b = a down back_width\n'
    assert told(text)[0][1] == "The measurement back_width is used here, and is not among the needs."
