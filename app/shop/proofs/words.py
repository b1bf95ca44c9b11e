"""A proof in words, for the designer and for the public."""

from __future__ import annotations

from app.shop.proofs.models import Proof, ProofState
from app.shop.proofs.service import share_of, why_not_sold
from app.shop.proofs.warnings import open_warnings
from app.web.words import count, day

__all__ = ["accepted_words", "percent", "proof_words", "customer_words", "share_words"]


def percent(share: float) -> str:
    """A share as people read it: `98.7 %`, `100 %`; what is not whole is never rounded up to it."""
    shown = min(round(100 * share, 1), 99.9) if share < 1.0 else 100
    return f"{shown:g} %"


def share_words(proof: Proof) -> str:
    """`520 of 527 bodies hold (98.7 %).`"""
    summary = proof.summary
    return f"{summary['held']} of {count(int(summary['bodies']), 'body', 'bodies')} hold ({percent(summary['share'])})."


def proof_words(proof: Proof | None) -> str:
    """How a proof stands, in a few words."""
    if proof is None:
        return "not asked for yet"
    if proof.state is ProofState.FAILED:
        return "could not be worked out"
    held = f"{share_words(proof)} {_unread_words(proof)}".strip() if proof.summary else ""
    if proof.state is ProofState.RUNNING:
        return f"{100 * proof.done // max(1, proof.units)} % worked out. {held}".strip()
    if proof.state is ProofState.WAITING:
        return f"waits for a worker. {held}".strip()
    return held


def _unread_words(proof: Proof) -> str:
    unread = len(open_warnings(proof))
    return f"{count(unread, 'warning')} to read." if unread else ""


def accepted_words(proof: Proof) -> str:
    """What the designer takes as enough, with her name and the day; as it stands before she said so."""
    if proof.accepted_at is None:
        return "Every body must hold. Nobody has accepted less."
    return f"{proof.accepted_by} accepted {percent(proof.accepted_share)} on {day(proof.accepted_at)}."


def customer_words(proof: Proof | None) -> str:
    """What customers read of a proof; "" when nothing may be sold on its strength."""
    share = share_of(proof)
    if proof is None or share is None or why_not_sold(proof):
        return ""
    line = str(proof.summary["line"])
    if share >= 1.0:
        return line
    return f"{line} Of all bodies tried {percent(share)} hold; beyond them the designer looks at your order first."
