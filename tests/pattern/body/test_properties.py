"""Bodies held against what must be so of any body: files lose nothing, units change words alone, slips are guessed."""

import csv
import io
import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.pattern.body import (
    MEASURES,
    SIZES,
    check_body,
    complete_body,
    read_bodies_csv,
    read_body_file,
    size_body,
)
from app.pattern.body.children import child
from app.pattern.body.complete import BASIS
from app.pattern.body.guess import guesses
from app.pattern.body.measures import MeasureKind
from app.pattern.body.populations import draw_bodies
from app.pattern.body.populations_children import child_sizes
from app.pattern.body.second_opinion import doubts
from app.pattern.problem import Severity
from app.pattern.units import Unit

WOMEN = draw_bodies(60, 5)
NAMES = sorted(MEASURES)
SOME = st.lists(st.sampled_from(NAMES), min_size=1, max_size=8, unique=True)
#: Figures as a form or a table holds them: tenths of a millimetre inside what the register takes.
FIGURES = st.fixed_dictionaries({}, optional={
    name: st.integers(round(MEASURES[name].hard[0] * 10), round(MEASURES[name].hard[1] * 10)).map(lambda n: n / 10)
    for name in NAMES
}).filter(bool)  # fmt: skip


def table(rows, header, cell=lambda mm: f"{mm:g}"):
    written = io.StringIO()
    writer = csv.writer(written)
    writer.writerow(["id", *header])
    for number, row in enumerate(rows):
        writer.writerow([f"b{number}", *(cell(row[name]) if name in row else "" for name in header)])
    return written.getvalue()


def errors_of(problems):
    return [problem for problem in problems if problem.severity is Severity.ERROR]


# ---- files


@settings(max_examples=60)
@given(FIGURES, st.sampled_from(["mm", "cm", "in"]))
def test_a_body_file_is_read_to_the_figures_that_were_written(body, unit):
    per = {"mm": 1.0, "cm": 10.0, "in": 25.4}[unit]
    text = json.dumps({name: f"{mm / per:.4f}{unit}" for name, mm in body.items()})
    read = read_body_file(text, "me.json")
    assert not [problem for problem in errors_of(read.problems) if problem.code != "body.out-of-range"]
    for name, mm in read.body.items():
        assert mm == pytest.approx(body[name], abs=0.002)
    # At the very end of a range a figure rounded to four places may lie outside it: nothing else is left out.
    for name in set(body) - set(read.body):
        assert min(abs(body[name] - end) for end in MEASURES[name].hard) < 0.01


@settings(max_examples=60)
@given(st.lists(FIGURES, min_size=1, max_size=4), st.randoms())
def test_a_table_is_read_to_the_figures_that_were_written_whatever_the_order_of_its_columns(rows, chance):
    header = sorted({name for row in rows for name in row})
    chance.shuffle(header)
    read = read_bodies_csv(table(rows, header), "bodies.csv")
    if any(problem.code == "body.file-unit" for problem in read.problems):
        return  # short measures in mm may look like a whole table in centimetres
    assert errors_of(read.problems) == []
    assert [body.id for body in read.bodies] == [f"b{number}" for number in range(len(rows))]
    assert [dict(body.body) for body in read.bodies] == rows


@pytest.mark.parametrize(("unit", "per"), [("mm", 1.0), ("cm", 10.0), ("in", 25.4), (" cm", 10.0), ('"', 25.4)])
def test_cells_that_name_their_unit_give_the_same_bodies(unit, per):
    rows = [{name: body[name] for name in ("bust_girth", "waist_girth", "stature")} for body in WOMEN[:5]]
    read = read_bodies_csv(table(rows, list(rows[0]), lambda mm: f"{mm / per:.5f}{unit}"), "bodies.csv")
    assert errors_of(read.problems) == []
    for body, row in zip(read.bodies, rows, strict=True):
        assert dict(body.body) == pytest.approx(row, abs=0.001)


def test_lines_without_anything_and_a_spreadsheets_mark_are_passed_over():
    text = "\ufeffid,waist_girth\n\n,\na,760\n  ,  \nb,770\n"
    read = read_bodies_csv(text, "b.csv")
    assert [(body.id, body.body["waist_girth"]) for body in read.bodies] == [("a", 760.0), ("b", 770.0)]


@pytest.mark.parametrize("wrong", ["waist", "much", "-3", "1/0", "9999999", "nan", "inf", "12 34"])
def test_one_bad_cell_costs_its_own_row_and_is_told_with_line_and_column(wrong):
    text = f"id,waist_girth,hip_girth\na,760,1000\nb,770,{wrong}\nc,780,1010\n"
    read = read_bodies_csv(text, "b.csv")
    assert [body.id for body in read.bodies] == ["a", "c"]
    [error] = errors_of(read.problems)
    assert (error.where.line, error.where.column) == (3, 3)


@settings(max_examples=80)
@given(st.text(max_size=200))
def test_any_text_is_a_table_or_told_what_is_wrong(text):
    read = read_bodies_csv(text, "b.csv")
    assert read.bodies or read.problems
    assert all(problem.message and problem.fix for problem in read.problems)


# ---- what is typed


@settings(max_examples=80)
@given(FIGURES)
def test_figures_within_the_register_are_never_refused_and_come_back_exactly(body):
    checked = check_body(body, body, Unit.CM)
    assert checked.usable
    assert dict(checked.body) == body
    assert all(problem.severity is Severity.WARNING for problem in checked.problems)


