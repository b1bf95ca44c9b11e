"""Packs that were made again because they were found damaged, and a row by which the shop tries whether it can write"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change: nothing was found damaged so far."""
    # The default stays: to take it away, SQLite would have to drop the table.
    op.add_column("order", sa.Column("damages", sa.JSON(), nullable=False, server_default="[]"))
    op.create_table(
        "pulse",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("felt_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pulse")),
    )


def downgrade() -> None:
    """Take this change back."""
    op.drop_table("pulse")
    op.drop_column("order", "damages")
