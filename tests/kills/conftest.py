"""A yard in which real worker and web processes are started and killed, on SQLite and on PostgreSQL."""

import json
import os
import secrets
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
import sqlalchemy as sa

from app.base import migrations
from app.base.database import Database, make_engine
from app.base.jobs.dbos_queue import DbosQueue
from app.base.settings import Settings
from app.shop.catalogue.models import Level
from app.shop.catalogue.service import ListingWords, add_draft_version, listing_by_slug, put_on_sale, save_listing
from app.shop.orders.limits import NOBODY
from app.shop.orders.models import Order, OrderState
from app.shop.orders.service import Customer, FittingEntry, fitting_by_token, place_order, save_fitting
from tests.proved import EVERYBODY, small_draft, stand_proved

HERE = Path(__file__).parent
#: How long a test waits for what it expects, s: a busy machine is no fault of the shop.
PATIENCE = 90
POSTGRES = os.environ.get("TAPELINE_TEST_POSTGRES", "postgresql://postgres@127.0.0.1:5432/postgres")
QUICK = {
    "TAPELINE_HEARTBEAT_SECONDS": "0.2",
    "TAPELINE_LEASE_SECONDS": "1.5",
    "TAPELINE_SWEEP_SECONDS": "0.3",
    "TAPELINE_RETRY_SECONDS": "0.2",
    "TAPELINE_STOP_SECONDS": "1",
}
ENTRY = FittingEntry({"bust girth": "92"}, {"bust girth": 920.0}, {"lined": True}, "cm", "A4", {})
ENDED = (OrderState.READY, OrderState.NEEDS_DESIGNER, OrderState.FAILED, OrderState.CANCELLED)


