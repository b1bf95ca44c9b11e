"""How often a worker began again without having stood for a while"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change: every worker has begun once."""
    # The default stays: to take it away, SQLite would have to drop the table.
    op.add_column("worker", sa.Column("starts", sa.Integer(), nullable=False, server_default="1"))


def downgrade() -> None:
    """Take this change back."""
    op.drop_column("worker", "starts")
