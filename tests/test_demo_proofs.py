"""The proofs that come with the demo drafts: of this very text, enough to sell on, and true when tried again."""

from hashlib import sha256

import pytest

from app.demo import DEMO, DRAFTS, LEAST_SHARE, proof_file
from app.demo_proofs import plan_of
from app.pattern.proof import prove_unit, read_region
from app.proofs.values import read_shipped

ANEW = "run `python -m app.demo_proofs {}` and commit what it writes"
#: Every so many units are tried again: a few dozen patterns of each draft.
EVERY = 211


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.draft)
def test_the_proof_is_of_the_draft_as_it_stands(design):
    shipped = read_shipped(proof_file(design.draft))
    assert shipped is not None, ANEW.format(design.draft)
    digest = sha256((DRAFTS / design.draft).read_bytes()).hexdigest()
    assert shipped.draft_sha256 == digest, (
        f"{design.draft} has changed since it was proved: {ANEW.format(design.draft)}"
    )
    assert shipped.summary["missing"] == 0


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.draft)
def test_the_proof_is_enough_to_sell_on(design):
    shipped = read_shipped(proof_file(design.draft))
    assert shipped.summary["share"] >= LEAST_SHARE
    assert read_region(shipped.summary["region"]).ranges
    assert shipped.summary["held"] == sum(not body["failed"] for body in shipped.bodies)


@pytest.mark.parametrize("design", DEMO, ids=lambda design: design.draft)
def test_a_sample_of_the_proof_is_true_when_tried_again(design):
    plan = plan_of(design)
    stopped = {body["id"] for body in read_shipped(proof_file(design.draft)).bodies if body["failed"]}
    for unit in plan.units[::EVERY]:
        result = prove_unit(plan.text, plan.name, unit)
        if unit.body.id not in stopped:
            assert result["ok"], (
                f"{unit.body.id}, {unit.setting.name}: {result['findings']} {ANEW.format(design.draft)}"
            )
