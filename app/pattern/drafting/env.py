"""Where values live while a draft is played for one body."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.kinds import DartShape, Value
from app.pattern.geometry import Path, Point, WorkLimit
from app.pattern.problem import Problem

__all__ = ["MOST_WORK", "Env", "Run", "RunEnded", "Step", "StepFailed", "TraceEntry"]

#: Work that may be done for one body, in units of some 10 µs (see `geometry.work`): a plain step counts 1, curves by
#: what they are made of, and so does each trial of a solve. No draft of the catalogue needs a tenth of it.
MOST_WORK = 100_000


def _no_width(piece: str, at: Point) -> float:
    raise CannotDraw(
        "drafting.width", f"The piece {piece} is measured before it is cut.", "Measure on the sheet instead."
    )


@dataclass(frozen=True, slots=True)
class TraceEntry:
    """One name as it was drawn: in which order, on which line."""

    key: str
    line: int
    value: Value


@dataclass(slots=True)
class Env:
    """The values of one run: by key (`body.bust_girth`, `choice.ease`, `sheet.name`), and the cut edges.

    `edges` holds paths and darts by `piece.edge` once pieces are cut, and `taken_in` what
    pleats fold away of them, mm; `width` measures a piece at a point's height, mm. `work`
    counts what has been done so far; `problems` say where the drawing stopped, if it did.
    """

    values: dict[str, Value]
    edges: dict[str, Path | DartShape] = field(default_factory=dict)
    taken_in: dict[str, float] = field(default_factory=dict)
    width: Callable[[str, Point], float] = _no_width
    trace: list[TraceEntry] = field(default_factory=list)
    work: WorkLimit = field(default_factory=lambda: WorkLimit(MOST_WORK))
    problems: tuple[Problem, ...] = ()

    def body(self, asked: Iterable[str]) -> dict[str, float]:
        """Those of the measurements that the body has, mm."""
        found = ((name, self.values.get(f"body.{name}")) for name in asked)
        return {name: value for name, value in found if isinstance(value, float)}


Run = Callable[[Env], Value]
Step = Callable[[Env], None]


class StepFailed(Exception):
    """A step that could not be drawn, carrying the Problem; caught at the end of the run."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


class RunEnded(StepFailed):
    """A failure that ends the whole run: trying a solve with another value would not help."""
