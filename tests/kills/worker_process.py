"""A worker to be killed: the real worker with a slow builder that does what the draft's last comment tells it.

The comment is JSON: `steps` and `pause` (seconds each), and `then` (`ready`, `refuse`,
`raise`, `die`, `hang`). Each step is noted in the file TEST_DIARY, so that a test can see who built when.
TEST_VERSION stands for another release of the shop; TEST_DIE_AT kills the worker around the final rename; TEST_FILL_AT
names what is called next when the disk becomes full, to the last byte, by a file TEST_BALLAST.
"""

import contextlib
import json
import logging
import os
import signal
import sqlite3
import sys
import time
from hashlib import sha256
from pathlib import Path

from app.base.jobs import dbos_queue

dbos_queue.VERSION = os.environ.get("TEST_VERSION", dbos_queue.VERSION)

from app.base.errors import SlotTaken  # noqa: E402 - the version must be set before the engine is imported
from app.base.settings import Settings  # noqa: E402
from app.base.storage import LocalPacks  # noqa: E402
from app.packs.request import PackFile, PackReady  # noqa: E402
from app.pattern.problem import Place, Problem, Refused  # noqa: E402
from app.work import worker  # noqa: E402


def note(order, what):
    with Path(os.environ["TEST_DIARY"]).open("a") as diary:
        diary.write(json.dumps([time.monotonic(), os.getpid(), order, what]) + "\n")


def die():
    os.kill(os.getpid(), signal.SIGKILL)


def slow_builder(request, folder, progress):
    plan = json.loads(request.draft_text.rpartition("# ")[2])
    files = []
    for step in range(plan["steps"]):
        note(request.order_number, "step")
        progress(f"sheet {step + 1}", step / plan["steps"])
        content = f"{request.order_number} sheet {step}\n".encode() * 2000
        (folder / f"sheet-{step}.txt").write_bytes(content)
        files.append(PackFile(f"sheet-{step}.txt", f"Sheet {step}", len(content), sha256(content).hexdigest()))
        time.sleep(plan["pause"])
    match plan["then"]:
        case "refuse":
            message = "The side seams differ: front 412.0 mm, back 415.5 mm."
            return Refused.of(Problem("checks.seam-walk", message, "Move the hem by 3.5 mm.", Place("front", "side")))
        case "raise":
            raise ZeroDivisionError("bust girth 912.5")
        case "die":
            die()
        case "hang":
            time.sleep(3600)
    return PackReady(tuple(files), {"sheets": len(files)})


def die_around_rename(moment):
    rename = LocalPacks.keep

    def keep(self, draft, name):
        if moment == "before rename":
            die()
        rename(self, draft, name)
        die()

    LocalPacks.keep = keep


def fill_the_disk():
    """Once: the file stays when the space is given back by emptying it. The database has no room in hand either."""
    ballast = Path(os.environ["TEST_BALLAST"])
    if ballast.exists():
        return
    database = Settings().data_folder() / "tapeline.db"
    if database.exists():
        with contextlib.closing(sqlite3.connect(database, timeout=5)) as connection:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    with ballast.open("wb") as file:
        for size in (1 << 20, 1 << 12, 1 << 9):
            with contextlib.suppress(OSError):
                while True:
                    os.write(file.fileno(), b"\0" * size)


def fill_before(call):
    """Have the disk filled just before this is called."""
    owner, name = {
        "claim": (worker.BuildWorker, "_claim_and_build"),
        "begin": (LocalPacks, "begin"),
        "progress": (worker._Reporter, "__call__"),
        "files": (Path, "write_bytes"),
        "seal": (LocalPacks, "seal"),
        "keep": (LocalPacks, "keep"),
        "finish": (worker.BuildWorker, "_hand_over"),
    }[call]
    real = getattr(owner, name)

    def full(*given):
        fill_the_disk()
        return real(*given)

    setattr(owner, name, full)


if __name__ == "__main__":
    logging.basicConfig(level=logging.INFO, stream=sys.stderr)
    worker.LONGEST_BUILD_SECONDS = float(os.environ.get("TEST_LONGEST_BUILD", worker.LONGEST_BUILD_SECONDS))
    if "TEST_FILL_AT" in os.environ:
        fill_before(os.environ["TEST_FILL_AT"])
    if "TEST_DIE_AT" in os.environ:
        die_around_rename(os.environ["TEST_DIE_AT"])
    try:
        worker.run_worker(Settings(), slow_builder)
    except SlotTaken as taken:
        print(taken, file=sys.stderr)
        sys.exit(3)
