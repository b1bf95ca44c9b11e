"""What many tests of the shop stand on: settings, a database with all its tables, and its queue."""

import shutil

import pytest
from sqlalchemy.orm import Session

from app import migrations
from app.catalogue.models import Level
from app.catalogue.service import ListingWords, add_draft_version, put_on_sale, save_listing
from app.database import Database, make_engine
from app.jobs.dbos_queue import DbosQueue
from app.settings import Settings
from tests.proved import SMALL_DRAFT, stand_proved


@pytest.fixture(scope="session")
def migrated(tmp_path_factory):
    """A data folder with an empty shop, to copy from."""
    folder = tmp_path_factory.mktemp("migrated")
    migrations.upgrade(Settings(data_dir=folder, database_url=""))
    return folder


@pytest.fixture
def settings(migrated, tmp_path):
    """Settings of a fresh, empty shop in a folder of its own."""
    shutil.copytree(migrated, tmp_path / "data")
    return Settings(data_dir=tmp_path / "data", database_url="")


@pytest.fixture
def database(settings):
    """The fresh shop's database, with all tables."""
    opened = Database(make_engine(settings.database_address()))
    yield opened
    opened.close()


@pytest.fixture
def queue(settings):
    """The fresh shop's queue."""
    opened = DbosQueue(settings.database_address())
    yield opened
    opened.close()


@pytest.fixture
def session(database):
    """One open transaction of the fresh shop, held as another process would hold one: it takes nobody's turn here."""
    engine = database.engine.execution_options(sqlite_begin="BEGIN IMMEDIATE")
    with Session(engine, expire_on_commit=False) as opened, opened.begin():
        yield opened


@pytest.fixture
def listing(session):
    """A listing on sale with one version of a draft, proved on everybody."""
    words = ListingWords("linnet-apron", "Linnet apron", "", "", Level.CONFIDENT, 900, "EUR", "")
    made = save_listing(session, words)
    version = add_draft_version(session, made, SMALL_DRAFT)
    stand_proved(session, version)
    assert put_on_sale(session, made, version) is None
    return made
