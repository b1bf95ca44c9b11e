"""Proving drafts beside the shop: every result is kept, and only what a change has touched is worked out again."""

import errno
from dataclasses import replace
from datetime import timedelta

import pytest
import sqlalchemy as sa

from app.pattern.proof import Population, plan_proof
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, save_listing
from app.shop.proofs import work
from app.shop.proofs.models import Proof, ProofResult, ProofState
from app.shop.proofs.service import ask_for_proof, keep_shipped, proof_of, proof_with_bodies, prove_again, why_not_sold
from app.shop.proofs.values import ShippedProof
from app.work.prover import Prover
from tests.places import SLIP
from tests.proved import SMALL_DRAFT, summary_of

POPULATION = Population(amount=40)
#: What a listing of the slip may settle: its one choice.
SETTLED = {"ease": "5cm"}


@pytest.fixture
def prover(settings, database):
    return Prover(settings.model_copy(update={"proof_processes": 1}), database, lambda: False, POPULATION)


def add(database, text):
    with database.writing() as session:
        listing = save_listing(session, ListingWords("slip", "Slip", "", "", Level.CONFIDENT, 0, "EUR", ""))
        return add_draft_version(session, listing, text).id


@pytest.fixture
def version(database):
    return add(database, SLIP)


def look(database, version):
    with database.reading() as session:
        return proof_with_bodies(session, version)


def kept(database):
    with database.reading() as session:
        return session.scalar(sa.select(sa.func.count()).select_from(ProofResult))


@pytest.mark.parametrize("text", ['draft "Slip"\n', SMALL_DRAFT[: SMALL_DRAFT.index("piece panel")]])
def test_a_draft_without_a_piece_is_proved_on_nobody(prover, database, text):
    version = add(database, text)
    assert prover.prove_next()
    proof = look(database, version)
    assert (proof.state, proof.summary, kept(database)) == (ProofState.FAILED, {}, 0)
    assert proof.problems[0]["message"] == "There is no piece to cut, so this is not a pattern."
    assert "Trace a piece" in proof.problems[0]["fix"]
    assert why_not_sold(proof)[0].code == "proof.failed"


def test_a_new_draft_version_is_proved_by_itself(prover, database, version):
    assert look(database, version).state is ProofState.WAITING
    assert prover.prove_next()
    proof = look(database, version)
    assert (proof.state, proof.units, proof.done, proof.worker, proof.claim) == (ProofState.READY, 231, 231, "", "")
    assert (proof.summary["bodies"], proof.summary["held"]) == (77, 68)
    assert proof.summary["failures"][0]["check"] == "checks.seam-walk"
    assert proof.plan == plan_proof(SLIP, "slip.draft", POPULATION).fingerprint
    assert not prover.prove_next()


def test_what_a_listing_settles_is_held_while_the_rest_is_tried(prover, database):
    with database.writing() as session:
        words = ListingWords("slip", "Slip", "", "", Level.CONFIDENT, 0, "EUR", "")
        version = add_draft_version(session, save_listing(session, words, SETTLED), SLIP).id
    assert prover.prove_next()
    proof = look(database, version)
    plan = plan_proof(SLIP, "slip.draft", POPULATION, SETTLED)
    assert (proof.state, proof.plan, proof.units) == (ProofState.READY, plan.fingerprint, 77)
    prover.request_missing()
    assert look(database, version).state is ProofState.READY, "nothing has changed"


def test_every_body_is_kept_with_what_stopped_it(prover, database, version):
    prover.prove_next()
    bodies = look(database, version).bodies
    assert len(bodies) == 77
    failed = [body for body in bodies if body["failed"]]
    assert len(failed) == 9
    assert all(body["body"]["hip_girth"] > 1200.0 for body in failed)
    finding = failed[0]["failures"][0]["finding"]
    assert (finding["piece"], finding["edge"]) == ("back", "side")
    assert failed[0]["failures"][0]["setting"] == "as offered"


def test_a_proof_that_fails_somewhere_is_not_enough_until_that_is_accepted(prover, database, version):
    prover.prove_next()
    assert why_not_sold(look(database, version))[0].code == "proof.share-too-small"


def test_stopping_keeps_what_is_done_and_the_next_worker_does_only_the_rest(prover, database, version):
    asked = iter(range(1000))
    hurried = replace(prover, stopping=lambda: next(asked) >= 30)
    hurried.prove_next()
    begun = look(database, version)
    assert begun.state is ProofState.RUNNING
    assert 0 < begun.done < 231
    assert kept(database) == begun.done
    with database.writing() as session:
        work.release_proofs_of(session, "worker-1")
    counted = []
    whole = work.record_units

    def begin(session, claim, units, done):
        counted.append(done)
        whole(session, claim, units, done)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(work, "record_units", begin)
        prover.prove_next()
    assert counted == [begun.done]
    assert look(database, version).state is ProofState.READY
    assert kept(database) == 228  # two bodies of the same girths share three results


def test_a_change_of_words_repeats_nothing(prover, database, version, monkeypatch):
    prover.prove_next()
    monkeypatch.setattr("app.work.prover.prove_unit", None)
    monkeypatch.setattr("app.work.prover.results_of", None)
    second = add(database, SLIP.replace('"Room at the hip"', '"Ease at the hip"') + "\n# a comment\n")
    assert second != version
    prover.prove_next()
    assert look(database, second).state is ProofState.READY
    assert look(database, second).summary["held"] == 68