@settings(max_examples=60)
@given(st.sampled_from(WOMEN), SOME, st.randoms())
def test_what_is_doubted_depends_neither_on_the_order_nor_on_the_unit(body, names, chance):
    some = {name: body[name] for name in names}
    some[names[0]] *= 1.25
    shuffled = list(some.items())
    chance.shuffle(shuffled)
    told = [doubts(some, Unit.CM), doubts(dict(shuffled), Unit.CM), doubts(some, Unit.INCH)]
    marks = [sorted((problem.code, problem.where.point) for problem in problems) for problems in told]
    assert marks[0] == marks[1] == marks[2]
    assert len({problem.where.point for problem in told[0]}) == len(told[0])


@settings(max_examples=40)
@given(st.sampled_from(WOMEN), SOME)
def test_doubts_speak_the_unit_of_the_person(body, names):
    some = {name: body[name] * (1.4 if name == names[0] else 1.0) for name in names}
    for problem in doubts(some, Unit.INCH):
        assert " cm" not in problem.message
    for problem in doubts(some, Unit.CM):
        assert " in." not in problem.message


def test_measures_out_of_range_are_left_out_of_the_weighing():
    """One slip must not throw doubt on every other figure beside it."""
    body = {name: WOMEN[0][name] for name in ("stature", "bust_girth", "waist_girth", "hip_girth")}
    checked = check_body({**body, "stature": 99_999.0}, body, Unit.CM)
    assert [problem.where.point for problem in checked.problems] == ["stature"]
    assert "stature" not in checked.body


# ---- guesses


def fits(measure):
    least, most = measure.hard
    return lambda mm: least <= mm <= most


def slips(measure, typed, unit):
    return {guess.slip: guess for guess in guesses(measure, typed, unit, fits(measure))}


@pytest.mark.parametrize("name", NAMES)
def test_every_slip_that_was_made_is_among_the_guesses(name):
    measure = MEASURES[name]
    middle = sum(measure.typical) / 2
    made = {
        ("inch-as-cm", Unit.CM): middle / 2.54,
        ("cm-as-inch", Unit.INCH): middle * 2.54,
        ("too-large-by-ten", Unit.CM): middle * 10,
        ("too-small-by-ten", Unit.CM): middle / 10,
        ("too-large-by-ten", Unit.INCH): middle * 10,
    }
    if measure.kind is MeasureKind.GIRTH:
        made["half-girth", Unit.CM] = middle / 2
    if measure.kind is MeasureKind.HEIGHT:
        made["metres", Unit.CM] = middle / 100
    for (slip, unit), typed in made.items():
        guess = slips(measure, typed, unit)[slip]
        assert guess.meant == pytest.approx(middle)
        assert guess.sentence.endswith(".")
        assert str(unit.value) in guess.sentence


@pytest.mark.parametrize("name", NAMES)
def test_the_likeliest_slip_comes_first(name):
    measure = MEASURES[name]
    middle = sum(measure.typical) / 2
    first = guesses(measure, middle / 10, Unit.CM, fits(measure))[0]
    assert abs(first.meant / middle - 1.0) < 1e-9


def test_half_of_a_length_and_a_girth_in_metres_are_no_slips_that_people_make():
    assert "half-girth" not in slips(MEASURES["arm_length"], 300.0, Unit.CM)
    assert "metres" not in slips(MEASURES["waist_girth"], 7.6, Unit.CM)


# ---- completion and the chart


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(WOMEN), st.sets(st.sampled_from(NAMES), max_size=12), st.sampled_from(["women", "men"]))
def test_completion_fills_every_measure_and_moves_none_that_is_given(body, kept, group):
    given_ = {name: body[name] for name in {*BASIS, *kept}}
    full = complete_body(given_, group)
    assert set(full) == set(MEASURES)
    assert {name: full[name] for name in given_} == pytest.approx(given_, abs=0.05)


@pytest.mark.parametrize("name", SIZES)
@pytest.mark.parametrize("stature", [1500.0, 1650.0, 1800.0])
def test_a_size_of_any_stature_is_a_body_that_nobody_doubts(name, stature):
    body = size_body(name, stature)
    assert body["stature"] == stature
    checked = check_body(body, MEASURES, Unit.CM)
    assert checked.usable
    ordered = [
        ("stature", "cervical_height"), ("cervical_height", "waist_height"), ("waist_height", "hip_height"),
        ("hip_height", "knee_height"), ("arm_length", "upper_arm_length"), ("thigh_girth", "ankle_girth"),
    ]  # fmt: skip
    for longer, shorter in ordered:
        assert body[longer] > body[shorter]


# ---- children


def test_each_size_of_a_child_is_a_whole_body_that_the_register_takes():
    for name, body in child_sizes().items():
        assert body["stature"] == pytest.approx(float(name) * 10.0)
        assert check_body(body, body, Unit.CM, "children").problems == ()


@settings(max_examples=40)
@given(st.floats(1040.0, 1520.0), st.floats(0.0, 60.0))
def test_a_child_that_grows_loses_in_no_measure(stature, more):
    small, tall = child(stature), child(min(1520.0, stature + more))
    assert set(small) == set(tall)
    assert all(small[name] <= tall[name] + 0.11 for name in small)
