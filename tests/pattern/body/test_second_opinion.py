"""Warnings on measurements that hardly go together: they catch slips and leave honest bodies alone."""

from __future__ import annotations

import pytest

from app.pattern.body import check_body, complete_body, size_body
from app.pattern.body.rules import ORDER_RULES, RATIO_RULES, broken_orders, broken_ratios
from app.pattern.body.second_opinion import doubts
from app.pattern.body.second_opinion_adults import room
from app.pattern.problem import Place, Severity
from app.pattern.units import Unit

TRIO = ("bust_girth", "waist_girth", "hip_girth")


def trio(bust, waist, hip):
    """A body of three girths, given in cm."""
    return {name: cm * 10.0 for name, cm in zip(TRIO, (bust, waist, hip), strict=True)}


def warned(body):
    """(code, measure) of every warning."""
    return [(p.code, p.where.point) for p in doubts(body, Unit.CM)]


@pytest.mark.parametrize("size", ["76", "84", "92", "104", "116", "128"])
def test_standard_sizes_are_not_doubted(size):
    assert warned(size_body(size)) == []


def test_waist_and_hip_in_each_others_field_are_seen():
    (problem,) = doubts(trio(92, 104, 78), Unit.CM)
    assert problem.code == "body.swapped"
    assert problem.where == Place(point="waist_girth")
    assert [related.where for related in problem.related] == [Place(point="hip_girth")]
    assert "changed places" in problem.message and "104 cm" in problem.message and "78 cm" in problem.message


def test_bust_and_waist_in_each_others_field_are_seen():
    (problem,) = doubts(trio(70, 92, 98), Unit.CM)
    assert problem.code == "body.swapped"
    assert [related.where for related in problem.related] == [Place(point="bust_girth")]


@pytest.mark.parametrize(("slip", "words"), [(1 / 2.54, "Was the tape in inches?"), (0.5, "Is this half of it?")])
@pytest.mark.parametrize("name", TRIO)
def test_a_slip_of_unit_or_half_a_girth_is_caught_even_inside_the_hard_range(name, slip, words):
    body = trio(148, 140, 152)
    (problem,) = doubts({**body, name: body[name] * slip}, Unit.CM)
    assert problem.code == "body.ratio"
    assert problem.where == Place(point=name)
    assert words in problem.fix
    assert problem.severity is Severity.WARNING


def test_a_waist_far_from_what_bust_and_hip_suggest_is_asked_about_with_the_likely_figure():
    (problem,) = doubts(trio(104, 112, 108), Unit.CM)
    assert (problem.code, problem.where) == ("body.unlikely", Place(point="waist_girth"))
    assert "About 92.5 cm would be usual" in problem.message
    assert "If 112 cm is right, confirm it" in problem.fix


def test_the_likely_figure_comes_in_inches_for_a_customer_with_inches():
    (problem,) = doubts(trio(104, 112, 108), Unit.INCH)
    assert "About 36 1/2 in would be usual" in problem.message
    assert "cm" not in problem.message + problem.fix


def test_a_ratio_no_slip_explains_comes_with_the_likely_figure():
    (problem,) = doubts(trio(92, 60, 100), Unit.CM)
    assert (problem.code, problem.where) == ("body.ratio", Place(point="waist_girth"))
    assert problem.fix.startswith("About 79.5 cm would be usual. Measure once more")


def test_a_ratio_of_two_girths_alone_comes_without_a_likely_figure():
    (problem,) = doubts({"bust_girth": 920.0, "waist_girth": 600.0}, Unit.CM)
    assert problem.fix.startswith("Measure once more")


def test_only_the_worst_of_the_three_girths_is_named():
    assert len(doubts(trio(86, 76, 116), Unit.CM)) == 1


@pytest.mark.parametrize(
    ("name", "change"),
    [
        ("elbow_girth", 90.0),
        ("shoulder_length", 60.0),
        ("neck_base_girth", 100.0),
        ("back_waist_length", 100.0),
        ("arm_length", -100.0),
        ("thigh_girth", 120.0),
        ("upper_arm_girth", -80.0),
        ("head_girth", 100.0),
        ("waist_to_hip", -100.0),
        ("body_rise", 110.0),
        ("neck_shoulder_point_to_waist", 100.0),
        ("front_width", -110.0),
        ("upper_arm_length", 100.0),
    ],
)
def test_a_gross_slip_in_a_smaller_measure_is_asked_about(name, change):
    body = size_body("92")
    assert ("body.unlikely", name) in warned({**body, name: body[name] + change})


def test_a_mans_wrist_is_not_doubted():
    """A measure is doubted only when it is unlikely for women and for men."""
    body = complete_body({**trio(100, 86, 98), "stature": 1780.0}, "men")
    assert warned(body) == []


def test_one_wrong_stature_is_named_instead_of_every_length():
    body = {**size_body("92"), "stature": 1960.0}
    found = doubts(body, Unit.CM)
    assert [p.where for p in found] == [Place(point="stature")]
    assert "About 165 cm would be usual" in found[0].message


def test_one_wrong_bust_does_not_throw_doubt_on_what_is_compared_with_it():
    assert warned({**size_body("92"), "bust_girth": 1150.0}) == [("body.unlikely", "bust_girth")]


def test_room_widens_with_the_body_and_ends_where_the_surveys_end():
    assert room(trio(92, 78, 100)) == 1.0
    assert 1.0 < room(trio(120, 100, 122)) < 1.6
    assert room(trio(131, 100, 122)) is None
    assert room(trio(110, 100, 131)) is None
    assert room({}) == 1.0


def test_no_regression_speaks_above_a_bust_of_130():
    body = {**complete_body({**trio(140, 110, 146), "stature": 1650.0}), "head_girth": 700.0}
    assert warned(body) == []


@pytest.mark.parametrize(("larger", "smaller"), ORDER_RULES)
def test_two_measures_the_wrong_way_round_are_seen(larger, smaller):
    body = size_body("92")
    turned = {larger: body[smaller], smaller: body[larger]}
    assert list(broken_orders(turned)) == [(larger, smaller)]
    (problem,) = [p for p in doubts(turned, Unit.CM) if p.where.point == smaller]
    assert problem.code == "body.order"


def test_each_ratio_rule_holds_to_its_ends_and_not_beyond():
    for rule in RATIO_RULES:
        for ratio in (rule.least, rule.most):
            assert rule.holds({rule.over: 1000.0 * ratio, rule.under: 1000.0})
        assert not rule.holds({rule.over: 1000.0 * rule.most + 1, rule.under: 1000.0})
        assert not rule.holds({rule.over: 1000.0 * rule.least - 1, rule.under: 1000.0})


def test_a_rule_says_nothing_of_a_body_that_lacks_a_measure():
    assert list(broken_ratios({"bust_girth": 920.0})) == []
    assert list(broken_orders({"hand_girth": 100.0})) == []


def test_no_warning_ever_refuses_or_repeats():
    body = {**size_body("92"), "waist_girth": 500.0, "wrist_girth": 320.0, "hand_girth": 120.0}
    checked = check_body(body, (), Unit.CM)
    points = [p.where.point for p in checked.problems]
    assert checked.usable and checked.body == body
    assert len(points) == len(set(points)) >= 2
    assert all(p.severity is Severity.WARNING for p in checked.problems)
