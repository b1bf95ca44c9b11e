"""A worker to be killed: the real worker with a slow builder that does what the draft's last comment tells it.

The comment is JSON: `steps` and `pause` (seconds each), and `then` (`ready`, `refuse`,
`raise`, `die`, `hang`). Each step is noted in the file TEST_DIARY, so that a test can see who built when.
TEST_VERSION stands for another release of the shop; TEST_DIE_AT kills the worker around the final rename.
"""

import json
import logging
import os
import signal
import sys
import time
from hashlib import sha256
from pathlib import Path

from app.jobs import dbos_queue

dbos_queue.VERSION = os.environ.get("TEST_VERSION", dbos_queue.VERSION)

from app import worker  # noqa: E402
from app.errors import SlotTaken  # noqa: E402 - the version must be set before the engine is imported
from app.orders.pack import PackFile, PackReady, PackRefused  # noqa: E402
from app.pattern.problem import Place, Problem  # noqa: E402
from app.settings import Settings  # noqa: E402
from app.storage import LocalPacks  # noqa: E402


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
            return PackRefused(
                (Problem("checks.seam-walk", message, "Move the hem by 3.5 mm.", Place("front", "side")),)
            )
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


if __name__ == "__main__":
    logging.basicConfig(level=logging.INFO, stream=sys.stderr)
    worker.LONGEST_BUILD_SECONDS = float(os.environ.get("TEST_LONGEST_BUILD", worker.LONGEST_BUILD_SECONDS))
    if "TEST_DIE_AT" in os.environ:
        die_around_rename(os.environ["TEST_DIE_AT"])
    try:
        worker.run_worker(Settings(), slow_builder)
    except SlotTaken as taken:
        print(taken, file=sys.stderr)
        sys.exit(3)
