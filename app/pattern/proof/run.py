"""Runs a draft over many bodies on all cores and says which hold, which fail at which check, and what they measure."""

from __future__ import annotations

import multiprocessing
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from typing import Any

from app.pattern.make import Refused, make_pattern, read_draft
from app.pattern.problem import Place, Problem, Severity

__all__ = ["BodyProof", "Failure", "ProofReport", "Subject", "prove", "report_values"]

_SHARE = 8  # bodies handed to a core at a time: few enough for an even load, many enough to keep it busy


@dataclass(frozen=True, slots=True)
class Subject:
    """What is proved: a draft's text, its file name for messages, and the choices made."""

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
class ProofReport:
    """A whole proof, in the order of the bodies."""

    draft: str
    bodies: tuple[BodyProof, ...]

    @property
    def passed(self) -> int:
        """How many bodies hold."""
        return sum(body.ok for body in self.bodies)

    def by_check(self) -> Mapping[str, int]:
        """How many bodies fail at each check."""
        return Counter(check for body in self.bodies for check in sorted({f.check for f in body.failures if _stops(f)}))


def _stops(failure: Failure) -> bool:
    return failure.severity == Severity.ERROR


def prove(
    subject: Subject,
    bodies: Sequence[tuple[str, Mapping[str, float]]],
    processes: int,
    progress: Callable[[int], None],
) -> ProofReport | tuple[Problem, ...]:
    """Prove `subject` on `bodies`, (id, measurements in mm) each; `progress` hears how many are done.

    A draft that cannot be read comes back as its problems. One process works in this
    one; more are started fresh, so that the figures do not depend on what ran before.
    """
    card = read_draft(subject.text, subject.name)
    if isinstance(card, tuple):
        return card
    done: list[BodyProof] = []
    for proof in _proofs(subject, bodies, processes):
        done.append(proof)
        progress(len(done))
    return ProofReport(subject.name, tuple(done))


def _proofs(subject: Subject, bodies: Iterable[tuple[str, Mapping[str, float]]], processes: int) -> Iterator[BodyProof]:
    if processes <= 1:
        yield from (prove_one(subject, named) for named in bodies)
        return
    with ProcessPoolExecutor(processes, multiprocessing.get_context("spawn")) as pool:
        yield from pool.map(partial(prove_one, subject), bodies, chunksize=_SHARE)


def prove_one(subject: Subject, named: tuple[str, Mapping[str, float]]) -> BodyProof:
    """Draft and check one body."""
    name, body = named
    made = make_pattern(subject.text, subject.name, body, subject.choices)
    refused = isinstance(made, Refused)
    problems = made.problems if isinstance(made, Refused) else made.findings
    girths = made.pattern.girths if made.pattern is not None else ()
    sizes = {girth.name: round(girth.measured, 3) for girth in girths}
    return BodyProof(name, not refused, tuple(_failure(p) for p in problems), sizes)


def _failure(problem: Problem) -> Failure:
    where = problem.where
    place = str(where) if isinstance(where, Place) or where is not None else ""
    return Failure(problem.code, str(problem.severity), problem.message, problem.fix, place)


def report_values(report: ProofReport) -> dict[str, Any]:
    """The report as plain values for JSON: totals, then a row for each body."""
    return {
        "draft": report.draft,
        "bodies": len(report.bodies),
        "passed": report.passed,
        "failed_checks": dict(report.by_check()),
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
