"""What a check found, in the form in which it is kept with an order, and told to its customer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from app.orders.plain_words import in_plain_words
from app.pattern.problem import Problem, Span

__all__ = ["finding", "outside_the_proof", "told_plainly"]

#: Findings that begin so say that nobody like the customer was tried, not that a check failed; they speak plainly.
_PROOF = "proof."


def finding(problem: Problem) -> dict[str, Any]:
    """A problem in the form in which it is kept with the order."""
    at = problem.where.at if problem.where is not None and not isinstance(problem.where, Span) else None
    return {
        "code": problem.code,
        "severity": str(problem.severity),
        "message": problem.message,
        "fix": problem.fix,
        "where": str(problem.where) if problem.where is not None else "",
        "at": list(at) if at is not None else None,
        "excerpt": problem.excerpt,
        "related": [f"{other.where}: {other.message}" if other.where else other.message for other in problem.related],
    }


def told_plainly(findings: Iterable[Mapping[str, Any]]) -> tuple[str, ...]:
    """Findings for the customer: measurements outside the proof as they are, whatever a check found in plain words."""
    kept = list(findings)
    proof = [str(found.get("message", "")) for found in kept if str(found.get("code", "")).startswith(_PROOF)]
    codes = [str(found.get("code", "")) for found in kept]
    return (*dict.fromkeys(proof), *in_plain_words(code for code in codes if not code.startswith(_PROOF)))


def outside_the_proof(findings: Iterable[Mapping[str, Any]]) -> bool:
    """True when nothing was found but that the body lies outside the proof."""
    codes = [str(found.get("code", "")) for found in findings]
    return bool(codes) and all(code.startswith(_PROOF) for code in codes)
