"""A data folder that is open is closed; one that cannot be used stops every command with a line or two, and exit 1."""

import os
import shutil
import stat
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from app.base.premises import open_premises
from app.base.settings import Settings
from app.cli import main
from tests.damages.folders import OBSTACLES, as_another_user

COMMANDS = (["serve"], ["work"], ["run"], ["password", "ottilie@cotter-row.example"])


@pytest.fixture(autouse=True)
def own_umask():
    """A command makes what it makes private, for the whole process; the tests after this one are others."""
    before = os.umask(0o022)
    yield
    os.umask(before)


@pytest.fixture
def folder(migrated, monkeypatch):
    """The data folder of a shop that was used, named to the commands, where another user of the machine finds it."""
    # Whoever we become below may not read Python's own folder, so what SQLite's driver loads late is loaded now.
    "".encode("utf-16le")
    with TemporaryDirectory(dir="/tmp") as place:
        Path(place).chmod(0o711)
        data = shutil.copytree(migrated, Path(place, "data"))
        (data / "packs").mkdir(exist_ok=True)
        monkeypatch.setenv("TAPELINE_DATA_DIR", str(data))
        monkeypatch.setenv("TAPELINE_DATABASE_URL", "")
        monkeypatch.chdir(place)
        yield data


@pytest.mark.parametrize("obstacle", OBSTACLES, ids=lambda obstacle: obstacle.title)
def test_every_command_says_what_stands_in_its_way_and_ends(folder, obstacle, monkeypatch, capfd):
    if obstacle.started is as_another_user and os.geteuid() != 0:
        pytest.skip("only root can start as somebody else")
    for name, value in obstacle.settings:
        monkeypatch.setenv(name, value)
    obstacle.do(folder)
    for command in COMMANDS:
        with obstacle.started():
            status = main(command)
        told = capfd.readouterr()
        assert (status, told.out) == (1, "")
        assert obstacle.told in told.err
        assert "Traceback" not in told.err
        assert "secret-word" not in told.err
        assert told.err.count("\n") <= 2


def mode(path):
    return stat.S_IMODE(path.stat().st_mode)


def test_an_open_data_folder_is_closed_at_every_start_and_nothing_else_in_it_is_touched(folder):
    settings = Settings(data_dir=folder, database_url="")
    settings.session_secret()
    pack = folder / "packs" / "TL-4F7K-v1-ab"
    pack.mkdir()
    hers = folder / "notes.txt"
    kept = ["tapeline.db", "session.key", "packs/TL-4F7K-v1-ab/pattern-a4.pdf", "workers/worker-1.lock"]
    (folder / "workers").mkdir()
    for name in (*kept[2:], "notes.txt"):
        (folder / name).write_text("x")
    outside = folder.parent / "outside.txt"
    outside.write_text("x")
    (folder / "packs" / "link.pdf").symlink_to(outside)
    for path in (folder, folder / "packs", folder / "workers", pack, hers, outside, *(folder / name for name in kept)):
        path.chmod(0o777)
    open_premises(settings)
    assert [mode(path) for path in (folder, folder / "packs", folder / "workers", pack)] == [0o700] * 4
    assert [mode(folder / name) for name in kept] == [0o600] * 4
    assert [mode(path) for path in (hers, outside)] == [0o777] * 2


def test_what_the_shop_makes_is_private_from_the_first_moment(folder):
    settings = Settings(data_dir=folder.parent / "new", database_url="")
    open_premises(settings)
    made = [path for path in settings.data_dir.rglob("*") if not path.is_dir()]
    assert made
    assert {mode(path) for path in made} == {0o600}
    assert mode(settings.packs_dir()) == mode(settings.data_dir) == 0o700
