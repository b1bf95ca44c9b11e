"""What a review has to know of the shop beside the fitting itself."""

from __future__ import annotations

from dataclasses import dataclass

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.shop.orders.coverage import COVERED, ProofCoverage, proof_coverage
from app.shop.orders.limits import orders_in_queue
from app.shop.orders.models import Fitting, Order

__all__ = ["ReviewState", "review_state"]


@dataclass(frozen=True, slots=True)
class ReviewState:
    """How the body stands to the proof, how many orders of anybody wait, and the token of the order for it, if any."""

    coverage: ProofCoverage = COVERED
    waiting: int = 0
    order: str = ""


def review_state(session: Session, fitting: Fitting) -> ReviewState:
    """How things stand for a fitting at this moment."""
    order = session.scalar(sa.select(Order.token).where(Order.fitting_id == fitting.id))
    return ReviewState(proof_coverage(session, fitting), orders_in_queue(session), order or "")
