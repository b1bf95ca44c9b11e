"""Whether the shop is well: what can be read and written, how much room there is, and whether somebody builds.

`failing` is what keeps people from being served, so that whoever watches should act at once; `warning` is what will,
or what keeps orders waiting while the pages go on.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import timedelta
from tempfile import TemporaryFile

from app.base import migrations
from app.base.database import Database, now
from app.base.faults import PASSING, fault_words, is_passing
from app.base.pulse import Pulse
from app.base.settings import Settings
from app.base.storage import LEAST_ROOM
from app.shop.orders.builds import failing_slots, live_slots
from app.web.health import HealthLine, HealthStatus

__all__ = ["wellbeing"]

#: With less room than this (bytes) the keeper has some days to make more: a thousand packs take a few gigabytes.
_LITTLE_ROOM = 512 * 1024 * 1024
_MEGABYTE = 1024 * 1024


def wellbeing(database: Database, settings: Settings) -> Iterator[HealthLine]:
    """Every line of the shop's health, the database first: without it the rest is not asked."""
    found = _database(database)
    yield found
    if found.status is not HealthStatus.FAILING:
        yield _schema(database)
        yield _workers(database, settings)
    yield _room(settings)


def _database(database: Database) -> HealthLine:
    """A real write, committed: a database that can only be read looks well until somebody orders."""
    try:
        database.write(lambda session: session.merge(Pulse(id=1, felt_at=now(session))))
    except PASSING as error:
        if not is_passing(error):
            raise
        return HealthLine("database", HealthStatus.FAILING, "It cannot be read and written.")
    return HealthLine("database", HealthStatus.OK, "It can be read and written.")


def _schema(database: Database) -> HealthLine:
    if migrations.is_current(database.engine):
        return HealthLine("tables", HealthStatus.OK, "They are those of this version.")
    return HealthLine("tables", HealthStatus.FAILING, "They are of another version; start the shop again.")


def _workers(database: Database, settings: Settings) -> HealthLine:
    if failing := database.read(failing_slots):
        said = f"{len(failing)} began again and again without staying at work: the log of the worker says why."
        return HealthLine("workers", HealthStatus.WARNING, said)
    alive = database.read(live_slots, timedelta(seconds=settings.lease_seconds))
    if alive:
        return HealthLine("workers", HealthStatus.OK, f"{len(alive)} at work.")
    return HealthLine(
        "workers", HealthStatus.WARNING, "None gives a sign of life: orders wait. Start one with `tapeline work`."
    )


def _room(settings: Settings) -> HealthLine:
    folder = settings.packs_dir()
    try:
        with TemporaryFile(dir=folder) as file:
            file.write(b"may the shop write here?")
            file.flush()
        free = shutil.disk_usage(folder).free
    except OSError as error:
        return HealthLine(
            "packs", HealthStatus.FAILING, f"The folder cannot be written: {fault_words(error) or 'it is gone'}."
        )
    told = f"{free // _MEGABYTE:,} MB free."
    if free < LEAST_ROOM:
        return HealthLine("packs", HealthStatus.FAILING, f"Too little room to build: {told}")
    return HealthLine("packs", HealthStatus.WARNING if free < _LITTLE_ROOM else HealthStatus.OK, told)
