"""An order's build as a worker sees it: claim, progress, and each way it can end.

Every change names the claim it is made under, so that a worker whose build was
taken away (cancelled, or silent for too long) can change nothing more.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Collection, Iterable, Sequence
from dataclasses import asdict, dataclass
from datetime import timedelta
from hashlib import sha256
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import now, rows_changed
from app.base.errors import BuildLost
from app.packs.request import PackReady, PackRequest
from app.pattern.problem import Problem, has_errors
from app.shop.catalogue.models import DraftVersion
from app.shop.orders.findings import reason_of, stored_finding
from app.shop.orders.keeping import pack_sha256
from app.shop.orders.measure.sides_form import kept_sides
from app.shop.orders.models import WAITING, Order, OrderState, Worker
from app.shop.orders.service import cloths_of, prints_of, select_orders

__all__ = [
    "Claim",
    "claim_build",
    "failing_slots",
    "finish_build",
    "return_for_retry",
    "fail_build",
    "record_build_heartbeats",
    "sign_off_worker",
    "overdue_orders",
    "live_claims",
    "live_slots",
    "refer_to_designer",
    "pack_name",
    "postpone",
    "record_progress",
    "release_builds_of",
    "release_silent_builds",
    "record_worker_heartbeat",
    "record_worker_start",
    "orphaned_packs",
]

#: A worker that has worked for so long stands; one that began more often than this without is failing.
STOOD, MOST_STARTS = timedelta(minutes=10), 3
_LONG_AGO = timedelta(days=1)
_ENDED = {"claim": "", "worker": "", "heartbeat_at": None}


@dataclass(frozen=True, slots=True)
class Claim:
    """The right of one worker to build one order, for one try. `secret` has no hyphen.

    `altered` says that the draft is not the one that was sold, so that nothing may be built from it.
    """

    order_id: int
    number: str
    worker: str
    secret: str
    attempt: int
    request: PackRequest
    pack_name: str
    altered: tuple[Problem, ...] = ()


def claim_build(session: Session, order_id: int, worker: str, studio: str) -> Claim | None:
    """Take a placed order to build; None when it is not waiting (any more). `studio` is the name on the pack."""
    secret, moment = secrets.token_hex(16), now(session)
    take = sa.update(Order).where(Order.id == order_id, Order.state == OrderState.PLACED)
    begun = {"stage": "", "progress": 0.0, "heartbeat_at": moment, "updated_at": moment}
    mine = {"state": OrderState.BUILDING, "worker": worker, "claim": secret, "attempt": Order.attempt + 1}
    if rows_changed(session, take.values(mine | begun)) != 1:
        return None
    order = session.scalars(select_orders().where(Order.id == order_id)).one()
    request = _request(order, studio)
    name, altered = pack_name(order, request), _altered_draft(order.draft_version)
    return Claim(order.id, order.number, worker, secret, order.attempt, request, name, altered)


def _altered_draft(version: DraftVersion) -> tuple[Problem, ...]:
    """A draft version never changes; one whose text is not what its checksum says was damaged where it is kept."""
    if sha256(version.text.encode()).hexdigest() == version.sha256:
        return ()
    said = f"The text of draft version {version.number} is not the one that was saved: the database is damaged."
    fix = "Put back the last backup of the database, then build the order again."
    return (Problem("orders.draft-altered", said, fix),)


def pack_name(order: Order, request: PackRequest) -> str:
    """The name of the pack's folder: order, draft version and a hash of everything the pack is made from."""
    inputs = json.dumps(asdict(request), sort_keys=True, ensure_ascii=False)
    return f"{order.number}-v{order.draft_version.number}-{sha256(inputs.encode()).hexdigest()[:16]}"


def record_progress(session: Session, claim: Claim, stage: str, progress: float) -> None:
    """Say what is being done (in words) and how much is done (0..1). Raises `BuildLost` when the claim is gone."""
    values = {"stage": stage, "progress": min(max(progress, 0.0), 1.0), "heartbeat_at": now(session)}
    _update_claimed(session, claim, values)


def finish_build(session: Session, claim: Claim, pack: PackReady) -> str:
    """Turn the order ready with its files; returns the name of an older pack that is no longer needed, or "".

    Raises `BuildLost` when the claim is gone. Give the folder its final name after
    this and before the commit: the row stays locked until then.
    """
    older = session.scalars(sa.select(Order.pack_folder).where(Order.id == claim.order_id)).one()
    values: dict[str, Any] = {
        "state": OrderState.READY,
        "stage": "",
        "progress": 1.0,
        "reason": "",
        "findings": [],
        "pack_folder": claim.pack_name,
        "pack_sha256": pack_sha256(pack.files),
        "files": [asdict(file) for file in pack.files],
        "summary": dict(pack.summary),
        "built_at": now(session),
    }
    _update_claimed(session, claim, values | _ENDED)
    return older if older != claim.pack_name else ""


def refer_to_designer(session: Session, claim: Claim, problems: Sequence[Problem]) -> None:
    """End the build because a check did not hold: the designer finds every figure, the customer no files."""
    if not has_errors(problems):
        raise ValueError("a pack was refused without an error to show")
    findings = [stored_finding(problem) for problem in problems]
    values = {"state": OrderState.NEEDS_DESIGNER, "reason": reason_of(problems), "findings": findings, "stage": ""}
    _update_claimed(session, claim, values | _ENDED)


def return_for_retry(session: Session, claim: Claim) -> None:
    """Put the order back to wait for another try."""
    _update_claimed(session, claim, {"state": OrderState.PLACED, "stage": "", "progress": 0.0} | _ENDED)


