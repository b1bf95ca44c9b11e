"""Fingerprints: what a result hangs on, so that a later proof repeats only what a change touched.

A unit of a proof hangs on what the code does that drafts and checks (`behaviour`), on the
lines of the draft that are in force at its setting, on the measurements the draft needs
and on the choices that move it. Layout, comments, most titles, lines under a condition that
does not hold at that setting and the words of the instructions are left out: changing them
repeats nothing. Of the instructions counts only what the checks hear in them.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path
from typing import Any

from app.pattern.checks.step_words import heard_in, words_of
from app.pattern.drafting import Given, Program
from app.pattern.language import nodes as n
from app.pattern.proof.behaviour import digest, mark_of
from app.pattern.settled import Decided, Settled, settle

__all__ = ["EXAMINES", "HOUSE", "code_mark", "draft_mark", "offer_mark"]

#: The folder that `app` is in, and the module that drafts, cuts and checks one body: a result hangs on what it imports.
HOUSE = Path(__file__).parents[3]
EXAMINES = "app.pattern.proof.examine"
#: Fields that people read and no check measures; what cloths and notions are called, checks go by.
_WORDS = frozenset({"span", "title", "label"})
#: What is heard in a step of every garment, whatever its pieces are called.
_ALWAYS_HEARD = ("dart", "gather", "pleat", "tuck", "interfacing", "fuse", "button", "zip", "elastic", "hook", "bias")


@cache
def code_mark() -> str:
    """What the code does that drafts, cuts and checks, as one digest: a change of it repeats every proof."""
    return mark_of(HOUSE, EXAMINES)


def draft_mark(program: Program, chosen: Mapping[str, Given]) -> str:
    """The lines of a draft that are in force with `chosen`, as one digest."""
    return digest(repr(_Reading(program, chosen).plain(program.draft)))


def offer_mark(text: str, settled: Mapping[str, Any]) -> str:
    """What a draft's text offers with some choices `settled`, as one digest: its lines, and the values of its choices.

    Two texts with one mark have one proof. Empty where the text cannot be read or settled so.
    """
    held = settle(text, "draft", settled)
    if not isinstance(held, Settled):
        return ""
    choices = [(c.name, c.kind, c.default, c.least, c.most, c.options) for c in held.program.choices]
    return digest(draft_mark(held.program, held.values), repr(choices), json.dumps(held.values, sort_keys=True))


class _Reading:
    """Turns a tree into plain tuples without places and words, taking the branch of each test that hangs on choices."""

    def __init__(self, program: Program, chosen: Mapping[str, Given]) -> None:
        self._decided = Decided(program, chosen)
        draft = program.draft
        names = [text for piece in draft.pieces for text in (piece.name, piece.title)]
        names += [text for notion in draft.notions for text in (notion.name, notion.title)]
        names += [run.edge for seam in draft.seams for run in (*seam.a, *seam.b)]
        self._called = words_of(*names, *_ALWAYS_HEARD)

    def plain(self, node: Any) -> Any:
        """A node as tuples; None for what is not in force or only words."""
        if isinstance(node, tuple):
            return tuple(part for one in node if (part := self.plain(one)) is not None)
        if isinstance(node, n.ChoiceLine | n.NoteClause):
            return None  # a choice's value stands beside the digest; no check reads notes
        if isinstance(node, n.StepSection):
            return self._step(node)
        if isinstance(node, n.When):
            holds = self._decided.of(node.test)
            return self._fields(node) if holds is None else self.plain(node.then if holds else node.otherwise)
        if is_dataclass(node):
            return None if self._decided.fails(node) else self._fields(node)
        return node

    def _fields(self, node: Any) -> Any:
        inner = (self.plain(getattr(node, f.name)) for f in fields(node) if f.name not in _WORDS)
        called = (node.title,) if isinstance(node, n.FabricLine | n.NotionLine) else ()
        return (type(node).__name__, *called, *inner)

    def _step(self, step: n.StepSection) -> Any:
        """Of an instruction its figures, which must be there for every body, and what the checks hear in its words."""
        if self._decided.fails(step):
            return None
        words = "".join(part if isinstance(part, str) else "1 cm" for part in step.parts)
        figures = (self.plain(part) for part in step.parts if not isinstance(part, str))
        return (heard_in(step.title, words, self._called), *figures)
