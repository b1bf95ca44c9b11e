"""Runs an example of the guide through the same stages as any draft, and draws what it gives."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.body import size_body
from app.pattern.drafting import Env, Program, compiled, draw_sheets, ready
from app.pattern.drafting.playback import Frame, frame_at
from app.pattern.drawing import piece_svg, seam_svg
from app.pattern.drawing.playback import frame_svg
from app.pattern.pieces.assemble import assemble
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Refused
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


def play_example(text: str) -> PlayedExample | Refused:
    """Read and draw a text."""
    program = compiled(text, _FILE)
    if isinstance(program, Refused):
        return program
    body = size_body(BODY_SIZE)
    chosen = ready(program, body, {})
    if isinstance(chosen, Refused):
        return chosen
    env = draw_sheets(program, body, chosen)
    return Refused(env.problems) if env.problems else PlayedExample(program, env)


def cut_example(played: PlayedExample) -> Pattern | Refused:
    """The pattern of a drawn example."""
    return assemble(played.program, played.env, Unit.CM)


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
