"""The proofs that come with the demo drafts: of this very text, enough to sell on, and true when tried again."""

import pytest

from app.demo.prove import main, plan_of
from app.demo.shop import DEMO, LEAST_SHARE
from app.pattern.proof import prove_unit, read_region
from app.shop.proofs.values import read_shipped

ANEW = "run `python -m app.demo.prove {}` and commit what it writes"
#: Every so many units are tried again: a few dozen patterns of each draft.
EVERY = 211


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.words.slug)
def test_the_proof_is_of_the_draft_as_it_stands(design):
    shipped = read_shipped(design.proof_file())
    anew = ANEW.format(design.words.slug)
    assert shipped is not None, anew
    assert shipped.is_of(design.text(), design.settled), f"{design.draft} has changed since it was proved: {anew}"
    assert shipped.summary["missing"] == 0


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.words.slug)
def test_the_proof_is_enough_to_sell_on(design):
    shipped = read_shipped(design.proof_file())
    assert shipped.summary["share"] >= LEAST_SHARE
    assert read_region(shipped.summary["region"]).ranges
    assert shipped.summary["held"] == sum(not body["failed"] for body in shipped.bodies)


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.words.slug)
def test_a_sample_of_the_proof_is_true_when_tried_again(design):
    plan = plan_of(design)
    stopped = {body["id"] for body in read_shipped(design.proof_file()).bodies if body["failed"]}
    for unit in plan.units[::EVERY]:
        result = prove_unit(plan.text, plan.name, unit)
        if unit.body.id not in stopped:
            anew = ANEW.format(design.words.slug)
            assert result["ok"], f"{unit.body.id}, {unit.setting.name}: {result['findings']} {anew}"


def test_designs_of_one_draft_are_each_proved_with_what_they_settle():
    for design in DEMO:
        offered = read_shipped(design.proof_file()).summary["settings"]
        assert not any(name in tally["setting"] for tally in offered for name in design.settled)
        assert all(design.settled.items() <= setting.choices.items() for setting in plan_of(design).settings)


def test_a_design_that_is_not_there_is_told(capsys):
    assert main(["gore_skirt.draft"]) == 1
    assert "gore_skirt.draft" in capsys.readouterr().err
