"""Starting the shop: the web server alone, or set-up, web server and worker together."""

from __future__ import annotations

import ctypes
import signal
import subprocess
import sys
import time

import uvicorn

from app.base.database import Database, make_engine
from app.base.errors import SetUpError
from app.base.logs import set_up_logging
from app.base.premises import open_premises
from app.base.settings import Settings
from app.demo.shop import load_demo, password_links
from app.pattern.problem import Refused
from app.run.application import create_app
from app.shop.people.service import password_link
from app.web.connection import MOST_CONNECTIONS, MOST_HEAD_BYTES, Connection

__all__ = ["SLOT_TAKEN", "new_password_link", "run_shop", "run_web"]

#: Exit status of a worker whose slot another live worker holds.
SLOT_TAKEN = 3
#: Seconds that visitors who are being answered get when the server is stopped.
GRACE_SECONDS = 20
#: Exit status of a process that could not begin its work.
CANNOT_START = 1
_LOOK_PAUSE = 0.5  # seconds
#: Between two beginnings of the same process, seconds: at first, and at most.
_SHORTEST_PAUSE, _LONGEST_PAUSE = 1.0, 60.0
#: A process that has run for so long (seconds) has begun its work.
_STANDS_SECONDS = 15.0


def run_web(settings: Settings) -> None:
    """Bring the tables up to date and serve the pages until stopped.

    Raises `SetUpError` when the address cannot be served, which the server itself tells in a line before.
    """
    set_up_logging(settings.log_level)
    open_premises(settings)
    try:
        _serve(settings)
    except SystemExit as ended:
        if ended.code:
            where = f"{settings.host}:{settings.port}"
            raise SetUpError(f"The pages cannot be served at {where}; name another port in TAPELINE_PORT.") from None
        raise


def _serve(settings: Settings) -> None:
    uvicorn.run(
        create_app(settings),
        host=settings.host,
        port=settings.port,
        log_config=None,
        # The server itself would believe any sender on this machine about its visitor: `ForwardedHeaders` does not.
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

    Each runs as a process of its own and is started again should it end by itself, but not if it never could begin.
    Returns the exit status.
    """
    open_premises(settings)
    _set_up(settings)
    stopping: list[int] = []
    for sign in (signal.SIGTERM, signal.SIGINT):
        signal.signal(sign, lambda number, frame: stopping.append(number))
    duties = [_SupervisedProcess("serve"), _SupervisedProcess("work")]
    failed = 0
    while not stopping and not failed:
        failed = max(duty.keep_going() for duty in duties)
        time.sleep(_LOOK_PAUSE)
    _stop([duty.process for duty in duties])
    return failed


class _SupervisedProcess:
    """One of the shop's processes: started, and started again with growing pauses whenever it ends by itself."""

    def __init__(self, command: str) -> None:
        self._command = command
        self._pause, self._has_stood = _SHORTEST_PAUSE, False
        self._begin()

    def keep_going(self) -> int:
        """Look after the process once; the exit status with which to end the shop, 0 while it goes on.

        A process that has never stood and says itself that it cannot begin (its status is 1, or its slot is taken)
        would say so each time. One that has stood once, or was killed, is begun again: what stopped it may pass.
        """
        status, now = self.process.poll(), time.monotonic()
        if status is None:
            if now - self._begun > _STANDS_SECONDS:
                self._pause, self._has_stood = _SHORTEST_PAUSE, True
            return 0
        if status == SLOT_TAKEN or (status == CANNOT_START and not self._has_stood):
            return status
        if now - self._begun > self._pause:
            self._pause = min(2 * self._pause, _LONGEST_PAUSE)
            self._begin()
        return 0

    def _begin(self) -> None:
        # It is told to end when this process ends, even by a kill.
        self._begun = time.monotonic()
        line = [sys.executable, "-m", "app", self._command]
        self.process = subprocess.Popen(line, start_new_session=True, preexec_fn=_end_with_parent)


def _end_with_parent() -> None:
    # Linux: prctl(PR_SET_PDEATHSIG, SIGTERM), which the standard library does not offer.
    ctypes.CDLL(None).prctl(1, signal.SIGTERM)


def new_password_link(settings: Settings, email: str) -> str | Refused:
    """A fresh one-time link with which a designer sets her password."""
    open_premises(settings)
    database = Database(make_engine(settings.database_address()))
    with database.writing() as session:
        link = password_link(session, settings.shop_address(), email)
    database.close()
    return link


def _set_up(settings: Settings) -> None:
    database = Database(make_engine(settings.database_address()))
    with database.writing() as session:
        load_demo(session)
        links = password_links(session, settings.shop_address())
    database.close()
    print(f"\nThe shop is at {settings.shop_address()}  (stop it with Ctrl-C)")
    for line in links:
        print(f"Designer: {line}")
    print(flush=True)


def _stop(processes: list[subprocess.Popen[bytes]]) -> None:
    for process in processes:
        process.terminate()
    for process in processes:
        process.wait()
