"""Where fittings and orders came from, as a mark, and when fittings were made, to find old ones by"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None

_TABLES = ("fitting", "order")


def upgrade() -> None:
    """Apply this change: what there is so far came from nobody in particular."""
    # The default stays: to take it away, SQLite would have to drop a table that others point to.
    for table in _TABLES:
        op.add_column(table, sa.Column("sender", sa.String(64), nullable=False, server_default=""))
        op.create_index(f"ix_{table}_sender", table, ["sender"])
    op.create_index("ix_fitting_created_at", "fitting", ["created_at"])


def downgrade() -> None:
    """Take this change back."""
    op.drop_index("ix_fitting_created_at", "fitting")
    for table in _TABLES:
        op.drop_index(f"ix_{table}_sender", table)
        op.drop_column(table, "sender")
