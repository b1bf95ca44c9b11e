"""Tables of fittings and orders.

Body measurements as entered live in `fitting`. Figures drawn from them stand in two more places: in the `findings` of
an order that stopped (its `reason` names the check alone, and no log has any), and in the files of its pack, of which
the instructions and report.json state the measurements themselves. Whoever deletes a person's measurements deletes in
all three.
"""

from __future__ import annotations

from datetime import datetime
from enum import StrEnum
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Mapped, mapped_column, relationship

from app.base.database import Base, words_column, written_once
from app.shop.catalogue.models import DraftVersion, Listing

__all__ = ["WAITING", "Fitting", "Order", "OrderState", "Worker"]


class OrderState(StrEnum):
    """Where an order stands. `needs_designer`: the pattern did not pass its checks for this body."""

    PLACED = "placed"
    BUILDING = "building"
    READY = "ready"
    NEEDS_DESIGNER = "needs_designer"
    FAILED = "failed"
    CANCELLED = "cancelled"


#: States in which an order waits to be built, or is being built.
WAITING = (OrderState.PLACED, OrderState.BUILDING)


@written_once
class Fitting(Base):
    """What one customer entered for one listing, frozen when it was saved; a correction is a new fitting.

    `entered` is the text as typed by measurement name, `measurements` the same in mm; where her sides differ `entered`
    holds that too (`measure/sides_form.py`);
    `cloths` maps a fabric to `{"width_mm": ..., "folded": ..., "one_way": ...}`;
    `prints` is how it is printed, as `PrintChoices`; `sender` marks the network address it came from without
    telling it ("" for none), so that one address cannot crowd out the others.
    """

    __tablename__ = "fitting"

    id: Mapped[int] = mapped_column(primary_key=True)
    token: Mapped[str] = mapped_column(sa.String(64), unique=True)
    listing_id: Mapped[int] = mapped_column(sa.ForeignKey("listing.id", ondelete="RESTRICT"), index=True)
    draft_version_id: Mapped[int] = mapped_column(sa.ForeignKey("draft_version.id", ondelete="RESTRICT"), index=True)
    entered: Mapped[dict[str, Any]]
    measurements: Mapped[dict[str, Any]]
    choices: Mapped[dict[str, Any]]
    unit: Mapped[str] = mapped_column(sa.String(2))
    paper: Mapped[str] = mapped_column(sa.String(20))
    cloths: Mapped[dict[str, Any]]
    confirmed: Mapped[list[Any]]
    prints: Mapped[dict[str, Any]] = mapped_column(default=dict, server_default="{}")
    sender: Mapped[str] = mapped_column(sa.String(64), default="", server_default="", index=True)
    created_at: Mapped[datetime] = mapped_column(index=True)
    listing: Mapped[Listing] = relationship(lazy="raise")
    draft_version: Mapped[DraftVersion] = relationship(lazy="raise")


class Order(Base):
    """One order. The row is the truth about it; the queue is only a hint.

    `ticket` is the number of the job last queued for it; `attempt` counts the tries at
    the present build. While a worker builds, `worker` is its slot, `claim` its secret
    for this try and `heartbeat_at` its last sign of life.
    """

    __tablename__ = "order"
    __table_args__ = (sa.CheckConstraint("progress >= 0 AND progress <= 1", name="progress_is_a_share"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    number: Mapped[str] = mapped_column(sa.String(12), unique=True)
    token: Mapped[str] = mapped_column(sa.String(64), unique=True)
    fitting_id: Mapped[int] = mapped_column(sa.ForeignKey("fitting.id", ondelete="RESTRICT"), unique=True)
    draft_version_id: Mapped[int] = mapped_column(sa.ForeignKey("draft_version.id", ondelete="RESTRICT"), index=True)
    customer_name: Mapped[str] = mapped_column(sa.String(120), default="")
    customer_email: Mapped[str] = mapped_column(sa.String(254), default="")
    price_cents: Mapped[int]
    currency: Mapped[str] = mapped_column(sa.String(3))
    payment_kind: Mapped[str] = mapped_column(sa.String(30))
    payment_state: Mapped[str] = mapped_column(sa.String(30))
    state: Mapped[OrderState] = mapped_column(words_column(OrderState), index=True)
    stage: Mapped[str] = mapped_column(sa.String(200), default="")
    progress: Mapped[float] = mapped_column(default=0.0)
    reason: Mapped[str] = mapped_column(sa.Text, default="")
    findings: Mapped[list[Any]] = mapped_column(default=list)
    ticket: Mapped[int] = mapped_column(default=0)
    attempt: Mapped[int] = mapped_column(default=0)
    pack_folder: Mapped[str] = mapped_column(sa.String(120), default="")
    pack_sha256: Mapped[str] = mapped_column(sa.String(64), default="")
    files: Mapped[list[Any]] = mapped_column(default=list)
    summary: Mapped[dict[str, Any]] = mapped_column(default=dict)
    sender: Mapped[str] = mapped_column(sa.String(64), default="", server_default="", index=True)
    damages: Mapped[list[Any]] = mapped_column(default=list, server_default="[]")
    worker: Mapped[str] = mapped_column(sa.String(60), default="")
    claim: Mapped[str] = mapped_column(sa.String(40), default="")
    heartbeat_at: Mapped[datetime | None]
    created_at: Mapped[datetime] = mapped_column(index=True)
    updated_at: Mapped[datetime]
    built_at: Mapped[datetime | None]
    fitting: Mapped[Fitting] = relationship(lazy="raise")
    draft_version: Mapped[DraftVersion] = relationship(lazy="raise")


class Worker(Base):
    """A worker's sign of life, by slot; `starts` counts how often it began again since it last stood for a while."""

    __tablename__ = "worker"

    slot: Mapped[str] = mapped_column(sa.String(60), primary_key=True)
    started_at: Mapped[datetime]
    starts: Mapped[int] = mapped_column(default=1, server_default="1")
    heartbeat_at: Mapped[datetime]
