"""The one database: engine, sessions for reading and for writing, and the base of all tables."""

from __future__ import annotations

import json
import logging
import threading
import zlib
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from datetime import UTC, datetime
from enum import StrEnum
from pathlib import Path
from typing import Any, Concatenate, ParamSpec, TypeVar, cast

import sqlalchemy as sa
from sqlalchemy import event
from sqlalchemy.orm import DeclarativeBase, Session, object_session

from app.base.errors import Busy, Gone, Immutable

__all__ = [
    "LOCK_SPACE",
    "Base",
    "Database",
    "UtcDateTime",
    "take_lock",
    "rows_changed",
    "make_engine",
    "now",
    "reread",
    "words_column",
    "written_once",
]

#: The first half of all our PostgreSQL advisory locks, so that they meet nobody else's ("tape" in ASCII).
LOCK_SPACE = int.from_bytes(b"tape", "big", signed=True)
#: Milliseconds a SQLite connection waits for another writer before it gives up.
BUSY_MS = 30_000
#: Connections one process opens at most: as many as it has threads that answer pages, so that none waits for another.
POOLED = 40

_log = logging.getLogger(__name__)

_NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}


class UtcDateTime(sa.types.TypeDecorator[datetime]):
    """A moment in UTC: always aware in Python, `timestamptz` on PostgreSQL, UTC text on SQLite."""

    impl = sa.DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:
        """Refuse a moment without a time zone; hand the rest over in UTC."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError("a moment needs a time zone")
        return value.astimezone(UTC)

    def process_result_value(self, value: datetime | None, dialect: sa.Dialect) -> datetime | None:
        """Give every moment back as UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


class _JsonOfKind(sa.types.TypeDecorator[Any]):
    """JSON that is read as its kind whatever became of it: one damaged row must not keep anybody from all the others.

    What cannot be read is empty, and the log says so; whatever relies on it finds something missing and says what.
    """

    impl = sa.JSON
    cache_ok = True
    kind: type[Any] = object

    def process_result_value(self, value: Any, dialect: sa.Dialect) -> Any:
        """Give back what is of the kind, and else its empty one."""
        if isinstance(value, self.kind):
            return value
        if value is not None:
            _log.error("a stored value is no %s and is read as an empty one", self.kind.__name__)
        return self.kind()


class _JsonDict(_JsonOfKind):
    cache_ok = True
    kind = dict


class _JsonList(_JsonOfKind):
    cache_ok = True
    kind = list


class Base(DeclarativeBase):
    """The base of every table of the shop."""

    metadata = sa.MetaData(naming_convention=_NAMING)
    type_annotation_map = {datetime: UtcDateTime(), dict[str, Any]: _JsonDict(), list[Any]: _JsonList()}  # noqa: RUF012


Row = TypeVar("Row", bound=Base)
Given = ParamSpec("Given")
Answer = TypeVar("Answer")


def written_once(table: type[Row]) -> type[Row]:
    """Class decorator for a table whose rows other people rely on: changing one raises `Immutable`."""

    @event.listens_for(table, "before_update")
    def refuse(_mapper: object, _connection: sa.Connection, row: Row) -> None:
        session = object_session(row)
        if session is not None and session.is_modified(row):
            raise Immutable(f"a row of {table.__tablename__} was changed; write a new one instead")

    return table


