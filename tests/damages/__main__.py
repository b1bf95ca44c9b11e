"""Tries every kind of damage in a shop of its own and prints what is seen of it: `python -m tests.damages`."""

import io
import os
import shutil
from contextlib import ExitStack, redirect_stderr, redirect_stdout
from pathlib import Path
from tempfile import TemporaryDirectory

from app.base import migrations
from app.base.settings import Settings
from app.cli import main
from tests.damages.folders import OBSTACLES
from tests.damages.packs import DAMAGES, FILE
from tests.damages.shop import GivenOut


def packs(empty):
    """A row for each damage to a kept pack."""
    for damage in DAMAGES:
        with TemporaryDirectory() as place, ExitStack() as opened:
            data = shutil.copytree(empty, Path(place, "data"))
            shop = GivenOut(Settings(data_dir=data, database_url=""), opened)
            damage.do(shop)
            file, order = shop.file(), shop.order_page()
            told = "told that it is made again" if "is being made again" in order else "ready to print"
            studio = damage.how if damage.how in shop.studio_page() else "nothing"
            shop.work()
            yield damage.title, f"{file.status_code}, {told}", studio, "by itself" if shop.as_built(FILE) else "not"


def folders(empty):
    """A row for each obstacle to a start."""
    for obstacle in OBSTACLES:
        with TemporaryDirectory(dir="/tmp") as place:
            Path(place).chmod(0o711)
            data = shutil.copytree(empty, Path(place, "data"))
            (data / "packs").mkdir(exist_ok=True)
            os.environ.update({"TAPELINE_DATA_DIR": str(data), "TAPELINE_DATABASE_URL": "", **dict(obstacle.settings)})
            said = io.StringIO()
            obstacle.do(data)
            with redirect_stdout(said), redirect_stderr(said), obstacle.started():
                status = main(["password", "ottilie@cotter-row.example"])
            for name, _ in obstacle.settings:
                del os.environ[name]
            words = said.getvalue().replace(f"{place}/", "").removeprefix("tapeline: ").strip().splitlines()
            yield obstacle.title, f"exit {status}", words[0], words[-1]


def table(titles, rows):
    """A table in Markdown, row by row as they come."""
    for row in (titles, ["---"] * len(titles)):
        print("|", " | ".join(row), "|")
    for row in rows:
        print("|", " | ".join(row), "|", flush=True)


if __name__ == "__main__":
    "".encode("utf-16le")
    with TemporaryDirectory() as empty:
        migrations.upgrade(Settings(data_dir=Path(empty), database_url=""))
        table(["a kept pack", "the customer: its file, its page", "the designer reads of it", "it heals"], packs(empty))
        print()
        table(["at a start", "every command", "the keeper reads", "the remedy"], folders(empty))
