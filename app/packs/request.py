"""What the worker hands to whoever builds a pack, and what it gets back."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from app.packs.sides import ALIKE, Sides
from app.pattern.pieces.model import Cloth
from app.pattern.problem import Problem, Refused

__all__ = [
    "ONE_SHEET_FILE",
    "PROJECTOR_FILE",
    "PackBuilder",
    "PackFile",
    "PackOutcome",
    "PackReady",
    "PackRequest",
    "PrintChoices",
    "Progress",
]

#: Names of files that somebody asks a pack for, whichever files it may have.
ONE_SHEET_FILE, PROJECTOR_FILE = "pattern-one-sheet.pdf", "pattern-projector.pdf"

#: Told the stage in words and the share of the work done (0..1); raises when the build was taken away.
Progress = Callable[[str, float], None]


@dataclass(frozen=True, slots=True)
class PrintChoices:
    """How the pattern is printed: join "trim" or "butt"; outlines "with" or "without" allowance, or "both".

    `margin_mm` is the printer's; `roll_mm` the width of the one sheet, or None for as
    wide as the pieces need; `projector`: whether there is a file for projectors.
    """

    join: str = "trim"
    lines: str = "both"
    margin_mm: float = 10.0
    roll_mm: float | None = None
    projector: bool = True


@dataclass(frozen=True, slots=True)
class PackRequest:
    """Everything a pack is made from; the same request always gives the same pack. Measurements in mm.

    Of the `choices`, those named in `settled` are the design's own, and not told as the customer's.
    `paper` is a name or sides, as `app.pattern.sheets.paper_of` reads them. `sides` is how the body's two sides differ:
    it is told on the sheet, and not drawn.
    """

    draft_text: str
    draft_name: str
    measurements: Mapping[str, float]
    choices: Mapping[str, float | str | bool]
    unit: str
    paper: str
    cloths: Mapping[str, Cloth]
    order_number: str
    customer: str
    studio: str
    title: str
    settled: tuple[str, ...] = ()
    prints: PrintChoices = field(default_factory=PrintChoices)
    sides: Sides = ALIKE


@dataclass(frozen=True, slots=True)
class PackFile:
    """One file of a finished pack: its name in the folder, its title for people, its size and SHA-256."""

    name: str
    title: str
    bytes: int
    sha256: str


@dataclass(frozen=True, slots=True)
class PackReady:
    """A pack that holds: its files in the order to show them, figures for the order's page, and every warning."""

    files: tuple[PackFile, ...]
    summary: Mapping[str, Any] = field(default_factory=dict)
    findings: tuple[Problem, ...] = ()


PackOutcome = PackReady | Refused
PackBuilder = Callable[[PackRequest, Path, Progress], PackOutcome]
