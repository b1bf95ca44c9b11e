"""Choices that a listing settles"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change: every listing so far leaves all its choices to the customer."""
    # The default stays: to take it away, SQLite would have to drop the table that drafts and orders point to.
    op.add_column("listing", sa.Column("settled", sa.JSON(), nullable=False, server_default="{}"))


def downgrade() -> None:
    """Take this change back."""
    op.drop_column("listing", "settled")