class Database:
    """Opens transactions, each of which begins and ends in one place, in one thread, and waits for nothing in between.

    A transaction that were held while its holder waits (for a thread, a connection, a drawing) would keep every other
    writer waiting too, and those waiting might hold the very thread it needs. So `write` takes one service's call and
    runs it whole; what is slow is worked out before it, from what `read` gave.
    """

    def __init__(self, engine: sa.Engine) -> None:
        """Keep `engine`, and a view of it whose transactions take SQLite's write lock at once."""
        self.engine = engine
        self._write_engine = engine.execution_options(sqlite_begin="BEGIN IMMEDIATE")
        self._turn: AbstractContextManager[None] = _Turns() if engine.dialect.name == "sqlite" else nullcontext()

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A session for looking only; whatever was changed in it is rolled back."""
        with Session(self.engine, expire_on_commit=False) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """One transaction: commits when the block ends, rolls back when it raises; `Busy` when its turn never comes."""
        with self._turn, Session(self._write_engine, expire_on_commit=False) as session, session.begin():
            yield session

    def read(
        self, work: Callable[Concatenate[Session, Given], Answer], *args: Given.args, **named: Given.kwargs
    ) -> Answer:
        """What `work` finds, in a session of its own for looking only."""
        with self.reading() as session:
            return work(session, *args, **named)

    def write(
        self, work: Callable[Concatenate[Session, Given], Answer], *args: Given.args, **named: Given.kwargs
    ) -> Answer:
        """What `work` gives back, in a transaction of its own, committed when it returns.

        Rows among the `args` were looked up before it; they are read anew inside it, so that nothing is decided
        on what was true a moment ago. Raises `Gone` when one is no more.
        """
        with self.writing() as session:
            # Begun before any row is touched: where that fails, what the caller has in hand is as it was.
            session.connection()
            try:
                for row in args:
                    if isinstance(row, Base):
                        _renew(session, row)
                answer = work(session, *args, **named)
                session.flush()
            finally:
                # Whether the commit goes well or not, what the caller has in hand stays as it was last read: a session
                # that is rolled back would empty every row it knows.
                session.expunge_all()
        return answer

    def close(self) -> None:
        """Close every connection."""
        self.engine.dispose()


def reread(session: Session, row: Base) -> None:
    """Read a row's own columns anew; what was loaded beside it stays, since it is not told to load by itself.

    A column that was left out when the row was looked up (a long text) stays out.
    """
    state = sa.inspect(row)
    held = set(state.dict) | state.expired_attributes
    session.refresh(row, [column.key for column in state.mapper.column_attrs if column.key in held])


def _renew(session: Session, row: Base) -> None:
    session.add(row)
    try:
        reread(session, row)
    except sa.exc.InvalidRequestError:
        raise Gone(f"a row of {row.__tablename__} is no more") from None


class _Turns:
    """One writer of this process at a time, before it takes a connection.

    SQLite has one write lock, for which connections poll; the writers of one process need not.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()

    def __enter__(self) -> None:
        if not self._lock.acquire(timeout=BUSY_MS / 1000):
            raise Busy("no turn to write came up in time")

    def __exit__(self, *_raised: object) -> None:
        self._lock.release()


def make_engine(address: str) -> sa.Engine:
    """An engine for the SQLAlchemy address; SQLite gets WAL, a busy timeout and foreign keys, and its folder.

    Errors never quote the values of a statement: they may be somebody's measurements.
    """
    url = sa.make_url(address)
    if url.get_backend_name() != "sqlite":
        return sa.create_engine(url, pool_pre_ping=True, hide_parameters=True, json_deserializer=_read_json)
    if url.database:
        Path(url.database).parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    engine = sa.create_engine(url, hide_parameters=True, pool_size=POOLED, max_overflow=0, json_deserializer=_read_json)
    event.listen(engine, "connect", _prepare_sqlite)
    event.listen(engine, "begin", _begin_sqlite)
    return engine


def _read_json(text: str | bytes) -> Any:
    """What a stored text says; the text itself where it is no JSON, which no column of ours takes for its kind."""
    try:
        return json.loads(text)
    except ValueError:
        return str(text)


def _prepare_sqlite(connection: Any, _record: Any) -> None:
    # Transactions are begun by `_begin_sqlite`: the driver's own start too late, at the first write.
    connection.isolation_level = None
    for pragma in ("journal_mode=WAL", f"busy_timeout={BUSY_MS}", "foreign_keys=ON", "synchronous=FULL"):
        connection.execute(f"PRAGMA {pragma}")


def _begin_sqlite(connection: sa.Connection) -> None:
    # A transaction that reads first and writes later cannot wait for another writer in WAL mode
    # (it fails at once), so writers take the lock at the start.
    connection.exec_driver_sql(connection.get_execution_options().get("sqlite_begin", "BEGIN"))


def words_column(kind: type[StrEnum]) -> sa.Enum:
    """A column type that keeps the enum's words, with a constraint that allows no others."""
    return sa.Enum(
        kind, native_enum=False, create_constraint=True, length=30, values_callable=lambda each: [m.value for m in each]
    )


def now(session: Session) -> datetime:
    """The present moment by the database's clock, so that workers on several machines agree."""
    if session.get_bind().dialect.name == "sqlite":
        return datetime.now(UTC)
    moment: datetime = session.execute(sa.select(sa.func.clock_timestamp())).scalar_one()
    return moment.astimezone(UTC)


def take_lock(session: Session, key: str) -> None:
    """Let nobody else who asks for the same key go on before this transaction has ended.

    For what is counted first and written then. On SQLite every writer is alone anyhow.
    """
    if session.get_bind().dialect.name != "sqlite":
        space = {"space": LOCK_SPACE, "key": zlib.crc32(key.encode()) - 2**31}
        session.execute(sa.text("SELECT pg_advisory_xact_lock(:space, :key)"), space)


def rows_changed(session: Session, statement: sa.Update | sa.Delete) -> int:
    """Run a change and say how many rows it touched: the compare-and-set of claims and states."""
    return cast("sa.CursorResult[Any]", session.execute(statement)).rowcount
