"""Proofs of draft versions"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change."""
    op.create_table(
        "proof",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("listing_id", sa.Integer(), nullable=False),
        sa.Column("draft_version_id", sa.Integer(), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "waiting",
                "running",
                "ready",
                "failed",
                name="proofstate",
                native_enum=False,
                create_constraint=True,
                length=30,
            ),
            nullable=False,
        ),
        sa.Column("plan", sa.String(length=64), nullable=False),
        sa.Column("units", sa.Integer(), nullable=False),
        sa.Column("done", sa.Integer(), nullable=False),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("problems", sa.JSON(), nullable=False),
        sa.Column("summary", sa.JSON(), nullable=False),
        sa.Column("bodies", sa.JSON(), nullable=False),
        sa.Column("accepted_share", sa.Double(), nullable=False),
        sa.Column("accepted_by", sa.String(length=120), nullable=False),
        sa.Column("accepted_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("worker", sa.String(length=60), nullable=False),
        sa.Column("claim", sa.String(length=40), nullable=False),
        sa.Column("heartbeat_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("proved_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("accepted_share > 0 AND accepted_share <= 1", name=op.f("ck_proof_accepted_is_a_share")),
        sa.CheckConstraint("done >= 0 AND done <= units", name=op.f("ck_proof_no_more_done_than_planned")),
        sa.ForeignKeyConstraint(
            ["draft_version_id"],
            ["draft_version.id"],
            name=op.f("fk_proof_draft_version_id_draft_version"),
            ondelete="RESTRICT",
        ),
        sa.ForeignKeyConstraint(
            ["listing_id"], ["listing.id"], name=op.f("fk_proof_listing_id_listing"), ondelete="RESTRICT"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_proof")),
        sa.UniqueConstraint("draft_version_id", name=op.f("uq_proof_draft_version_id")),
    )
    with op.batch_alter_table("proof", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_proof_listing_id"), ["listing_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_proof_state"), ["state"], unique=False)

    op.create_table(
        "proof_result",
        sa.Column("listing_id", sa.Integer(), nullable=False),
        sa.Column("fingerprint", sa.String(length=64), nullable=False),
        sa.Column("result", sa.JSON(), nullable=False),
        sa.ForeignKeyConstraint(
            ["listing_id"], ["listing.id"], name=op.f("fk_proof_result_listing_id_listing"), ondelete="RESTRICT"
        ),
        sa.PrimaryKeyConstraint("listing_id", "fingerprint", name=op.f("pk_proof_result")),
    )


def downgrade() -> None:
    """Take this change back."""
    op.drop_table("proof_result")
    with op.batch_alter_table("proof", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_proof_state"))
        batch_op.drop_index(batch_op.f("ix_proof_listing_id"))

    op.drop_table("proof")
