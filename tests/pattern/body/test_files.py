"""Bodies from files: every mistake with its line and column."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.pattern.body import draw_bodies, read_bodies_csv, read_body_file
from app.pattern.body.files import MOST_BODIES
from app.pattern.problem import Span


def only(read):
    """The one problem of a file."""
    assert len(read.problems) == 1, [str(p) for p in read.problems]
    return read.problems[0]


def test_a_body_file_with_units_is_read_to_millimetres():
    read = read_body_file('{"bust_girth": "96.5cm", "waist_girth": "31 1/2 in", "hip_girth": "1020 mm"}', "anna.json")
    assert read.body == {"bust_girth": 965.0, "waist_girth": pytest.approx(800.1), "hip_girth": 1020.0}
    assert read.usable


@pytest.mark.parametrize("value", ["96.5", '"96.5"', '"38 1/2"'])
def test_a_length_without_its_unit_is_an_error_at_its_place(value):
    problem = only(read_body_file('{\n  "waist_girth": "70cm",\n  "bust_girth": ' + value + "\n}", "anna.json"))
    assert problem.code == "body.unit-missing"
    assert problem.where == Span("anna.json", 3, 3, 15)
    assert f'"{value.strip(chr(34))}cm"' in problem.fix


@pytest.mark.parametrize("value", ["null", "true", "[1]", "{}", '"tall"', '"96.5 yards"'])
def test_what_is_no_length_is_unreadable_at_its_place(value):
    problem = only(read_body_file('{"bust_girth": ' + value + "}", "anna.json"))
    assert problem.code == "body.unreadable"
    assert problem.where == Span("anna.json", 1, 2, 14)


def test_an_unknown_name_is_told_with_the_nearest():
    problem = only(read_body_file('{"bust": "96cm"}', "anna.json"))
    assert (problem.code, problem.fix) == ("body.unknown-measure", "Did you mean bust_girth?")
    assert problem.where == Span("anna.json", 1, 2, 8)


def test_an_unknown_name_with_a_number_is_told_once():
    assert only(read_body_file('{"weight": 61}', "anna.json")).code == "body.unknown-measure"


def test_a_measure_given_twice_is_an_error():
    problem = only(read_body_file('{"bust_girth": "96cm",\n "bust_girth": "69cm"}', "anna.json"))
    assert problem.code == "body.file-twice"
    assert isinstance(problem.where, Span) and problem.where.line == 2


def test_out_of_range_and_unlikely_entries_carry_their_place_too():
    text = '{"bust_girth": "38cm",\n "waist_girth": "104cm",\n "hip_girth": "78cm"}'
    found = read_body_file(text, "anna.json").problems
    assert [(p.code, p.where.line) for p in found] == [("body.out-of-range", 1), ("body.swapped", 2)]


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", "[1, 2]", "12", '"x"', "null", "[" * 100_000, '{"a": ' * 50_000])
def test_what_is_not_a_body_at_all_is_one_error(text):
    problem = only(read_body_file(text, "anna.json"))
    assert problem.code == "body.file-unreadable"
    assert isinstance(problem.where, Span)


def test_a_number_of_ten_thousand_digits_is_only_a_missing_unit():
    assert read_body_file('{"bust_girth": ' + "9" * 10_000 + "}", "anna.json").problems[0].code == "body.unreadable"


@given(st.text(max_size=60))
def test_no_text_whatever_breaks_the_reading(text):
    for read in (read_body_file(text, "a.json"), read_bodies_csv(text, "a.csv")):
        assert all(isinstance(problem.where, Span) for problem in read.problems)


def test_drawn_bodies_come_back_from_a_body_file():
    body = draw_bodies(1, 9, "women", 1.0)[0]
    text = json.dumps({name: f"{value}mm" for name, value in body.items()})
    assert read_body_file(text, "drawn.json").body == pytest.approx(body)


def test_a_table_of_bodies_is_read_in_mm_with_ids():
    read = read_bodies_csv("id,bust_girth,waist_girth\nanna,965,780\nbea,102.5cm,\n\n", "fit.csv")
    assert [(b.id, dict(b.body)) for b in read.bodies] == [
        ("anna", {"bust_girth": 965.0, "waist_girth": 780.0}),
        ("bea", {"bust_girth": 1025.0}),
    ]
    assert read.problems == ()


def test_bodies_without_an_id_are_named_by_their_line():
    assert [b.id for b in read_bodies_csv("bust_girth\n965\n900\n", "fit.csv").bodies] == ["row 2", "row 3"]


def test_a_mark_at_the_start_of_a_spreadsheet_file_does_no_harm():
    assert len(read_bodies_csv("\ufeffbust_girth\n965\n", "fit.csv").bodies) == 1


def test_centimetres_in_a_table_of_millimetres_are_refused_with_the_cause():
    read = read_bodies_csv("id,bust_girth\nanna,96.5\nbea,965\n", "fit.csv")
    problem = only(read)
    assert problem.code == "body.out-of-range"
    assert problem.where == Span("fit.csv", 2, 2, 3)
    assert "Ten times as much would be 96.5 cm" in problem.fix
    assert [b.id for b in read.bodies] == ["bea"]


def test_a_cell_that_is_no_length_is_told_as_it_was_written():
    problem = only(read_bodies_csv("bust_girth,waist_girth\n965,n/a\n", "fit.csv"))
    assert (problem.code, problem.where) == ("body.unreadable", Span("fit.csv", 2, 2, 3))
    assert "“n/a”" in problem.message


def test_a_warning_leaves_the_body_in():
    read = read_bodies_csv("bust_girth,waist_girth,hip_girth\n920,1040,780\n", "fit.csv")
    assert only(read).code == "body.swapped"
    assert len(read.bodies) == 1


@pytest.mark.parametrize(
    ("text", "code", "line"),
    [
        ("", "body.file-empty", 1),
        ("id,bust_girth\n", "body.file-empty", 1),
        ("id,bust\nanna,965\n", "body.unknown-measure", 1),
        ("bust_girth,bust_girth\n965,966\n", "body.file-twice", 1),
        ("id,bust_girth\nanna,965\nanna,900\n", "body.file-twice", 3),
        ("id,name,bust_girth\n1,anna,965\n", "body.file-twice", 1),
        ("id,bust_girth\nanna,965,12\n", "body.file-row-length", 2),
        ("id,bust_girth\nanna\n", "body.file-row-length", 2),
        ('bust_girth\n"965\n', "body.file-unreadable", 2),
        ('bust_girth\n"96"5\n', "body.file-unreadable", 2),
    ],
)
def test_a_faulty_table_is_told_with_its_line(text, code, line):
    problem = only(read_bodies_csv(text, "fit.csv"))
    assert problem.code == code
    assert problem.where.line == line
    assert problem.fix


def test_a_table_of_too_many_bodies_is_refused():
    text = "bust_girth\n" + "965\n" * (MOST_BODIES + 1)
    read = read_bodies_csv(text, "fit.csv")
    assert only(read).code == "body.file-too-long"
    assert read.bodies == ()


@pytest.mark.parametrize(
    ("rows", "words", "remedy"),
    [
        ("a,96.5,78.5\nb,104,86\nc,88,\n", "centimetres", "Write 965 in place of 96.5, or name the unit"),
        ("a,36.5,29.5\nb,41,34\n", "inches", "Write 927 in place of 36.5"),
    ],
)
def test_a_table_in_another_unit_is_told_once(rows, words, remedy):
    read = read_bodies_csv("id,bust_girth,waist_girth\n" + rows, "b.csv")
    assert [p.code for p in read.problems] == ["body.file-unit"]
    assert words in read.problems[0].message
    assert remedy in read.problems[0].fix
    assert not read.bodies


def test_one_cell_in_another_unit_is_told_as_that_cell():
    read = read_bodies_csv("id,bust_girth,waist_girth\na,965,78.5\nb,1040,860\n", "b.csv")
    assert [(p.code, p.where.line) for p in read.problems] == [("body.out-of-range", 2)]
