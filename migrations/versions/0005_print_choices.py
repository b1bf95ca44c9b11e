"""How a customer prints her pattern"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change: whoever chose nothing so far prints in the usual way."""
    # The default stays: to take it away, SQLite would have to drop the table that orders point to.
    op.add_column("fitting", sa.Column("prints", sa.JSON(), nullable=False, server_default="{}"))


def downgrade() -> None:
    """Take this change back."""
    op.drop_column("fitting", "prints")
