"""A measurement of the body that a pattern is cut for: as it was taken, or as those that were taken tell it."""

from __future__ import annotations

from app.pattern.body import likely
from app.pattern.drafting import Env, Program

__all__ = ["told_of_body"]


def told_of_body(program: Program, env: Env, measure: str) -> tuple[float, float]:
    """A measurement in mm and how far the true one may stray from it (mm, standard deviation; 0 where it was taken).

    The draft must not be for children unless it asks for the measure or the stature: compiling it sees to that.
    """
    if taken := env.body((measure,)):
        return taken[measure], 0.0
    asked = tuple(need.name for need in program.draft.needs)
    told, body = likely(program.draft.group, asked, measure), env.body(asked)
    return told.of(body), told.spread(body)
