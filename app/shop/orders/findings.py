"""What a check found, in the form in which it is kept with an order, and told to its customer."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from app.pattern.plain_words import NO_TITLES, errors_of, in_plain_words, is_told, title_of
from app.pattern.problem import Place, Problem, Severity
from app.shop.proofs.service import NOT_PROVED

__all__ = ["stored_finding", "only_not_proved", "only_outside_proof", "reason_of", "findings_for_customer"]

#: Findings that begin so say that nobody like the customer was tried, not that a check failed; they speak plainly.
_PROOF = "proof."


def stored_finding(problem: Problem) -> dict[str, Any]:
    """A problem in the form in which it is kept with the order."""
    place = problem.where if isinstance(problem.where, Place) else Place()
    return {
        "code": problem.code,
        "severity": str(problem.severity),
        "message": problem.message,
        "fix": problem.fix,
        "where": str(problem.where) if problem.where is not None else "",
        "piece": place.piece,
        "point": place.point,
        "at": list(place.at) if place.at is not None else None,
        "excerpt": problem.excerpt,
        "related": [f"{other.where}: {other.message}" if other.where else other.message for other in problem.related],
    }


def reason_of(problems: Sequence[Problem]) -> str:
    """Why an order stopped, for the designer, in words that hold none of the customer's figures.

    The findings beside it have the figures, and go when they go.
    """
    first = next(iter(errors_of(problems)), problems[0])
    (words,) = in_plain_words([first])
    title = f"{title_of(first.code)}: " if is_told(first.code) else ""
    more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
    return f"{title}{words}{more}"


def findings_for_customer(
    findings: Iterable[Mapping[str, Any]], titles: Mapping[str, str] = NO_TITLES
) -> tuple[str, ...]:
    """Findings for the customer: measurements outside the proof as they are, what stopped the pattern in plain words.

    `titles` are those of pieces, girths and notions by name.
    """
    kept = [_problem_of(found) for found in findings]
    proof = [problem.message for problem in kept if problem.code.startswith(_PROOF)]
    stops = [problem for problem in errors_of(kept) if not problem.code.startswith(_PROOF)]
    return (*dict.fromkeys(proof), *in_plain_words(stops, titles))


def _problem_of(found: Mapping[str, Any]) -> Problem:
    """A finding as it was kept, as a problem; one kept long ago may not say where it was, nor how bad."""
    place = Place(piece=str(found.get("piece", "")), point=str(found.get("point", "")))
    severity = Severity(str(found.get("severity", Severity.ERROR)))
    return Problem(
        str(found.get("code", "")), str(found.get("message", "")), str(found.get("fix", "")), place, severity
    )


def only_outside_proof(findings: Iterable[Mapping[str, Any]]) -> bool:
    """True when nothing was found but that the body lies outside the proof."""
    codes = [str(found.get("code", "")) for found in findings]
    return bool(codes) and all(code.startswith(_PROOF) for code in codes)


def only_not_proved(codes: Iterable[str]) -> bool:
    """True when nothing was found but that the design is not proved, so that her body is not unlike any other."""
    found = set(codes)
    return found == {NOT_PROVED}
