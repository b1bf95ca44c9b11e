"""Fingerprints: what a result hangs on, so that a later proof repeats only what a change touched.

A unit of a proof hangs on the code that drafts and checks, on the lines of the draft
that are in force at its setting, on the measurements the draft needs and on the choices
that move it. Layout, comments, titles, the words of the instructions and lines under a
condition that does not hold at that setting are left out: changing them repeats nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import Any

from app.pattern.drafting import Env, Given, Program
from app.pattern.language import nodes as n

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
        self._program = program
        self._env = Env({f"choice.{name}": value for name, value in chosen.items()})
        self._known = {choice.name for choice in program.choices}
        self._known |= {option for choice in program.choices for option in choice.options} | {"yes", "no"}

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
            return None if self._fails(node) else self._fields(node)
        return node

    def _fields(self, node: Any) -> Any:
        inner = (self.plain(getattr(node, f.name)) for f in fields(node) if f.name not in _WORDS)
        return (type(node).__name__, *inner)

    def _step(self, step: n.StepSection) -> Any:
        """Of an instruction only its figures, which must be there for every body."""
        return None if self._fails(step) else tuple(self.plain(p) for p in step.parts if not isinstance(p, str))

    def _branch(self, node: n.When) -> Any:
        holds = self._decided(node.test)
        return self._fields(node) if holds is None else self.plain(node.then if holds else node.otherwise)

    def _fails(self, node: Any) -> bool:
        """True when the node stands under a test that hangs on choices alone and does not hold."""
        test = node.test if isinstance(node, n.WhenBlock) else getattr(node, "when", None)
        return test is not None and self._decided(test) is False

    def _decided(self, test: n.Expr) -> bool | None:
        """Whether a test holds; None when it hangs on more than choices."""
        if not set(_names_in(test)) <= self._known:
            return None
        return bool(self._program.run_of(test)(self._env))


def _names_in(node: Any) -> Iterator[str]:
    """Every name of an expression; a dotted one or a function counts as one that no choice has."""
    if isinstance(node, n.Name):
        yield node.name
    elif isinstance(node, n.Dotted | n.Trace):
        yield "."
    for part in _parts(node):
        yield from _names_in(part)


def _parts(node: Any) -> Iterable[Any]:
    if isinstance(node, tuple):
        return node
    return [getattr(node, f.name) for f in fields(node) if f.name != "span"] if is_dataclass(node) else ()
