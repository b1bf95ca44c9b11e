"""How much memory this process has, and how much it may take."""

from __future__ import annotations

import resource
from pathlib import Path

__all__ = ["MB", "bound_memory", "memory"]

MB = 1024 * 1024


def bound_memory(megabytes: int) -> None:
    """Let this process take so much memory more than it has now; whatever asks for more gets a `MemoryError`."""
    most = memory("VmData") + megabytes * MB
    resource.setrlimit(resource.RLIMIT_DATA, (most, most))


def memory(row: str) -> int:
    """A figure of this process's memory in bytes, by its name in /proc/self/status (see proc(5))."""
    rows = Path("/proc/self/status").read_text("ascii").splitlines()
    return next((int(words.split()[1]) * 1024 for words in rows if words.startswith(row + ":")), 0)
