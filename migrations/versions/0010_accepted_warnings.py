"""Warnings that a designer accepted, kept with the proof"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change: nobody has accepted any yet."""
    # The default stays: to take it away, SQLite would have to drop the table.
    op.add_column("proof", sa.Column("accepted_warnings", sa.JSON(), nullable=False, server_default="[]"))


def downgrade() -> None:
    """Take this change back."""
    op.drop_column("proof", "accepted_warnings")
