"""Bringing the database up to date: our own tables by Alembic, the queue's tables by the queue's engine."""

from __future__ import annotations

import fcntl
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import sqlalchemy as sa
from alembic import command
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from app.base.database import LOCK_SPACE, make_engine
from app.base.errors import SetUpError
from app.base.jobs.dbos_queue import create_tables
from app.base.settings import Settings

__all__ = ["is_current", "upgrade"]

#: Alembic's folder, beside the package.
SCRIPTS = Path(__file__).resolve().parents[2] / "migrations"
#: The PostgreSQL advisory lock under which only one process migrates at a time ("migr" in ASCII).
_LOCK = {"space": LOCK_SPACE, "key": int.from_bytes(b"migr", "big", signed=True)}


def upgrade(settings: Settings) -> None:
    """Bring every table up to date; several processes may call this at the same time.

    Raises `SetUpError` for a database that a newer version of the shop has written.
    """
    folder = settings.data_folder()
    engine = make_engine(settings.database_address())
    try:
        with _alone(engine, folder), engine.connect() as connection:
            config = _config()
            _refuse_newer(connection, ScriptDirectory.from_config(config))
            config.attributes["connection"] = connection
            command.upgrade(config, "head")
            connection.commit()
            create_tables(settings.database_address())
    finally:
        engine.dispose()


def is_current(engine: sa.Engine) -> bool:
    """True when our own tables are those this version of the shop was written for."""
    with engine.connect() as connection:
        found = MigrationContext.configure(connection).get_current_heads()
    return set(found) == set(ScriptDirectory.from_config(_config()).get_heads())


def _refuse_newer(connection: sa.Connection, scripts: ScriptDirectory) -> None:
    known = {script.revision for script in scripts.walk_revisions()}
    found = MigrationContext.configure(connection).get_current_heads()
    # The look began a transaction; Alembic begins its own.
    connection.rollback()
    if not known.issuperset(found):
        raise SetUpError(
            "The database was written by a newer version of Tapeline than this one, and has been left as it is.\n"
            "Start that version again, or put back the backup that was made before it."
        )


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(SCRIPTS))
    return config


@contextmanager
def _alone(engine: sa.Engine, folder: Path) -> Iterator[None]:
    if engine.dialect.name == "sqlite":
        with (folder / "migrate.lock").open("a", encoding="ascii") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            yield
        return
    with engine.execution_options(isolation_level="AUTOCOMMIT").connect() as connection:
        connection.execute(sa.text("SELECT pg_advisory_lock(:space, :key)"), _LOCK)
        try:
            yield
        finally:
            connection.execute(sa.text("SELECT pg_advisory_unlock(:space, :key)"), _LOCK)
