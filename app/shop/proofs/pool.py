"""Processes that work out the units of a proof beside the shop: polite to builds, bounded, and never left behind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from functools import partial
from itertools import chain

from app.base.aside import Aside, Bounds
from app.pattern.problem import Refused
from app.pattern.proof import ProofPlan, ProofUnit, UnitResult, broken_off, prove_units

__all__ = ["results_of"]

#: Units handed to a helper at a time: about a quarter of a second of work.
_AT_A_TIME = 8
#: How far a proof stands back behind customers' builds (see nice(2)), and the seconds that it may so have to wait.
_STAND_BACK, _PATIENCE = 10, 240.0


@contextmanager
def results_of(plan: ProofPlan, units: Sequence[ProofUnit], processes: int) -> Iterator[Iterator[UnitResult]]:
    """The results of the units, in their order, as they come; leaving the block drops what is not done yet.

    A unit that takes more time or memory than any garment needs counts as failing, and says so.
    """
    bounds = Bounds(patience=_PATIENCE, waiting=processes, wait=2.0 * _PATIENCE, nice=_STAND_BACK)
    lots = [units[start : start + _AT_A_TIME] for start in range(0, len(units), _AT_A_TIME)]
    helpers, threads = Aside(processes, bounds), ThreadPoolExecutor(processes, "proving")
    try:
        yield chain.from_iterable(threads.map(partial(_proved, helpers, plan), lots))
    finally:
        threads.shutdown(cancel_futures=True)
        helpers.close()


def _proved(helpers: Aside, plan: ProofPlan, lot: Sequence[ProofUnit]) -> list[UnitResult]:
    """The results of a few units; where they are broken off, of each by itself, so that the one to blame is told."""
    found = helpers.run(prove_units, plan.text, plan.name, tuple(lot))
    if not isinstance(found, Refused):
        return found
    if len(lot) == 1:
        return [broken_off(lot[0], found.problems[0])]
    return [result for unit in lot for result in _proved(helpers, plan, [unit])]
