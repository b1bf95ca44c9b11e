"""What a value and a run may come to at most: nothing infinite, nothing absurdly far, nothing without end."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from app.pattern.drafting.cannot import CannotDraw
from app.pattern.drafting.env import Env
from app.pattern.drafting.kinds import Value
from app.pattern.drafting.shapes.shape import Shape, Side
from app.pattern.geometry import Path, Point

__all__ = ["FAR", "MOST_SEGMENTS", "MOST_WORK", "OutOfSteps", "sound", "spend", "work_beside", "work_of"]

_PARALLELS = ("parallel", "face", "move")  # forms that run a line beside a path and trim it
#: No point of a garment lies further from the sheet's origin, mm (50 m).
FAR = 50_000.0
#: Lines, arcs and cubics in one path; the longest of the catalogue's paths has under ten.
MOST_SEGMENTS = 400
#: Work that may be done for one body: a plain step (some 10 µs) counts 1, and so does each one in a solve's trials. The
#: catalogue's drafts need under a thousand; two solves inside one another, each settling slowly, some fifty thousand.
MOST_WORK = 300_000


class OutOfSteps(CannotDraw):
    """A run that has done all the work it may: no trial of a solve passes this over."""

    def __init__(self) -> None:
        super().__init__(
            "drafting.too-many-steps",
            "There is more to draw here for one body than any garment needs.",
            "Solve less often, or draw less inside the solves.",
        )


def spend(env: Env, work: int = 1) -> None:
    """Count the work of a step; raises `OutOfSteps` when there has been too much."""
    env.work += work
    if env.work > MOST_WORK:
        raise OutOfSteps


def work_of(form: str, parts: Sequence[object]) -> int:
    """The work of drawing `form` from these parts, in tens of µs: it grows with what its paths are made of."""
    sizes = [_size(part) for part in parts]
    total = sum(sizes)
    if form == "crossing":
        return 30 + total * total // 2
    return work_beside(total) if form.startswith(_PARALLELS) else 2 * total


def work_beside(segments: int) -> int:
    """The work of running a line beside so many lines and curves: a zigzag's loops must all be trimmed away."""
    return 40 + 4 * segments**3


def _size(part: object) -> int:
    """Lines and curves in a path or a shape; nothing for anything else."""
    if isinstance(part, Path):
        return len(part.segments)
    if isinstance(part, Shape):
        return sum(len(item.path.segments) if isinstance(item, Side) else 2 for item in part.items)
    return 0


def sound(value: Value) -> None:
    """Refuse what is not finite, lies absurdly far off (mm) or has too many parts."""
    if isinstance(value, float):
        if not (isfinite(value) and abs(value) < 1e9):
            raise CannotDraw("drafting.huge", "This comes to no finite size.", "Check the formula.")
    elif isinstance(value, Point):
        if not (abs(value.x) < FAR and abs(value.y) < FAR):
            raise CannotDraw("drafting.far", "This point lies more than 50 m away.", "Check the formula and its units.")
    elif isinstance(value, Path):
        _sound_path(value)
    elif isinstance(value, Shape):
        _sound_shape(value)


def _sound_shape(shape: Shape) -> None:
    parts = len(shape.items) + len(shape.inside)
    if parts > MOST_SEGMENTS:
        said = f"This shape has {parts} sides, darts and marks; {MOST_SEGMENTS} are the most."
        raise CannotDraw("drafting.too-many-parts", said, "Cut it up, or spread it along fewer lines.")
    for item in shape.items:
        if isinstance(item, Side):
            _sound_path(item.path)


def _sound_path(path: Path) -> None:
    if len(path.segments) > MOST_SEGMENTS:
        said = f"This path is made of {len(path.segments)} lines and curves; {MOST_SEGMENTS} are the most."
        raise CannotDraw("drafting.too-many-parts", said, "Join fewer paths.")
    if not path.length < FAR:
        raise CannotDraw("drafting.far", "This path is longer than 50 m.", "Check the formula and its units.")
    sound(path.start)
