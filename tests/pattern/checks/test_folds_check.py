"""Halves about a printed fold, and the grain beside a fold or on the bias: tried on a band of plain figures."""

from __future__ import annotations

import pytest

from app.pattern.make import Made, make_pattern
from app.pattern.problem import Severity
from tests.pattern.checks.mutations import BODY

HALVES, ASKEW, BIAS = "checks.fold-halves", "checks.grain-fold", "checks.grain-bias"

BAND = """\
draft "Band"
needs
    hip_girth
fabrics
    main "Cloth" width 160cm
sheet band
    a = at 0, 0
    b = a right hip_girth / 2
    attach = line a to b
    end_far = line b to (b up HIGH right SLANT)
    inner = line (b up HIGH right SLANT) to (a up HIGH)
    end_near = line (a up HIGH) to a
    half = line (a up FOLD) to (b up FOLD left SHORT)
piece band "Band" cut 2 main
    outline attach, end_far, inner, end_near
    grain GRAIN
    allowance 1cm
    finish attach hemmed
    finish WAYS
    mark fold half "Fold"
steps
    ## Band
    Fold the band, stitch its ends, turn the inner edge under and hem the other. NOTE
"""


def codes(high="8cm", fold="4cm", slant="0cm", ways="", grain="(a right 9cm up 4cm) to (a right 30cm up 4cm)", **more):
    ways = ways or "end_far, end_near closed\n    finish inner turned in"
    text = BAND.replace("HIGH", high).replace("FOLD", fold).replace("SLANT", slant).replace("WAYS", ways)
    text = text.replace("GRAIN", grain).replace("SHORT", more.get("short", "0cm")).replace("NOTE", more.get("note", ""))
    made = make_pattern(text, "band.draft", BODY, {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    return [p.code for p in made.findings if p.code in (HALVES, ASKEW, BIAS)]


@pytest.mark.parametrize(
    ("fold", "told"),
    [("4cm", False), ("4.1cm", False), ("4.3cm", False), ("4.5cm", True), ("3.5cm", True), ("5.5cm", True)],
)
def test_the_inner_half_may_be_a_little_deeper_and_no_more(fold, told):
    """A band of 8 cm folded at 4.3 has an inner half of 3.7: 6 mm less, as far as common practice goes."""
    assert codes(fold=fold) == ([HALVES] if told else [])


def test_a_slanted_end_does_not_meet_itself_when_folded():
    assert codes(slant="3cm") == [HALVES]
    assert codes(slant="1mm") == []


def test_a_line_that_ends_within_the_piece_folds_a_part_of_it():
    assert codes(fold="3cm", short="15cm") == []
    assert codes(fold="3cm", short="2cm") == [HALVES]


def test_a_half_that_is_turned_in_is_as_deep_as_the_other_even_where_nothing_is_closed():
    ways = "end_far, end_near caught\n    finish inner turned in"
    assert codes(fold="4cm", ways=ways) == []
    assert codes(fold="4.5cm", ways=ways) == [HALVES]
    assert codes(fold="2.5cm", ways=ways) == [], "a part that is folded back is no half"


@pytest.mark.parametrize(
    ("grain", "note", "told"),
    [
        ("(a right 9cm up 2cm) to (a right 13cm up 6cm)", "", True),
        ("(a right 9cm up 2cm) to (a right 13cm up 6cm)", "Cut it on the bias.", False),
        ("(a right 9cm up 2cm) to (a right 13cm up 6cm)", "Lay it at 45° to the selvedge.", False),
        ("(a right 9cm up 1cm) to (a right 9cm up 7cm)", "", False),
        ("(a right 9cm up 4cm) to (a right 30cm up 5cm)", "", False),
    ],
)
def test_a_grain_on_the_bias_is_asked_about_unless_it_is_said(grain, note, told):
    assert codes(grain=grain, note=note) == ([BIAS] if told else [])


PANEL = """\
draft "Panel"
needs
    hip_girth
fabrics
    main "Cloth" width 160cm
sheet panel
    a = at 0, 0
    b = a right hip_girth / 4
    c = b up HIGH
    d = a up HIGH
    low = line a to b
    side = line b to c
    top = line c to d
    middle_line = line a to d
piece panel "Panel" cut 1 on fold main
    outline low, side, top, fold middle_line
    grain GRAIN
    allowance 1cm
    finish low, side, top hemmed
steps
    ## Panel
    Turn all its edges up. NOTE
"""


@pytest.mark.parametrize(
    ("high", "grain", "note", "told"),
    [
        ("60cm", "along middle_line", "", False),
        ("60cm", "(a right 5cm up 5cm) to (a right 6cm up 45cm)", "", False),
        ("60cm", "(a right 5cm up 5cm) to (a right 9cm up 45cm)", "", True),
        ("60cm", "(a right 5cm up 5cm) to (a right 20cm up 5cm)", "", True),
        ("8cm", "(a right 5cm up 4cm) to (a right 20cm up 4cm)", "", False),
        ("8cm", "(a right 5cm up 4cm) to (a right 20cm up 6cm)", "", True),
        ("60cm", "(a right 2cm up 5cm) to (a right 20cm up 23cm)", "", True),
        ("60cm", "(a right 2cm up 5cm) to (a right 20cm up 23cm)", "It is cut on the bias.", False),
    ],
)
def test_the_grain_lies_along_a_long_fold_and_either_way_of_a_short_one(high, grain, note, told):
    text = PANEL.replace("HIGH", high).replace("GRAIN", grain).replace("NOTE", note)
    made = make_pattern(text, "panel.draft", BODY, {})
    assert isinstance(made, Made), "\n".join(map(str, made.problems))
    found = [p for p in made.findings if p.code in (ASKEW, BIAS)]
    assert [p.code for p in found] == ([ASKEW] if told else [])
    assert all(p.severity is Severity.WARNING and "grain along middle_line" in p.fix for p in found)
