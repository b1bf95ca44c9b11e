"""The one door: what a draft says of itself, what is made of it, and what stops it."""

from __future__ import annotations

import pytest

from app.pattern.body import size_body
from app.pattern.make import DraftCard, Failed, Made, make_pattern, make_staged, read_draft
from app.pattern.problem import Refused
from app.pattern.units import Unit
from tests.places import DRAFTS


def text(name: str) -> str:
    return (DRAFTS / f"{name}.draft").read_text("utf-8")


def made(name: str, size: str = "92", unit: Unit = Unit.CM, **choices) -> Made:
    result = make_pattern(text(name), f"{name}.draft", size_body(size), choices, unit)
    assert isinstance(result, Made), "\n".join(map(str, result.problems))
    return result


def test_a_draft_says_what_it_needs_before_any_body_is_known():
    card = read_draft(text("gore_skirt"), "gore_skirt.draft")
    assert isinstance(card, DraftCard)
    assert card.title == "Fernhill skirt"
    assert card.needs == ("waist_girth", "hip_girth", "waist_to_hip")
    assert [c.name for c in card.choices][:3] == ["waist_ease", "hip_ease", "length"]
    assert card.fabrics[0] == ("main", "Skirt cloth", 1400.0)


def test_the_skirt_measures_body_and_ease():
    pattern = made("gore_skirt", waist_ease="2cm", hip_ease="6cm").pattern
    body = size_body("92")
    girths = {g.name: g.measured for g in pattern.girths}
    assert girths["waist"] == pytest.approx(body["waist_girth"] + 20, abs=0.01)
    assert girths["hip"] == pytest.approx(body["hip_girth"] + 60, abs=0.01)


def test_the_sleeve_cap_is_solved_to_the_armhole_and_its_ease():
    pattern = made("set_in_blouse", cap_ease="2.5cm").pattern
    cap = pattern.piece("sleeve").edge("cap").path.length
    armhole = sum(pattern.piece(p).edge("armhole").path.length for p in ("front", "back"))
    assert cap - armhole == pytest.approx(25.0, abs=0.001)


def test_a_lining_is_there_only_when_it_was_chosen():
    lined, plain = made("shirred_tunic", lined=True).pattern, made("shirred_tunic", lined=False).pattern
    assert {"front_lining", "back_lining"} <= {p.name for p in lined.pieces}
    assert not [p for p in plain.pieces if "lining" in p.name]
    assert "lining" not in [f.name for f in plain.fabrics]
    assert "binding" in [n.name for n in plain.notions]
    assert "Line the tunic" not in [s.title for s in plain.steps]


def test_the_instructions_carry_the_customers_own_figures_in_her_unit():
    in_cm = " ".join(s.markdown for s in made("gore_skirt").pattern.steps)
    in_inches = " ".join(s.markdown for s in made("gore_skirt", unit=Unit.INCH).pattern.steps)
    band = made("gore_skirt").pattern.piece("band").edge("attach").path.length
    assert f"{band / 10:.1f}".removesuffix(".0") + "\u00a0cm" in in_cm
    assert "\u00a0in" in in_inches
    assert "{" not in in_cm


def test_matched_notches_are_put_on_both_pieces():
    pattern = made("set_in_blouse").pattern
    index = next(i for i, s in enumerate(pattern.seams) if s.kind == "ease")
    where = {(p.name, n.edge) for p in pattern.pieces for n in p.notches if n.seam == index}
    assert where == {("sleeve", "cap"), ("front", "armhole"), ("back", "armhole")}


def test_a_dart_may_be_listed_either_way_round():
    tunic = text("shirred_tunic")
    listed = "outline   fold fold_line, hem, side_lower, bust_dart, side_upper, armhole, shoulder, neck"
    turned = "outline   neck, shoulder, armhole, side_upper, bust_dart, side_lower, hem, fold fold_line"
    one = make_pattern(tunic, "t", size_body("92"), {}).pattern.piece("front")
    other = make_pattern(tunic.replace(listed, turned), "t", size_body("92"), {}).pattern.piece("front")
    assert other.cutting.length == pytest.approx(one.cutting.length, abs=1e-6)
    assert other.darts[0].intake == pytest.approx(one.darts[0].intake)


def test_a_missing_measurement_is_named():
    body = size_body("92")
    del body["hip_girth"]
    result = make_pattern(text("gore_skirt"), "g", body, {})
    assert isinstance(result, Refused)
    assert [(p.code, p.where.point) for p in result.problems] == [("body.missing", "hip_girth")]


def test_a_failed_check_hands_back_the_pattern_with_its_figures():
    broken = text("gore_skirt")
    broken = broken.replace("attach     = line overlap to far", "attach     = line overlap to (far left 1cm)")
    broken = broken.replace("end_far    = line far to", "end_far    = line (far left 1cm) to")
    result = make_pattern(broken, "g", size_body("92"), {})
    assert isinstance(result, Failed)
    assert "checks.seam-walk" in {p.code for p in result.problems}
    seam = next(p for p in result.problems if p.code == "checks.seam-walk")
    assert "10 mm" in seam.message or "10.0" in seam.message


def test_an_unreadable_line_raises_no_false_alarms_after_it():
    broken = text("gore_skirt").replace("hip_fold    = waist_fold down", "hip_fold    = waist_fold donw")
    result = make_pattern(broken, "g.draft", size_body("92"), {})
    assert [p.code for p in result.problems] == ["language.unreadable"]


def test_each_stage_is_told_as_it_ends():
    heard = []
    make_staged(text("gore_skirt"), "g", size_body("92"), {}, Unit.CM, heard.append)
    assert heard == ["read", "draft", "cut", "check"]


@pytest.mark.parametrize("name", ["gore_skirt", "shirred_tunic", "set_in_blouse"])
def test_the_same_draft_and_body_give_the_same_geometry(name):
    one, other = made(name).pattern, made(name).pattern
    assert [p.cutting for p in one.pieces] == [p.cutting for p in other.pieces]


def test_a_line_that_cannot_be_read_is_not_told_again_as_missing():
    wrong = text("gore_skirt").replace("    grain     grain_top to (", "    grain     start of hem down 3cm to (", 1)
    assert wrong != text("gore_skirt")
    refused = read_draft(wrong, "t.draft")
    assert [p.code for p in refused.problems] == ["language.unreadable"]
