"""Proofs as pages and orders see them: enough to sell on or not, accepted by whom, and whom they cover."""

import pytest

from app.pattern.problem import Refused, Severity
from app.pattern.proof import Region
from app.pattern.units import Unit
from app.shop.catalogue.service import add_draft_version
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import (
    accept_share,
    ask_for_proof,
    keep_shipped,
    not_proved_for,
    proof_of,
    proofs_of,
    prove_again,
    region_of_proof,
    share_of,
    why_not_sold,
)
from app.shop.proofs.values import ShippedProof
from app.shop.proofs.words import accepted_words, customer_words, percent, proof_words
from tests.proved import EVERYBODY, stand_proved, summary_of


@pytest.fixture
def version(session, listing):
    return add_draft_version(session, listing, "another draft")


@pytest.fixture
def proof(session, version):
    return proof_of(session, version.id)


def test_every_new_version_waits_for_its_proof(session, version, proof):
    assert (proof.state, proof.summary, proof.accepted_share) == (ProofState.WAITING, {}, 1.0)
    assert ask_for_proof(session, version.listing_id, version.id) is proof
    assert proofs_of(session, [version.id, None, 999]) == {version.id: proof}
    assert proof_of(session, None) is None


def test_nothing_is_sold_before_its_proof(proof):
    assert why_not_sold(None)[0].code == why_not_sold(proof)[0].code == "proof.not-yet"
    assert share_of(None) is share_of(proof) is None
    assert region_of_proof(proof) == region_of_proof(None) == Region(())
    assert customer_words(proof) == customer_words(None) == ""


@pytest.mark.parametrize(("share", "accepted", "sold"), [(1.0, 1.0, True), (0.98, 1.0, False), (0.98, 0.98, True)])
def test_a_share_is_enough_when_it_reaches_the_accepted_one(session, version, share, accepted, sold):
    proof = stand_proved(session, version, share, accepted)
    assert (why_not_sold(proof) == ()) is sold


def test_a_share_is_never_rounded_up_into_a_sale(session, version):
    proof = stand_proved(session, version, 0.9979)
    assert percent(0.9979) == "99.8 %"
    assert percent(0.99999) == "99.9 %"
    assert "99.8%" in why_not_sold(proof)[0].message
    accept_share(session, proof, 0.998, "Ana Quill")
    assert why_not_sold(proof) == ()


def test_a_draft_that_held_on_nobody_is_not_sold_whatever_is_accepted(session, proof):
    keep_shipped(session, proof, ShippedProof("", {}, summary_of(0.5), ()))
    accept_share(session, proof, 0.1, "Ana Quill")
    assert why_not_sold(proof)[0].code == "proof.nobody"


def test_accepting_keeps_name_and_time(session, version):
    proof = stand_proved(session, version, 0.9)
    assert accepted_words(proof) == "Every body must hold. Nobody has accepted less."
    assert not isinstance(accept_share(session, proof, 0.9, "Ana Quill"), Refused)
    assert (proof.accepted_share, proof.accepted_by) == (0.9, "Ana Quill")
    assert accepted_words(proof).startswith("Ana Quill accepted 90 % on ")


@pytest.mark.parametrize("share", [0.0, -0.5, 1.01])
def test_what_is_no_share_is_not_accepted(session, version, share):
    proof = stand_proved(session, version, 0.9)
    assert accept_share(session, proof, share, "Ana Quill").problems[0].code == "proof.no-share"
    assert proof.accepted_by == ""


def test_nothing_can_be_accepted_before_the_proof(session, proof):
    assert accept_share(session, proof, 0.9, "Ana Quill").problems[0].code == "proof.nothing-to-accept"


def test_a_shipped_proof_never_takes_the_place_of_one_worked_out_here(session, version):
    proof = stand_proved(session, version)
    proof.plan = "worked out here"
    keep_shipped(session, proof, ShippedProof("", {}, summary_of(0.2, bust_girth=EVERYBODY), ()))
    assert proof.summary["share"] == 1.0


def test_a_later_release_brings_its_own_proof(session, version):
    proof = stand_proved(session, version, 0.9, 0.9)
    keep_shipped(session, proof, ShippedProof("", {}, summary_of(0.95, bust_girth=EVERYBODY), ()))
    assert proof.summary["share"] == 0.95
    assert (proof.plan, proof.accepted_share, proof.accepted_by) == ("", 0.9, "Ana Quill")


def test_a_proof_is_repeated_only_when_it_has_ended(session, version, proof):
    assert prove_again(session, proof).problems[0].code == "proof.running"
    stand_proved(session, version)
    assert not isinstance(prove_again(session, proof), Refused)
    session.refresh(proof)
    assert proof.state is ProofState.WAITING
    assert why_not_sold(proof) == ()


def test_a_body_inside_the_ranges_is_covered_and_one_outside_is_told_why(session, version):
    proof = stand_proved(session, version, bust_girth=(760.0, 1320.0))
    assert not_proved_for(proof, {"bust_girth": 920.0}, Unit.CM) == ()
    (why,) = not_proved_for(proof, {"bust_girth": 1400.0}, Unit.INCH)
    assert why.message == "The bust girth is 55 1/8 in; this design was proved from 29 7/8 in to 52 in."
    assert (why.code, why.severity) == ("proof.outside", Severity.WARNING)


def test_without_a_proof_or_a_measurement_nobody_is_covered(session, version, proof):
    body = {"bust_girth": 920.0}
    assert [why.code for why in not_proved_for(None, body, Unit.CM)] == ["proof.not-yet"]
    assert [why.code for why in not_proved_for(proof, body, Unit.CM)] == ["proof.not-yet"]
    stand_proved(session, version)
    assert [why.code for why in not_proved_for(proof, {}, Unit.CM)] == ["proof.not-yet"]


def test_the_designer_reads_how_far_a_proof_is(session, version, proof):
    assert proof_words(None) == "not asked for yet"
    assert proof_words(proof) == "waits for a worker."
    proof.state, proof.units, proof.done = ProofState.RUNNING, 400, 100
    assert proof_words(proof) == "25 % worked out."
    proof.state = ProofState.FAILED
    assert proof_words(proof) == "could not be worked out"
    assert proof_words(stand_proved(session, version, 0.98)) == "98 of 100 bodies hold (98 %)."


def test_the_public_reads_the_range_and_plainly_what_does_not_hold(session, version):
    proof = stand_proved(session, version)
    assert customer_words(proof) == "Proved on 100 bodies from bust 0 to 1000 cm."
    proof = stand_proved(session, version, 0.98)
    assert customer_words(proof) == ""
    accept_share(session, proof, 0.95, "Ana Quill")
    assert customer_words(proof).endswith(
        "Of all bodies tried 98 % hold; beyond them the designer looks at your order first."
    )
