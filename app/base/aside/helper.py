"""A helper: a process that works out what it is asked, within bounds of time and memory, and ends with its parent.

`python -m app.base.aside.helper PARENT PIPE SECONDS MEGABYTES NICE` is how the door starts one.
"""

from __future__ import annotations

import ctypes
import os
import pickle
import resource
import signal
import sys
import traceback
from multiprocessing.connection import Connection
from time import process_time

# What every draft needs is there before the first one comes: its time and memory are for the draft alone.
from app.base.aside.memory import MB, bound_memory, memory
from app.pattern import lay, make  # noqa: F401

__all__ = ["main"]

#: A helper that has kept more than this share of its memory is replaced: the next one starts afresh.
_FULL = 0.5


def main(words: list[str]) -> None:
    """Answer what comes down the pipe until it is closed."""
    parent, pipe, seconds, megabytes, nice = map(int, words)
    _tied_to(parent)
    os.nice(nice)
    least = memory("VmRSS")
    bound_memory(megabytes)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    connection: Connection[bytes, bytes] = Connection(pipe)
    connection.send_bytes(b"ready")
    while True:
        try:
            asked = connection.recv_bytes()
        except (EOFError, OSError):
            return
        _, hard = resource.getrlimit(resource.RLIMIT_CPU)
        resource.setrlimit(resource.RLIMIT_CPU, (int(process_time()) + seconds + 1, hard))
        sort, answer = _answered(asked)
        full = sort == "beyond" or memory("VmRSS") - least > _FULL * megabytes * MB
        connection.send_bytes(pickle.dumps((sort, full)))
        connection.send_bytes(answer)


def _tied_to(parent: int) -> None:
    """Leave signals to the parent, and end when it ends, even by a kill."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    # Linux: prctl(PR_SET_PDEATHSIG, SIGKILL), which the standard library does not offer.
    ctypes.CDLL(None).prctl(1, signal.SIGKILL)
    if os.getppid() != parent:
        os.kill(os.getpid(), signal.SIGKILL)


def _answered(asked: bytes) -> tuple[str, bytes]:
    """What became of it ("value", "beyond" or "raised"), and the value or the words for it, pickled."""
    try:
        work = pickle.loads(asked)
        return "value", pickle.dumps(work(), pickle.HIGHEST_PROTOCOL)
    except (MemoryError, RecursionError):
        return "beyond", pickle.dumps(None)
    except Exception:  # noqa: BLE001 - whatever the work trips over is told to who asked, and the helper goes on
        return "raised", pickle.dumps(traceback.format_exc(limit=-6))


if __name__ == "__main__":
    main(sys.argv[1:])
