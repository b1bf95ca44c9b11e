"""Children: the middling child of a stature, how children differ, and what the counter says of theirs."""

from __future__ import annotations

from math import exp, log

import pytest

from app.pattern.body import MEASURES, check_body, read_bodies_csv
from app.pattern.body.children import ESTIMATED, KNOWN_STATURES, SEXES, child, child_hard, roundness, stray_of, waist
from app.pattern.body.known import known_words
from app.pattern.body.populations_children import child_corners, draw_children
from app.pattern.body.ranges import hard_range, usual_range
from app.pattern.body.rules import CHILD_ORDERS, CHILD_RATIOS, broken_orders, broken_ratios
from app.pattern.body.second_opinion import doubts
from app.pattern.body.survey import rows_of
from app.pattern.body.wording import measures_for
from app.pattern.problem import Severity
from app.pattern.units import Unit

STATURES = (800.0, 920.0, 1040.0, 1280.0, 1520.0, 1640.0)


@pytest.mark.parametrize("stature", STATURES)
def test_a_child_has_every_measure_and_none_the_wrong_way_round(stature):
    body = child(stature)
    assert set(body) == set(MEASURES)
    assert [*broken_ratios(body, CHILD_RATIOS)] == []
    assert [*broken_orders(body, CHILD_ORDERS)] == []
    assert check_body(body, MEASURES, Unit.CM, "children").problems == ()


def test_a_measure_is_told_by_the_survey_or_estimated_and_the_files_say_which():
    header, *rows = rows_of("children-estimates.csv")
    assert header[-1] == "source"
    assert {row[-1] for row in rows} == {"memory"}
    assert {row[0] for row in rows} <= set(ESTIMATED)
    surveyed = {row[0] for row in rows_of("children-girths-1977.csv")[1:]}
    assert surveyed.isdisjoint(ESTIMATED)
    assert {"bust_girth", "waist_girth", "hip_girth", "neck_girth", "shoulder_width"} <= surveyed


def test_a_girl_has_fuller_hips_than_a_boy_and_a_child_lies_between():
    boy, girl = (child(1400.0, sex=sex)["hip_girth"] for sex in SEXES)
    assert boy < child(1400.0)["hip_girth"] < girl


def test_a_rounder_child_is_rounder_in_girths_and_no_longer():
    plain, round_ = child(1280.0), child(1280.0, 0.2)
    assert round_["waist_girth"] == pytest.approx(1.2 * plain["waist_girth"], abs=0.1)
    for name in ("bust_girth", "hip_girth", "upper_arm_girth", "thigh_girth", "neck_girth"):
        power, _ = stray_of(name)
        assert round_[name] == pytest.approx(plain[name] * 1.2**power, abs=0.2)
        assert round_[name] > plain[name]
    for name in ("arm_length", "inside_leg_height", "cervical_height", "shoulder_length"):
        assert round_[name] == pytest.approx(plain[name], rel=0.04)


@pytest.mark.parametrize("stature", STATURES)
@pytest.mark.parametrize("score", [-2.0, 0.0, 2.0])
def test_the_roundness_of_a_waist_is_read_back(stature, score):
    girth = waist(stature, score)
    assert waist(stature) * exp(roundness(stature, girth)) == pytest.approx(girth)
    assert (score > 0) == (roundness(stature, girth) > 1e-9)


def test_a_measure_that_is_a_share_of_another_strays_with_it():
    power, stray = stray_of("neck_base_girth")
    assert power == stray_of("neck_girth")[0]
    assert stray > stray_of("neck_girth")[1]


# ---- ranges


@pytest.mark.parametrize("name", MEASURES)
def test_the_range_of_children_holds_slight_and_sturdy_ones_of_every_stature(name):
    least, most = child_hard(name)
    for body in (*child_corners((800.0, 1640.0)).values(), *draw_children(40, 3, (800.0, 1640.0))):
        assert least < body[name] < most


def test_a_slight_child_of_104_is_taken_at_the_counter():
    """Its chest is under 55 cm, which no grown woman's is."""
    slight = child_corners((1040.0, 1400.0))["104 cm, slight"]
    assert slight["bust_girth"] < MEASURES["bust_girth"].hard[0]
    typed = {name: f"{slight[name] / 10:.1f}" for name in ("stature", "bust_girth", "waist_girth", "hip_girth")}
    checked = check_body(typed, typed, Unit.CM, "children")
    assert checked.problems == ()
    assert not check_body(typed, typed, Unit.CM, "women").usable


def test_anybodys_range_holds_children_and_adults():
    for name in MEASURES:
        least, most = hard_range(name, None)
        assert least == min(child_hard(name)[0], MEASURES[name].hard[0])
        assert most == max(child_hard(name)[1], MEASURES[name].hard[1])
    assert hard_range("bust_girth", "men") == MEASURES["bust_girth"].hard


def test_what_most_children_have_goes_by_the_stature_where_it_is_known():
    least, most = usual_range("waist_girth", "children", 1040.0)
    assert least < waist(1040.0) < most
    assert most - least < 200.0
    wide = usual_range("waist_girth", "children")
    assert wide[0] < least < most < wide[1]
    assert usual_range("stature", "children") == KNOWN_STATURES
    assert usual_range("waist_girth", "women") == MEASURES["waist_girth"].typical


# ---- what is said to a child's mother


def told(entries, unit=Unit.CM):
    return check_body(entries, entries, unit, "children").problems


def test_an_impossible_chest_is_told_by_what_children_of_that_height_have():
    [problem] = told({"stature": "110", "bust_girth": "3"})
    assert problem.severity is Severity.ERROR
    assert problem.message.startswith("Chest girth: 3 cm cannot be right.")
    [problem] = told({"stature": "110", "waist_girth": "190"})
    assert "most children who are 110 cm tall have" in problem.fix or "Is the decimal" in problem.fix


