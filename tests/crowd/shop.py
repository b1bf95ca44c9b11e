"""A real shop for a crowd: its own database and folder, the demo catalogue, a process for the pages, and a worker."""

import os
import re
import secrets
import signal
import socket
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

import httpx
import sqlalchemy as sa

from app.base import migrations
from app.base.database import Database, make_engine
from app.base.settings import Settings
from app.demo.shop import load_demo
from tests.places import ROOT

POSTGRES = os.environ.get("TAPELINE_TEST_POSTGRES", "postgresql://postgres@127.0.0.1:5432/postgres")


class Shop:
    """Where the shop is, its database, and its processes."""

    def __init__(self, folder, address, **environment):
        self.folder = folder
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self.base = f"http://127.0.0.1:{self.port}"
        self.settings = Settings(data_dir=folder, database_url=address)
        migrations.upgrade(self.settings)
        self.database = Database(make_engine(self.settings.database_address()))
        with self.database.writing() as session:
            load_demo(session)
        self.environment = {
            **os.environ,
            "TAPELINE_DATA_DIR": str(folder),
            "TAPELINE_DATABASE_URL": address,
            "TAPELINE_PORT": str(self.port),
            "TAPELINE_LOG_LEVEL": "WARNING",
            **environment,
        }
        self.processes = {}

    def start(self, command, **environment):
        """Start one of the shop's processes, its log beside the data."""
        log = (self.folder / f"{command}-{len(self.processes)}.log").open("w")
        process = subprocess.Popen(
            [sys.executable, "-m", "app", command],
            env={**self.environment, **environment},
            cwd=ROOT,
            stdout=log,
            stderr=log,
            start_new_session=True,
        )
        process.log = log
        self.processes[f"{command}-{len(self.processes)}"] = process
        return process

    def open(self):
        """Serve the pages; comes back once they are answered."""
        process = self.start("serve")
        deadline = time.monotonic() + 60
        while True:
            try:
                httpx.get(self.base, timeout=5).raise_for_status()
                return process
            except httpx.HTTPError:
                assert time.monotonic() < deadline and process.poll() is None, self.logs()
                time.sleep(0.1)

    def kill(self, process):
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
        process.wait(10)

    def count(self, table, *where):
        with self.database.reading() as session:
            return session.scalar(sa.select(sa.func.count()).select_from(table).where(*where))

    def logs(self):
        return "\n".join(path.read_text()[-4000:] for path in sorted(self.folder.glob("*.log")))

    def memory(self, process):
        """Resident memory of a process, megabytes."""
        status = Path(f"/proc/{process.pid}/status").read_text()
        return int(re.search(r"VmRSS:\s+(\d+)", status)[1]) / 1024

    def close(self):
        for process in self.processes.values():
            self.kill(process)
            process.log.close()
        self.database.close()


def _server():
    return sa.create_engine(
        sa.make_url(POSTGRES).set(drivername="postgresql+psycopg"),
        isolation_level="AUTOCOMMIT",
        connect_args={"connect_timeout": 2},
    )


def postgres_here():
    """Whether a PostgreSQL server answers where the tests look for one."""
    server = _server()
    try:
        server.connect().close()
    except sa.exc.OperationalError:
        return False
    finally:
        server.dispose()
    return True


@contextmanager
def opened(folder, kind, **environment):
    """A shop on "sqlite" or "postgresql", taken down afterwards."""
    if kind == "sqlite":
        shop = Shop(folder, "", **environment)
        yield shop
        shop.close()
        return
    server = _server()
    name = f"tapeline_crowd_{secrets.token_hex(6)}"
    with server.connect() as connection:
        connection.execute(sa.text(f"CREATE DATABASE {name}"))
        shop = Shop(
            folder, sa.make_url(POSTGRES).set(database=name).render_as_string(hide_password=False), **environment
        )
        yield shop
        shop.close()
        connection.execute(sa.text(f"DROP DATABASE {name} WITH (FORCE)"))
    server.dispose()
