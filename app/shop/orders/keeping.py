"""Keeping packs as they were built: what is given out is verified first, and what is damaged is made again.

A pack's files lie on a disk for years, and disks fail, fill and are tidied by people. So no byte leaves the shop that
is not the byte that was built: a file is read whole, held against the checksum in its order's row, and those very bytes
are sent. An order whose pack is not as it was built goes back to be built, from the same draft version and entries.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any

import sqlalchemy as sa
from sqlalchemy.orm import Session

from app.base.database import Database, now
from app.base.faults import PASSING, is_passing
from app.base.jobs import JobQueue
from app.base.storage import PackStore
from app.packs.request import PackFile
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import build_again, order_by_token, order_files, select_orders

__all__ = [
    "Damage",
    "PackIdentity",
    "PackKeeper",
    "find_damages",
    "pack_sha256",
    "damage_words",
    "pack_identity",
    "ready_orders_before",
    "rebuild_damaged",
]

#: An order may be built again by somebody else while it is looked at; more often than this it is not.
_LOOKS = 3
#: So many turns of bad luck keep every word that is worth keeping.
_DAMAGES_KEPT = 20

_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Damage:
    """A file of a kept pack that is not as it was built, and how it is found, as words after its name."""

    name: str
    how: str


@dataclass(frozen=True, slots=True)
class PackIdentity:
    """The pack of an order that somebody looked at: its checksum and its moment, since the row may change meanwhile."""

    sha256: str
    built_at: datetime | None


def pack_identity(order: Order) -> PackIdentity:
    """The pack that the order's row tells of, as it was looked up."""
    return PackIdentity(order.pack_sha256, order.built_at)


def pack_sha256(files: Iterable[PackFile]) -> str:
    """The SHA-256 of a whole pack: over the line that `sha256sum` writes for each of its files."""
    lines = "".join(f"{file.sha256}  {file.name}\n" for file in files)
    return sha256(lines.encode()).hexdigest()


def damage_words(file: PackFile, content: bytes | None) -> str | None:
    """How a content, up to one byte more than was built, differs from what was built; None when it does not."""
    if content is None:
        return "is missing or cannot be read"
    if len(content) > file.bytes:
        return f"is longer than the {file.bytes:,} bytes that were built"
    if len(content) < file.bytes:
        return f"holds {len(content):,} of the {file.bytes:,} bytes that were built"
    return None if sha256(content).hexdigest() == file.sha256 else "holds other bytes than were built"


@dataclass(frozen=True, slots=True)
class PackKeeper:
    """Where packs are kept, with the orders they belong to and the queue by which they are made again."""

    database: Database
    queue: JobQueue
    store: PackStore

    def verified(self, order: Order) -> Order:
        """The order as it may be shown: as ready only when every file of its pack is as it was built.

        One whose pack is damaged is sent back first, so that its page says so. `order` comes with all that
        `order_by_token` loads, and is not shown itself any more.
        """
        for _ in range(_LOOKS):
            found = find_damages(self.store, order)
            if not found:
                return order
            order = self._rebuilding(order, found)
        return order

    def read_file(self, order: Order, name: str) -> tuple[Order, bytes | None]:
        """One file of a ready order, every byte as it was built; None when it cannot be given out, with the order then.

        A damaged file sends the order back to be built.
        """
        for _ in range(_LOOKS):
            file = next((each for each in order_files(order) if each.name == name), None)
            if file is None:
                return order, None
            content = self.store.read(order.pack_folder, file.name, file.bytes + 1)
            if (how := damage_words(file, content)) is None:
                return order, content
            order = self._rebuilding(order, find_damages(self.store, order) or (Damage(name, how),))
        return order, None

    def rebuild_all_damaged(self, orders: Iterable[Order]) -> int:
        """Look ready orders through before anybody asks, and send back those with a damaged pack; returns how many."""
        sent = 0
        for order in orders:
            found = find_damages(self.store, order)
            sent += bool(found) and self.database.write(rebuild_damaged, self.queue, order, pack_identity(order), found)
        return sent

    def _rebuilding(self, order: Order, found: Sequence[Damage]) -> Order:
        """The order as it stands once its damage is told; where that cannot be written yet, as it will stand then."""
        try:
            self.database.write(rebuild_damaged, self.queue, order, pack_identity(order), found)
        except PASSING as error:
            if not is_passing(error):
                raise
            # Whoever asks gets the truth all the same. The worker comes by this order again and sends it back.
            _log.warning("order %s: is damaged, which cannot be written down: %s", order.number, type(error).__name__)
            order.damages = _damages_with(order, found, datetime.now(UTC))
            order.state = OrderState.PLACED
            return order
        return self.database.read(order_by_token, order.token) or order


def find_damages(store: PackStore, order: Order) -> tuple[Damage, ...]:
    """What of a ready order's pack is not as it was built; nothing for an order in any other state."""
    files = order_files(order)
    if pack_sha256(files) != order.pack_sha256 and order.state is OrderState.READY:
        return (Damage("The list of files", "is not the one that was written when they were built"),)
    contents = (store.read(order.pack_folder, file.name, file.bytes + 1) for file in files)
    looked = ((file, damage_words(file, content)) for file, content in zip(files, contents, strict=True))
    return tuple(Damage(file.name, how) for file, how in looked if how is not None)


def rebuild_damaged(
    session: Session, queue: JobQueue, order: Order, seen: PackIdentity, found: Sequence[Damage]
) -> bool:
    """Have a ready order built again because its pack is damaged; False when it is no longer the pack that was seen.

    So of several who find the same damage one sends the order back, and nobody sends back what has been made again
    meanwhile.
    """
    same = sa.and_(Order.state == OrderState.READY, Order.pack_sha256 == seen.sha256, Order.built_at == seen.built_at)
    kept = _damages_with(order, found, now(session))
    if not build_again(session, queue, order, same, damages=kept):
        return False
    told = ", ".join(f"{each.name} {each.how}" for each in found)
    _log.warning("order %s: its pack is damaged and is made again: %s", order.number, told)
    return True


def _damages_with(order: Order, found: Sequence[Damage], moment: datetime) -> list[dict[str, Any]]:
    damage = {"found_at": moment.isoformat(), "files": [asdict(each) for each in found]}
    return [*order.damages, damage][-_DAMAGES_KEPT:]


def ready_orders_before(session: Session, before: int, most: int) -> list[Order]:
    """Up to `most` ready orders with an id below `before`, newest first: the next ones to look through."""
    query = select_orders().where(Order.state == OrderState.READY, Order.id < before)
    return list(session.scalars(query.order_by(Order.id.desc()).limit(most)))
