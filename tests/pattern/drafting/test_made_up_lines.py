"""Lines made up by chance come to what Python says they are worth, before and after they are set out anew."""

import re
from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from app.pattern.drafting import choose, compile_draft, draw_sheets
from app.pattern.language import parse
from app.pattern.language.format import format_draft
from tests.pattern.drafting.drawn import BODY, FRAME, draw
from tests.pattern.drafting.made_up import angles, conditions, lengths, numbers, points, sheets, shown

tried = settings(deadline=None, max_examples=20)


def text_of(lines):
    return FRAME + "".join(f"    {line}\n" for line in lines)


def values_of(text):
    """Everything that a whole text draws, by name; fails the test on any problem."""
    parsed = parse(text, "t.draft")
    assert not parsed.problems, "\n".join(map(str, parsed.problems))
    program = compile_draft(parsed.draft, parsed.source)
    assert not program.problems, "\n".join(map(str, program.problems))
    env = draw_sheets(program, BODY, choose(program.choices, {}))
    assert not env.problems, "\n".join(map(str, env.problems))
    return {key.removeprefix("sheet s."): value for key, value in env.values.items() if key.startswith("sheet s.")}


def near(value):
    """Reckoning in another order loses a little of the last figure."""
    return pytest.approx(value, rel=1e-9, abs=1e-6)


@tried
@given(lengths(3))
def test_a_made_up_length_comes_to_its_millimetres(made):
    text, worth = made
    assert draw(f"x = {text}")["x"] == near(worth)


@tried
@given(numbers(3))
def test_a_made_up_number_is_that_number(made):
    text, worth = made
    assert draw(f"x = {text}")["x"] == near(worth)


@tried
@given(angles(3))
def test_a_made_up_angle_is_that_many_radians(made):
    text, worth = made
    assert draw(f"x = {text}")["x"] == near(worth)


@tried
@given(conditions(2))
def test_a_made_up_test_holds_or_not_as_it_does_in_python(made):
    text, holds = made
    assert draw(f"x = 1cm when {text} otherwise 2cm")["x"] == near(10.0 if holds else 20.0)


@tried
@given(points(depth=3))
def test_a_made_up_point_lies_where_complex_numbers_put_it(made):
    text, worth = made
    assert complex(*draw(f"x = {text}")["x"]) == near(worth)


@tried
@given(sheets())
def test_lines_that_build_on_one_another_all_come_to_their_worth(made):
    lines, worth = made
    found = values_of(text_of(lines))
    for name, value in worth.items():
        assert shown(found[name]) == near(value), name


@tried
@given(sheets())
def test_a_sheet_set_out_anew_draws_the_very_same_and_is_set_out_once(made):
    lines, _ = made
    text = text_of(lines)
    laid = format_draft(text, "t.draft")
    assert isinstance(laid, str)
    assert format_draft(laid, "t.draft") == laid
    before, after = values_of(text), values_of(laid)
    assert list(before) == list(after)
    assert all(before[name] == after[name] for name in before), "to the last bit"


@tried
@given(sheets(), st.sampled_from(["  ", "   ", "\n        ", "  \n      "]))
def test_gaps_say_nothing(made, gap):
    """More room between words, and a line that goes on below after a comma, change no value."""
    lines, _ = made
    spread = [re.sub(r", ", f",{gap}", line) for line in lines]
    if "\n" not in gap:
        spread = [re.sub(r" (?=[+*/] )", gap, line) for line in spread]
    assert values_of(text_of(spread)) == values_of(text_of(lines))


@tried
@given(sheets(), st.data())
def test_comments_and_empty_lines_say_nothing(made, data):
    lines, _ = made
    rows = []
    for line in lines:
        rows += [[], [""], ["# a remark = 3cm"], ["", "# another"]][data.draw(st.integers(0, 3))]
        rows.append(line + data.draw(st.sampled_from(["", "  # why"])))
    assert values_of(text_of(rows)) == values_of(text_of(lines))


@tried
@given(points(depth=2), points(depth=2))
def test_measuring_forms_measure_what_python_does(one, other):
    (p, z), (q, w) = one, other
    found = draw(f"p = {p}\nq = {q}\nfar = distance(p, q)\nwide = across(p, q)\nlow = drop(p, q)")
    assert found["far"] == near(abs(z - w))
    assert found["wide"] == near(abs(w.real - z.real))
    assert found["low"] == near(z.imag - w.imag)


@tried
@given(lengths(2), lengths(2), lengths(2))
def test_a_sum_may_be_taken_in_any_order(one, other, third):
    (a, x), (b, y), (c, z) = one, other, third
    found = draw(f"p = {a} + {b} + {c}\nq = {c} + ({b} + {a})\nr = {a} - {b} - {c}\ns = {a} - ({b} - {c})")
    assert found["p"] == near(x + y + z)
    assert found["q"] == near(x + y + z)
    assert found["r"] == near(x - y - z)
    assert found["s"] == near(x - (y - z))


