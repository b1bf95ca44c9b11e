"""How pages reach the database: each look and each change is one short transaction of its own."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request

from app.base.database import Database

__all__ = ["TheDatabase"]


async def _database(request: Request) -> Database:
    # Not a plain function: those wait for a thread, and here is nothing to wait for.
    database: Database = request.app.state.database
    return database


#: The database. A handler says `database.write(service.do_it, ...)`: one call, one thread, one transaction, committed
#: before the answer is sent. What it shows is looked up before, with `database.read`, and comes loaded.
TheDatabase = Annotated[Database, Depends(_database)]
