"""A finding of a check as plain values, with its place on the piece, so that it can be stored and drawn later."""

from __future__ import annotations

from typing import TypedDict

from app.pattern.problem import Place, Problem, Severity, Span

__all__ = ["FindingValues", "finding_values", "stops"]


class FindingValues(TypedDict):
    """A problem as JSON: check, words, and its place.

    `piece`, `edge`, `point`, and `at` in mm in the frame of the piece's sheet; `line` is that of the draft.
    """

    check: str
    severity: str
    message: str
    fix: str
    place: str
    piece: str
    edge: str
    point: str
    at: list[float] | None
    line: int | None


def finding_values(problem: Problem) -> FindingValues:
    """The problem as plain values."""
    where = problem.where
    place = where if isinstance(where, Place) else Place()
    # The line of the draft that made it: the problem's own place, or the first related line
    spans = (where for where in (problem.where, *(r.where for r in problem.related)) if isinstance(where, Span))
    return FindingValues(
        check=problem.code,
        severity=str(problem.severity),
        message=problem.message,
        fix=problem.fix,
        place=str(where) if where is not None else "",
        piece=place.piece,
        edge=place.edge,
        point=place.point,
        at=[round(value, 2) for value in place.at] if place.at is not None else None,
        line=next((span.line for span in spans), None),
    )


def stops(finding: FindingValues) -> bool:
    """True when the finding is an error: the body does not hold."""
    return finding["severity"] == Severity.ERROR
