"""Proofs as pages and orders see them: how one stands, whether it is enough to sell on, and whom it covers."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import sqlalchemy as sa
from sqlalchemy.orm import Session, undefer

from app.base.database import now, rows_changed
from app.pattern.problem import Problem, Refused, Severity
from app.pattern.proof import Region, outside, read_region
from app.pattern.units import Unit
from app.shop.proofs.models import Proof, ProofState
from app.shop.proofs.values import ShippedProof
from app.shop.proofs.warnings import open_warnings

__all__ = [
    "NOT_PROVED",
    "accept_share",
    "ask_for_proof",
    "keep_shipped",
    "not_proved_for",
    "proof_of",
    "proofs_of",
    "prove_again",
    "region_of_proof",
    "share_of",
    "why_not_sold",
    "proof_with_bodies",
]

NOT_PROVED = "proof.not-yet"
#: A share shown with one decimal of a percent is rounded by at most half of it.
_ROUNDING = 0.0005


def ask_for_proof(session: Session, listing_id: int, draft_version_id: int) -> Proof:
    """Have a draft version proved, unless it was asked for before; a worker finds it by itself."""
    known = proof_of(session, draft_version_id)
    if known is not None:
        return known
    moment = now(session)
    earlier = sa.select(Proof).where(Proof.listing_id == listing_id).order_by(Proof.draft_version_id.desc())
    before = session.scalar(earlier.limit(1))
    proof = Proof(
        listing_id=listing_id,
        draft_version_id=draft_version_id,
        state=ProofState.WAITING,
        accepted_share=1.0,
        accepted_warnings=list(before.accepted_warnings) if before is not None else [],
        created_at=moment,
        updated_at=moment,
    )
    session.add(proof)
    session.flush()
    return proof


def keep_shipped(session: Session, proof: Proof, shipped: ShippedProof) -> None:
    """Take a proof that came with its draft for one that was never worked out here.

    It was tried together with this very program, so that it is not worked out anew by
    itself: it has no `plan` of its own. A later release brings its own proof, which takes its place.
    """
    if proof.plan or proof.summary == shipped.summary:
        return
    moment = now(session)
    proof.state = ProofState.READY
    proof.summary, proof.bodies = dict(shipped.summary), list(shipped.bodies)
    proof.units = proof.done = int(shipped.summary["patterns"])
    proof.updated_at = proof.proved_at = moment
    session.flush()


def proof_of(session: Session, draft_version_id: int | None) -> Proof | None:
    """The proof of a draft version, or None when none was asked for."""
    return session.scalar(sa.select(Proof).where(Proof.draft_version_id == draft_version_id))


def proofs_of(session: Session, draft_version_ids: Collection[int | None]) -> dict[int, Proof]:
    """The proofs of several draft versions, by version."""
    found = session.scalars(sa.select(Proof).where(Proof.draft_version_id.in_(draft_version_ids)))
    return {proof.draft_version_id: proof for proof in found}


def proof_with_bodies(session: Session, draft_version_id: int | None) -> Proof | None:
    """The proof of a draft version with what every body showed, which is much to read."""
    query = sa.select(Proof).where(Proof.draft_version_id == draft_version_id).options(undefer(Proof.bodies))
    return session.scalar(query)


def prove_again(session: Session, proof: Proof) -> Proof | Refused:
    """Put a proof that has ended back to wait: units whose results still hold are not repeated."""
    again = sa.update(Proof).where(Proof.id == proof.id, Proof.state.in_((ProofState.READY, ProofState.FAILED)))
    values = {"state": ProofState.WAITING, "attempt": 0, "problems": [], "updated_at": now(session)}
    if rows_changed(session, again.values(**values)) != 1:
        return Refused.of(Problem("proof.running", "This proof is being worked out.", "Wait until it has ended."))
    return proof


def share_of(proof: Proof | None) -> float | None:
    """The share of the bodies on which the draft held, 0 to 1; None before a proof is finished."""
    return float(proof.summary["share"]) if proof is not None and proof.summary else None


def accept_share(session: Session, proof: Proof, share: float, by: str) -> Proof | Refused:
    """The designer takes this share (0 to 1) of the bodies as enough; her name and the time stay with it."""
    reached = share_of(proof)
    if reached is None:
        said = "This draft is not proved yet."
        return Refused.of(Problem("proof.nothing-to-accept", said, "Wait until the proof has ended."))
    if not 0.0 < share <= 1.0:
        said = f"{share:.1%} is not a share of the bodies."
        return Refused.of(Problem("proof.no-share", said, "Write it like 98.5."))
    proof.accepted_share, proof.accepted_by, proof.accepted_at = share, by, now(session)
    proof.updated_at = now(session)
    session.flush()
    return proof


def why_not_sold(proof: Proof | None) -> tuple[Problem, ...]:
    """Why nothing may be sold on the strength of this proof; empty when it reaches what the designer accepted."""
    reached = share_of(proof)
    if proof is not None and proof.state is ProofState.FAILED:
        fix = "Its proof says why. Mend the draft, and keep it as a new version."
        return (Problem("proof.failed", "This version of the draft could not be proved.", fix),)
    if proof is None or reached is None:
        fix = "Open its proof and wait until every body has been tried."
        return (Problem(NOT_PROVED, "This version of the draft is not proved.", fix),)
    if not proof.summary["region"]["ranges"]:
        fix = "Open its proof, mend the draft, and try again."
        return (Problem("proof.nobody", "This draft held nowhere on enough bodies alike.", fix),)
    if reached + _ROUNDING < proof.accepted_share:
        said = f"This draft held on {reached:.1%} of the bodies, and {proof.accepted_share:.1%} are asked for."
        fix = "Open its proof: mend the draft, or accept this share with your eyes open."
        return (Problem("proof.share-too-small", said, fix),)
    return _unread(proof)


def _unread(proof: Proof) -> tuple[Problem, ...]:
    """Why nothing may be sold over warnings that nobody has accepted; empty when there is none."""
    unread = open_warnings(proof)
    if not unread:
        return ()
    said = (
        "A warning of its proof is not read yet."
        if len(unread) == 1
        else (f"{len(unread)} warnings of its proof are not read yet.")
    )
    fix = "Open its proof: mend the draft, or accept each warning by its name and say why it may stand."
    return (Problem("proof.warnings-unread", said, fix),)


def region_of_proof(proof: Proof | None) -> Region:
    """The measurements within which every body of the proof held; empty before a proof is finished."""
    return read_region(proof.summary["region"]) if proof is not None and proof.summary else Region(())


def not_proved_for(proof: Proof | None, body: Mapping[str, float], unit: Unit) -> tuple[Problem, ...]:
    """Why the draft is not proved for a body (mm), in words for the person in her unit; empty when it is."""
    if proof is None or not proof.summary:
        said = "This version of the design is still being proved."
        return (Problem(NOT_PROVED, said, "The designer looks at your order herself.", None, Severity.WARNING),)
    region = region_of_proof(proof)
    if any(name not in body for found in region.ranges for name in found.axis.split("/")):
        return (Problem(NOT_PROVED, "A measurement is missing.", "Take it, and look again.", None, Severity.WARNING),)
    return outside(region, body, unit, str(proof.summary["group"]))
