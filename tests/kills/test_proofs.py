"""A worker killed in the middle of a proof loses a moment of it: the next one goes on where the first one stood."""

import re
import time

import pytest

from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, save_listing
from app.shop.proofs.models import ProofState
from app.shop.proofs.service import proof_of
from tests.places import SLIP

pytestmark = pytest.mark.kills

SECONDS = 120


@pytest.fixture
def version(yard):
    with yard.database.writing() as session:
        listing = save_listing(session, ListingWords("slip", "Slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        return add_draft_version(session, listing, SLIP).id


def wait(yard, version, until):
    deadline = time.monotonic() + SECONDS
    while True:
        with yard.database.reading() as session:
            proof = proof_of(session, version)
        if until(proof):
            return proof
        assert time.monotonic() < deadline, f"{proof.state}, {proof.done} of {proof.units}\n{yard.logs()}"
        yard.pause()


def test_a_proof_cut_short_is_carried_on_without_repeating_what_is_done(yard, version):
    first = yard.worker(TAPELINE_PROOF_PROCESSES="1")
    wait(yard, version, lambda proof: proof.done >= 100)
    yard.kill(first)
    begun = wait(yard, version, lambda proof: proof.done)
    assert (begun.state, begun.summary) == (ProofState.RUNNING, {})
    yard.worker(TAPELINE_PROOF_PROCESSES="2")
    proof = wait(yard, version, lambda proof: proof.state is ProofState.READY)
    assert (proof.done, proof.summary["missing"]) == (proof.units, 0)
    whole, rest = (int(left) for left in re.findall(r"proving, (\d+) of \d+ units left", yard.logs()))
    assert whole == proof.units
    assert rest <= whole - begun.done


def test_a_worker_asked_to_stop_puts_its_proof_back(yard, version):
    worker = yard.worker(TAPELINE_PROOF_PROCESSES="1")
    wait(yard, version, lambda proof: proof.done >= 50)
    worker.terminate()
    stopped = wait(yard, version, lambda proof: proof.state is ProofState.WAITING)
    assert worker.wait(20) == 0
    assert 50 <= stopped.done < stopped.units
    assert stopped.worker == ""
