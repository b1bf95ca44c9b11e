"""Runs an example of the guide through the same stages as any draft, and draws what it gives."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.body import size_body
from app.pattern.drafting import Env, Program, choose, compiled, draw_sheets
from app.pattern.drafting.playback import Frame, frame_at
from app.pattern.drawing import piece_svg, seam_svg
from app.pattern.drawing.playback import frame_svg
from app.pattern.pieces.assemble import assemble
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, has_errors
from app.pattern.units import Unit

__all__ = [
    "BODY_SIZE",
    "PlayedExample",
    "cut_example",
    "piece_drawing",
    "play_example",
    "seam_drawing",
    "sheet_drawing",
]

#: The body that examples are drawn for, by bust girth in cm.
BODY_SIZE = "92"
_FILE = "guide.draft"


@dataclass(frozen=True, slots=True)
class PlayedExample:
    """A draft drawn for the guide's body."""

    program: Program
    env: Env


def play_example(text: str) -> PlayedExample | tuple[Problem, ...]:
    """Read and draw a text; its problems when it has any."""
    program = compiled(text, _FILE)
    if not isinstance(program, Program):
        return program
    chosen, wrong = choose(program.choices, {})
    env, failed = draw_sheets(program, size_body(BODY_SIZE), chosen)
    return (*wrong, *failed) or PlayedExample(program, env)


def cut_example(played: PlayedExample) -> Pattern | tuple[Problem, ...]:
    """The pattern of a drawn example; its problems when it cannot be cut."""
    pattern, problems = assemble(played.program, played.env, Unit.CM)
    return problems if pattern is None or has_errors(problems) else pattern


def sheet_drawing(played: PlayedExample, line: int) -> tuple[Frame, str]:
    """The sheet up to a line (from 1), and its picture."""
    frame = frame_at(played.env, played.program, line)
    return frame, frame_svg(frame)


def piece_drawing(pattern: Pattern) -> str:
    """The first piece as it is cut."""
    return piece_svg(pattern.pieces[0])


def seam_drawing(pattern: Pattern) -> str:
    """The first seam, as the instructions show it."""
    return seam_svg(pattern, pattern.seams[0])
