"""A draft's sheets drawn line by line for one body, as pictures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from app.pattern.drafting import Env, Program, compiled, draw_sheets, ready
from app.pattern.drafting.playback import frame_at, frames_of
from app.pattern.drafting.shapes.changes import change_in_words
from app.pattern.drawing.playback import box_of, frame_svg
from app.pattern.problem import Problem, Refused
from app.pattern.units import Unit

__all__ = ["DrawnDraft", "draw_draft"]


@dataclass(frozen=True, slots=True)
class DrawnDraft:
    """A draft as far as it could be drawn."""

    program: Program
    env: Env

    @property
    def problems(self) -> tuple[Problem, ...]:
        """What stopped the drawing, if anything did."""
        return self.env.problems

    def picture(self, line: int) -> str:
        """The sheet that holds a line (from 1), up to it, as SVG."""
        return frame_svg(frame_at(self.env, self.program, line))

    def changes(self, line: int | None = None) -> dict[int, tuple[str, ...]]:
        """What pattern work changed in lengths (cm), by line: on all of them, or on the one last drawn up to `line`."""
        if line is not None:
            frames = [frame_at(self.env, self.program, line)]
        else:
            sheets = self.program.draft.sheets
            frames = [frame for sheet in sheets for frame in frames_of(self.env, self.program, sheet.name)]
        return {f.line: tuple(change_in_words(change, Unit.CM) for change in f.changes) for f in frames if f.changes}

    def all_pictures(self) -> dict[str, str]:
        """Every sheet line by line as SVG, by file name; the pictures of one sheet have one frame."""
        pictures: dict[str, str] = {}
        for sheet in self.program.draft.sheets:
            frames = frames_of(self.env, self.program, sheet.name)
            box = box_of(frames)
            pictures |= {f"{sheet.name}-{frame.line:04}.svg": frame_svg(frame, box) for frame in frames}
        return pictures


def draw_draft(text: str, name: str, body: Mapping[str, float], choices: Mapping[str, Any]) -> DrawnDraft | Refused:
    """Read a draft and draw it for a body (mm by ISO 8559-1 name); refused when it cannot be begun."""
    program = compiled(text, name)
    if isinstance(program, Refused):
        return program
    chosen = ready(program, body, choices)
    return chosen if isinstance(chosen, Refused) else DrawnDraft(program, draw_sheets(program, body, chosen))
