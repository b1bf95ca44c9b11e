"""What a value and a run may come to at most: nothing infinite, nothing absurdly far, nothing without end."""

from __future__ import annotations

from math import isfinite

from app.pattern.drafting.env import MOST_WORK
from app.pattern.drafting.errors import CannotDraw
from app.pattern.drafting.kinds import Value
from app.pattern.drafting.shapes.shape import Shape, Side
from app.pattern.geometry import Path, Point

__all__ = ["FAR", "MOST_SEGMENTS", "work_of", "require_drawable", "too_much_work"]

#: No point of a garment lies further from the sheet's origin, mm (50 m).
FAR = 50_000.0
#: Lines, arcs and cubics in one path; the longest of the catalogue's paths has under ten.
MOST_SEGMENTS = 400
#: Work of a line or curve that is drawn, moved or kept (see `geometry.work`).
_SEGMENT = 3


def work_of(part: object) -> int:
    """The work of drawing, moving or keeping a value: it grows with the lines and curves in a path or a shape."""
    if isinstance(part, Path):
        return _SEGMENT * len(part.segments)
    if isinstance(part, Shape):
        sides = sum(len(item.path.segments) if isinstance(item, Side) else 2 for item in part.items)
        return _SEGMENT * (sides + len(part.inside) + len(part.log) // 8)
    return 0


def too_much_work() -> tuple[str, str, str]:
    """Code, message and remedy for a draft that asks for more work than one body may cost."""
    return (
        "drafting.too-many-steps",
        f"Up to this line there is more to draw for one body than {MOST_WORK:,} steps, the most that are drawn; "
        "no garment needs a tenth of them.",
        "Repeat and solve less often, or draw less inside; give curves fewer points.",
    )


def require_drawable(value: Value) -> None:
    """Refuse what is not finite, lies absurdly far off (mm) or has too many parts."""
    if isinstance(value, float):
        if not (isfinite(value) and abs(value) < 1e9):
            raise CannotDraw("drafting.huge", "This comes to no finite size.", "Check the formula.")
    elif isinstance(value, Point):
        if not (abs(value.x) < FAR and abs(value.y) < FAR):
            raise CannotDraw("drafting.far", "This point lies more than 50 m away.", "Check the formula and its units.")
    elif isinstance(value, Path):
        _require_drawable_path(value)
    elif isinstance(value, Shape):
        parts = len(value.items) + len(value.inside)
        if parts > MOST_SEGMENTS:
            said = f"This shape has {parts} sides, darts and marks; {MOST_SEGMENTS} are the most."
            raise CannotDraw("drafting.too-many-parts", said, "Cut it up, or spread it along fewer lines.")
        for item in value.items:
            if isinstance(item, Side):
                _require_drawable_path(item.path)


def _require_drawable_path(path: Path) -> None:
    if len(path.segments) > MOST_SEGMENTS:
        said = f"This path is made of {len(path.segments)} lines and curves; {MOST_SEGMENTS} are the most."
        raise CannotDraw("drafting.too-many-parts", said, "Join fewer paths.")
    if not path.length < FAR:
        raise CannotDraw("drafting.far", "This path is longer than 50 m.", "Check the formula and its units.")
    require_drawable(path.start)