def test_without_a_height_most_children_are_named():
    [problem] = told({"wrist_girth": "70"})
    assert "children" in problem.fix or "tape" in problem.fix or "decimal" in problem.fix
    assert "adults" not in problem.fix


def test_a_child_is_never_told_of_bust_or_bra():
    body = child(1160.0)
    odd = {name: mm * (1.5 if index % 3 == 0 else 1.0) for index, (name, mm) in enumerate(body.items())}
    words = " ".join(f"{problem.message} {problem.fix}" for problem in told(odd)).lower()
    assert words
    assert "bust" not in words.replace("robust", "") and "bra " not in words and "breast" not in words


def test_waist_and_hip_changed_about_on_a_child_are_seen():
    body = child(1400.0)
    typed = {"stature": 1400.0, "waist_girth": body["hip_girth"], "hip_girth": body["waist_girth"]}
    assert [problem.code for problem in doubts(typed, Unit.CM, "children")] == ["body.swapped"]


def test_a_waist_half_as_large_again_is_asked_about_with_the_likely_figure():
    body = child(1160.0)
    typed = {"stature": 1160.0, "waist_girth": body["waist_girth"] * 1.5}
    [problem] = doubts(typed, Unit.CM, "children")
    assert problem.where.point == "waist_girth"
    assert "would be usual" in problem.message
    assert doubts({**typed, "waist_girth": body["waist_girth"] * 1.25}, Unit.CM, "children") == ()


def test_arms_are_weighed_by_height_and_girths_by_the_waist_too():
    body = child(1280.0, 0.3)
    assert doubts(body, Unit.CM, "children") == ()
    [arm] = doubts({**body, "arm_length": body["arm_length"] * 1.25}, Unit.CM, "children")
    assert (arm.where.point, [each.where.point for each in arm.related]) == ("arm_length", ["stature"])
    some = {name: body[name] for name in ("stature", "waist_girth", "thigh_girth")}
    [thigh] = doubts({**some, "thigh_girth": some["thigh_girth"] * 0.6}, Unit.CM, "children")
    assert [each.where.point for each in thigh.related] == ["stature", "waist_girth"]


def test_one_wrong_height_is_named_instead_of_every_length():
    lengths = {name: child(1400.0)[name] for name in ("arm_length", "inside_leg_height", "knee_height", "hip_height")}
    [problem] = doubts({**lengths, "stature": 1100.0}, Unit.CM, "children")
    assert problem.where.point == "stature"


def test_without_a_height_only_the_ratios_and_anatomy_speak():
    body = {name: mm for name, mm in child(1280.0).items() if name != "stature"}
    assert doubts({**body, "arm_length": 900.0}, Unit.CM, "children") == ()
    [problem] = doubts({**body, "bust_girth": 1300.0}, Unit.CM, "children")
    assert (problem.code, problem.where.point) == ("body.ratio", "bust_girth")


def test_of_somebody_small_the_kinder_opinion_counts_where_nobody_says_whose_it_is():
    assert doubts(child(1160.0), Unit.CM, None) == ()
    assert doubts(child(1160.0), Unit.CM, "women") != ()


def test_a_table_of_children_is_read_whether_or_not_it_is_said_to_be():
    header = list(MEASURES)
    rows = draw_children(20, 4, (820.0, 1600.0))
    lines = [
        ",".join(["id", *header]),
        *(",".join([f"c{i}", *(f"{b[n]:g}" for n in header)]) for i, b in enumerate(rows)),
    ]
    for group in (None, "children"):
        read = read_bodies_csv("\n".join(lines), "c.csv", group)
        assert [dict(body.body) for body in read.bodies] == rows
        assert not [problem for problem in read.problems if problem.severity is Severity.ERROR]


def test_a_drawn_body_is_not_doubted_and_the_same_figures_measured_are():
    row = {**child(1280.0), "arm_length": 560.0}
    header = ",".join(["id", *row])
    cells = ",".join(f"{mm:g}" for mm in row.values())
    measured = read_bodies_csv(f"{header}\nanna,{cells}\n", "c.csv", "children")
    drawn = read_bodies_csv(f"{header}\ndrawn 7,{cells}\n", "c.csv", "children")
    assert [problem.code for problem in measured.problems] == ["body.unlikely"]
    assert drawn.problems == ()
    assert log(drawn.bodies[0].body["arm_length"] / 560.0) == 0.0


# ---- words for the designer


def test_the_designer_hears_what_is_known_of_children_and_what_is_a_guess():
    words = known_words("children", ("stature", "bust_girth", "hip_girth", "shoulder_length"))
    assert "survey of 1977 tells us children’s chest girth and hip girth" in words
    assert "No survey at hand tells us shoulder length: our own estimate, from memory." in words
    assert known_words("children", ("stature",)) == ""
    assert "memory" not in known_words("children", ("bust_girth",))
    assert "soldiers" in known_words("men", ("bust_girth",))


@pytest.mark.parametrize("group", ["men", "children"])
def test_men_and_children_have_a_chest_and_women_a_bust(group):
    register = measures_for(group)
    assert set(register) == set(MEASURES)
    assert register["bust_girth"].title == "Chest girth"
    for name, measure in register.items():
        said = f"{measure.title} {measure.definition} {measure.how_text}".lower()
        assert "bust" not in said and " bra " not in said and "breasts" not in said, name
        assert measure.figure == MEASURES[name].figure
    assert measures_for("women") is MEASURES
    assert measures_for(None) is MEASURES
