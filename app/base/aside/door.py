"""The door to the helpers: how many there are, who waits for one, and what becomes of one that goes beyond its bounds.

A helper is started when it is first needed and then kept: starting one takes seconds, asking it a millisecond. One that
takes too long or too much memory is ended and replaced, and whoever asked gets `BrokenOff`. Too many who ask at once
get `Busy`. Whoever asks waits in a thread: never ask inside a database transaction.
"""

from __future__ import annotations

import atexit
import logging
import os
import pickle
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from multiprocessing.connection import Connection
from pathlib import Path
from queue import Empty, LifoQueue
from typing import Any, ParamSpec, TypeVar, cast

from app.base.errors import AsideFailed, Busy
from app.pattern.problem import Place, Problem, Refused

__all__ = ["Aside", "Bounds", "BrokenOff", "run", "run_or_busy", "set_up"]

Given = ParamSpec("Given")
Answer = TypeVar("Answer")

_log = logging.getLogger(__name__)

#: Settings that the libraries' own threads go by: one thread each, since the helpers are what runs side by side.
_ONE_THREAD = dict.fromkeys(("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS"), "1")
#: Of the keeper's environment a helper sees only this: no key and no address of a database.
_SEEN = ("PATH", "HOME", "LANG", "LC_ALL", "TMPDIR", "VIRTUAL_ENV", "PYTHONHASHSEED")


@dataclass(frozen=True, slots=True)
class Bounds:
    """What one thing asked may take, and who may wait.

    `seconds` of a core and `megabytes` more than at rest for the work; `patience` seconds on a busy machine before it
    is ended all the same. `waiting` may stand in line, for `wait` seconds each. `nice` as in nice(2).
    """

    seconds: int = 15
    megabytes: int = 400
    patience: float = 45.0
    waiting: int = 24
    wait: float = 20.0
    most_bytes: int = 32 * 1024 * 1024
    nice: int = 0


#: Stands for the exit status of a helper that was ended because nobody could wait for it any longer.
_BY_THE_CLOCK = 1000


@dataclass(frozen=True, slots=True)
class BrokenOff(Refused):
    """Work that a helper did not bring to its end, apart from what the work itself refuses."""


class _HelperEnded(Exception):
    """A helper ended while it worked; its exit status."""


class _Helper:
    """One process, and the pipe to it."""

    def __init__(self, bounds: Bounds) -> None:
        here, there = socket.socketpair()
        root = str(Path(__file__).parents[3])
        path = os.pathsep.join([root, *filter(None, [os.environ.get("PYTHONPATH")])])
        seen = {name: os.environ[name] for name in _SEEN if name in os.environ}
        words = (os.getpid(), there.fileno(), bounds.seconds, bounds.megabytes, bounds.nice)
        with there:
            self._process = subprocess.Popen(
                [sys.executable, "-m", "app.base.aside.helper", *map(str, words)],
                stdin=subprocess.DEVNULL,
                env={**seen, **_ONE_THREAD, "PYTHONPATH": path},
                pass_fds=[there.fileno()],
            )
        self._pipe: Connection[bytes, bytes] = Connection(here.detach())
        self._bounds = bounds
        self._get_ready()

    def _get_ready(self) -> None:
        """Wait until it has imported what it needs: that takes seconds, and none of those of the work."""
        try:
            if self._pipe.poll(_START):
                self._pipe.recv_bytes()
                return
        except (EOFError, OSError):
            pass
        raise Busy(f"a helper did not start (it ended with {self.end()})")

    @property
    def pid(self) -> int:
        """The number of the process."""
        return self._process.pid

    def ask(self, asked: bytes) -> tuple[str, bool, bytes]:
        """What became of it, whether the helper is used up, and the answer, pickled; raises `_HelperEnded`."""
        try:
            self._pipe.send_bytes(asked)
            if not self._pipe.poll(self._bounds.patience):
                self.end()
                raise _HelperEnded(_BY_THE_CLOCK)
            sort, full = pickle.loads(self._pipe.recv_bytes())
            return sort, full, self._pipe.recv_bytes(self._bounds.most_bytes)
        except (EOFError, OSError):
            raise _HelperEnded(self.end()) from None

    def alive(self) -> bool:
        """True while the process runs."""
        return self._process.poll() is None

    def end(self) -> int:
        """End the process for good; its exit status."""
        self._process.kill()
        self._pipe.close()
        return self._process.wait()