# ---- paths and places on them


@tried
@given(st.lists(points(depth=1), min_size=2, max_size=5))
def test_a_line_is_as_long_as_its_stretches_together(made):
    worth = [value for _, value in made]
    stretches = [abs(b - a) for a, b in pairwise(worth)]
    assume(all(stretch > 0.1 for stretch in stretches))
    found = draw(f"x = length(line {' to '.join(text for text, _ in made)})")
    assert found["x"] == pytest.approx(sum(stretches), rel=1e-9)


@tried
@given(points(depth=1), points(depth=1), st.integers(0, 100), st.booleans())
def test_a_place_along_a_line_is_a_share_of_the_way(one, other, percent, from_end):
    (p, z), (q, w) = one, other
    assume(abs(w - z) > 1.0)
    way = "b" if from_end else "a"
    found = draw(f"a = {p}\nb = {q}\nl = line a to b\nx = along l by {percent}% * length(l) from {way}")
    share = percent / 100
    assert complex(*found["x"]) == near(w + share * (z - w) if from_end else z + share * (w - z))


@tried
@given(points(depth=1), points(depth=1), points(depth=1))
def test_a_foot_and_a_mirror_image_are_those_of_the_endless_line(one, other, third):
    (p, z), (q, w), (r, v) = one, other, third
    assume(abs(w - z) > 1.0)
    found = draw(f"a = {p}\nb = {q}\nc = {r}\nl = line a to b\nm = c mirrored over l")
    unit = (w - z) / abs(w - z)
    image = z + unit * (unit.conjugate() * (v - z)).conjugate()
    assert complex(*found["m"]) == pytest.approx(image, rel=1e-7, abs=1e-5)


@tried
@given(points(depth=1), st.integers(1, 80), st.integers(0, 359), st.integers(1, 359))
def test_an_arc_is_as_long_as_its_turn_and_ends_where_it_says(centre, radius, start, turn):
    text, worth = centre
    arc = f"o = {text}\nr = arc around o radius {radius}cm from {start}deg to {start + turn}deg"
    found = draw(f"{arc}\nx = length(r)\na = start of r\nb = end of r")
    assert found["x"] == pytest.approx(radius * 10 * turn * pi / 180, rel=1e-9)
    for name, angle in (("a", start), ("b", start + turn)):
        turned = worth + radius * 10 * complex(cos(angle * pi / 180), sin(angle * pi / 180))
        assert complex(*found[name]) == near(turned)


@tried
@given(points(depth=1), st.integers(1, 60), st.integers(1, 60), st.sampled_from(["left", "right"]), st.integers(1, 9))
def test_a_parallel_of_a_line_lies_beside_it_on_the_side_it_names(start, wide, high, side, by):
    text, worth = start
    found = draw(
        f"a = {text}\nb = a right {wide}cm up {high}cm\nl = line a to b\np = parallel to l by {by}cm {side}\n"
        "x = start of p\ny = length(p)"
    )
    unit = complex(wide, high) / abs(complex(wide, high))
    assert complex(*found["x"]) == near(worth + by * 10 * unit * (1j if side == "left" else -1j))
    assert found["y"] == pytest.approx(abs(complex(wide, high)) * 10)


# ---- solving and repeating


@tried
@given(st.integers(2, 90), st.integers(1, 9), st.integers(-40, 40))
def test_a_solve_finds_what_a_straight_equation_has_for_an_answer(wanted, times, more):
    lines = f"solve d from 1cm to 1m until {times} * d + {more}mm = {times * wanted * 10 + more}mm\n    p = at d, 0"
    assert draw(lines)["d"] == pytest.approx(wanted * 10.0, abs=0.01)


@tried
@given(st.integers(3, 60), st.integers(3, 60))
def test_a_solve_finds_the_leg_of_a_right_triangle(leg, other):
    """By Pythagoras: the way from a to b is as long as the root of both squares."""
    far = hypot(leg, other)
    lines = f"a = at 0, 0\nsolve d from 0cm to 1m until distance(a, b) = {far:.6f}cm\n    b = at d, {other}cm"
    assert draw(lines)["d"] == pytest.approx(leg * 10.0, abs=0.05)


@tried
@given(st.integers(1, 6), st.integers(1, 5))
def test_after_a_repeat_its_names_are_those_of_the_last_round(first, more):
    last = first + more
    found = draw(f"repeat n from {first} to {last}\n    p = at n * 1cm, 0\n    q = p up 1cm")
    assert (found["n"], complex(*found["p"])) == (last, near(complex(last * 10.0, 0.0)))
    assert complex(*found["q"]) == near(complex(last * 10.0, 10.0))
