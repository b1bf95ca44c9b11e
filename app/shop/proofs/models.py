"""Tables of proofs: one proof for each draft version, and the result of every body at every setting."""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Mapped, mapped_column

from app.base.database import Base, words_column

__all__ = ["Proof", "ProofResult", "ProofState"]


class ProofState(StrEnum):
    """Where a proof stands. `failed`: it could not be worked out at all; `problems` say why."""

    WAITING = "waiting"
    RUNNING = "running"
    READY = "ready"
    FAILED = "failed"


class Proof(Base):
    """The proof of one draft version. The row is the truth: workers look for rows that wait.

    `plan` names all that the proof hangs on, or is empty for one that came with its
    draft; `summary` and `bodies` are those of the last proof that was finished, and
    stay while a later one runs. `accepted_share` is the share of the bodies (0 to 1)
    that the designer takes as enough, with her name and the time when she said so;
    `accepted_warnings` are those that she takes as they are (see `warnings`).
    While a worker proves, `worker` is its slot, `claim` its secret for this run and
    `heartbeat_at` its last sign of life.
    """

    __tablename__ = "proof"
    __table_args__ = (
        sa.CheckConstraint("accepted_share > 0 AND accepted_share <= 1", name="accepted_is_a_share"),
        sa.CheckConstraint("done >= 0 AND done <= units", name="no_more_done_than_planned"),
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    listing_id: Mapped[int] = mapped_column(sa.ForeignKey("listing.id", ondelete="RESTRICT"), index=True)
    draft_version_id: Mapped[int] = mapped_column(sa.ForeignKey("draft_version.id", ondelete="RESTRICT"), unique=True)
    state: Mapped[ProofState] = mapped_column(words_column(ProofState), index=True)
    plan: Mapped[str] = mapped_column(sa.String(64), default="")
    units: Mapped[int] = mapped_column(default=0)
    done: Mapped[int] = mapped_column(default=0)
    attempt: Mapped[int] = mapped_column(default=0)
    problems: Mapped[list[Any]] = mapped_column(default=list)
    summary: Mapped[dict[str, Any]] = mapped_column(default=dict)
    bodies: Mapped[list[Any]] = mapped_column(default=list, deferred=True)
    accepted_share: Mapped[float] = mapped_column(default=1.0)
    accepted_by: Mapped[str] = mapped_column(sa.String(120), default="")
    accepted_at: Mapped[datetime | None]
    accepted_warnings: Mapped[list[Any]] = mapped_column(default=list, server_default="[]")
    worker: Mapped[str] = mapped_column(sa.String(60), default="")
    claim: Mapped[str] = mapped_column(sa.String(40), default="")
    heartbeat_at: Mapped[datetime | None]
    created_at: Mapped[datetime]
    updated_at: Mapped[datetime]
    proved_at: Mapped[datetime | None]


class ProofResult(Base):
    """What one body at one setting showed, by the fingerprint of all it hangs on; a listing's versions share them."""

    __tablename__ = "proof_result"

    listing_id: Mapped[int] = mapped_column(sa.ForeignKey("listing.id", ondelete="RESTRICT"), primary_key=True)
    fingerprint: Mapped[str] = mapped_column(sa.String(64), primary_key=True)
    result: Mapped[dict[str, Any]]
