"""The one door of the core: from a draft's text, a body and choices to a made pattern, or to problems.

`read_draft` needs no body; `make_pattern` drafts, cuts and checks (no files, no
lay plan: that is the quick path behind previews and proofs); `lay_out` plans the
cloth; the files themselves are written by `app.pattern.sheets` and
`app.documents`.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.pattern.pieces.model import Pattern
from app.pattern.problem import Problem

__all__ = ["Choice", "DraftCard", "Made", "Refused"]


@dataclass(frozen=True, slots=True)
class Choice:
    """A choice the customer makes. `kind` is "length", "number", "option" or "yesno".

    For a length (mm) or a number: `least`, `most` and `default` are floats. For an
    option: `options` in order and `default` one of them. For yes/no: `default` bool.
    `when` is a sentence for people when the choice applies only under another choice, else "".
    """

    name: str
    title: str
    kind: str
    default: float | str | bool
    least: float | None = None
    most: float | None = None
    options: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class DraftCard:
    """What a draft says of itself before any body is known: what the shop needs to show a listing."""

    title: str
    needs: tuple[str, ...]
    choices: tuple[Choice, ...]
    fabrics: tuple[tuple[str, str, float], ...]
    pieces: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Made:
    """A pattern that holds: every check ran and none found an error (warnings may remain)."""

    card: DraftCard
    pattern: Pattern
    body: Mapping[str, float]
    choices: Mapping[str, float | str | bool]
    findings: tuple[Problem, ...] = ()


@dataclass(frozen=True, slots=True)
class Refused:
    """No pattern: the problems say why. `pattern` is there when drafting worked and a check failed."""

    problems: tuple[Problem, ...]
    pattern: Pattern | None = None
