"""The first tables"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Apply this change."""
    op.create_table(
        "designer",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("email", sa.String(length=254), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("password_hash", sa.String(length=255), nullable=True),
        sa.Column("password_token_sha256", sa.String(length=64), nullable=True),
        sa.Column("password_token_until", sa.DateTime(timezone=True), nullable=True),
        sa.Column("session_round", sa.Integer(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_designer")),
        sa.UniqueConstraint("email", name=op.f("uq_designer_email")),
        sa.UniqueConstraint("password_token_sha256", name=op.f("uq_designer_password_token_sha256")),
    )
    op.create_table(
        "failed_sign_in",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("key", sa.String(length=64), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_failed_sign_in")),
    )
    with op.batch_alter_table("failed_sign_in", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_failed_sign_in_key"), ["key"], unique=False)

    op.create_table(
        "listing",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("slug", sa.String(length=80), nullable=False),
        sa.Column("title", sa.String(length=120), nullable=False),
        sa.Column("tagline", sa.String(length=200), nullable=False),
        sa.Column("description_md", sa.Text(), nullable=False),
        sa.Column(
            "level",
            sa.Enum(
                "first garment",
                "confident",
                "practised",
                name="level",
                native_enum=False,
                create_constraint=True,
                length=30,
            ),
            nullable=False,
        ),
        sa.Column("price_cents", sa.Integer(), nullable=False),
        sa.Column("currency", sa.String(length=3), nullable=False),
        sa.Column("picture", sa.String(length=80), nullable=False),
        sa.Column("published", sa.Boolean(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("current_version_id", sa.Integer(), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("price_cents >= 0", name=op.f("ck_listing_price_not_negative")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_listing")),
        sa.UniqueConstraint("slug", name=op.f("uq_listing_slug")),
    )
    op.create_table(
        "studio",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.String(length=120), nullable=False),
        sa.Column("contact_email", sa.String(length=254), nullable=False),
        sa.Column("about_md", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_studio")),
    )
    op.create_table(
        "worker",
        sa.Column("slot", sa.String(length=60), nullable=False),
        sa.Column("started_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("heartbeat_at", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("slot", name=op.f("pk_worker")),
    )
    op.create_table(
        "draft_version",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("listing_id", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("sha256", sa.String(length=64), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["listing_id"], ["listing.id"], name=op.f("fk_draft_version_listing_id_listing"), ondelete="RESTRICT"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_draft_version")),
        sa.UniqueConstraint("listing_id", "number", name=op.f("uq_draft_version_listing_id_number")),
    )
    with op.batch_alter_table("listing") as batch_op:
        # A listing names its current version, a version its listing: this half of the circle comes last.
        batch_op.create_foreign_key(
            op.f("fk_listing_current_version_id_draft_version"),
            "draft_version",
            ["current_version_id"],
            ["id"],
            ondelete="RESTRICT",
        )

    op.create_table(
        "fitting",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("token", sa.String(length=64), nullable=False),
        sa.Column("listing_id", sa.Integer(), nullable=False),
        sa.Column("draft_version_id", sa.Integer(), nullable=False),
        sa.Column("entered", sa.JSON(), nullable=False),
        sa.Column("measurements", sa.JSON(), nullable=False),
        sa.Column("choices", sa.JSON(), nullable=False),
        sa.Column("unit", sa.String(length=2), nullable=False),
        sa.Column("paper", sa.String(length=20), nullable=False),
        sa.Column("cloths", sa.JSON(), nullable=False),
        sa.Column("confirmed", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["draft_version_id"],
            ["draft_version.id"],
            name=op.f("fk_fitting_draft_version_id_draft_version"),
            ondelete="RESTRICT",
        ),
        sa.ForeignKeyConstraint(
            ["listing_id"], ["listing.id"], name=op.f("fk_fitting_listing_id_listing"), ondelete="RESTRICT"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_fitting")),
        sa.UniqueConstraint("token", name=op.f("uq_fitting_token")),
    )
    with op.batch_alter_table("fitting", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_fitting_draft_version_id"), ["draft_version_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_fitting_listing_id"), ["listing_id"], unique=False)

    op.create_table(
        "order",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("number", sa.String(length=12), nullable=False),
        sa.Column("token", sa.String(length=64), nullable=False),
        sa.Column("fitting_id", sa.Integer(), nullable=False),
        sa.Column("draft_version_id", sa.Integer(), nullable=False),
        sa.Column("customer_name", sa.String(length=120), nullable=False),
        sa.Column("customer_email", sa.String(length=254), nullable=False),
        sa.Column("price_cents", sa.Integer(), nullable=False),
        sa.Column("currency", sa.String(length=3), nullable=False),
        sa.Column("payment_kind", sa.String(length=30), nullable=False),
        sa.Column("payment_state", sa.String(length=30), nullable=False),
        sa.Column(
            "state",
            sa.Enum(
                "placed",
                "building",
                "ready",
                "needs_designer",
                "failed",
                "cancelled",
                name="orderstate",
                native_enum=False,
                create_constraint=True,
                length=30,
            ),
            nullable=False,
        ),
        sa.Column("stage", sa.String(length=200), nullable=False),
        sa.Column("progress", sa.Double(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.Column("findings", sa.JSON(), nullable=False),
        sa.Column("ticket", sa.Integer(), nullable=False),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("pack_folder", sa.String(length=120), nullable=False),
        sa.Column("pack_sha256", sa.String(length=64), nullable=False),
        sa.Column("files", sa.JSON(), nullable=False),
        sa.Column("summary", sa.JSON(), nullable=False),
        sa.Column("worker", sa.String(length=60), nullable=False),
        sa.Column("claim", sa.String(length=40), nullable=False),
        sa.Column("heartbeat_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("built_at", sa.DateTime(timezone=True), nullable=True),
        sa.CheckConstraint("progress >= 0 AND progress <= 1", name=op.f("ck_order_progress_is_a_share")),
        sa.ForeignKeyConstraint(
            ["draft_version_id"],
            ["draft_version.id"],
            name=op.f("fk_order_draft_version_id_draft_version"),
            ondelete="RESTRICT",
        ),
        sa.ForeignKeyConstraint(
            ["fitting_id"], ["fitting.id"], name=op.f("fk_order_fitting_id_fitting"), ondelete="RESTRICT"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_order")),
        sa.UniqueConstraint("fitting_id", name=op.f("uq_order_fitting_id")),
        sa.UniqueConstraint("number", name=op.f("uq_order_number")),
        sa.UniqueConstraint("token", name=op.f("uq_order_token")),
    )
    with op.batch_alter_table("order", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_order_created_at"), ["created_at"], unique=False)
        batch_op.create_index(batch_op.f("ix_order_draft_version_id"), ["draft_version_id"], unique=False)
        batch_op.create_index(batch_op.f("ix_order_state"), ["state"], unique=False)


def downgrade() -> None:
    """Take this change back."""
    with op.batch_alter_table("order", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_order_state"))
        batch_op.drop_index(batch_op.f("ix_order_draft_version_id"))
        batch_op.drop_index(batch_op.f("ix_order_created_at"))

    op.drop_table("order")
    with op.batch_alter_table("fitting", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_fitting_listing_id"))
        batch_op.drop_index(batch_op.f("ix_fitting_draft_version_id"))

    op.drop_table("fitting")
    with op.batch_alter_table("listing") as batch_op:
        batch_op.drop_constraint(op.f("fk_listing_current_version_id_draft_version"), type_="foreignkey")

    op.drop_table("draft_version")
    op.drop_table("worker")
    op.drop_table("studio")
    op.drop_table("listing")
    with op.batch_alter_table("failed_sign_in", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_failed_sign_in_key"))

    op.drop_table("failed_sign_in")
    op.drop_table("designer")
