"""The web application: wiring only."""

from __future__ import annotations

from collections.abc import AsyncIterator, Callable, Iterator
from contextlib import asynccontextmanager
from importlib import import_module
from pkgutil import walk_packages

from fastapi import APIRouter, Depends, FastAPI
from starlette.middleware.sessions import SessionMiddleware
from starlette.staticfiles import StaticFiles

from app import shop
from app.base import aside
from app.base.database import Database, make_engine
from app.base.jobs.dbos_queue import DbosQueue
from app.base.settings import Settings
from app.base.storage import LocalPacks
from app.base.templates import STATIC
from app.run.wellbeing import wellbeing
from app.shop.people.service import studio as studio_of
from app.web import health
from app.web.addresses import ForwardedHeaders
from app.web.admission import admitted, doors_for
from app.web.csrf import check_form_token
from app.web.edge import HeadAsGet, PlainAddresses
from app.web.failures import add_failure_pages
from app.web.headers import BodyLimit, SafeHeaders

__all__ = ["create_app"]

#: In which modules of the shop the pages are: each has a `router`.
PAGES = "page"
#: The longest form of a customer has a few kilobytes; a draft, and the file that may come with it, have more.
MOST_BODY_BYTES = 256 * 1024
MOST_DRAFT_BYTES = 1024 * 1024
SECONDS_PER_DAY = 86_400
#: What the shop is called before the keeper has given it a name.
NAMELESS = "Pattern studio"


def create_app(settings: Settings) -> FastAPI:
    """The application for these settings. Its database must have its tables."""
    app = FastAPI(
        title="Tapeline",
        openapi_url=None,
        # These would name whatever host a request says it is for: `without_slash` names none.
        redirect_slashes=False,
        dependencies=[Depends(check_form_token), Depends(admitted, scope="function")],
        lifespan=_closing,
    )
    aside.set_up(settings.drawing_processes)
    app.state.settings = settings
    app.state.database = Database(make_engine(settings.database_address()))
    app.state.queue = DbosQueue(settings.database_address())
    app.state.packs = LocalPacks(settings.packs_dir())
    app.state.doors = doors_for(settings.drawing_processes)
    app.state.health = health.Health(lambda: wellbeing(app.state.database, settings))
    app.state.studio_name = _studio_name(app.state.database)
    app.add_middleware(HeadAsGet)
    app.add_middleware(
        SessionMiddleware,
        secret_key=settings.session_secret(),
        # The prefix makes browsers refuse the cookie from any but this very host over HTTPS (RFC 6265bis, 4.1.3.2).
        session_cookie="__Host-tapeline" if settings.https_only else "tapeline",
        max_age=settings.session_days * SECONDS_PER_DAY,
        same_site="lax",
        https_only=settings.https_only,
    )
    app.add_middleware(BodyLimit, most=_most_bytes)
    app.add_middleware(SafeHeaders, https_only=settings.https_only)
    app.add_middleware(PlainAddresses)
    app.add_middleware(ForwardedHeaders, proxies=settings.trusted_proxies())
    add_failure_pages(app)
    app.mount("/static", StaticFiles(directory=STATIC), name="static")
    for router in (health.router, *_routers()):
        app.include_router(router)
    return app


def _routers() -> Iterator[APIRouter]:
    """The pages of every screen of the shop, wherever it has its folder."""
    for found in walk_packages(shop.__path__, f"{shop.__name__}."):
        if found.name.endswith(f".{PAGES}"):
            yield import_module(found.name).router


def _most_bytes(path: str) -> int:
    """How much may be sent to a page: one that is told it was too much has lost what was typed, so drafts have room."""
    return MOST_DRAFT_BYTES if path.startswith("/studio/") else MOST_BODY_BYTES


@asynccontextmanager
async def _closing(app: FastAPI) -> AsyncIterator[None]:
    yield
    app.state.queue.close()
    app.state.database.close()


def _studio_name(database: Database) -> Callable[[], str]:
    """The studio's name, looked up once it is there and then remembered."""
    known: list[str] = []

    def name() -> str:
        if not known:
            studio = database.read(studio_of)
            if studio is None:
                return NAMELESS
            known.append(studio.name)
        return known[0]

    return name
