"""How a body stands to the proof of a design: inside and silent, outside with a picture, unproved with words alone."""

import pytest

from app.pattern.proof import Range, Region, region_values
from app.shop.orders.coverage import COVERED, proof_coverage
from app.shop.orders.service import fitting_by_token, save_fitting
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import proof_of
from tests.proved import summary_of
from tests.shop.orders.conftest import ENTRY


def body(name, bust, hip, failed=0):
    measures = {"bust_girth": bust, "hip_girth": hip}
    return {"id": name, "kind": "size", "body": measures, "failed": failed, "failures": []}


BODIES = [body("size 92", 920.0, 980.0), body("size 110", 1100.0, 1140.0, failed=1)]


@pytest.fixture
def prove(session, listing):
    """Let the listing's draft stand proved within these ranges, with bodies to draw."""

    def within(bodies=BODIES, **ranges):
        proof = proof_of(session, listing.current_version.id)
        region = Region(tuple(Range(axis, *ends) for axis, ends in ranges.items()))
        proof.summary = {**summary_of(), "region": region_values(region)}
        proof.bodies = bodies
        session.flush()
        return proof

    return within


@pytest.fixture
def stand(session, listing):
    """How a new fitting of the listing stands."""

    def with_mark(mark="You"):
        saved = save_fitting(session, listing, ENTRY)
        return proof_coverage(session, fitting_by_token(session, saved.token), mark)

    return with_mark


def test_a_body_within_every_range_is_inside_and_no_picture_is_drawn(prove, stand):
    prove(hip_girth=(900.0, 1000.0), bust_girth=(920.0, 930.0))
    assert stand() == COVERED


def test_a_body_outside_one_range_is_told_which_and_marked_on_the_chart(prove, stand):
    prove(hip_girth=(900.0, 970.0))
    found = stand("This order")
    assert [problem.code for problem in found.outside] == ["proof.outside"]
    assert "hip girth" in found.outside[0].message.lower()
    assert found.chart.startswith("<svg")
    assert ">This order</text>" in found.chart
    assert "hip girth, in</text>" in found.chart, "in the unit in which she measured"


def test_each_range_she_lies_outside_of_is_told(prove, stand):
    prove(hip_girth=(900.0, 970.0), bust_girth=(930.0, 940.0))
    assert len(stand().outside) == 2


def test_the_ends_of_a_range_are_inside_it(prove, stand):
    for ends in ((980.0, 990.0), (900.0, 980.0), (980.0, 980.0)):
        prove(hip_girth=ends)
        assert stand() == COVERED


@pytest.mark.parametrize(
    ("ends", "words"),
    [
        ((981.0, 1000.0), "The hip girth is a little under 38 5/8 in; this design was proved from 38 5/8 in to"),
        (
            (900.0, 979.8),
            "The hip girth is a little over 38 5/8 in; this design was proved from 35 3/8 in to 38 5/8 in",
        ),
        ((900.0, 970.0), "The hip girth is 38 5/8 in; this design was proved from 35 3/8 in to 38 1/4 in"),
    ],
)
def test_a_figure_just_outside_does_not_read_as_if_it_were_inside(prove, stand, ends, words):
    prove(hip_girth=ends)
    assert stand().outside[0].message.startswith(words)


def test_a_design_whose_proof_is_not_done_is_told_without_a_picture(session, listing, stand):
    proof = proof_of(session, listing.current_version.id)
    proof.state, proof.summary, proof.bodies = ProofState.RUNNING, {}, []
    session.flush()
    found = stand()
    assert [problem.code for problem in found.outside] == ["proof.not-yet"]
    assert found.chart == ""


def test_a_proof_that_kept_no_bodies_has_no_picture(prove, stand):
    prove(bodies=[], hip_girth=(900.0, 970.0))
    found = stand()
    assert found.outside
    assert found.chart == ""


def test_a_proof_of_measurements_that_she_did_not_give_has_no_picture(prove, stand):
    taller = {**BODIES[0], "body": {**BODIES[0]["body"], "stature": 1680.0}}
    prove(bodies=[taller], hip_girth=(900.0, 970.0))
    found = stand()
    assert found.outside
    assert found.chart == ""


def test_a_range_of_a_measurement_that_is_missing_is_told_as_missing(prove, stand):
    prove(stature=(1500.0, 1800.0))
    [problem] = stand().outside
    assert problem.message == "A measurement is missing."
