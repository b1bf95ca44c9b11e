"""Files of built packs, behind a small interface; here they are kept in a local folder."""

from __future__ import annotations

import os
import shutil
from collections.abc import Container
from pathlib import Path
from typing import Protocol

__all__ = ["LocalPacks", "PackStore"]

_PART = ".part-"


class PackStore(Protocol):
    """Where packs are kept. A pack is a flat folder of files that appears whole or not at all."""

    def begin(self, name: str, claim: str) -> Path:
        """An empty folder to write the pack `name` into, private to this `claim` and invisible to readers."""

    def keep(self, draft: Path, name: str) -> None:
        """Make the files in `draft` durable and give the folder its final name, in one step."""

    def discard(self, draft: Path) -> None:
        """Throw an unfinished folder away."""

    def file(self, name: str, file: str) -> Path | None:
        """The path of one file of a kept pack, or None when there is no such file."""

    def sweep(self, live_claims: Container[str]) -> list[str]:
        """Throw away unfinished folders whose claim is no longer live; returns their names."""


class LocalPacks:
    """A `PackStore` in one folder of this machine (or of a disk that all workers share)."""

    def __init__(self, root: Path) -> None:
        """Keep packs under `root`, made if it is missing."""
        self.root = root
        root.mkdir(parents=True, exist_ok=True)

    def begin(self, name: str, claim: str) -> Path:
        """An empty private folder for this claim."""
        draft = self.root / f"{_PART}{claim}-{name}"
        shutil.rmtree(draft, ignore_errors=True)
        draft.mkdir()
        return draft

    def keep(self, draft: Path, name: str) -> None:
        """Flush every file and the folder to disk, then rename the folder to its final name."""
        for path in sorted(draft.iterdir()):
            _flush(path)
        _flush(draft)
        final = self.root / name
        if final.exists():
            # An earlier try got as far as the rename. Same name, same inputs: move it aside whole, put ours in place.
            final.rename(draft.with_name(f"{draft.name}.old"))
        draft.rename(final)
        _flush(self.root)
        shutil.rmtree(draft.with_name(f"{draft.name}.old"), ignore_errors=True)

    def discard(self, draft: Path) -> None:
        """Remove the folder if it is still there."""
        shutil.rmtree(draft, ignore_errors=True)

    def file(self, name: str, file: str) -> Path | None:
        """The path of a kept file; names that reach outside the folder find nothing."""
        if not _plain(name) or not _plain(file):
            return None
        path = self.root / name / file
        return path if path.is_file() else None

    def sweep(self, live_claims: Container[str]) -> list[str]:
        """Remove unfinished folders left by builds that no longer run."""
        removed = []
        for path in sorted(self.root.glob(f"{_PART}*")):
            if path.name.removeprefix(_PART).partition("-")[0] not in live_claims:
                shutil.rmtree(path, ignore_errors=True)
                removed.append(path.name)
        return removed


def _plain(name: str) -> bool:
    return bool(name) and name == Path(name).name and not name.startswith(".")


def _flush(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
