"""The signal that a step cannot be drawn for this body; turned into a Problem where the step is known."""

from __future__ import annotations

from app.pattern.geometry import GeometryError

__all__ = ["CannotDraw", "told"]


class CannotDraw(Exception):
    """A step that has no answer for this body: `code`, a message and a remedy for the designer."""

    def __init__(self, code: str, message: str, fix: str) -> None:
        super().__init__(message)
        self.code, self.message, self.fix = code, message, fix


def told(wrong: GeometryError) -> tuple[str, str, str]:
    """Code, message and remedy for what geometry could not do."""
    said = str(wrong)
    said = said[:1].upper() + said[1:].rstrip(".") + "."
    return "drafting.geometry", said, "Look at the points of this line for such a body."
