"""Files of built packs, behind a small interface; here they are kept in a local folder."""

from __future__ import annotations

import errno
import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

__all__ = ["LEAST_ROOM", "Leftover", "LocalPacks", "PackStore"]

#: So many bytes stay free when a pack is begun, so that what keeps the orders, on the same disk, can still be written.
LEAST_ROOM = 32 * 1024 * 1024
_PART = ".part-"
#: What opening or reading says when the file itself is lost: gone, no file, closed to us, or unreadable on its disk.
#: Anything else (no free handle, no memory) says nothing about the file.
_LOST = frozenset(
    {
        errno.ENOENT,
        errno.ENOTDIR,
        errno.EISDIR,
        errno.ELOOP,
        errno.EACCES,
        errno.EPERM,
        errno.EIO,
        errno.ENXIO,
        errno.ESTALE,
        errno.EBADMSG,
        errno.EUCLEAN,
        errno.ENAMETOOLONG,
    }
)


@dataclass(frozen=True, slots=True)
class Leftover:
    """A folder that a build began and has not (yet) given its final name."""

    claim: str
    folder: Path


class PackStore(Protocol):
    """Where packs are kept. A pack is a flat folder of files that appears whole or not at all."""

    def begin(self, name: str, claim: str) -> Path:
        """An empty folder to write the pack `name` into, private to this `claim` and invisible to readers.

        Raises `OSError` when there is no room for it or nothing can be written.
        """

    def seal(self, draft: Path) -> None:
        """Make the files in `draft` durable; slow, so do it before the final transaction."""

    def keep(self, draft: Path, name: str) -> None:
        """Give the sealed folder its final name in one step, in place of an older pack of that name."""

    def discard(self, draft: Path) -> None:
        """Throw an unfinished folder away."""

    def remove(self, name: str) -> None:
        """Throw a kept pack away."""

    def read(self, name: str, file: str, most: int) -> bytes | None:
        """One file of a kept pack, up to `most` bytes of it; None when there is no such file, or it cannot be read.

        Raises `OSError` when nothing can be said about the file at this moment.
        """

    def leftovers(self) -> list[Leftover]:
        """Every unfinished folder: those being written now, and those of builds that died."""

    def kept(self) -> list[str]:
        """The names of all kept packs."""


class LocalPacks:
    """A `PackStore` in one folder of this machine (or of a disk that all workers share)."""

    def __init__(self, root: Path) -> None:
        """Keep packs under `root`, made if it is missing."""
        self.root = root
        root.mkdir(parents=True, exist_ok=True)

    def begin(self, name: str, claim: str) -> Path:
        """An empty private folder for this claim; `claim` has no hyphen."""
        if not os.path.lexists(self.root):
            self.root.mkdir(parents=True, exist_ok=True)
        if shutil.disk_usage(self.root).free < LEAST_ROOM:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        draft = self.root / f"{_PART}{claim}-{name}"
        _throw_away(draft)
        draft.mkdir()
        return draft

    def seal(self, draft: Path) -> None:
        """Flush every file, then the folder, to disk."""
        for path in sorted(draft.iterdir()):
            _flush(path)
        _flush(draft)

    def keep(self, draft: Path, name: str) -> None:
        """Rename the folder to its final name and flush the rename."""
        final, aside = self.root / name, draft.with_name(f"{draft.name}.old")
        if os.path.lexists(final):
            # A pack of an earlier try or an earlier build, or whatever has got into its place, leaves whole; ours
            # comes whole. Power lost between the two leaves no pack, of an order that is not ready before the commit.
            final.rename(aside)
        draft.rename(final)
        _flush(self.root)
        _throw_away(aside)

    def discard(self, draft: Path) -> None:
        """Remove the folder if it is still there."""
        _throw_away(draft)

    def remove(self, name: str) -> None:
        """Remove a kept pack if it is still there."""
        if _plain(name):
            _throw_away(self.root / name)

    def read(self, name: str, file: str, most: int) -> bytes | None:
        """Up to `most` bytes of a kept file; names or links that reach outside the folder find nothing."""
        if not _plain(name) or not _plain(file):
            return None
        try:
            with _opened(self.root / name, os.O_DIRECTORY) as folder, _opened(file, os.O_NONBLOCK, folder) as handle:
                if not stat.S_ISREG(os.fstat(handle).st_mode):
                    return None
                with os.fdopen(handle, "rb", closefd=False) as opened:
                    return opened.read(most)
        except OSError as error:
            if error.errno in _LOST:
                return None
            raise

    def leftovers(self) -> list[Leftover]:
        """Every folder whose name says that it is unfinished, oldest name first."""
        return [
            Leftover(path.name.removeprefix(_PART).partition("-")[0], path)
            for path in sorted(self.root.glob(f"{_PART}*"))
        ]

    def kept(self) -> list[str]:
        """The names of all finished folders."""
        return sorted(path.name for path in self.root.iterdir() if path.is_dir() and _plain(path.name))


def _plain(name: str) -> bool:
    return bool(name) and name == Path(name).name and not name.startswith(".")


@contextmanager
def _opened(path: Path | str, flags: int, folder: int | None = None) -> Iterator[int]:
    # Links are never followed: whoever put one there does not choose what we give out.
    handle = os.open(path, os.O_RDONLY | os.O_NOFOLLOW | os.O_CLOEXEC | flags, dir_fd=folder)
    try:
        yield handle
    finally:
        os.close(handle)


def _throw_away(path: Path) -> None:
    """Remove whatever is there, of what kind and with what rights soever; what cannot be removed stays."""
    with suppress(OSError):
        if path.is_dir() and not path.is_symlink():
            path.chmod(0o700)
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)


def _flush(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
