"""Opening the shop's premises: its folder closed to others, its database sound, of our version and up to date.

Whatever stands in the way is a `SetUpError` of a line or two that says what the keeper should do.
"""

from __future__ import annotations

import os
import sqlite3
import stat
from pathlib import Path
from tempfile import TemporaryFile

import sqlalchemy as sa

from app.base import migrations
from app.base.errors import SetUpError
from app.base.faults import is_passing
from app.base.settings import Settings

__all__ = ["closed_folder", "open_premises"]

#: What we make, nobody else on this machine may read.
_UMASK = 0o077
_OTHERS = 0o077
#: What lies in the data folder by our hand. Nothing else in it is touched: a keeper may have named a folder of hers.
_FILES = ("tapeline.db", "tapeline.db-wal", "tapeline.db-shm", "tapeline.db-journal", "session.key", "migrate.lock")
_FOLDERS = ("packs", "workers")


def open_premises(settings: Settings) -> None:
    """Close the data folder to other users, try that it can be used, and bring the database up to date.

    Several processes may call this at the same time. Raises `SetUpError`.
    """
    os.umask(_UMASK)
    closed_folder(settings)
    address = _address(settings)
    if address.get_backend_name() == "sqlite":
        _look_through(Path(address.database or ""))
    try:
        migrations.upgrade(settings)
    except (sa.exc.DBAPIError, OSError) as error:
        raise SetUpError(_database_words(address, error)) from error


def _address(settings: Settings) -> sa.URL:
    try:
        address = sa.make_url(settings.database_address())
        known = address.get_backend_name() in ("sqlite", "postgresql")
    except sa.exc.ArgumentError:
        known = False
    if not known:
        # The address itself is not told: it may hold a password.
        raise SetUpError(
            "TAPELINE_DATABASE_URL is not the address of a PostgreSQL database.\n"
            "Write it like postgresql://shop@localhost/tapeline, or leave it empty for a database in the data folder."
        )
    return address


def closed_folder(settings: Settings) -> Path:
    """The data folder with the packs in it: there, ours, closed to other users, and to be written."""
    folder = settings.data_folder()
    if folder == Path(folder.anchor) or folder.stat().st_mode & stat.S_ISVTX:
        raise SetUpError(
            f"The folder {folder} belongs to everybody on this machine, so it cannot hold a shop's orders.\n"
            "Name a folder of the shop's own: TAPELINE_DATA_DIR=/srv/tapeline"
        )
    _close(folder)
    _try_writing(folder)
    for name in _FILES:
        _close(folder / name)
    # Links are not followed: what they point to is not known to be ours.
    for name in _FOLDERS:
        for place, _folders, files in os.walk(folder / name):
            for path in (Path(place), *(Path(place, file) for file in files)):
                _close(path)
    _try_writing(settings.packs_dir())
    return folder


def _close(path: Path) -> None:
    try:
        mode = path.lstat().st_mode
        if stat.S_ISLNK(mode) or not mode & _OTHERS:
            return
        path.chmod(0o700 if stat.S_ISDIR(mode) else 0o600)
        if path.stat().st_mode & _OTHERS:
            raise PermissionError
    except FileNotFoundError:
        return
    except OSError as error:
        raise SetUpError(
            f"Other users of this machine can read {path}, and it cannot be closed to them.\n"
            "It holds people's measurements: make it the shop's own (chown), on a disk that keeps rights."
        ) from error


def _try_writing(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with TemporaryFile(dir=folder) as file:
            file.write(b"may the shop write here?")
            file.flush()
    except OSError as error:
        raise SetUpError(
            f"The folder {folder} cannot be written: {_said(error)}.\n"
            "Give the shop a folder of its own with some room on its disk, or name another in TAPELINE_DATA_DIR."
        ) from error


def _look_through(path: Path) -> None:
    """Refuse a database file that is not one, or is damaged: what is sold on top of it would be lost with it."""
    if not path.exists():
        return
    try:
        connection = sqlite3.connect(path, timeout=30)
        try:
            found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
        finally:
            connection.close()
    except sqlite3.OperationalError as error:
        raise SetUpError(f"The database {path} cannot be opened: {error}.\nLook at its rights and its disk.") from error
    except sqlite3.DatabaseError as error:
        found = str(error)
    if found != "ok":
        raise SetUpError(
            f"The database {path} is damaged ({found.splitlines()[-1]}), and has been left as it is.\n"
            "Put the last backup in its place, with the packs that belong to it, and start again."
        )


def _database_words(address: sa.URL, error: Exception) -> str:
    if address.get_backend_name() == "sqlite":
        said = _said(error)
        remedy = "Look at the rights of the data folder and at the room on its disk."
        return f"The database {address.database} cannot be used: {said}.\n{remedy}"
    where = address.render_as_string(hide_password=True)
    passing = "does not answer" if is_passing(error) else "cannot be used"
    return f"The database {where} {passing}: {_said(error)}.\nStart it, or mend TAPELINE_DATABASE_URL."


def _said(error: Exception) -> str:
    """What the system says, on one line, without its full stop."""
    told = getattr(error, "orig", None) or error
    words = (told.strerror if isinstance(told, OSError) else "") or str(told) or type(told).__name__
    return words.strip().splitlines()[0].rstrip(".")
