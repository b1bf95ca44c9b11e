"""Processes that work out the units of a proof beside the shop: polite to builds, and never left behind."""

from __future__ import annotations

import ctypes
import multiprocessing
import os
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from functools import partial

from app.pattern.proof import ProofPlan, ProofUnit, UnitResult, prove_unit

__all__ = ["proving"]

#: Units handed to a core at a time: about a quarter of a second of work.
_AT_A_TIME = 8
#: How far a proof stands back behind customers' builds (see nice(2)).
_STAND_BACK = 10


@contextmanager
def proving(plan: ProofPlan, units: Sequence[ProofUnit], processes: int) -> Iterator[Iterator[UnitResult]]:
    """The results of the units, in their order, as they come; leaving the block drops what is not done yet."""
    pool = ProcessPoolExecutor(processes, multiprocessing.get_context("spawn"), _prepare, (os.getpid(),))
    try:
        yield pool.map(partial(prove_unit, plan.text, plan.name), units, chunksize=_AT_A_TIME)
    finally:
        pool.shutdown(cancel_futures=True)


def _prepare(parent: int) -> None:
    """In each process: stand back, leave signals to the parent, and end when it ends, even by a kill."""
    os.nice(_STAND_BACK)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    # Linux: prctl(PR_SET_PDEATHSIG, SIGKILL), which the standard library does not offer.
    ctypes.CDLL(None).prctl(1, signal.SIGKILL)
    if os.getppid() != parent:
        os.kill(os.getpid(), signal.SIGKILL)
