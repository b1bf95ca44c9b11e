"""A proof as a worker sees it: claim, results as they come, and each way it can end.

Every change names the claim it is made under, so that a worker whose proof was taken
away (silent for too long, or the draft withdrawn) can change nothing more.
"""

from __future__ import annotations

import secrets
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Any, cast

import sqlalchemy as sa
from sqlalchemy.orm import Session, aliased

from app.base.database import now, rows_changed
from app.base.errors import ProofLost
from app.pattern.problem import Problem
from app.pattern.proof import UnitResult
from app.shop.proofs.models import Proof, ProofResult, ProofState
from app.shop.proofs.values import BodyResult

__all__ = [
    "ProofClaim",
    "record_units",
    "claim_proof",
    "finish_proof",
    "return_for_retry",
    "fail_proof",
    "record_proof_heartbeats",
    "known_results",
    "release_proofs_of",
    "release_silent_proofs",
    "store_results",
]

#: So many results are named in one statement at most.
_AT_ONCE = 500
_ENDED = {"claim": "", "worker": "", "heartbeat_at": None}


@dataclass(frozen=True, slots=True)
class ProofClaim:
    """The right of one worker to prove one draft version, for one run."""

    proof_id: int
    listing_id: int
    draft_version_id: int
    secret: str
    attempt: int


def claim_proof(session: Session, worker: str) -> ProofClaim | None:
    """Take the proof that has waited longest, those of a listing's newest version first; None when none waits."""
    newer = aliased(Proof)
    superseded = sa.exists().where(
        newer.listing_id == Proof.listing_id, newer.draft_version_id > Proof.draft_version_id
    )
    waiting = sa.select(Proof.id).where(Proof.state == ProofState.WAITING)
    waiting = waiting.order_by(superseded, Proof.updated_at, Proof.id)
    first = session.scalar(waiting.limit(1))
    secret, moment = secrets.token_hex(16), now(session)
    take = sa.update(Proof).where(Proof.id == first, Proof.state == ProofState.WAITING)
    values = {"state": ProofState.RUNNING, "worker": worker, "claim": secret, "heartbeat_at": moment}
    if first is None or rows_changed(session, take.values(attempt=Proof.attempt + 1, updated_at=moment, **values)) != 1:
        return None
    proof = session.scalars(sa.select(Proof).where(Proof.id == first)).one()
    return ProofClaim(proof.id, proof.listing_id, proof.draft_version_id, secret, proof.attempt)


def record_units(session: Session, claim: ProofClaim, units: int, done: int) -> None:
    """Say how many units there are, and how many of them need not be repeated."""
    _change(session, claim, {"units": units, "done": done})


def store_results(session: Session, claim: ProofClaim, results: Sequence[UnitResult]) -> None:
    """Keep some results for good. Raises `ProofLost` when the claim is gone."""
    # A run that gets on is not counted against the proof: only one that never does is given up.
    _change(session, claim, {"done": Proof.done + len(results), "attempt": 0})
    # Bodies alike in all that the draft needs share a fingerprint, and so their result.
    by_print = {result["fingerprint"]: result for result in results}
    known = set(known_fingerprints(session, claim.listing_id, by_print.keys()))
    session.add_all(
        ProofResult(listing_id=claim.listing_id, fingerprint=fingerprint, result=dict(result))
        for fingerprint, result in by_print.items()
        if fingerprint not in known
    )


def known_fingerprints(session: Session, listing_id: int, prints: Collection[str]) -> Sequence[str]:
    """Those of the fingerprints that have a result already."""
    query = sa.select(ProofResult.fingerprint)
    return session.scalars(query.where(ProofResult.listing_id == listing_id, ProofResult.fingerprint.in_(prints))).all()


def known_results(session: Session, listing_id: int) -> dict[str, UnitResult]:
    """Every result kept for a listing's drafts, by fingerprint."""
    rows = session.execute(
        sa.select(ProofResult.fingerprint, ProofResult.result).where(ProofResult.listing_id == listing_id)
    )
    return {fingerprint: cast("UnitResult", result) for fingerprint, result in rows}


def finish_proof(
    session: Session,
    claim: ProofClaim,
    summary: Mapping[str, Any],
    bodies: Sequence[BodyResult],
    outdated: Collection[str],
) -> None:
    """End the proof with what it showed, and forget results that hang on what is no longer so."""
    moment = now(session)
    values = {"state": ProofState.READY, "plan": str(summary["fingerprint"]), "summary": dict(summary)}
    kept = {"bodies": list(bodies), "problems": [], "proved_at": moment}
    _change(session, claim, values | kept | _ENDED)
    forgotten = sorted(outdated)
    for start in range(0, len(forgotten), _AT_ONCE):
        some = forgotten[start : start + _AT_ONCE]
        session.execute(
            sa.delete(ProofResult).where(ProofResult.listing_id == claim.listing_id, ProofResult.fingerprint.in_(some))
        )


def return_for_retry(session: Session, claim: ProofClaim) -> None:
    """Put the proof back to wait for another run; what was stored stays."""
    _change(session, claim, {"state": ProofState.WAITING} | _ENDED)


def fail_proof(session: Session, claim: ProofClaim, problems: Collection[Problem]) -> None:
    """End the proof without a result, and say why."""
    told = [{"message": problem.message, "fix": problem.fix, "excerpt": problem.excerpt} for problem in problems]
    _change(session, claim, {"state": ProofState.FAILED, "problems": told} | _ENDED)


def record_proof_heartbeats(session: Session, secrets_held: Collection[str]) -> None:
    """Give the proofs under these claims a sign of life."""
    session.execute(sa.update(Proof).where(Proof.claim.in_(secrets_held)).values(heartbeat_at=now(session)))


def release_proofs_of(session: Session, worker: str) -> int:
    """Put back what an earlier process in this slot left; call only while holding the slot."""
    return rows_changed(session, _release().where(Proof.worker == worker))


def release_silent_proofs(session: Session, silence: timedelta) -> int:
    """Put back every proof without a sign of life for `silence`."""
    return rows_changed(session, _release().where(Proof.heartbeat_at < now(session) - silence))


def _release() -> sa.Update:
    running = sa.update(Proof).where(Proof.state == ProofState.RUNNING)
    return running.values(state=ProofState.WAITING, **_ENDED)


def _change(session: Session, claim: ProofClaim, values: Mapping[str, Any]) -> None:
    moment = now(session)
    held = sa.update(Proof).where(
        Proof.id == claim.proof_id, Proof.state == ProofState.RUNNING, Proof.claim == claim.secret
    )
    if rows_changed(session, held.values(**{"heartbeat_at": moment, "updated_at": moment, **values})) != 1:
        raise ProofLost(f"proof {claim.proof_id} is no longer this worker's")
