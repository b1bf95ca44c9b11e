"""Working out the units of a proof: each through the one door, its result a plain JSON value."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypedDict

from app.pattern.problem import Problem
from app.pattern.proof.examine import examine
from app.pattern.proof.findings import FindingValues, finding_values
from app.pattern.proof.fits import FitFound
from app.pattern.proof.plan import ProofUnit

__all__ = ["UnitResult", "broken_off", "prove_unit", "prove_units"]


class UnitResult(TypedDict):
    """What one body at one setting showed, as JSON: finished girths in mm and fit places by name, and every finding."""

    fingerprint: str
    body: str
    kind: str
    setting: str
    ok: bool
    findings: list[FindingValues]
    sizes: dict[str, float]
    fits: dict[str, FitFound]


def prove_units(text: str, name: str, units: Sequence[ProofUnit]) -> list[UnitResult]:
    """The results of a few units, together."""
    return [prove_unit(text, name, unit) for unit in units]


def broken_off(unit: ProofUnit, problem: Problem) -> UnitResult:
    """What a unit that could not be worked out to its end counts as: failing, for that reason."""
    return UnitResult(
        fingerprint=unit.fingerprint,
        body=unit.body.id,
        kind=unit.body.kind,
        setting=unit.setting.name,
        ok=False,
        findings=[finding_values(problem)],
        sizes={},
        fits={},
    )


def prove_unit(text: str, name: str, unit: ProofUnit) -> UnitResult:
    """Draft, cut and check one body at one setting."""
    found = examine(text, name, unit.body.body, unit.setting.choices)
    return UnitResult(
        fingerprint=unit.fingerprint,
        body=unit.body.id,
        kind=unit.body.kind,
        setting=unit.setting.name,
        ok=found.ok,
        findings=found.findings,
        sizes=found.sizes,
        fits=found.fits,
    )
