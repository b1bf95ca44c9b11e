"""Quantities carry their kind: a lost unit never reaches the cloth."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.pattern.drafting.drawn import draw, drawn


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ("3cm", 30.0),
        ("12mm", 12.0),
        ("1.5m", 1500.0),
        ("2in", 50.8),
        ("5/8in", 15.875),
        ("1 1/2in", 38.1),
        ("waist_girth / 4", 190.0),
        ("waist_girth / 4 + 1cm", 200.0),
        ("(waist_girth + ease) / 4", 195.0),
        ("2 * ease - 5mm", 35.0),
        ("-3cm + 5cm", 20.0),
        ("max(1cm, 3cm, 2cm)", 30.0),
        ("min(1cm, 3cm)", 10.0),
        ("abs(1cm - 3cm)", 20.0),
        ("3cm when lined otherwise 4cm", 40.0),
        ("3cm when length is knee and not lined otherwise 4cm", 30.0),
        ("3cm when waist_girth >= 76cm otherwise 4cm", 30.0),
    ],
)
def test_a_length_comes_to_its_millimetres(written, mm):
    assert draw(f"x = {written}")["x"] == pytest.approx(mm, abs=1e-9)


def test_angles_ratios_and_numbers_have_their_own_kind():
    values = draw("turn = 30deg\nshare = 20%\nratio = waist_girth / bust_girth\nhalf = 90deg / 2")
    assert values["turn"] == pytest.approx(pi / 6)
    assert values["share"] == 0.2
    assert values["ratio"] == pytest.approx(760 / 920)
    assert values["half"] == pytest.approx(pi / 4)


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("waist_girth + 3", "drafting.no-unit"),
        ("waist_girth * bust_girth * ease", "drafting.dimension"),
        ("waist_girth + 30deg", "drafting.sum"),
        ("3 / ease", "drafting.dimension"),
        ("sqrt(ease)", "drafting.kind"),
        ("lined + 1cm", "drafting.kind"),
        ("max(1cm, 3)", "drafting.no-unit"),
    ],
)
def test_a_sum_of_unlike_kinds_is_refused_before_any_body_is_known(written, code):
    _, problems = drawn(f"x = {written}")
    assert [p.code for p in problems] == [code]


@given(st.floats(0.1, 500), st.sampled_from(["mm", "cm", "in"]))
def test_writing_a_length_and_reading_it_keeps_it(value, unit):
    factor = {"mm": 1.0, "cm": 10.0, "in": 25.4}[unit]
    assert draw(f"x = {value:.6f}{unit}")["x"] == pytest.approx(round(value, 6) * factor, rel=1e-12)


def test_nothing_needs_no_unit():
    assert draw("x = at 0, 0\ny = x down 0")["y"] == (0.0, 0.0)