class Yard:
    """One shop with its database and folder, and the processes a test starts in it."""

    def __init__(self, folder, address, beside=None):
        self.folder, self.beside = folder, beside or folder
        self.diary = self.beside / "diary"
        self.settings = Settings(data_dir=folder, database_url=address)
        migrations.upgrade(self.settings)
        self.database = Database(make_engine(self.settings.database_address()))
        self.queue = DbosQueue(self.settings.database_address())
        self.environment = {**os.environ, **QUICK, "TAPELINE_DATA_DIR": str(folder), "TAPELINE_DATABASE_URL": address}
        self.processes = []

    def start(self, script, **environment):
        """Start a process of ours; it is killed at the end of the test at the latest."""
        log = (self.beside / f"{len(self.processes)}.log").open("w")
        process = subprocess.Popen(
            [sys.executable, HERE / script],
            env={**self.environment, "TEST_DIARY": str(self.diary), **environment},
            cwd=HERE.parents[1],
            stdout=subprocess.PIPE,
            stderr=log,
            start_new_session=True,
        )
        self.processes.append(process)
        process.log = log
        return process

    def worker(self, slot="worker-1", **environment):
        return self.start("worker_process.py", TAPELINE_WORKER_SLOT=slot, **environment)

    def kill(self, process):
        """kill -9 the process and whatever it started."""
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
        process.wait(10)

    def order(self, steps=4, pause=0.05, then="ready", sender=NOBODY):
        """Place an order whose build goes as told; returns its id."""
        with self.database.writing() as session:
            fitting = self._fitting(session, json.dumps({"steps": steps, "pause": pause, "then": then}))
            return place_order(session, self.queue, fitting, Customer(), sender=sender).id

    def unordered_fitting(self, **plan):
        """Save a fitting that nobody has ordered, for a build of this plan; returns its token."""
        with self.database.writing() as session:
            return self._fitting(session, json.dumps(plan)).token

    def _fitting(self, session, draft):
        listing = save_listing(session, ListingWords("demo", "Demo", "", "", Level.CONFIDENT, 0, "EUR", ""))
        version = add_draft_version(session, listing, small_draft(draft))
        stand_proved(session, version, **{"bust girth": EVERYBODY})
        put_on_sale(session, listing, version)
        return save_fitting(session, listing_by_slug(session, "demo"), ENTRY)

    def look(self, order_id):
        with self.database.reading() as session:
            return session.get_one(Order, order_id)

    def wait(self, order_id, *states, seconds=PATIENCE):
        """The order once it is in one of the states; fails loudly when it does not get there."""
        deadline = time.monotonic() + seconds
        while (order := self.look(order_id)).state not in states:
            assert time.monotonic() < deadline, f"still {order.state} (try {order.attempt})\n{self.logs()}"
            time.sleep(0.05)
        return order

    def wait_for(self, holds, seconds=PATIENCE):
        """Wait until this holds; fails loudly when it never does."""
        deadline = time.monotonic() + seconds
        while not holds():
            assert time.monotonic() < deadline, self.logs()
            time.sleep(0.05)

    def order_fitting(self, token):
        """Order a fitting that was saved; returns the order's id."""
        with self.database.writing() as session:
            return place_order(session, self.queue, fitting_by_token(session, token), Customer()).id

    def save_one_more_fitting(self):
        """Save a fitting of what is on sale already, as a customer who changes her mind does."""
        with self.database.writing() as session:
            save_fitting(session, listing_by_slug(session, "demo"), ENTRY)

    def pause(self):
        """A short rest between two looks."""
        time.sleep(0.05)

    def wait_for_steps(self, count, seconds=PATIENCE):
        """Wait until builders have noted this many steps."""
        deadline = time.monotonic() + seconds
        while len(self.steps()) < count:
            assert time.monotonic() < deadline, f"{len(self.steps())} steps\n{self.logs()}"
            time.sleep(0.02)

    def steps(self):
        """(moment, process, order number) of every step built, in time order."""
        lines = self.diary.read_text().splitlines() if self.diary.exists() else []
        return sorted((moment, process, order) for moment, process, order, _ in map(json.loads, lines))

    def builders(self, number):
        """The processes that built an order, in order; one that comes back after another shows twice."""
        turns = [process for _, process, order in self.steps() if order == number]
        return [process for before, process in zip([None, *turns], turns, strict=False) if process != before]

    def pack(self, order):
        """Name and content of each file of the order's pack, checked against the row."""
        folder = self.folder / "packs" / order.pack_folder
        assert {path.name for path in folder.iterdir()} == {file["name"] for file in order.files}
        for file in order.files:
            digest = subprocess.run(["sha256sum", folder / file["name"]], capture_output=True, text=True, check=True)
            assert digest.stdout.split()[0] == file["sha256"]
        return sorted(file["name"] for file in order.files)

    def leftovers(self):
        return sorted(path.name for path in (self.folder / "packs").glob(".*"))

    def logs(self):
        return "\n".join(path.read_text()[-3000:] for path in sorted(self.beside.glob("*.log")))

    def close(self):
        for process in self.processes:
            self.kill(process)
            process.stdout.close()
            process.log.close()
        self.queue.close()
        self.database.close()


@pytest.fixture(scope="session")
def postgres():
    """A connection to a PostgreSQL server that can make databases, with one that has all our tables to copy from."""
    address = sa.make_url(POSTGRES)
    server = sa.create_engine(
        address.set(drivername="postgresql+psycopg"),
        isolation_level="AUTOCOMMIT",
        connect_args={"connect_timeout": 2},
    )
    template = f"tapeline_kills_{secrets.token_hex(6)}"
    try:
        connection = server.connect()
    except sa.exc.OperationalError as error:
        pytest.skip(f"no PostgreSQL at {address.host}: {error.orig}")
    connection.execute(sa.text(f"CREATE DATABASE {template}"))
    migrations.upgrade(Settings(database_url=address_of(template)))
    connection.info["template"] = template
    yield connection
    connection.execute(sa.text(f"DROP DATABASE {template} WITH (FORCE)"))
    connection.close()
    server.dispose()


def address_of(database):
    return sa.make_url(POSTGRES).set(database=database).render_as_string(hide_password=False)


@pytest.fixture(params=["sqlite", "postgresql"])
def yard(request, tmp_path):
    if request.param == "sqlite":
        made = Yard(tmp_path, "")
        yield made
        made.close()
        return
    server = request.getfixturevalue("postgres")
    name = f"tapeline_kills_{secrets.token_hex(6)}"
    server.execute(sa.text(f"CREATE DATABASE {name} TEMPLATE {server.info['template']}"))
    made = Yard(tmp_path, address_of(name))
    yield made
    made.close()
    server.execute(sa.text(f"DROP DATABASE {name} WITH (FORCE)"))
