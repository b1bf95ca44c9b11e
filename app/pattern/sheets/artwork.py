"""What is printed, whatever the paper: pieces with their ground, their outlines and their drawing, ply upon ply."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi
from typing import Protocol

from app.pattern.drawing import FillStyle, LineStyle, Palette, piece_marks
from app.pattern.drawing.outline import as_shown
from app.pattern.drawing.record import Drawn
from app.pattern.geometry import Path
from app.pattern.pieces.model import Pattern, Piece
from app.pattern.problem import Place, Problem
from app.pattern.sheets.footprint import Ground, ground_of, piece_problems
from app.pattern.sheets.info import PrintInfo, PrintStyle, look_of

__all__ = ["Artwork", "OnePattern", "Ply", "Sign", "fabric_signs", "pattern_problems", "upright_after"]


@dataclass(frozen=True, slots=True)
class Ply:
    """Marks in a piece's frame that a reader may switch on and off together: `layer` is its name, or "" for always.

    `palette` inks them where the file's own does not.
    """

    marks: tuple[Drawn, ...]
    layer: str = ""
    palette: Palette | None = None


@dataclass(frozen=True, slots=True)
class Sign:
    """A line or fill for the key on the first page, with its meaning."""

    style: LineStyle | FillStyle
    words: str
    palette: Palette | None = None


class Artwork(Protocol):
    """A pattern ready to be planned on paper and drawn."""

    @property
    def pieces(self) -> tuple[tuple[str, str], ...]:
        """Name and title of each piece, in order."""

    @property
    def layers(self) -> tuple[str, ...]:
        """Names of the layers a reader can switch, in order; none for most patterns."""

    @property
    def style(self) -> PrintStyle:
        """How it is drawn."""

    @property
    def signs(self) -> tuple[Sign, ...]:
        """What the key must explain besides the usual lines."""

    def grounds(self) -> tuple[Ground, ...]:
        """The ground each piece takes, in order."""

    def outlines(self, piece: str) -> tuple[Path, ...]:
        """The closed outlines that stand for a piece on a map."""

    def plies(self, piece: str, joints: tuple[Path, ...] = (), turns: int = 0) -> tuple[Ply, ...]:
        """The drawing of a piece; titles keep off the `joints` of sheets and read well after so many quarter turns."""


class OnePattern:
    """One pattern for one body."""

    def __init__(self, pattern: Pattern, info: PrintInfo | None = None, style: PrintStyle | None = None) -> None:
        """Drawn with the words of an order, in a style; plain where none are given."""
        self._pattern = pattern
        self.style = style or PrintStyle()
        self.look = look_of(pattern, info, self.style)
        self.layers: tuple[str, ...] = ()

    @property
    def pieces(self) -> tuple[tuple[str, str], ...]:
        """Name and title of each piece, in the pattern's order."""
        return tuple((piece.name, piece.title) for piece in self._pattern.pieces)

    @property
    def signs(self) -> tuple[Sign, ...]:
        """The fills of pieces that are cut from further fabrics alone."""
        return fabric_signs(self._pattern)

    def grounds(self) -> tuple[Ground, ...]:
        """The ground each piece takes."""
        return tuple(ground_of(piece, self.look) for piece in self._pattern.pieces)

    def outlines(self, piece: str) -> tuple[Path, ...]:
        """The outline of a piece."""
        return (as_shown(self._pattern.piece(piece), self.style.lines).cutting,)

    def plies(self, piece: str, joints: tuple[Path, ...] = (), turns: int = 0) -> tuple[Ply, ...]:
        """The one drawing of a piece."""
        look = replace(self.look, upright=upright_after(turns))
        return (Ply(piece_marks(self._pattern.piece(piece), look, joints)),)


def upright_after(turns: int) -> float:
    """The direction in a piece's frame that runs from left to right once it is turned by quarters, radians."""
    return -(turns % 4) * pi / 2.0


def fabric_signs(pattern: Pattern) -> tuple[Sign, ...]:
    """A sign for each tinted fabric that some piece is cut from alone."""
    tints = look_of(pattern).tints

    def only(piece: Piece, fabric: str) -> bool:
        return bool(piece.cuts) and all(cut.fabric in tints for cut in piece.cuts) and piece.cuts[0].fabric == fabric

    cut_alone = [f for f in pattern.fabrics if f.name in tints and any(only(p, f.name) for p in pattern.pieces)]
    return tuple(Sign(tints[fabric.name], f"cut from {fabric.title}") for fabric in cut_alone)


def pattern_problems(pattern: Pattern) -> tuple[Problem, ...]:
    """Why a pattern cannot be laid on paper: no pieces, or a piece without an outline."""
    if not pattern.pieces:
        return (
            Problem(
                code="sheets.no-pieces",
                message=f"{pattern.title} has no pieces, so there is nothing to print.",
                fix="Trace at least one piece in the draft.",
                where=Place(),
            ),
        )
    return tuple(problem for piece in pattern.pieces for problem in piece_problems(piece))
