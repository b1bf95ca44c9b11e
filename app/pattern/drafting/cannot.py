"""The signal that a step cannot be drawn for this body; turned into a Problem where the step is known."""

from __future__ import annotations

__all__ = ["CannotDraw"]


class CannotDraw(Exception):
    """A step that has no answer for this body: `code`, a message and a remedy for the designer."""

    def __init__(self, code: str, message: str, fix: str) -> None:
        super().__init__(message)
        self.code, self.message, self.fix = code, message, fix
