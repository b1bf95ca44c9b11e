"""Sign-ins that can be ended"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change: whoever is signed in signs in once more."""
    op.create_table(
        "sign_in",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("designer_id", sa.Integer(), nullable=False),
        sa.Column("token_sha256", sa.String(length=64), nullable=False),
        sa.Column("begun_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("used_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["designer_id"], ["designer.id"], name=op.f("fk_sign_in_designer_id_designer"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sign_in")),
        sa.UniqueConstraint("token_sha256", name=op.f("uq_sign_in_token_sha256")),
    )
    op.create_index(op.f("ix_sign_in_designer_id"), "sign_in", ["designer_id"])
    # A sign-in is a row now, and ends with it: the number that all sessions of a password had in common is not asked.
    op.drop_column("designer", "session_round")


def downgrade() -> None:
    """Take this change back."""
    op.add_column("designer", sa.Column("session_round", sa.Integer(), nullable=False, server_default="0"))
    op.drop_index(op.f("ix_sign_in_designer_id"), table_name="sign_in")
    op.drop_table("sign_in")
