"""The proof of a draft version: what is planned, working it out in shares, and what it shows."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path

import pytest

from app.pattern.body import draw_bodies, read_bodies_csv, size_body
from app.pattern.make import Made, make_pattern
from app.pattern.problem import Refused
from app.pattern.proof import (
    Population,
    ProofBody,
    given_bodies,
    inside,
    plan_proof,
    proof_line,
    prove_units,
    read_region,
    shares,
    summarise,
    summary_values,
)
from app.pattern.proof.settings import levels
from app.pattern.units import Unit

HERE = Path(__file__).parent
SQUARE = (HERE / "square.draft").read_text("utf-8")
#: The same panel, whose width may be more than its length by a little only: large waists fail.
FAILING = SQUARE.replace(
    "sew panel.side to panel.near notch at 1/2",
    "sew panel.side to panel.near notch at 1/2\nsew panel.top to panel.near ease -100cm..1cm",
)
FEW = Population(amount=60, seed=4)


@cache
def plan(text=SQUARE, population=FEW):
    made = plan_proof(text, "square.draft", population)
    assert not isinstance(made, Refused), "\n".join(map(str, made.problems))
    return made


@cache
def results(text=SQUARE):
    return tuple(prove_units(text, plan(text).name, plan(text).units))


# ---- planning


def test_every_body_is_planned_at_every_setting():
    made = plan()
    pairs = {(unit.body.id, unit.setting.name) for unit in made.units}
    assert len(pairs) == len(made.units) == len(made.bodies) * len(made.settings)
    assert {body.kind for body in made.bodies} == {"size", "corner", "drawn", "end"}
    assert sum(body.kind == "drawn" for body in made.bodies) == 60
    assert sum(body.kind == "end" for body in made.bodies) == 15


def test_the_first_setting_is_as_offered_and_the_others_say_what_is_changed():
    names = [setting.name for setting in plan().settings]
    assert names[0] == "as offered"
    assert len(set(names)) == len(names)
    assert any("ease 1 cm" in name for name in names) and any("lined yes" in name for name in names)
    assert any("length calf" in name for name in names)


def test_choices_that_change_no_geometry_are_left_at_their_default():
    text = SQUARE.replace(
        '    lined  = no "Lined"',
        '    lined  = no "Lined"\n    thread = red one of red, blue "Thread"\n    words  = no "More words"',
    )
    made = plan(text.replace("    ## Press", "    ## Cheer {when words}\n    Hooray.\n\n    ## Press"))
    assert made.moving == ("ease", "lined", "length")
    assert made.still == ("thread", "words")
    assert all("thread" not in setting.choices for setting in made.settings)


def test_a_settled_choice_holds_at_every_setting_and_is_not_varied():
    made = plan_proof(SQUARE, "square.draft", FEW, {"length": "calf"})
    assert made.settled == {"length": "calf"}
    assert made.moving == ("ease", "lined")
    assert all(setting.choices["length"] == "calf" for setting in made.settings)
    assert made.settings[0].name == "as offered"
    assert not any("length" in setting.name for setting in made.settings)


def test_what_was_proved_with_a_choice_settled_is_known_where_it_is_varied():
    settled = plan_proof(SQUARE, "square.draft", FEW, {"length": "calf"})
    known = {unit.fingerprint for unit in settled.units}
    same = [unit.setting.choices for unit in plan().units if unit.fingerprint in known]
    assert same
    assert all(choices["length"] == "calf" for choices in same)


def test_a_draft_that_cannot_be_settled_so_has_no_plan():
    assert [p.code for p in plan_proof(SQUARE, "square.draft", FEW, {"collar": "stand"}).problems] == ["choice.unknown"]


def test_a_choice_that_matters_only_beside_another_is_found():
    text = SQUARE.replace('    lined  = no "Lined"', '    lined  = no "Lined"\n    deeper = no "Deeper lining"')
    text = text.replace("figures\n", "figures\n    lining_edge = 2cm when deeper otherwise 1cm\n")
    own = "    allowance 1cm\n    finish low, top hemmed\n    note"
    assert own in text
    text = text.replace(own, own.replace("1cm", "lining_edge"))
    assert "deeper" in plan(text).moving


@pytest.mark.parametrize(
    ("kind", "values"), [("ease", (20.0, 10.0, 40.0)), ("lined", (False, True)), ("length", ("knee", "calf"))]
)
def test_a_choice_is_proved_at_its_default_and_its_limits_or_options(kind, values):
    choice = next(c for c in compiled_choices() if c.name == kind)
    assert levels(choice) == values


def compiled_choices():
    made = make_pattern(SQUARE, "square.draft", size_body("92"), {})
    assert isinstance(made, Made)
    return made.card.choices


def test_the_same_text_gives_the_same_plan():
    again = plan_proof(SQUARE, "square.draft", FEW)
    assert again.fingerprint == plan().fingerprint
    assert [u.fingerprint for u in again.units] == [u.fingerprint for u in plan().units]


def test_a_draft_that_cannot_be_read_has_no_plan():
    assert [p.code for p in plan_proof("drat", "x.draft").problems] == ["language.section"]


def test_outside_bodies_are_proved_too():
    table = "id,waist_girth\nclara,722\nmaud,905\n"
    read = read_bodies_csv(table, "bodies.csv")
    made = plan_proof(SQUARE, "square.draft", Population(amount=0, given=given_bodies(read.bodies)))
    assert [(b.id, b.kind) for b in made.bodies][-2:] == [("clara", "given"), ("maud", "given")]


def test_an_outside_body_must_have_what_the_draft_needs():
    lacking = Population(amount=0, given=(ProofBody("clara", "given", {"hip_girth": 980.0}),))
    problems = plan_proof(SQUARE, "square.draft", lacking).problems
    assert [p.code for p in problems] == ["proof.body-lacks"]
    assert "clara" in problems[0].message and "waist_girth" in problems[0].message


@pytest.mark.parametrize(("group", "kinds"), [("men", 12), ("children", 9), ("women", 12)])
def test_a_draft_is_proved_on_those_it_is_for(group, kinds):
    made = plan(SQUARE.replace('draft "Square"', f'draft "Square"\nfor {group}'))
    assert made.group == group
    assert all("waist_girth" in body.body for body in made.bodies)


def test_only_the_statures_that_it_is_offered_for():
    made = plan(SQUARE.replace('draft "Square"', 'draft "Square"\nfor women from 160cm to 175cm'))
    assert made.bodies
    assert all(1600.0 <= body.body["stature"] <= 1750.0 for body in made.bodies)


def test_statures_that_nobody_has_are_told():
    text = SQUARE.replace('draft "Square"', 'draft "Square"\nfor women from 240cm to 245cm')
    assert [p.code for p in plan_proof(text, "square.draft", FEW).problems] == ["proof.no-bodies"]


def test_a_draft_that_says_nothing_of_getting_in_is_advised_to():
    assert plan().advice == ()
    silent = plan(SQUARE.replace(" opens fully", ""))
    assert [p.code for p in silent.advice] == ["drafting.getting-in-unsaid"]
    assert silent.advice[0].where.line and "passes hip_girth" in silent.advice[0].fix


# ---- working it out


def test_a_proof_can_stop_anywhere_and_go_on_later():
    made = plan()
    first = prove_units(made.text, made.name, made.units[:10])
    done = {result["fingerprint"] for result in json.loads(json.dumps(first))}
    rest = made.left(done)
    assert len(rest) == len(made.units) - 10
    assert summarise(made, [*first, *prove_units(made.text, made.name, rest)]) == summarise(made, results())


def test_shares_hold_every_unit_once_in_order():
    made = plan()
    parts = list(shares(made.units, 7))
    assert [unit for share in parts for unit in share] == list(made.units)
    assert {len(share) for share in parts[:-1]} == {7}


def test_a_unit_is_worked_out_through_the_same_door_as_an_order():
    unit = plan().units[3]
    made = make_pattern(SQUARE, "square.draft", unit.body.body, unit.setting.choices)
    result = results()[3]
    assert result["ok"] and result["body"] == unit.body.id
    assert result["sizes"]["waist"] == pytest.approx(made.pattern.girths[0].measured, abs=0.001)


# ---- what it shows


def test_a_draft_that_holds_holds_on_every_body():
    summary = summarise(plan(), results())
    assert (summary.share, summary.missing, summary.complete) == (1.0, 0, True)
    assert summary.held == summary.bodies == len(plan().bodies)
    assert 0.75 * summary.held < summary.within <= summary.held
    assert summary.failures == () and summary.worst == ()
    assert all(tally.held == tally.bodies == len(plan().bodies) for tally in summary.settings)


def test_what_is_not_worked_out_yet_is_missing_and_its_bodies_do_not_count():
    some = results()[: len(plan().settings) * 3 + 1]
    summary = summarise(plan(), some)
    assert (summary.bodies, summary.complete) == (3, False)
    assert summary.missing == len(plan().units) - len(some)


def test_results_of_another_plan_are_left_out():
    stray = {**results()[0], "fingerprint": "of something else"}
    assert summarise(plan(), [*results(), stray]) == summarise(plan(), results())


def test_the_order_of_results_does_not_matter():
    assert summarise(plan(), results()[::-1]).region == summarise(plan(), results()).region


def test_failures_are_told_by_check_setting_and_body():
    made, found = plan(FAILING), results(FAILING)
    summary = summarise(made, found)
    assert 0.0 < summary.share < 1.0
    assert [tally.check for tally in summary.failures] == ["checks.seam-walk"]
    tally = summary.failures[0]
    assert tally.bodies == summary.bodies - summary.held
    assert tally.example["piece"] == "panel" and tally.example["edge"] == "top" and len(tally.example["at"]) == 2
    assert tally.example["line"] == SQUARE[: SQUARE.index("sew panel.side")].count("\n") + 2
    by_setting = {t.setting: t.held for t in summary.settings}
    assert min(by_setting.values()) == summary.held


def test_the_worst_bodies_come_first_with_their_measurements():
    summary = summarise(plan(FAILING), results(FAILING))
    counts = [len(worst.settings) for worst in summary.worst]
    assert counts == sorted(counts, reverse=True)
    assert len(counts) <= 12
    worst = summary.worst[0]
    assert set(worst.body) == {"waist_girth"}
    assert worst.checks == ("checks.seam-walk",)
    assert worst.body["waist_girth"] > summary.region.range_of("waist_girth").most


def test_the_region_leaves_every_failed_body_outside():
    made = plan(FAILING)
    summary = summarise(made, results(FAILING))
    failed = {result["body"] for result in results(FAILING) if not result["ok"]}
    for body in made.bodies:
        assert not (inside(summary.region, body.body) and body.id in failed)
    assert summary.within > 60


def test_the_proof_is_said_in_a_line_in_both_units():
    summary = summarise(plan(), results())
    within = [body.body["waist_girth"] for body in plan().bodies if inside(summary.region, body.body)]
    waists = [f"{mm / 10:.1f}".removesuffix(".0") for mm in (min(within), max(within))]
    line = proof_line(summary)
    assert line.startswith(f"Proved on {len(within)} bodies from waist {waists[0]} to {waists[1]} cm")
    assert f"at {len(plan().settings)} settings" in line
    assert " in, " in proof_line(summary, Unit.INCH)


def test_the_line_is_by_the_bust_where_the_draft_needs_it():
    text = SQUARE.replace("    waist_girth\nchoices", "    waist_girth, bust_girth\nchoices")
    made = plan(text)
    assert "bodies from bust 7" in proof_line(summarise(made, prove_units(made.text, made.name, made.units)))


def test_a_draft_that_holds_on_nobody_is_not_proved():
    text = SQUARE.replace("ease ease opens fully", "ease 0cm - 1cm opens fully")
    made = plan(text, Population(amount=0))
    summary = summarise(made, prove_units(made.text, made.name, made.units))
    assert (summary.held, summary.within, proof_line(summary)) == (0, 0, "Not proved on any body.")


def test_the_summary_is_plain_json_with_the_region_to_read_back():
    summary = summarise(plan(FAILING), results(FAILING))
    values = json.loads(json.dumps(summary_values(summary)))
    assert read_region(values["region"]) == summary.region
    assert (values["bodies"], values["held"], values["fingerprint"]) == (
        summary.bodies,
        summary.held,
        plan(FAILING).fingerprint,
    )
    assert values["failures"][0]["example"]["fix"]
    assert values["worst"][0]["settings"]


def test_fresh_bodies_of_the_region_hold_as_the_proof_says():
    summary = summarise(plan(FAILING), results(FAILING))
    for body in draw_bodies(40, 99):
        if inside(summary.region, body):
            assert isinstance(make_pattern(FAILING, "square.draft", body, {}), Made)
