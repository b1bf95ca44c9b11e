"""Names in sight while a draft is compiled, and what a compiled expression is."""

from __future__ import annotations

from dataclasses import dataclass, field

from app.pattern.drafting.env import Run
from app.pattern.drafting.kinds import Kind
from app.pattern.problem import Span

__all__ = ["Compiled", "Known", "Scope"]


@dataclass(frozen=True, slots=True)
class Compiled:
    """An expression ready to run, with its kind."""

    kind: Kind
    run: Run


@dataclass(frozen=True, slots=True)
class Known:
    """A name that may be used: its key in the environment, its kind, where it was written."""

    key: str
    kind: Kind
    span: Span | None = None


@dataclass(slots=True)
class Scope:
    """Names in sight: local ones first, then those of the outer scope."""

    names: dict[str, Known] = field(default_factory=dict)
    outer: Scope | None = None

    def find(self, name: str) -> Known | None:
        """The known name, or None."""
        return self.names.get(name) or (self.outer.find(name) if self.outer else None)

    def all_names(self) -> list[str]:
        """Every name in sight."""
        return [*self.names, *(self.outer.all_names() if self.outer else ())]
