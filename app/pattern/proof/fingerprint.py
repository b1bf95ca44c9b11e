"""Fingerprints: what a result hangs on, so that a later proof repeats only what a change touched.

A unit of a proof hangs on the code that drafts and checks, on the lines of the draft
that are in force at its setting, on the measurements the draft needs and on the choices
that move it. Layout, comments, titles, the words of the instructions and lines under a
condition that does not hold at that setting are left out: changing them repeats nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from app.pattern.drafting import Given, Program
from app.pattern.language import nodes as n
from app.pattern.settled import Decided

__all__ = ["code_mark", "digest", "draft_mark"]

#: The rooms whose code a result hangs on.
_ROOMS = ("geometry", "language", "drafting", "pieces", "checks", "units.py", "make.py")
#: Fields that people read and no check measures.
_WORDS = frozenset({"span", "title", "label"})


def digest(*parts: str) -> str:
    """A short, steady name for some texts."""
    return sha256("\0".join(parts).encode()).hexdigest()[:24]


@cache
def code_mark() -> str:
    """The code that drafts, cuts and checks, as one digest: an update of it repeats every proof."""
    core = files("app.pattern")
    texts = (text for room in _ROOMS for text in _source(core.joinpath(room)))
    return digest(*texts)


def _source(place: Traversable) -> Iterator[str]:
    if place.is_dir():
        for inner in sorted(place.iterdir(), key=lambda found: found.name):
            yield from _source(inner)
    elif place.name.endswith((".py", ".lark")):
        yield place.name
        yield place.read_text("utf-8")


def draft_mark(program: Program, chosen: Mapping[str, Given]) -> str:
    """The lines of a draft that are in force with `chosen`, as one digest."""
    return digest(repr(_Reading(program, chosen).plain(program.draft)))


class _Reading:
    """Turns a tree into plain tuples without places and words, taking the branch of each test that hangs on choices."""

    def __init__(self, program: Program, chosen: Mapping[str, Given]) -> None:
        self._decided = Decided(program, chosen)

    def plain(self, node: Any) -> Any:
        """A node as tuples; None for what is not in force or only words."""
        if isinstance(node, tuple):
            return tuple(part for one in node if (part := self.plain(one)) is not None)
        if isinstance(node, n.ChoiceLine | n.NoteClause | n.NotionLine):
            return None  # a choice's value stands beside the digest; notes and notions are not checked by measuring
        if isinstance(node, n.StepSection):
            return self._step(node)
        if isinstance(node, n.When):
            return self._branch(node)
        if is_dataclass(node):
            return None if self._decided.fails(node) else self._fields(node)
        return node

    def _fields(self, node: Any) -> Any:
        inner = (self.plain(getattr(node, f.name)) for f in fields(node) if f.name not in _WORDS)
        return (type(node).__name__, *inner)

    def _step(self, step: n.StepSection) -> Any:
        """Of an instruction only its figures, which must be there for every body."""
        return None if self._decided.fails(step) else tuple(self.plain(p) for p in step.parts if not isinstance(p, str))

    def _branch(self, node: n.When) -> Any:
        holds = self._decided.of(node.test)
        return self._fields(node) if holds is None else self.plain(node.then if holds else node.otherwise)
