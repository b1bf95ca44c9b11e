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
from app.shop.orders.service import build_again, order_by_token, order_files, whole_orders

__all__ = ["Damage", "PackSeen", "Shelf", "damages", "digest_of", "how_damaged", "pack_seen", "ready_from", "send_back"]

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
class PackSeen:
    """The pack of an order that somebody looked at: its checksum and its moment, since the row may change meanwhile."""

    sha256: str
    built_at: datetime | None


def pack_seen(order: Order) -> PackSeen:
    """The pack that the order's row tells of, as it was looked up."""
    return PackSeen(order.pack_sha256, order.built_at)


def digest_of(files: Iterable[PackFile]) -> str:
    """The SHA-256 of a whole pack: over the line that `sha256sum` writes for each of its files."""
    lines = "".join(f"{file.sha256}  {file.name}\n" for file in files)
    return sha256(lines.encode()).hexdigest()


def how_damaged(file: PackFile, content: bytes | None) -> str | None:
    """How a content, up to one byte more than was built, differs from what was built; None when it does not."""
    if content is None:
        return "is missing or cannot be read"
    if len(content) > file.bytes:
        return f"is longer than the {file.bytes:,} bytes that were built"
    if len(content) < file.bytes:
        return f"holds {len(content):,} of the {file.bytes:,} bytes that were built"
    return None if sha256(content).hexdigest() == file.sha256 else "holds other bytes than were built"


@dataclass(frozen=True, slots=True)
class Shelf:
    """Where packs are kept, with the orders they belong to and the queue by which they are made again."""

    database: Database
    queue: JobQueue
    store: PackStore

    def seen(self, order: Order) -> Order:
        """The order as it may be shown: as ready only when every file of its pack is as it was built.

        One whose pack is damaged is sent back first, so that its page says so. `order` comes with all that
        `order_by_token` loads, and is not shown itself any more.
        """
        for _ in range(_LOOKS):
            found = damages(self.store, order)
            if not found:
                return order
            order = self._sent_back(order, found)
        return order

    def take(self, order: Order, name: str) -> tuple[Order, bytes | None]:
        """One file of a ready order, every byte as it was built; None when it cannot be given out, with the order then.

        A damaged file sends the order back to be built.
        """
        for _ in range(_LOOKS):
            file = next((each for each in order_files(order) if each.name == name), None)
            if file is None:
                return order, None
            content = self.store.read(order.pack_folder, file.name, file.bytes + 1)
            if (how := how_damaged(file, content)) is None:
                return order, content
            order = self._sent_back(order, damages(self.store, order) or (Damage(name, how),))
        return order, None

    def heal(self, orders: Iterable[Order]) -> int:
        """Look ready orders through before anybody asks, and send back those with a damaged pack; returns how many."""
        sent = 0
        for order in orders:
            found = damages(self.store, order)
            sent += bool(found) and self.database.write(send_back, self.queue, order, pack_seen(order), found)
        return sent

    def _sent_back(self, order: Order, found: Sequence[Damage]) -> Order:
        """The order as it stands once its damage is told; where that cannot be written yet, as it will stand then."""
        try:
            self.database.write(send_back, self.queue, order, pack_seen(order), found)
        except PASSING as error:
            if not is_passing(error):
                raise
            # Whoever asks gets the truth all the same. The worker comes by this order again and sends it back.
            _log.warning("order %s: is damaged, which cannot be written down: %s", order.number, type(error).__name__)
            order.damages = _with(order, found, datetime.now(UTC))
            order.state = OrderState.PLACED
            return order
        return self.database.read(order_by_token, order.token) or order


def damages(store: PackStore, order: Order) -> tuple[Damage, ...]:
    """What of a ready order's pack is not as it was built; nothing for an order in any other state."""
    files = order_files(order)
    if digest_of(files) != order.pack_sha256 and order.state is OrderState.READY:
        return (Damage("The list of files", "is not the one that was written when they were built"),)
    contents = (store.read(order.pack_folder, file.name, file.bytes + 1) for file in files)
    looked = ((file, how_damaged(file, content)) for file, content in zip(files, contents, strict=True))
    return tuple(Damage(file.name, how) for file, how in looked if how is not None)


def send_back(session: Session, queue: JobQueue, order: Order, seen: PackSeen, found: Sequence[Damage]) -> bool:
    """Have a ready order built again because its pack is damaged; False when it is no longer the pack that was seen.

    So of several who find the same damage one sends the order back, and nobody sends back what has been made again
    meanwhile.
    """
    same = sa.and_(Order.state == OrderState.READY, Order.pack_sha256 == seen.sha256, Order.built_at == seen.built_at)
    kept = _with(order, found, now(session))
    if not build_again(session, queue, order, same, damages=kept):
        return False
    told = ", ".join(f"{each.name} {each.how}" for each in found)
    _log.warning("order %s: its pack is damaged and is made again: %s", order.number, told)
    return True


def _with(order: Order, found: Sequence[Damage], moment: datetime) -> list[dict[str, Any]]:
    return [*order.damages, {"found_at": moment.isoformat(), "files": [asdict(each) for each in found]}][
        -_DAMAGES_KEPT:
    ]


def ready_from(session: Session, before: int, most: int) -> list[Order]:
    """Up to `most` ready orders with an id below `before`, newest first: the next ones to look through."""
    query = whole_orders().where(Order.state == OrderState.READY, Order.id < before)
    return list(session.scalars(query.order_by(Order.id.desc()).limit(most)))
