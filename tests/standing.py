"""A demo shop that stands for all tests of one module, where none of them minds what the others did before."""

import shutil
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass

from app.base.database import Database, make_engine
from app.base.settings import Settings
from app.run.application import create_app
from app.shop.people.service import ensure_designer
from tests.visitor import PASSWORD, Visitor, load_proved_demo, stored_password

EMAIL = "ottilie@cotter-row.example"


@dataclass(frozen=True)
class StandingShop:
    """The application, its database, somebody who looks in, and the designer, signed in."""

    app: object
    settings: Settings
    database: Database
    visitor: Visitor
    designer: Visitor


@contextmanager
def standing_shop(migrated, folder):
    """The demo shop, its designs on sale; `migrated` is the data folder of an empty shop to copy from."""
    shutil.copytree(migrated, folder / "data")
    settings = Settings(data_dir=folder / "data", database_url="")
    with ExitStack() as stack:
        database = Database(make_engine(settings.database_address()))
        stack.callback(database.close)
        with database.writing() as session:
            load_proved_demo(session)
            ensure_designer(session, EMAIL, "").password_hash = stored_password()
        app = create_app(settings)
        stack.callback(app.state.queue.close)
        stack.callback(app.state.database.close)
        visitor, designer = Visitor(app), Visitor(app)
        stack.callback(visitor.close)
        stack.callback(designer.close)
        designer.submit(designer.get("/studio/sign-in"), email=EMAIL, password=PASSWORD)
        yield StandingShop(app, settings, database, visitor, designer)
