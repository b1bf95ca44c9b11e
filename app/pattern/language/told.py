"""What the person who will sew hears of a text that cannot be read: that it is not her doing."""

from __future__ import annotations

from app.pattern.problem import Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "The text"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "The text of this design cannot be read, so that nothing can be drawn from it. That is a slip in the "
        "design; there is nothing wrong with your entries.",
        "language.brace",
        "language.empty-block",
        "language.indent",
        "language.long-line",
        "language.nesting",
        "language.no-title",
        "language.second-for",
        "language.second-title",
        "language.section",
        "language.step-title",
        "language.tab",
        "language.too-deep",
        "language.too-long",
        "language.too-many",
        "language.unreadable",
    ),
)
