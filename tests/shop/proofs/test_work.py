"""A proof as a worker sees it: one worker at a time, every result kept once, and nothing written without the claim."""

from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.base.errors import ProofLost
from app.pattern.problem import Problem
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, save_listing
from app.shop.proofs import work
from app.shop.proofs.models import Proof, ProofState
from app.shop.proofs.service import proof_of
from tests.proved import EVERYBODY, summary_of


def result(fingerprint, ok=True):
    return {
        "fingerprint": fingerprint,
        "body": "size 92",
        "kind": "size",
        "setting": "as offered",
        "ok": ok,
        "findings": [],
        "sizes": {"hip": 1000.0},
        "fits": {},
    }


@pytest.fixture
def proof(session, listing):
    return proof_of(session, add_draft_version(session, listing, "another draft").id)


@pytest.fixture
def claim(session, proof):
    return work.claim_proof(session, "worker-1")


def look(session, proof):
    session.refresh(proof)
    return proof


def test_the_one_that_waits_is_taken_and_only_once(session, proof, claim):
    assert (claim.proof_id, claim.attempt) == (proof.id, 1)
    assert work.claim_proof(session, "worker-2") is None
    assert look(session, proof).worker == "worker-1"


def test_a_listings_newest_version_is_proved_before_the_ones_it_supersedes(session, proof, listing):
    other = save_listing(session, ListingWords("other", "Other", "", "", Level.CONFIDENT, 500, "EUR", ""))
    waiting = proof_of(session, add_draft_version(session, other, "of another listing").id)
    newest = proof_of(session, add_draft_version(session, listing, "a third draft").id)
    claimed = [work.claim_proof(session, "worker-1").proof_id for _ in range(3)]
    assert claimed == [waiting.id, newest.id, proof.id]


def test_results_are_kept_once_and_counted(session, proof, claim):
    work.record_units(session, claim, 4, 1)
    work.store_results(session, claim, [result("a"), result("b"), result("b")])
    assert look(session, proof).done == 4
    assert set(work.known_results(session, claim.listing_id)) == {"a", "b"}
    assert work.known_results(session, claim.listing_id)["a"] == result("a")
    assert work.known_results(session, 999) == {}


def test_the_end_keeps_what_was_shown_and_forgets_what_is_outdated(session, proof, claim):
    work.record_units(session, claim, 2, 0)
    work.store_results(session, claim, [result("a"), result("old")])
    work.finish_proof(session, claim, summary_of(bust_girth=EVERYBODY), [], {"old"})
    ended = look(session, proof)
    assert (ended.state, ended.claim, ended.worker, ended.plan) == (ProofState.READY, "", "", "f")
    assert ended.proved_at is not None
    assert set(work.known_results(session, claim.listing_id)) == {"a"}


def test_whoever_lost_the_claim_changes_nothing(session, proof, claim):
    work.release_proofs_of(session, "worker-1")
    work.claim_proof(session, "worker-2")
    for change in (
        lambda: work.record_units(session, claim, 4, 0),
        lambda: work.store_results(session, claim, [result("a")]),
        lambda: work.finish_proof(session, claim, summary_of(), [], ()),
        lambda: work.return_for_retry(session, claim),
        lambda: work.fail_proof(session, claim, ()),
    ):
        with pytest.raises(ProofLost):
            change()
    assert work.known_results(session, claim.listing_id) == {}
    assert look(session, proof).worker == "worker-2"


def test_a_silent_worker_loses_its_proof_and_a_live_one_keeps_it(session, proof, claim):
    assert work.release_silent_proofs(session, timedelta(minutes=1)) == 0
    old = look(session, proof).heartbeat_at - timedelta(minutes=2)
    session.execute(sa.update(Proof).where(Proof.id == proof.id).values(heartbeat_at=old))
    work.record_proof_heartbeats(session, [claim.secret])
    assert work.release_silent_proofs(session, timedelta(minutes=1)) == 0
    session.execute(sa.update(Proof).where(Proof.id == proof.id).values(heartbeat_at=old))
    assert work.release_silent_proofs(session, timedelta(minutes=1)) == 1
    assert look(session, proof).state is ProofState.WAITING


def test_a_run_that_gets_on_is_not_counted_against_the_proof(session, proof, claim):
    work.return_for_retry(session, claim)
    second = work.claim_proof(session, "worker-1")
    assert second.attempt == 2
    work.record_units(session, second, 4, 0)
    work.store_results(session, second, [result("a")])
    work.return_for_retry(session, second)
    assert work.claim_proof(session, "worker-1").attempt == 1


def test_a_proof_given_up_says_why(session, proof, claim):
    work.fail_proof(session, claim, [Problem("proof.stopped", "It stopped.", "Look.")])
    assert look(session, proof).state is ProofState.FAILED
    assert proof.problems == [{"message": "It stopped.", "fix": "Look.", "excerpt": ""}]
