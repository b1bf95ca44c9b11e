"""Starting the shop: the web server alone, or set-up, web server and worker together."""

from __future__ import annotations

import ctypes
import signal
import subprocess
import sys
import time

import uvicorn

from app import migrations
from app.database import Database, make_engine
from app.demo import load_demo, password_links
from app.logs import set_up_logging
from app.main import create_app
from app.pattern.problem import Problem
from app.people.service import password_link
from app.settings import Settings
from app.web.connection import MOST_CONNECTIONS, MOST_HEAD_BYTES, Connection

__all__ = ["SLOT_TAKEN", "new_password_link", "run_shop", "run_web"]

#: Exit status of a worker whose slot another live worker holds.
SLOT_TAKEN = 3
#: Seconds that visitors who are being answered get when the server is stopped.
GRACE_SECONDS = 20
_RESTART_PAUSE = 1.0  # seconds


def run_web(settings: Settings) -> None:
    """Bring the tables up to date and serve the pages until stopped."""
    set_up_logging(settings.log_level)
    migrations.upgrade(settings)
    uvicorn.run(
        create_app(settings),
        host=settings.host,
        port=settings.port,
        log_config=None,
        # The server itself would believe any sender on this machine about its visitor; `Forwarded` asks the settings.
        proxy_headers=False,
        server_header=False,
        http=Connection,
        ws="none",
        h11_max_incomplete_event_size=MOST_HEAD_BYTES,
        limit_concurrency=MOST_CONNECTIONS,
        timeout_graceful_shutdown=GRACE_SECONDS,
    )


def run_shop(settings: Settings) -> int:
    """Set the shop up with its demo catalogue, then keep a web server and a worker running until stopped.

    Each runs as a process of its own and is started again should it end by itself.
    """
    migrations.upgrade(settings)
    _set_up(settings)
    stopping: list[int] = []
    for sign in (signal.SIGTERM, signal.SIGINT):
        signal.signal(sign, lambda number, frame: stopping.append(number))
    running: dict[str, subprocess.Popen[bytes]] = {}
    while not stopping:
        for command in ("serve", "work"):
            process = running.get(command)
            if process is None:
                running[command] = _start(command)
            elif process.poll() == SLOT_TAKEN:
                stopping.append(SLOT_TAKEN)
            elif process.poll() is not None:
                running[command] = _start(command)
        time.sleep(_RESTART_PAUSE)
    _stop(list(running.values()))
    return SLOT_TAKEN if SLOT_TAKEN in stopping else 0


def _start(command: str) -> subprocess.Popen[bytes]:
    """Start one of the shop's processes; it is told to end when this one ends, even by a kill."""
    return subprocess.Popen([sys.executable, "-m", "app", command], start_new_session=True, preexec_fn=_end_with_parent)


def _end_with_parent() -> None:
    # Linux: prctl(PR_SET_PDEATHSIG, SIGTERM), which the standard library does not offer.
    ctypes.CDLL(None).prctl(1, signal.SIGTERM)


def new_password_link(settings: Settings, email: str) -> str | Problem:
    """A fresh one-time link with which a designer sets her password."""
    migrations.upgrade(settings)
    database = Database(make_engine(settings.database_address()))
    with database.writing() as session:
        link = password_link(session, settings.public_url, email)
    database.close()
    return link


def _set_up(settings: Settings) -> None:
    database = Database(make_engine(settings.database_address()))
    with database.writing() as session:
        load_demo(session)
        links = password_links(session, settings.public_url)
    database.close()
    print(f"\nThe shop is at {settings.public_url}  (stop it with Ctrl-C)")
    for line in links:
        print(f"Designer: {line}")
    print(flush=True)


def _stop(processes: list[subprocess.Popen[bytes]]) -> None:
    for process in processes:
        process.terminate()
    for process in processes:
        process.wait()
