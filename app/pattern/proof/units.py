"""Working out the units of a proof: each through the one door, its result a plain JSON value."""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from typing import TypedDict

from app.pattern.make import Refused, make_pattern
from app.pattern.proof.findings import FindingValues, finding_values
from app.pattern.proof.plan import ProofPlan, ProofUnit

__all__ = ["UnitResult", "prove_unit", "run_units"]

#: Units handed to a core at a time: few enough for an even load, many enough to keep it busy.
_AT_A_TIME = 16


class UnitResult(TypedDict):
    """What one body at one setting showed, as JSON: finished girths in mm by name, and every finding."""

    fingerprint: str
    body: str
    kind: str
    setting: str
    ok: bool
    findings: list[FindingValues]
    sizes: dict[str, float]


def run_units(plan: ProofPlan, units: Sequence[ProofUnit], processes: int = 1) -> Iterator[UnitResult]:
    """The results of some units of a plan, in their order, as they come; stop reading at any time and go on later.

    One process works in this one; more are started fresh, so that the figures do not
    depend on what ran before.
    """
    work = partial(prove_unit, plan.text, plan.name)
    if processes <= 1:
        yield from map(work, units)
        return
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn")) as pool:
        yield from pool.map(work, units, chunksize=_AT_A_TIME)


def prove_unit(text: str, name: str, unit: ProofUnit) -> UnitResult:
    """Draft, cut and check one body at one setting."""
    made = make_pattern(text, name, unit.body.body, unit.setting.choices)
    problems = made.problems if isinstance(made, Refused) else made.findings
    girths = made.pattern.girths if made.pattern is not None else ()
    return UnitResult(
        fingerprint=unit.fingerprint,
        body=unit.body.id,
        kind=unit.body.kind,
        setting=unit.setting.name,
        ok=not isinstance(made, Refused),
        findings=[finding_values(problem) for problem in problems],
        sizes={girth.name: round(girth.measured, 3) for girth in girths},
    )
