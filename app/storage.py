"""Files of built packs, behind a small interface; here they are kept in a local folder."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

__all__ = ["Leftover", "LocalPacks", "PackStore"]

_PART = ".part-"


@dataclass(frozen=True, slots=True)
class Leftover:
    """A folder that a build began and has not (yet) given its final name."""

    claim: str
    folder: Path


class PackStore(Protocol):
    """Where packs are kept. A pack is a flat folder of files that appears whole or not at all."""

    def begin(self, name: str, claim: str) -> Path:
        """An empty folder to write the pack `name` into, private to this `claim` and invisible to readers."""

    def seal(self, draft: Path) -> None:
        """Make the files in `draft` durable; slow, so do it before the final transaction."""

    def keep(self, draft: Path, name: str) -> None:
        """Give the sealed folder its final name in one step, in place of an older pack of that name."""

    def discard(self, draft: Path) -> None:
        """Throw an unfinished folder away."""

    def remove(self, name: str) -> None:
        """Throw a kept pack away."""

    def file(self, name: str, file: str) -> Path | None:
        """The path of one file of a kept pack, or None when there is no such file."""

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
        draft = self.root / f"{_PART}{claim}-{name}"
        shutil.rmtree(draft, ignore_errors=True)
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
        if final.exists():
            # A pack of an earlier try or an earlier build: its folder leaves whole, ours comes whole.
            final.rename(aside)
        draft.rename(final)
        _flush(self.root)
        shutil.rmtree(aside, ignore_errors=True)

    def discard(self, draft: Path) -> None:
        """Remove the folder if it is still there."""
        shutil.rmtree(draft, ignore_errors=True)

    def remove(self, name: str) -> None:
        """Remove a kept pack if it is still there."""
        if _plain(name):
            shutil.rmtree(self.root / name, ignore_errors=True)

    def file(self, name: str, file: str) -> Path | None:
        """The path of a kept file; names that reach outside the folder find nothing."""
        if not _plain(name) or not _plain(file):
            return None
        path = self.root / name / file
        return path if path.is_file() else None

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


def _flush(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