def test_a_change_of_the_drawing_repeats_what_it_touched_and_forgets_what_no_longer_holds(prover, database, version):
    prover.prove_next()
    second = add(database, SLIP.replace("hip_girth - 120cm", "hip_girth - 220cm"))
    prover.prove_next()
    assert look(database, second).summary["held"] == 77
    assert why_not_sold(look(database, second)) == ()
    assert look(database, version).summary["held"] == 68
    assert kept(database) == 228  # two bodies of the same girths share three results


def test_a_draft_that_cannot_be_read_is_told_with_the_place(prover, database):
    version = add(database, SLIP.replace("hip_girth - 120cm", "hip_girht - 120cm"))
    assert prover.prove_next()
    proof = look(database, version)
    assert proof.state is ProofState.FAILED
    assert "hip_girht" in proof.problems[0]["message"]
    assert proof.problems[0]["fix"]


def test_a_proof_that_breaks_is_tried_again_and_then_given_up(prover, database, version, monkeypatch):
    def broken(*_):
        raise MemoryError("no room")

    monkeypatch.setattr("app.work.prover.plan_proof", broken)
    monkeypatch.setattr(Prover, "_pause", lambda _self: None)
    for attempt in (1, 2):
        prover.prove_next()
        assert (look(database, version).state, look(database, version).attempt) == (ProofState.WAITING, attempt)
    prover.prove_next()
    proof = look(database, version)
    assert proof.state is ProofState.FAILED
    assert proof.problems[0]["message"] == "The proof stopped 3 times, at last with MemoryError: no room"


def test_a_proof_taken_away_in_the_middle_is_left_to_the_other_worker(prover, database, version, monkeypatch):
    store = work.store_results

    def lose(session, claim, results):
        session.execute(sa.update(Proof).values(claim="another"))
        store(session, claim, results)

    monkeypatch.setattr(work, "store_results", lose)
    assert prover.prove_next()
    assert (look(database, version).done, kept(database)) == (0, 0)


def test_two_processes_find_what_one_finds(prover, database, version):
    both = replace(prover, settings=prover.settings.model_copy(update={"proof_processes": 2}))
    both.prove_next()
    two = look(database, version)
    with database.writing() as session:
        session.execute(sa.delete(ProofResult))
        session.execute(sa.update(Proof).values(state=ProofState.WAITING))
    prover.prove_next()
    one = look(database, version)
    assert (two.summary, two.bodies) == (one.summary, one.bodies)


def test_a_change_of_the_program_has_current_drafts_proved_anew(prover, database, version):
    prover.prove_next()
    assert prover.request_missing()
    assert look(database, version).state is ProofState.READY
    with database.writing() as session:
        session.execute(sa.update(Proof).values(plan="by an older program"))
    prover.request_missing()
    waiting = look(database, version)
    assert waiting.state is ProofState.WAITING
    assert waiting.summary["held"] == 68  # what was shown stands until the new proof is there


def test_a_proof_that_came_with_its_draft_is_not_worked_out_again_by_itself(prover, database, version):
    with database.writing() as session:
        keep_shipped(session, proof_of(session, version), ShippedProof("", {}, summary_of(hip_girth=(0.0, 9e3)), ()))
    prover.request_missing()
    assert look(database, version).state is ProofState.READY
    with database.writing() as session:
        prove_again(session, proof_of(session, version))
    prover.prove_next()
    assert look(database, version).summary["bodies"] == 77


def test_drafts_of_a_shop_that_had_no_proofs_are_proved(prover, database, version):
    with database.writing() as session:
        session.execute(sa.delete(Proof))
    prover.request_missing()
    assert look(database, version).state is ProofState.WAITING
    with database.writing() as session:
        assert ask_for_proof(session, 1, version).id == look(database, version).id


def test_a_proof_dropped_for_trouble_of_the_machine_gets_no_sign_of_life_and_is_not_counted(
    prover, database, version, monkeypatch
):
    seen = []

    def full(*_):
        seen.append(set(prover.proving))
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr("app.work.prover.plan_proof", full)
    assert prover._again_next_turn(prover.prove_next) is False
    proof = look(database, version)
    assert (proof.state, seen, prover.proving) == (ProofState.RUNNING, [{proof.claim}], set())
    with database.writing() as session:
        session.execute(sa.update(Proof).values(heartbeat_at=proof.created_at - timedelta(hours=1)))
        work.record_proof_heartbeats(session, prover.proving)
        assert work.release_silent_proofs(session, timedelta(minutes=1)) == 1
    monkeypatch.undo()
    assert prover.prove_next()
    assert look(database, version).state is ProofState.READY


def test_what_was_never_proved_is_asked_for_again_when_the_database_was_away_at_the_start(
    prover, database, version, monkeypatch
):
    rests = []
    monkeypatch.setattr(Prover, "_pause", lambda _self: rests.append(1))
    prover = replace(prover, stopping=lambda: len(rests) > 1)
    asked = []

    def away(self):
        asked.append(len(rests))
        if len(asked) == 1:
            raise sa.exc.OperationalError("SELECT", {}, OSError("gone"))
        return True

    monkeypatch.setattr(Prover, "request_missing", away)
    monkeypatch.setattr(Prover, "prove_next", lambda _self: False)
    prover.run()
    assert asked == [0, 1]
