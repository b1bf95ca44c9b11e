"""What a value and a run may come to at most: nothing infinite, nothing absurdly far, nothing without end."""

from __future__ import annotations

from math import isfinite

from app.pattern.drafting.cannot import CannotDraw
from app.pattern.drafting.env import Env
from app.pattern.drafting.kinds import Value
from app.pattern.drafting.shapes.shape import Shape, Side
from app.pattern.geometry import Path, Point

__all__ = ["FAR", "MOST_SEGMENTS", "MOST_STEPS", "OutOfSteps", "sound", "spend"]

#: No point of a garment lies further from the sheet's origin, mm (50 m).
FAR = 50_000.0
#: Lines, arcs and cubics in one path; the longest of the catalogue's paths has under ten.
MOST_SEGMENTS = 400
#: Steps that one body's run may draw, a solve's trials counted each. The catalogue's drafts need under a thousand;
#: two solves inside one another, each settling slowly, some ten thousand.
MOST_STEPS = 60_000


class OutOfSteps(CannotDraw):
    """A run that has drawn all the steps it may: no trial of a solve passes this over."""

    def __init__(self) -> None:
        super().__init__(
            "drafting.too-many-steps",
            f"More than {MOST_STEPS} steps are drawn for one body.",
            "Solve less often, or draw less inside the solves.",
        )


def spend(env: Env) -> None:
    """Count one step of the run; raises `OutOfSteps` when there have been too many."""
    env.steps += 1
    if env.steps > MOST_STEPS:
        raise OutOfSteps


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
