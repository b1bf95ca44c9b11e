"""Parts from seams: every example is a draft that holds on many bodies, and shows what it says."""

from __future__ import annotations

import re
from dataclasses import fields
from pathlib import Path

import pytest

from app.pattern.body import draw_bodies, size_body
from app.pattern.guide import Part, layers, parts
from app.pattern.guide.layers import laid_over, sections_of, whole_text
from app.pattern.guide.part_words import PART_CHAPTERS
from app.pattern.language.format import format_draft
from app.pattern.make import Made, make_pattern

PARTS = parts()
FILES = sorted(Path(layers.__file__).with_name("drafts").glob("*.draft"))
BY_NAME = {part.name: part for part in PARTS}
each_part = pytest.mark.parametrize("part", PARTS, ids=lambda part: part.name)


@each_part
@pytest.mark.parametrize("size", ["80", "92", "116"])
def test_an_example_passes_every_check_without_a_finding(part: Part, size):
    made = make_pattern(part.text, "part.draft", size_body(size), {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    assert not made.findings, "\n".join(map(str, made.findings))


@each_part
def test_an_example_holds_for_bodies_as_they_are(part: Part):
    for body in draw_bodies(6, seed=3):
        made = make_pattern(part.text, "part.draft", body, {})
        assert isinstance(made, Made), "\n".join(map(str, made.problems))
        assert not made.findings, "\n".join(map(str, made.findings))


@each_part
def test_an_example_is_in_canonical_layout(part: Part):
    assert format_draft(part.text, "part.draft") == part.text


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_file_of_own_lines_is_in_canonical_layout(file):
    assert format_draft(file.read_text("utf-8"), file.name) == file.read_text("utf-8")


def test_every_file_is_used():
    words = [words for row in PART_CHAPTERS.values() for words in row]
    assert {name for one in words for name in (*one.under, one.name)} == {file.stem for file in FILES}


@each_part
def test_an_example_shows_its_own_lines_in_the_words_of_the_whole(part: Part):
    assert part.lines
    whole = {squeezed(row) for row in part.text.split("\n")}
    assert {squeezed(row) for row in (*part.lines, *part.seams)} - {""} <= whole


def squeezed(row: str) -> str:
    return " ".join(row.split())


@each_part
def test_a_part_is_explained_drawn_and_reckoned(part: Part):
    for field in fields(part):
        assert getattr(part, field.name), f"{part.name} has no {field.name}"
    assert part.says.endswith(".")
    assert 2 <= len(re.findall(r"[.](?: |$)", part.says)) <= 5
    assert len(part.pictures) >= 2
    for picture in part.pictures:
        assert picture.drawing.startswith("<svg")
        assert picture.words


@pytest.mark.parametrize("rows", PART_CHAPTERS.values(), ids=PART_CHAPTERS)
def test_values_of_the_trade_are_marked(rows):
    loose = [words.name for words in rows if re.search(r"\d (?:cm|mm|times|%)", words.says) and not marked(words.says)]
    assert not loose


def marked(says: str) -> bool:
    return "common practice" in says


@each_part
def test_the_steps_show_every_seam_of_the_part(part: Part):
    seams = [row.split()[1].rstrip(",") for row in part.seams if row.startswith("sew ")]
    shown = set(re.findall(r"\{seam ([a-z_0-9.]+)\}", part.text))
    assert set(seams) <= shown


def test_the_seams_come_to_the_same_length_on_both_sides():
    told = BY_NAME["stand"].comes_to
    assert told == (
        "Stand collar (joining edge) to Back (neck) and Front (neck): 39 cm along each edge (both halves together).",
    )
    assert "2.00 to 1" in BY_NAME["ruffle"].comes_to[1]
    assert BY_NAME["gathered_cuff"].comes_to[-1] == "Cuff, buttoned: 19.3 cm."


def test_a_piece_is_pictured_with_all_its_marks():
    pocket, front = BY_NAME["pocket"].pictures
    assert pocket.words == "Patch pocket: cut 2 Blouse cloth, mirrored"
    assert ">Pocket<" in front.drawing


def test_pattern_work_is_pictured_on_its_sheet_and_other_parts_in_their_seam():
    assert "Sheet yoke" in BY_NAME["yoke"].pictures[-1].drawing
    assert "Sheet" not in BY_NAME["stand"].pictures[-1].drawing
    assert 'class="line-highlight"' in BY_NAME["stand"].pictures[-1].drawing


def test_a_part_may_be_drafted_on_another_part():
    assert "piece stand" in BY_NAME["collar"].text
    assert not any(row.startswith("piece stand") for row in BY_NAME["collar"].lines)


BASE = 'draft "A"\n\nneeds\n    hip_girth\n\nfigures\n    wide = 4cm\n    deep = 2cm\n\nsheet one\n    a = at 0, 0\n'
OVER = 'draft "B"\n\nneeds\n    waist_girth\n\nfigures\n    deep = 3cm\n\n# Drawn anew.\nsheet one\n    a = at 1cm, 0\n'


def test_layers_give_lists_more_rows_and_put_other_sections_in_their_place():
    text = whole_text(laid_over(sections_of(BASE), sections_of(OVER)))
    assert text == (
        'draft "B"\n\nneeds\n    hip_girth\n    waist_girth\n\nfigures\n    wide = 4cm\n    deep = 3cm\n\n'
        "# Drawn anew.\nsheet one\n    a = at 1cm, 0\n"
    )


def test_lines_that_begin_alike_in_one_layer_all_stay():
    twice = 'draft "C"\n\nsew a.b to c.d\nsew a.b to e.f\n'
    assert whole_text(laid_over(sections_of(BASE), sections_of(twice))).endswith("sew a.b to c.d\nsew a.b to e.f\n")


def test_layers_that_make_no_draft_are_told():
    with pytest.raises(ValueError, match="make no draft"):
        whole_text(sections_of('draft "D"\n\nsheet one\n    a = = b\n'))


def test_a_notch_at_the_hip_lies_as_far_below_the_waist_on_shell_and_lining():
    made = make_pattern(BY_NAME["lining"].text, "part.draft", size_body("92"), {})
    assert isinstance(made, Made)
    from_waist = {}
    for name in ("front", "back", "lining"):
        piece = made.pattern.piece(name)
        side = piece.edge("side").path
        waist = max((side.start, side.end), key=lambda end: end.y)
        (notch,) = [notch for notch in piece.notches if notch.edge == "side"]
        from_waist[name] = abs(notch.along - (0.0 if waist is side.start else side.length))
    assert from_waist == pytest.approx(dict.fromkeys(from_waist, size_body("92")["waist_to_hip"]))
