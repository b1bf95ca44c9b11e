"""What a form of the language is: its parts by kind, its result, and the function that draws it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from app.pattern.drafting.kinds import Kind
from app.pattern.language.nodes import Expr

__all__ = ["Form"]


@dataclass(frozen=True, slots=True)
class Form:
    """One form.

    `takes` gives the kind of each part; a last entry ending in "*" stands for any number
    of parts, none too, one ending in "?" may be left out. `gives` is the kind of the result, or
    "same" for the kind of the first part, or a function of the parts' kinds and nodes (for
    shapes, whose kind lists what they hold). `example` is a line as a designer writes it.
    """

    name: str
    takes: tuple[str, ...]
    gives: str | Callable[[Sequence[Kind], Sequence[Expr]], Kind]
    draw: Callable[..., Any]
    example: str
