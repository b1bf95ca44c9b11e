"""Alembic's entry point: runs migrations on the connection it is handed, for the shop's own tables only."""

from __future__ import annotations

from typing import Literal

from alembic import context

from app.base import pulse as _pulse
from app.base.database import Base, UtcDateTime
from app.shop.catalogue import models as _catalogue
from app.shop.orders import models as _orders
from app.shop.people import models as _people
from app.shop.proofs import models as _proofs

_TABLES = (_catalogue, _orders, _people, _proofs, _pulse)


def _ours(name: str | None, kind: str, _parents: object) -> bool:
    # The queue's engine keeps its tables in the same database and migrates them itself.
    return kind != "table" or name in Base.metadata.tables


def _plain_type(kind: str, item: object, _context: object) -> str | Literal[False]:
    # Migrations stand still while the code moves on: they name the plain type, not our own.
    return "sa.DateTime(timezone=True)" if kind == "type" and isinstance(item, UtcDateTime) else False


def _run() -> None:
    context.configure(
        connection=context.config.attributes["connection"],
        target_metadata=Base.metadata,
        include_name=_ours,
        render_item=_plain_type,
        render_as_batch=True,
        compare_type=True,
    )
    with context.begin_transaction():
        context.run_migrations()


_run()
