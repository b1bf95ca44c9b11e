"""What many tests of the shop stand on: settings, a database with all its tables, and its queue."""

import shutil
from contextlib import ExitStack

import pytest
from sqlalchemy.orm import Session

from app.base import migrations
from app.base.database import Database, make_engine
from app.base.jobs.dbos_queue import DbosQueue
from app.base.settings import Settings
from app.pattern.problem import Refused
from app.run.application import create_app
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, put_on_sale, save_listing
from app.shop.people.service import ensure_designer
from tests.proved import SMALL_DRAFT, stand_proved
from tests.visitor import FORM, MEASURES, PASSWORD, Visitor, load_proved_demo, stored_password


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
    assert not isinstance(put_on_sale(session, made, version), Refused)
    return made


@pytest.fixture
def opened():
    """Whatever is to be closed after the test."""
    with ExitStack() as stack:
        yield stack


@pytest.fixture
def open_app(database, opened):
    """The application over a fresh demo shop, for settings."""
    with database.writing() as session:
        load_proved_demo(session)

    def build(settings):
        application = create_app(settings)
        opened.callback(application.state.queue.close)
        opened.callback(application.state.database.close)
        return application

    return build


@pytest.fixture
def open_shop(open_app, opened):
    """A visitor of the shop with these settings."""

    def build(settings):
        person = Visitor(open_app(settings))
        opened.callback(person.close)
        return person

    return build


@pytest.fixture
def arrive(app, opened):
    """Somebody with a browser of her own, at a network address."""

    def build(address="127.0.0.1"):
        person = Visitor(app, address)
        opened.callback(person.close)
        return person

    return build


@pytest.fixture
def app(open_app, settings):
    """The application over a fresh demo shop."""
    return open_app(settings)


@pytest.fixture
def visitor(app, opened):
    """Someone who looks in."""
    person = Visitor(app)
    opened.callback(person.close)
    return person


@pytest.fixture
def designer(app, database, opened):
    """The designer, signed in."""
    with database.writing() as session:
        ensure_designer(session, "ottilie@cotter-row.example", "").password_hash = stored_password()
    person = Visitor(app)
    page = person.get("/studio/sign-in")
    person.submit(page, email="ottilie@cotter-row.example", password=PASSWORD)
    opened.callback(person.close)
    return person


@pytest.fixture
def fitted(visitor):
    """A visitor's fitting of the skirt, on its review page."""
    return visitor.submit(visitor.get(FORM), to=FORM, **MEASURES)
