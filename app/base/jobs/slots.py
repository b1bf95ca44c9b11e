"""Worker slots: a name that only one live process may hold at a time."""

from __future__ import annotations

import fcntl
import zlib
from pathlib import Path
from typing import Protocol

import sqlalchemy as sa
from sqlalchemy.exc import DBAPIError

from app.base.database import LOCK_SPACE
from app.base.errors import SlotTaken

__all__ = ["SlotLock", "take_slot"]


class SlotLock(Protocol):
    """A held slot; the operating system or the database frees it when the process dies."""

    def still_held(self) -> bool:
        """False once another process has taken the slot; takes it again when only the connection broke."""

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

    def still_held(self) -> bool:
        return not self._file.closed

    def release(self) -> None:
        self._file.close()


class _DatabaseSlot:
    def __init__(self, engine: sa.Engine, slot: str) -> None:
        self._engine = engine.execution_options(isolation_level="AUTOCOMMIT")
        self._slot = slot
        self._connection = self._lock()

    def still_held(self) -> bool:
        try:
            self._connection.execute(sa.text("SELECT 1"))
            return True
        except DBAPIError:
            # The connection broke, and the lock with it. Whoever took the slot meanwhile has put our builds back.
            self.release()
        try:
            self._connection = self._lock()
        except SlotTaken:
            return False
        except DBAPIError:
            # The database is still away: nobody else can have taken the slot either. Ask again at the next beat.
            pass
        return True

    def release(self) -> None:
        # The lock lives as long as the connection, so it must not go back to the pool.
        self._connection.invalidate()
        self._connection.close()

    def _lock(self) -> sa.Connection:
        # One connection that is used for nothing else.
        connection = self._engine.connect()
        key = {"space": LOCK_SPACE, "slot": zlib.crc32(self._slot.encode()) - 2**31}
        if not connection.scalar(sa.text("SELECT pg_try_advisory_lock(:space, :slot)"), key):
            connection.close()
            raise SlotTaken(_taken(self._slot))
        return connection


def _taken(slot: str) -> str:
    return (
        f"Another live worker holds the slot “{slot}”. Give each worker its own name: "
        "TAPELINE_WORKER_SLOT=worker-2 tapeline work"
    )
