"""What the person who will print hears when her paper does not do."""

from __future__ import annotations

from app.pattern.problem import Severity, Told, alike

__all__ = ["ROOM", "TOLD"]

#: What the room's problems are called together.
ROOM = "Printing"
#: Every kind of problem of this room.
TOLD: tuple[Told, ...] = (
    *alike(
        "That paper is not known here. Choose one of the list, or give its width and height.",
        "sheets.paper-unknown",
    ),
    *alike(
        "Between its margins the paper is too small to print a pattern on. Choose a larger paper or smaller margins.",
        "sheets.no-room",
        "sheets.paper-too-small",
    ),
    *alike(
        "The paper is larger than a page of a PDF can be. Choose a smaller paper, or print on a roll.",
        "sheets.paper-too-large",
    ),
    *alike(
        "The one sheet is too narrow for the widest piece or for the check squares. Give a wider roll.",
        "sheets.roll-too-narrow",
        "sheets.too-wide",
    ),
    *alike(
        "Laid together the pieces are longer than a page of a PDF can be. Print on single sheets, or on a wider roll.",
        "sheets.too-long",
    ),
    *alike(
        "There is no piece to print.",
        "sheets.no-pieces",
    ),
    *alike(
        "The cutting line of a piece is empty or crosses itself, so that it cannot be printed.",
        "sheets.no-outline",
    ),
    *alike(
        "The sizes have unlike pieces, or none was named, so that they cannot be printed into one another.",
        "sheets.no-sizes",
        "sheets.sizes-differ",
    ),
    *alike(
        "A name has letters that our typeface lacks; they print as empty boxes. The pattern itself is as it should be.",
        "sheets.letters-lacking",
        severity=Severity.WARNING,
    ),
)
