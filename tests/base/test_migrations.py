"""Migrations: they give the tables the models describe, on both databases, and leave the engine's tables alone."""

import threading

import sqlalchemy as sa
from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext

from app.base import migrations
from app.base.database import Base, make_engine
from app.base.jobs.dbos_queue import DbosQueue
from app.base.settings import Settings
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, save_listing


def differences(engine):
    def ours(name, kind, _parents):
        return kind != "table" or name in Base.metadata.tables

    with engine.connect() as connection:
        context = MigrationContext.configure(connection, opts={"include_name": ours, "compare_type": True})
        return compare_metadata(context, Base.metadata)


def test_the_migrated_tables_are_those_of_the_models(database):
    assert differences(database.engine) == []


def test_upgrading_again_changes_nothing(settings, database):
    before = sa.inspect(database.engine).get_table_names()
    migrations.upgrade(settings)
    assert sa.inspect(database.engine).get_table_names() == before
    assert migrations.is_current(database.engine)


def test_a_new_database_is_not_current(tmp_path):
    engine = make_engine(f"sqlite:///{tmp_path}/new.db")
    assert not migrations.is_current(engine)
    engine.dispose()


def test_several_processes_may_upgrade_at_once(tmp_path):
    settings = Settings(data_dir=tmp_path, database_url="")
    failures = []

    def upgrade():
        try:
            migrations.upgrade(settings)
        except sa.exc.SQLAlchemyError as error:
            failures.append(error)

    threads = [threading.Thread(target=upgrade) for _ in range(3)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failures == []
    engine = make_engine(settings.database_address())
    assert migrations.is_current(engine)
    engine.dispose()


def test_our_tables_and_the_queues_share_one_database(settings, database):
    tables = set(sa.inspect(database.engine).get_table_names())
    assert set(Base.metadata.tables) < tables
    assert {"workflow_status", "queues"} < tables
    queue = DbosQueue(settings.database_address())
    queue.client.check_connection()
    queue.close()


def test_a_shop_with_listings_takes_settled_choices_and_gives_them_back(database):
    with database.writing() as session:
        words = ListingWords("linnet-apron", "Linnet apron", "", "", Level.CONFIDENT, 900, "EUR", "")
        add_draft_version(session, save_listing(session, words), "draft")
    with database.engine.connect() as connection:
        config = migrations._config()
        config.attributes["connection"] = connection
        command.downgrade(config, "0002")
        assert "settled" not in {column["name"] for column in sa.inspect(connection).get_columns("listing")}
        command.upgrade(config, "head")
        assert connection.scalar(sa.text("SELECT CAST(settled AS TEXT) FROM listing")) == "{}"
