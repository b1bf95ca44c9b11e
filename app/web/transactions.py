"""One request is one transaction: handlers ask for a session and never commit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from fastapi import Depends, Request
from sqlalchemy.orm import Session

from app.database import Database

__all__ = ["Looking", "Transaction"]

_LOOKING = frozenset({"GET", "HEAD"})


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
