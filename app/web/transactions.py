"""How pages reach the database: each look and each change is one short transaction of its own."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from fastapi import Depends, Request
from sqlalchemy.orm import Session

from app.database import Database

__all__ = ["Looking", "TheDatabase", "Transaction"]

_LOOKING = frozenset({"GET", "HEAD"})


async def _database(request: Request) -> Database:
    # Not a plain function: those wait for a thread, and here is nothing to wait for.
    database: Database = request.app.state.database
    return database


#: The database. A handler says `database.write(service.do_it, ...)`: one call, one thread, one transaction, committed
#: before the answer is sent. What it shows is looked up before, with `database.read`, and comes loaded.
TheDatabase = Annotated[Database, Depends(_database)]


def _transaction(request: Request) -> Iterator[Session]:
    database: Database = request.app.state.database
    with database.reading() if request.method in _LOOKING else database.writing() as session:
        yield session


#: The session of this request. A page that is only looked at cannot write; anything else is committed when its
#: handler has returned and before the answer is sent, and rolled back when it raised.
Transaction = Annotated[Session, Depends(_transaction, scope="function")]


def _looking(request: Request) -> Iterator[Session]:
    database: Database = request.app.state.database
    with database.reading() as session:
        yield session


#: A session that never writes, whatever the method: for a form that is long to answer and changes nothing, so that
#: nobody who writes has to wait for it.
Looking = Annotated[Session, Depends(_looking, scope="function")]
