"""The one door of the core: from a draft's text, a body and choices to a made pattern, or to problems.

`read_draft` needs no body; `make_pattern` drafts, cuts and checks. It writes no file
and plans no lay: it is the quick path behind previews and proofs. The cloth is
planned by `app.pattern.lay`, the paper by `app.pattern.sheets`, and the pack is put
together by `app.packs`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from app.pattern.checks import run_checks
from app.pattern.drafting import Choice, Env, Given, Program, compiled, draw_sheets, ready
from app.pattern.pieces.assemble import assemble
from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem, Refused, has_errors
from app.pattern.units import Unit

__all__ = ["Choice", "DraftCard", "Failed", "Made", "compiled", "make_pattern", "make_staged", "read_draft"]


@dataclass(frozen=True, slots=True)
class DraftCard:
    """What a draft says of itself before any body is known: what the shop needs to show a listing.

    `fabrics` are (name, title, suggested width in mm); `pieces` are (name, title);
    `notions` are titles. `group` is women, men or children; `statures` (least, most, mm)
    are those it is offered for, None where the draft does not say.
    """

    title: str
    needs: tuple[str, ...]
    choices: tuple[Choice, ...]
    fabrics: tuple[tuple[str, str, float], ...]
    pieces: tuple[tuple[str, str], ...]
    notions: tuple[str, ...] = ()
    group: str = "women"
    statures: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Made:
    """A pattern that holds: every check ran and none found an error (warnings may remain)."""

    card: DraftCard
    pattern: Pattern
    body: Mapping[str, float]
    choices: Mapping[str, Given]
    findings: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Failed(Refused):
    """A `pattern` that was drafted and cut, and in which a check found an error: to be looked at, never to be sewn."""

    pattern: Pattern


def read_draft(text: str, name: str) -> DraftCard | Refused:
    """Read and check a draft without a body; `name` is the file name that problems carry."""
    program = compiled(text, name)
    return program if isinstance(program, Refused) else _card(text, name)


@lru_cache(maxsize=64)
def _card(text: str, name: str) -> DraftCard:
    """The card of a draft that reads well; kept like the compiled draft, since each body's pattern carries it."""
    program = compiled(text, name)
    assert isinstance(program, Program)
    draft = program.draft
    empty = Env({})
    widths: list[Any] = [program.run_of(f.width)(empty) if f.width is not None else 1400.0 for f in draft.fabrics]
    return DraftCard(
        draft.title,
        tuple(need.name for need in draft.needs),
        program.choices,
        tuple((f.name, f.title, float(width)) for f, width in zip(draft.fabrics, widths, strict=True)),
        tuple((piece.name, piece.title) for piece in draft.pieces),
        tuple(notion.title for notion in draft.notions),
        draft.group,
        program.statures,
    )


def make_pattern(
    text: str, name: str, body: Mapping[str, float], choices: Mapping[str, Any], unit: Unit = Unit.CM
) -> Made | Refused:
    """Draft, cut and check a garment for one body.

    `body` is mm by ISO 8559-1 name; `choices` may leave names out (defaults hold) and
    give lengths as mm or as text with a unit; `unit` is that of the words in the steps.
    """
    return make_staged(text, name, body, choices, unit, lambda stage: None)


def make_staged(
    text: str,
    name: str,
    body: Mapping[str, float],
    choices: Mapping[str, Any],
    unit: Unit,
    ended: Callable[[str], None],
) -> Made | Refused:
    """`make_pattern`, telling `ended` as each stage ends: "read", "draft", "cut", "check"."""
    program = compiled(text, name)
    ended("read")
    if isinstance(program, Refused):
        return program
    chosen = ready(program, body, choices)
    if isinstance(chosen, Refused):
        return chosen
    env = draw_sheets(program, body, chosen)
    ended("draft")
    if env.problems:
        return Refused(env.problems)
    pattern = assemble(program, env, unit)
    ended("cut")
    if isinstance(pattern, Refused):
        return pattern
    findings = run_checks(pattern)
    ended("check")
    if has_errors(findings):
        return Failed(findings, pattern)
    return Made(_card(text, name), pattern, dict(body), chosen, findings)
