"""Plays a compiled draft for one body: named values in, named geometry out."""

from __future__ import annotations

from collections.abc import Mapping

from app.pattern.drafting.env import Env, StepFailed
from app.pattern.drafting.kinds import Given
from app.pattern.drafting.program import Program
from app.pattern.drafting.steps import play
from app.pattern.geometry import counted
from app.pattern.problem import Place, Problem

__all__ = ["draw_sheets", "missing"]


def missing(program: Program, body: Mapping[str, float]) -> list[Problem]:
    """A problem for each measurement that the draft needs and the body lacks."""
    return [
        Problem(
            "body.missing",
            f"The body has no {need.name}.",
            "Measure it, or start from a size.",
            Place(point=need.name),
        )
        for need in program.draft.needs
        if need.name not in body
    ]


def draw_sheets(
    program: Program, body: Mapping[str, float], chosen: Mapping[str, Given]
) -> tuple[Env, tuple[Problem, ...]]:
    """Draw every sheet for `body` (mm by ISO 8559-1 name); stops at the first step that cannot be drawn."""
    env = Env({f"body.{name}": float(value) for name, value in body.items()})
    env.values.update({f"choice.{name}": value for name, value in chosen.items()})
    try:
        with counted(env.work):
            play(program.figures, env)
            for _, steps in program.sheets:
                play(steps, env)
    except StepFailed as failed:
        return env, (failed.problem,)
    return env, ()
