"""Worker slots: a name that only one live process may hold at a time."""

from __future__ import annotations

import fcntl
import zlib
from pathlib import Path
from typing import Protocol

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError

from app.errors import SlotTaken

__all__ = ["SlotLock", "take_slot"]

#: The first half of our PostgreSQL advisory locks, so that they meet nobody else's ("tape" in ASCII).
_LOCK_SPACE = int.from_bytes(b"tape", "big", signed=True)


class SlotLock(Protocol):
    """A held slot; the operating system or the database frees it when the process dies."""

    def held(self) -> bool:
        """True while the slot is surely still ours."""

    def release(self) -> None:
        """Give the slot up."""


def take_slot(engine: sa.Engine, slot: str, folder: Path) -> SlotLock:
    """Hold `slot`: a locked file in `folder` beside SQLite, an advisory lock on PostgreSQL.

    Raises `SlotTaken` when another live process holds it.
    """
    if engine.dialect.name == "sqlite":
        return _FileSlot(folder / f"{slot}.lock", slot)
    return _DatabaseSlot(engine, slot)


class _FileSlot:
    def __init__(self, path: Path, slot: str) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        self._file = path.open("a", encoding="ascii")
        try:
            fcntl.flock(self._file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            self._file.close()
            raise SlotTaken(_taken(slot)) from None

    def held(self) -> bool:
        return not self._file.closed

    def release(self) -> None:
        self._file.close()


class _DatabaseSlot:
    def __init__(self, engine: sa.Engine, slot: str) -> None:
        # The lock lives as long as this one connection, which is used for nothing else.
        self._connection = engine.execution_options(isolation_level="AUTOCOMMIT").connect()
        key = {"space": _LOCK_SPACE, "slot": zlib.crc32(slot.encode()) - 2**31}
        if not self._connection.scalar(sa.text("SELECT pg_try_advisory_lock(:space, :slot)"), key):
            self._connection.close()
            raise SlotTaken(_taken(slot))

    def held(self) -> bool:
        try:
            return bool(self._connection.scalar(sa.text("SELECT 1")) == 1)
        except DBAPIError:
            return False

    def release(self) -> None:
        self._connection.invalidate()
        self._connection.close()


def _taken(slot: str) -> str:
    return (
        f"Another live worker holds the slot “{slot}”. Give each worker its own name: "
        "TAPELINE_WORKER_SLOT=worker-2 tapeline work"
    )
