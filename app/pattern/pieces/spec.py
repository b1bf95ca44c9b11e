"""What a drafted piece hands in to be cut: its outline items in order, and what goes on the paper inside them."""

from __future__ import annotations

from dataclasses import dataclass

from app.pattern.geometry import Path, Point
from app.pattern.pieces.model import Cut, Dart, Edge, Grain, Mark, Notch
from app.pattern.problem import Span

__all__ = ["DartSpec", "PieceSpec", "Traced"]


@dataclass(frozen=True, slots=True)
class DartSpec:
    """A dart as the designer names it between two edges of an outline; points in mm.

    `a` is the foot of the leg on the edge listed before the dart, `b` on the edge listed
    after it; either may be left out, for the edges' ends say the same. `pressed_to` is
    the leg ("a" or "b", in the order listed) towards which the dart is pressed.
    """

    name: str
    tip: Point
    a: Point | None = None
    b: Point | None = None
    pressed_to: str = "a"
    keep_clear: Point | None = None
    clear_by: float = 0.0
    label: str = ""
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class PieceSpec:
    """A piece before it is cut: everything in `Piece` that is not derived.

    `items` are the outline's edges and darts in order round the piece, either way
    round, each edge drawn in either direction.
    """

    name: str
    title: str
    items: tuple[Edge | DartSpec, ...]
    grain: Grain
    cuts: tuple[Cut, ...]
    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()
    note: str = ""
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Traced:
    """A closed outline: edges and darts in outline order, anticlockwise, and the stitching line round them (mm).

    `mouths` gives for each dart the index of the edge it follows.
    """

    edges: tuple[Edge, ...]
    darts: tuple[Dart, ...]
    mouths: tuple[int, ...]
    stitching: Path
