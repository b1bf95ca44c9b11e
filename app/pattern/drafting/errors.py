"""The signal that a step cannot be drawn for this body; turned into a Problem where the step is known."""

from __future__ import annotations

from app.pattern.geometry import GeometryError

__all__ = ["CannotDraw", "piece_left_out", "geometry_failure"]


class CannotDraw(Exception):
    """A step that has no answer for this body: `code`, a message and a remedy for the designer."""

    def __init__(self, code: str, message: str, fix: str) -> None:
        super().__init__(message)
        self.code, self.message, self.fix = code, message, fix


def piece_left_out(piece: str) -> CannotDraw:
    """What is said of a piece that this body's choices leave out of the garment."""
    return CannotDraw(
        "drafting.piece-left-out",
        f"The piece {piece} is not part of this garment.",
        "Put this line under the same condition as the piece.",
    )


def geometry_failure(wrong: GeometryError) -> tuple[str, str, str]:
    """Code, message and remedy for what geometry could not do."""
    said = str(wrong)
    said = said[:1].upper() + said[1:].rstrip(".") + "."
    return "drafting.geometry", said, "Look at the points of this line for such a body."
