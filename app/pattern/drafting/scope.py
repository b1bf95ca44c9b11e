"""Names in sight while a draft is compiled, and what a compiled expression is."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, field

from app.pattern.drafting.env import Run
from app.pattern.drafting.kinds import Kind
from app.pattern.problem import Span

__all__ = ["UNREAD", "Compiled", "Known", "Scope", "name_list"]


def name_list(names: Sequence[str], most: int = 24) -> str:
    """Names in a sentence: all of them, or so many and how many more there are."""
    more = len(names) - most
    return ", ".join(names[:most]) + (f" and {more} more" if more > 0 else "")


@dataclass(frozen=True, slots=True)
class Compiled:
    """An expression ready to run, with its kind."""

    kind: Kind
    run: Run


@dataclass(frozen=True, slots=True)
class Known:
    """A name that may be used: its key in the environment, its kind, where it was written.

    The key is "" for a name that some line which could not be read may stand for: such a draft is never drawn.
    """

    key: str
    kind: Kind
    span: Span | None = None


#: What is known of a name whose own line could not be read.
UNREAD = Known("", Kind("unknown"))


@dataclass(slots=True)
class Scope:
    """Names in sight: local ones first, then those of the outer scope.

    An `open` one may hold any name besides: what else stands in it could not be read, and is told as that.
    """

    names: dict[str, Known] = field(default_factory=dict)
    outer: Scope | None = None
    open: bool = False

    def find(self, name: str) -> Known | None:
        """The known name, or None."""
        known = self.names.get(name) or (self.outer.find(name) if self.outer else None)
        return known or (UNREAD if self.open else None)

    def may_hold(self, names: Collection[str]) -> None:
        """Names that unreadable lines may stand for; one that is "" may be any."""
        self.open = self.open or "" in names
        self.names.update({name: UNREAD for name in names if name and name not in self.names})

    def all_names(self) -> list[str]:
        """Every name in sight."""
        return [*self.names, *(self.outer.all_names() if self.outer else ())]
