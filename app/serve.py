"""Starting the shop: the web server alone, or set-up, web server and worker together."""

from __future__ import annotations

import signal
import subprocess
import sys
import time

import uvicorn

from app import migrations
from app.database import Database, make_engine
from app.demo import load_demo, password_links
from app.main import create_app
from app.settings import Settings

__all__ = ["run_shop", "run_web"]

_RESTART_PAUSE = 1.0  # seconds


def run_web(settings: Settings) -> None:
    """Bring the tables up to date and serve the pages until stopped."""
    migrations.upgrade(settings)
    uvicorn.run(create_app(settings), host=settings.host, port=settings.port, log_level=settings.log_level.lower())


def run_shop(settings: Settings) -> int:
    """Set the shop up with its demo catalogue, then keep a web server and a worker running until stopped.

    Each runs as a process of its own and is started again should it end by itself.
    """
    migrations.upgrade(settings)
    _set_up(settings)
    stopping = False

    def stop(_signal: int, _frame: object) -> None:
        nonlocal stopping
        stopping = True

    signal.signal(signal.SIGTERM, stop)
    signal.signal(signal.SIGINT, stop)
    running: dict[str, subprocess.Popen[bytes]] = {}
    while not stopping:
        for command in ("serve", "work"):
            process = running.get(command)
            if process is None or process.poll() is not None:
                running[command] = subprocess.Popen([sys.executable, "-m", "app", command], start_new_session=True)
        time.sleep(_RESTART_PAUSE)
    return _stop(list(running.values()))


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


def _stop(processes: list[subprocess.Popen[bytes]]) -> int:
    for process in processes:
        process.terminate()
    for process in processes:
        process.wait()
    return 0
