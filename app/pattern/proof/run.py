"""Runs a draft over many bodies on all cores and says which hold, which fail at which check, and what they measure."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Any

from app.pattern.drafting.advice import advice_of
from app.pattern.problem import Problem, Refused, Severity
from app.pattern.proof.examine import examine, in_order
from app.pattern.settled import settle

__all__ = ["BodyProof", "Failure", "ProofReport", "ProofSubject", "WarningCount", "prove", "report_values"]


@dataclass(frozen=True, slots=True)
class ProofSubject:
    """What is proved: a draft's text, its file name for messages, and the choices that are settled for it."""

    text: str
    name: str
    choices: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Failure:
    """One check that did not hold, in words, with its place."""

    check: str
    severity: str
    message: str
    fix: str
    place: str


@dataclass(frozen=True, slots=True)
class BodyProof:
    """What one body showed: did everything hold, what did not, and the finished girths in mm by name."""

    id: str
    ok: bool
    failures: tuple[Failure, ...]
    sizes: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class WarningCount:
    """One warning by its name (check, and the place that it is about), with the bodies that have it and an example."""

    check: str
    about: str
    bodies: tuple[str, ...]
    example: Failure


@dataclass(frozen=True, slots=True)
class ProofReport:
    """A whole proof, in the order of the bodies; `advice` is what the draft leaves unsaid for all of them."""

    draft: str
    bodies: tuple[BodyProof, ...]
    advice: tuple[Problem, ...] = ()

    @property
    def passed(self) -> int:
        """How many bodies hold."""
        return sum(body.ok for body in self.bodies)

    def by_check(self) -> Mapping[str, int]:
        """How many bodies fail at each check."""
        return Counter(check for body in self.bodies for check in sorted({f.check for f in body.failures if _stops(f)}))

    def failing(self, check: str) -> list[str]:
        """The ids of the bodies that fail at a check."""
        return [body.id for body in self.bodies if any(f.check == check and _stops(f) for f in body.failures)]

    def warnings(self) -> tuple[WarningCount, ...]:
        """Every warning, that of the most bodies first."""
        found: dict[tuple[str, str], dict[str, Failure]] = defaultdict(dict)
        for body in self.bodies:
            for failure in body.failures:
                if not _stops(failure):
                    found[failure.check, failure.place].setdefault(body.id, failure)
        counts = (WarningCount(*name, tuple(by), next(iter(by.values()))) for name, by in found.items())
        return tuple(sorted(counts, key=lambda one: (-len(one.bodies), one.check, one.about)))


def _stops(failure: Failure) -> bool:
    return failure.severity == Severity.ERROR


def prove(
    subject: ProofSubject,
    bodies: Sequence[tuple[str, Mapping[str, float]]],
    processes: int,
    progress: Callable[[int], None],
) -> ProofReport | Refused:
    """Prove `subject` on `bodies`, (id, measurements in mm) each; `progress` hears how many are done.

    A draft that cannot be read, or cannot be settled so, is refused.
    """
    held = settle(subject.text, subject.name, subject.choices)
    if isinstance(held, Refused):
        return held
    done: list[BodyProof] = []
    for proof in in_order(partial(prove_one, subject), bodies, processes):
        done.append(proof)
        progress(len(done))
    return ProofReport(subject.name, tuple(done), advice_of(held.program))


def prove_one(subject: ProofSubject, named: tuple[str, Mapping[str, float]]) -> BodyProof:
    """Draft and check one body."""
    name, body = named
    found = examine(subject.text, subject.name, body, subject.choices)
    failures = (Failure(f["check"], f["severity"], f["message"], f["fix"], f["place"]) for f in found.findings)
    return BodyProof(name, found.ok, tuple(failures), found.sizes)


def report_values(report: ProofReport) -> dict[str, Any]:
    """The report as plain values for JSON: totals, then a row for each body."""
    return {
        "draft": report.draft,
        "bodies": len(report.bodies),
        "passed": report.passed,
        "failed_checks": dict(report.by_check()),
        "warnings": [
            {"check": one.check, "about": one.about, "bodies": len(one.bodies), "message": one.example.message}
            for one in report.warnings()
        ],
        "advice": [{"check": one.code, "message": one.message, "fix": one.fix} for one in report.advice],
        "rows": [
            {
                "id": body.id,
                "ok": body.ok,
                "finished_mm": dict(body.sizes),
                "findings": [
                    {"check": f.check, "severity": f.severity, "message": f.message, "fix": f.fix, "place": f.place}
                    for f in body.failures
                ],
            }
            for body in report.bodies
        ],
    }
