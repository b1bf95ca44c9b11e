"""What a form field shows: plain values, ready to print, with whatever the person typed kept as it was."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Field", "Option", "FieldError"]


@dataclass(frozen=True, slots=True)
class Option:
    """One entry of a list to choose from."""

    value: str
    title: str
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class Field:
    """One field. `kind` is "text", "words" (several lines), "email", "password", "search", "select" or "tick".

    `value` is the text as typed; `unit` stands behind the field; `described` names the
    elements that describe it (hint, error, warning), in reading order, for assistive technology.
    """

    name: str
    label: str
    kind: str = "text"
    value: str = ""
    hint: str = ""
    unit: str = ""
    error: str = ""
    options: tuple[Option, ...] = ()
    ticked: bool = False
    required: bool = False
    mode: str = "text"
    complete: str = "off"

    @property
    def is_figure(self) -> bool:
        """True for a number or a length: its field is short, and its unit stands behind it."""
        return bool(self.unit) or self.mode == "decimal"

    @property
    def described(self) -> str:
        """Ids of the elements that describe this field."""
        ids = [f"{self.name}-hint"] if self.hint else []
        ids += [f"{self.name}-error"] if self.error else []
        return " ".join(ids)


@dataclass(frozen=True, slots=True)
class FieldError:
    """One line of the summary above a form: what to look at, linked to its field."""

    field: str
    words: str