class Aside:
    """A few helpers and the line before them; safe under many threads."""

    def __init__(self, helpers: int, bounds: Bounds = Bounds(), *, left: int = 0) -> None:
        """Nothing is started yet. `helpers` is how many there are at most, `left` how many of them `run` leaves."""
        self.helpers, self.bounds = helpers, bounds
        self._free: LifoQueue[_Helper | None] = LifoQueue()
        for _ in range(helpers):
            self._free.put(None)
        self._line = threading.BoundedSemaphore(bounds.waiting)
        self._finders = threading.BoundedSemaphore(max(1, helpers - left))
        self._asked: dict[bytes, Future[Any]] = {}
        self._lock = threading.Lock()
        # A helper dies with the thread that started it (PR_SET_PDEATHSIG): one thread, which stays, starts them all.
        self._keeper = ThreadPoolExecutor(1, "aside")

    def run(self, work: Callable[Given, Answer], *args: Given.args, **named: Given.kwargs) -> Answer | Refused:
        """What `work` (a function of a module) gives for these values, or `BrokenOff` when it did not come to its end.

        For a designer, who can mend what she wrote. Raises `Busy` when no helper was free in time.
        """
        if not self._finders.acquire(timeout=self.bounds.wait):
            raise Busy("no helper was free for a draft in time")
        try:
            return cast("Answer | Refused", self._once(partial(work, *args, **named)))
        finally:
            self._finders.release()

    def run_or_busy(self, work: Callable[Given, Answer], *args: Given.args, **named: Given.kwargs) -> Answer:
        """The same for a customer, who can mend nothing: raises `Busy` also when it was not worked out to its end."""
        answer = self._once(partial(work, *args, **named))
        if isinstance(answer, BrokenOff):
            raise Busy(answer.problems[0].message)
        return cast("Answer", answer)

    def close(self) -> None:
        """End the helpers that are free; those at work end with this process."""
        free = [self._free.get_nowait() for _ in range(self._free.qsize())]
        for helper in free:
            if helper is not None:
                helper.end()
            self._free.put(None)

    def _once(self, work: Callable[[], Any]) -> Any:
        """Work out what is asked; of several who ask the same at the same time one does, and the others share it."""
        asked = pickle.dumps(work, pickle.HIGHEST_PROTOCOL)
        with self._lock:
            shared = self._asked.get(asked)
            if shared is None:
                mine = self._asked[asked] = Future()
        if shared is not None:
            return shared.result()
        try:
            mine.set_result(self._in_turn(asked))
        except BaseException as error:  # noqa: BLE001 - those who share the work share what became of it
            mine.set_exception(error)
        finally:
            with self._lock:
                del self._asked[asked]
        return mine.result()

    def _in_turn(self, asked: bytes) -> Any:
        if not self._line.acquire(blocking=False):
            raise Busy("too many wait for a helper")
        try:
            helper = self._free.get(timeout=self.bounds.wait)
        except Empty:
            raise Busy("no helper was free in time") from None
        finally:
            self._line.release()
        try:
            if helper is None or not helper.alive():
                helper = self._keeper.submit(_Helper, self.bounds).result()
            answer, used_up = self._worked_out(helper, asked)
            if used_up:
                helper.end()
                helper = None
            return answer
        except BaseException:
            if helper is not None and not helper.alive():
                helper = None
            raise
        finally:
            self._free.put(helper)

    def _worked_out(self, helper: _Helper, asked: bytes) -> tuple[Any, bool]:
        """The value or `BrokenOff`, and whether the helper has had its day."""
        try:
            sort, full, answer = helper.ask(asked)
        except _HelperEnded as ended:
            _log.warning("helper %d was ended at its work (%s)", helper.pid, ended.args[0])
            return self._broken_off(ended.args[0]), True
        if sort == "raised":
            raise AsideFailed(pickle.loads(answer))
        return self._broken_off() if sort == "beyond" else pickle.loads(answer), full

    def _broken_off(self, status: int | None = None) -> BrokenOff:
        """What is told of work that ended its helper with this status, or that went beyond its memory."""
        code = "aside.too-long"
        if status == -signal.SIGXCPU:
            said = f"Working this draft out took longer than {self.bounds.seconds} seconds, so it was broken off."
        elif status == _BY_THE_CLOCK:
            said = (
                f"Working this draft out took longer than {self.bounds.patience:g} seconds by the clock, so it was "
                "broken off: the machine is busy just now, or the draft asks much of it."
            )
        else:
            code = "aside.too-large"
            said = (
                f"Working this draft out took more memory than it may ({self.bounds.megabytes} MB): it was broken off."
            )
        return BrokenOff((Problem(code, said, _SMALLER, Place()),))


#: Seconds in which a helper must have started, on however busy a machine.
_START = 60.0
#: What a designer can do about it.
_SMALLER = "Try again; if it happens again, take out what was added last, and draw less in repeats and solves."
#: Of several helpers one is always left to customers, whatever designers' drafts are up to.
_aside = Aside(2, left=1)


def set_up(helpers: int) -> None:
    """How many helpers this process may have at most; for its start, before any is asked."""
    global _aside
    if helpers != _aside.helpers:
        _aside.close()
        _aside = Aside(helpers, left=1)


@atexit.register
def _close() -> None:
    _aside.close()


def run(work: Callable[Given, Answer], *args: Given.args, **named: Given.kwargs) -> Answer | Refused:
    """`Aside.run` of this process's helpers."""
    return _aside.run(work, *args, **named)


def run_or_busy(work: Callable[Given, Answer], *args: Given.args, **named: Given.kwargs) -> Answer:
    """`Aside.run_or_busy` of this process's helpers."""
    return _aside.run_or_busy(work, *args, **named)
