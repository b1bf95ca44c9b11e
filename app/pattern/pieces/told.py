"""What the person who will sew hears when a piece cannot be cut for her."""

from __future__ import annotations

from app.pattern.problem import Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "Cutting out"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "There is no piece to cut with these choices, so there would be nothing to sew. That is a slip in the design.",
        "pieces.nothing-to-cut",
    ),
    *alike(
        "A seam allowance would be less than nothing, so that you would cut into the garment.",
        "pieces.allowance-negative",
    ),
    *alike(
        "The line to cut along cannot be drawn round a piece: an edge bends too tightly for its seam allowance.",
        "pieces.cutting",
    ),
    *alike(
        "A dart of a piece cannot be folded shut, so that its edge cannot be cut to shape.",
        "pieces.dart-cap",
        "pieces.dart-closed",
        "pieces.dart-gap",
        "pieces.darts-touch",
    ),
    *alike(
        "The edges of a piece would not meet round it, or would enclose nothing, so that it could not be cut out.",
        "pieces.no-edges",
        "pieces.outline-flat",
        "pieces.outline-gap",
    ),
    *alike(
        "A notch would lie beyond the end of its edge or seam, where you could not find it.",
        "pieces.notch-ease",
        "pieces.notch-edge",
        "pieces.notch-off-edge",
        "pieces.notch-off-seam",
    ),
    *alike(
        "The design says in two ways how one edge of a piece is finished. That is a slip in the design.",
        "pieces.finish-twice",
    ),
    *alike(
        "The design sews something to a piece that your choices leave out. Another choice may do. That is a "
        "slip in the design.",
        "pieces.left-out",
    ),
    *alike(
        "A piece names two things alike, so that a seam could be sewn to the wrong one. That is a slip in the design.",
        "pieces.name-twice",
    ),
    *alike(
        "A mark would be drawn no times, or so often that nothing could be read any more.",
        "pieces.repeats",
    ),
)