def postpone(session: Session, claim: Claim, reason: str) -> None:
    """Put the order back to wait until the machine can build again; the try does not count, it was not at fault.

    `reason` tells the designer what is waited for.
    """
    values = {"state": OrderState.PLACED, "stage": "", "progress": 0.0, "reason": reason, "attempt": Order.attempt - 1}
    _update_claimed(session, claim, values | _ENDED)


def fail_build(session: Session, claim: Claim, reason: str) -> None:
    """End the build as failed, with a reason for the designer."""
    _update_claimed(session, claim, {"state": OrderState.FAILED, "reason": reason, "stage": ""} | _ENDED)


def record_worker_start(session: Session, slot: str) -> None:
    """Write down that a worker begins in this slot; one that ended there without signing off is counted."""
    moment = now(session)
    again = {"started_at": moment, "heartbeat_at": moment, "starts": Worker.starts + 1}
    if rows_changed(session, sa.update(Worker).where(Worker.slot == slot).values(again)) == 0:
        session.add(Worker(slot=slot, started_at=moment, heartbeat_at=moment))
        session.flush()


def record_worker_heartbeat(session: Session, slot: str) -> None:
    """Give the worker in this slot a sign of life; once it has stood for `STOOD`, what was before is forgotten."""
    moment = now(session)
    mine = sa.update(Worker).where(Worker.slot == slot)
    if rows_changed(session, mine.values(heartbeat_at=moment)) == 0:
        record_worker_start(session, slot)
    session.execute(mine.where(Worker.started_at <= moment - STOOD).values(starts=1))


def failing_slots(session: Session) -> set[str]:
    """The slots whose worker began again and again lately, each time without having stood for `STOOD`."""
    lately = Worker.started_at > now(session) - STOOD
    return set(session.scalars(sa.select(Worker.slot).where(Worker.starts > MOST_STARTS, lately)))


def record_build_heartbeats(session: Session, secrets_held: Collection[str]) -> None:
    """Give the builds under these claims a sign of life."""
    session.execute(sa.update(Order).where(Order.claim.in_(secrets_held)).values(heartbeat_at=now(session)))


def live_slots(session: Session, silence: timedelta) -> set[str]:
    """The slots whose worker gave a sign of life within `silence`."""
    return set(session.scalars(sa.select(Worker.slot).where(Worker.heartbeat_at >= now(session) - silence)))


def release_builds_of(session: Session, slot: str) -> int:
    """Put back every build that an earlier process in this slot left; call only while holding the slot."""
    return rows_changed(session, _release_builds().where(Order.worker == slot))


def sign_off_worker(session: Session, slot: str, *, broken: bool = False) -> None:
    """Sign a worker off: its builds go back to wait, this try not counted, and its signs of life end.

    That one ended `broken` is remembered, as it is of one that was killed: see `failing_slots`.
    """
    session.execute(_release_builds().where(Order.worker == slot).values(attempt=Order.attempt - 1))
    mine = Worker.slot == slot
    if broken:
        session.execute(sa.update(Worker).where(mine).values(heartbeat_at=now(session) - _LONG_AGO))
    else:
        session.execute(sa.delete(Worker).where(mine))


def release_silent_builds(session: Session, silence: timedelta) -> int:
    """Put back every build without a sign of life for `silence`."""
    return rows_changed(session, _release_builds().where(Order.heartbeat_at < now(session) - silence))


def overdue_orders(session: Session, age: timedelta) -> list[Order]:
    """Up to a hundred orders that have been waiting for longer than `age`, oldest first: their job may be lost."""
    query = sa.select(Order).where(Order.state == OrderState.PLACED, Order.updated_at <= now(session) - age)
    return list(session.scalars(query.order_by(Order.id).limit(100)))


def live_claims(session: Session) -> set[str]:
    """The secrets of all builds under way."""
    return set(session.scalars(sa.select(Order.claim).where(Order.state == OrderState.BUILDING)))


def orphaned_packs(session: Session, names: Iterable[str]) -> list[str]:
    """Those of the kept packs that no order shows and no build may be about to show."""
    rows = session.execute(sa.select(Order.number, Order.pack_folder, Order.state)).all()
    shown = {folder for _, folder, _ in rows}
    busy = {number for number, _, state in rows if state in WAITING}
    return [name for name in names if name not in shown and name.rsplit("-", 2)[0] not in busy]


def _release_builds() -> sa.Update:
    return (
        sa.update(Order)
        .where(Order.state == OrderState.BUILDING)
        .values(state=OrderState.PLACED, stage="", progress=0.0, **_ENDED)
    )


def _update_claimed(session: Session, claim: Claim, values: dict[str, Any]) -> None:
    held = sa.update(Order).where(
        Order.id == claim.order_id, Order.state == OrderState.BUILDING, Order.claim == claim.secret
    )
    if rows_changed(session, held.values(updated_at=now(session), **values)) != 1:
        raise BuildLost(f"order {claim.number} is no longer this worker's to build")


def _request(order: Order, studio: str) -> PackRequest:
    fitting = order.fitting
    return PackRequest(
        draft_text=order.draft_version.text,
        draft_name=f"{fitting.listing.slug}.draft",
        measurements=fitting.measurements,
        choices=fitting.choices,
        unit=fitting.unit,
        paper=fitting.paper,
        cloths=cloths_of(fitting),
        order_number=order.number,
        customer=order.customer_name,
        studio=studio,
        title=fitting.listing.title,
        settled=tuple(fitting.listing.settled),
        prints=prints_of(fitting),
        sides=kept_sides(fitting.entered),
    )
