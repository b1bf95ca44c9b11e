"""What the person who will sew hears when her pieces find no place on the cloth."""

from __future__ import annotations

from app.pattern.problem import Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "Laying on the cloth"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "A piece is wider than your cloth as you lay it. Take a wider cloth, or lay it open in one layer if "
        "it is folded.",
        "lay.too-wide",
    ),
    *alike(
        "Your cloth has no width to lay the pieces on. Enter the width between its selvedges.",
        "lay.bad-width",
    ),
    *alike(
        "The cloth is said to shrink by half or more, which cannot be. That is a slip in the design.",
        "lay.bad-shrinkage",
    ),
    *alike(
        "Nothing is cut from this cloth, so you need not buy any of it.",
        "lay.nothing",
    ),
    *alike(
        "A piece would be cut no times at all, or so many are to be cut that no lay can be planned. That is a "
        "slip in the design.",
        "lay.bad-count",
        "lay.too-many",
    ),
    *alike(
        "A piece that is cut on the fold has no straight edge that could lie there.",
        "lay.bad-fold",
        "lay.no-fold",
    ),
    *alike(
        "The outline of a piece crosses itself, so that it cannot be laid on the cloth.",
        "lay.bad-outline",
    ),
    *alike(
        "No plan was found that lays every piece rightly on your cloth. Try another width, or lay it open in "
        "one layer if it is folded.",
        "lay.miscounted",
        "lay.misstated",
        "lay.near-fold",
        "lay.outside",
        "lay.overlap",
        "lay.reversed",
        "lay.unsound",
        "lay.wrong-layers",
        "lay.wrong-shape",
        "lay.wrong-way",
    ),
)
