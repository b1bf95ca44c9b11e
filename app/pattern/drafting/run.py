"""Plays a compiled draft for one body: named values in, named geometry out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.pattern.drafting.choices import choose
from app.pattern.drafting.env import Env, StepFailed
from app.pattern.drafting.kinds import Given
from app.pattern.drafting.program import Program
from app.pattern.drafting.steps import play
from app.pattern.geometry import counted
from app.pattern.problem import Place, Problem, Refused

__all__ = ["draw_sheets", "ready"]


def ready(program: Program, body: Mapping[str, float], choices: Mapping[str, Any]) -> dict[str, Given] | Refused:
    """The value of every choice, as `choose` gives it, for a body that has all that the draft needs."""
    chosen, lacking = choose(program.choices, choices), _lacking(program, body)
    if isinstance(chosen, Refused):
        return Refused((*lacking, *chosen.problems))
    return Refused(lacking) if lacking else chosen


def _lacking(program: Program, body: Mapping[str, float]) -> tuple[Problem, ...]:
    """A problem for each measurement that the draft needs and the body lacks."""
    return tuple(
        Problem(
            "body.missing",
            f"The body has no {need.name}.",
            "Measure it, or start from a size.",
            Place(point=need.name),
        )
        for need in program.draft.needs
        if need.name not in body
    )


def draw_sheets(program: Program, body: Mapping[str, float], chosen: Mapping[str, Given]) -> Env:
    """Draw every sheet for `body` (mm by ISO 8559-1 name); stops at the first step that cannot be drawn.

    What was drawn up to there can be looked at; the `problems` of what is handed back say why it went no further.
    """
    env = Env({f"body.{name}": float(value) for name, value in body.items()})
    env.values.update({f"choice.{name}": value for name, value in chosen.items()})
    try:
        with counted(env.work):
            play(program.figures, env)
            for _, steps in program.sheets:
                play(steps, env)
    except StepFailed as failed:
        env.problems = (failed.problem,)
    return env
