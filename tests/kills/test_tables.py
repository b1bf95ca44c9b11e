"""Both databases have the tables the models describe, in one database with the queue's own."""

import pytest
import sqlalchemy as sa
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from app.base.database import Base

pytestmark = pytest.mark.kills


def test_the_migrated_tables_are_those_of_the_models(yard):
    def ours(name, kind, _parents):
        return kind != "table" or name in Base.metadata.tables

    with yard.database.engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"include_name": ours, "compare_type": True})
        assert compare_metadata(context, Base.metadata) == []
        schema = "dbos" if connection.dialect.name == "postgresql" else None
        assert "workflow_status" in sa.inspect(connection).get_table_names(schema=schema)
