"""A drawing up to any line: what a played draft had on one sheet of paper when a line had just been drawn."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.drafting.env import Env, TraceEntry
from app.pattern.drafting.kinds import DartShape
from app.pattern.drafting.program import Program
from app.pattern.drafting.shapes.shape import Change, Shape
from app.pattern.geometry import Path, Point

__all__ = ["Frame", "Shown", "drawing_lines", "frame_at", "frames_of"]

Drawn = Point | Path | DartShape | Shape


@dataclass(frozen=True, slots=True)
class Shown:
    """One thing on the sheet (mm, y up) with the line that drew it; `newest` when that is the frame's own line."""

    name: str
    what: Drawn
    line: int
    newest: bool


@dataclass(frozen=True, slots=True)
class Frame:
    """A sheet as it stood after a line: the newest things first, older ones after them in the order of drawing.

    `words` is the line as written. `measures` are the lengths (mm), angles (radians) and
    numbers that the line gave, by name. `changes` are the lengths that its pattern work changed.
    """

    sheet: str
    line: int
    words: str
    things: tuple[Shown, ...]
    measures: tuple[tuple[str, float], ...] = ()
    changes: tuple[Change, ...] = ()

    @property
    def points(self) -> tuple[Shown, ...]:
        """The points on the sheet."""
        return tuple(thing for thing in self.things if isinstance(thing.what, Point))

    @property
    def paths(self) -> tuple[Shown, ...]:
        """The lines and curves on the sheet."""
        return tuple(thing for thing in self.things if isinstance(thing.what, Path))

    @property
    def darts(self) -> tuple[Shown, ...]:
        """The darts on the sheet."""
        return tuple(thing for thing in self.things if isinstance(thing.what, DartShape))

    @property
    def shapes(self) -> tuple[Shown, ...]:
        """The shapes traced off the sheet."""
        return tuple(thing for thing in self.things if isinstance(thing.what, Shape))


def frame_at(env: Env, program: Program, line: int) -> Frame:
    """The sheet that holds `line`, drawn up to it; between two steps, as the one before left it.

    A line before the first sheet gives the first sheet, empty.
    """
    # The sheet a line stands in, or the last that began before it
    sheets = program.draft.sheets
    begun = [sheet.name for sheet in sheets if sheet.span.line <= line]
    sheet = begun[-1] if begun else sheets[0].name if sheets else ""
    prefix = f"sheet {sheet}."
    drawn = [step for step in env.trace if step.key.startswith(prefix) and step.line <= line]
    last = max((step.line for step in drawn), default=line)
    latest = {step.key: step for step in drawn}
    kept = [step for step in drawn if step.line == last or latest[step.key] is step]
    shown = [_shown(step, prefix, last) for step in kept if isinstance(step.value, Drawn)]
    fresh = [(s.key.removeprefix(prefix), s.value) for s in kept if s.line == last]
    measures = tuple((name, value) for name, value in fresh if isinstance(value, float))
    things = (*(s for s in shown if s.newest), *(s for s in shown if not s.newest))
    rows = program.source.rows
    words = rows[last - 1].strip() if last <= len(rows) else ""
    # What is in the logs of the line's shapes and in none drawn before it
    told = {id(change) for step in drawn if step.line < last for change in _log(step)}
    found: list[Change] = []
    for step in drawn:
        if step.line == last:
            found += [change for change in _log(step) if id(change) not in told]
            told |= {id(change) for change in found}
    return Frame(sheet, last, words, things, measures, tuple(found))


def _log(step: TraceEntry) -> tuple[Change, ...]:
    return step.value.log if isinstance(step.value, Shape) else ()


def _shown(step: TraceEntry, prefix: str, last: int) -> Shown:
    if not isinstance(step.value, Drawn):
        raise TypeError(f"{step.key} is nothing that is drawn")
    return Shown(step.key.removeprefix(prefix), step.value, step.line, step.line == last)


def drawing_lines(env: Env, sheet: str) -> tuple[int, ...]:
    """The lines of a sheet that drew or measured something, in order."""
    prefix = f"sheet {sheet}."
    return tuple(sorted({step.line for step in env.trace if step.key.startswith(prefix)}))


def frames_of(env: Env, program: Program, sheet: str) -> tuple[Frame, ...]:
    """A sheet's drawing, line by line."""
    return tuple(frame_at(env, program, line) for line in drawing_lines(env, sheet))
