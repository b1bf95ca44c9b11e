"""What a pattern is made of: pieces, their edges, darts and marks, and the seams that join them.

Plain immutable values in millimetres, in the frame of the drafting sheet the
piece was traced from (x right, y up). Derived outlines are filled in by
`app.pattern.pieces.cut`.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum

from app.pattern.drafting.shapes.folded import Folds, taken_in
from app.pattern.geometry import Path, Point
from app.pattern.problem import Span

__all__ = [
    "Allowance",
    "Cloth",
    "CornerCut",
    "Cut",
    "Dart",
    "Edge",
    "EdgeRun",
    "Fabric",
    "Girth",
    "Grain",
    "Mark",
    "MarkKind",
    "Notch",
    "Notion",
    "Pattern",
    "Piece",
    "Seam",
]


class CornerCut(StrEnum):
    """How the allowance ends at the ends of an edge (trade terms)."""

    PLAIN = "plain"  # both cutting lines run on until they cross
    SQUARED = "squared"  # the allowance ends square to this edge's stitching line
    TURNED_BACK = "turned back"  # the allowance mirrors the piece beyond the hem fold, so that it lies flat


@dataclass(frozen=True, slots=True)
class Allowance:
    """Width in mm outside the stitching line, and how its ends are shaped."""

    width: float
    corner: CornerCut = CornerCut.PLAIN


@dataclass(frozen=True, slots=True)
class Edge:
    """One named edge of a piece: its stitching line, in the direction in which the designer drew it.

    `folds` are the stretches of it, from its start as drawn, that pleats and tucks fold away before it is sewn.

    `with_outline` is True when that direction is also the direction of travel round
    the piece's outline. A fold edge has no allowance and is straight. `finish` is what becomes of it where no seam
    sews it, in the trade's word (hemmed, lined, bound ...); "" where the draft does not say.
    """

    name: str
    path: Path
    allowance: Allowance
    fold: bool = False
    with_outline: bool = True
    span: Span | None = None
    folds: Folds = ()
    finish: str = ""

    @property
    def taken_in(self) -> float:
        """The length that its folds take away, mm."""
        return taken_in(self.folds)

    @property
    def sewn_length(self) -> float:
        """Its length as it is sewn, mm: on the stitching line, less what its folds take away."""
        return self.path.length - self.taken_in


@dataclass(frozen=True, slots=True)
class Dart:
    """A dart between two neighbouring edges: legs `a`-`tip` and `tip`-`b`, in outline order.

    `cap` runs from `a` to `b` along the edge of the paper at the dart's mouth, shaped
    so that the seam runs on when the dart is closed and pressed towards the leg
    `pressed_to` ("a" or "b"). `keep_clear` is the point (bust point) the tip must stay
    `clear_by` mm away from.
    """

    name: str
    a: Point
    tip: Point
    b: Point
    cap: Path
    pressed_to: str
    keep_clear: Point | None = None
    clear_by: float = 0.0
    label: str = ""
    span: Span | None = None

    @property
    def intake(self) -> float:
        """Width of the dart's mouth between its legs, mm."""
        return self.a.distance(self.b)


@dataclass(frozen=True, slots=True)
class Notch:
    """A notch on an edge's stitching line, `along` mm from the start of the edge as drawn.

    `seam` is the index in `Pattern.seams` of the seam it was matched by, or None.
    """

    edge: str
    along: float
    double: bool = False
    seam: int | None = None
    span: Span | None = None


class MarkKind(StrEnum):
    """What an inside mark means to the maker."""

    STITCH = "stitch"  # a line to sew along (shirring row, topstitch)
    FOLD = "fold"  # a line to fold along
    LAY = "lay"  # an arrow from the edge of a fold to where it is laid
    LENGTHEN = "lengthen"  # lengthen or shorten here
    GATHER = "gather"
    PLACE = "place"  # placement line or point
    BUTTON = "button"
    BUTTONHOLE = "buttonhole"
    DRILL = "drill"


@dataclass(frozen=True, slots=True)
class Mark:
    """A line or a point drawn inside a piece. A point mark has a path of None."""

    kind: MarkKind
    path: Path | None
    at: Point
    label: str = ""
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Grain:
    """The grain line: the warp runs along it. `start` is its lower end."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Cut:
    """How many to cut from which fabric.

    `count` pieces of paper outline; `on_fold`: the fold edge lies on folded cloth, each
    cut piece being the outline and its mirror image together; `pair`: half of the
    count are mirrored (cut through doubled cloth or turned over).
    """

    fabric: str
    count: int
    on_fold: bool = False
    pair: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """One pattern piece.

    `stitching` is the closed stitching outline, anticlockwise, dart caps included and
    dart legs not; `cutting` is the closed outline to cut along, anticlockwise.
    `edges` and `darts` are in outline order; `mouths` gives for each dart the index of
    the edge it follows.
    """

    name: str
    title: str
    edges: tuple[Edge, ...]
    grain: Grain
    cuts: tuple[Cut, ...]
    stitching: Path
    cutting: Path
    darts: tuple[Dart, ...] = ()
    mouths: tuple[int, ...] = ()
    notches: tuple[Notch, ...] = ()
    marks: tuple[Mark, ...] = ()
    note: str = ""
    span: Span | None = None

    def edge(self, name: str) -> Edge:
        """The edge of that name; raises KeyError when there is none."""
        return self.edges[self.place_of(name)]

    def place_of(self, name: str) -> int:
        """The place of an edge in the outline, counted from 0; raises KeyError when there is none of that name."""
        for place, edge in enumerate(self.edges):
            if edge.name == name:
                return place
        raise KeyError(name)

    @property
    def fold_edge(self) -> Edge | None:
        """The edge that lies on the fold, if the piece has one."""
        return next((e for e in self.edges if e.fold), None)


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One edge as it is walked in a seam: from its start as drawn, or `backwards`.

    `times` counts how often the edge occurs (2 for a piece on the fold whose both
    halves are sewn, as in a waistband).
    """

    piece: str
    edge: str
    backwards: bool = False
    times: int = 1


@dataclass(frozen=True, slots=True)
class Seam:
    """Edges sewn to each other: side `a` (the one eased or gathered, if any) to side `b`.

    With all lengths on the stitching line: a = b + ease with `ease` (least, most) in
    mm, or a = b x ratio with `ratio` (least, most) when gathered or stretched. `kind`
    is "plain", "ease", "gather", "elastic" or "short": then side a ends short of side b, both laid together at their
    starts, and the ease is what it lacks, less than nothing. `unmarked` are the notches asked for that fall on the end
    of both sides, and so are not drawn.
    """

    a: tuple[EdgeRun, ...]
    b: tuple[EdgeRun, ...]
    kind: str = "plain"
    ease: tuple[float, float] = (0.0, 0.0)
    ratio: tuple[float, float] = (1.0, 1.0)
    span: Span | None = None
    unmarked: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True)
class Girth:
    """A girth of the finished garment, with what the designer says it must be.

    `measured` is read off the pieces in mm; it must equal `body` + `ease`. `measure`
    is the ISO 8559-1 name, or "" for a girth with no body girth under it.

    How the wearer gets in: `stretches_to` is what it measures pulled out (0 when it
    does not stretch), `opens` the length of the slit that opens it, `opens_fully` True
    when it opens all the way; `passes` is the girth of the body that must go through
    it (0 when nothing is said). `as_body` is the measure of the body that it equals at rest although it
    stretches, or "": elastic as long as that holds nothing.
    """

    name: str
    title: str
    measured: float
    body: float
    ease: float
    measure: str = ""
    span: Span | None = None
    stretches_to: float = 0.0
    opens: float = 0.0
    opens_fully: bool = False
    passes: float = 0.0
    as_body: str = ""


@dataclass(frozen=True, slots=True)
class FitPlace:
    """A place where the garment touches the body: what it `measured` on the pieces, and what the `body` measures, mm.

    `measure` is the body's measurement by its ISO 8559-1 name; `spread` is how far the true one strays from `body`
    (mm, standard deviation), 0 where it was taken. The designer wants an ease of `least` to `most` mm.
    """

    name: str
    title: str
    measured: float
    measure: str
    body: float
    spread: float
    least: float
    most: float
    span: Span | None = None

    @property
    def ease(self) -> float:
        """By how much the garment exceeds the body, mm; below nothing where it is smaller."""
        return self.measured - self.body


@dataclass(frozen=True, slots=True)
class Cloth:
    """The cloth that somebody has, and how she lays it: the usable width between the selvedges, mm, never halved.

    `folded`: along its length, right sides together, selvedge on selvedge; else laid open. `one_way`: its nap or print
    has a direction, so that every piece must point the same way.
    """

    width: float
    folded: bool = True
    one_way: bool = False


@dataclass(frozen=True, slots=True)
class Fabric:
    """A cloth the garment is cut from, as the designer suggests it or as the customer has it (`laid_as`).

    `width`, `one_way` and `folded` as in `Cloth`. `shrinkage` is the share of the length lost in the first wash (0.05
    for 5 %), `stretch` the share by which it can be pulled longer.
    """

    name: str
    title: str
    width: float
    one_way: bool = False
    folded: bool = True
    shrinkage: float = 0.0
    stretch: float = 0.0
    span: Span | None = None

    @property
    def suggested(self) -> Cloth:
        """The cloth that the designer suggests."""
        return Cloth(self.width, self.folded, self.one_way)

    def laid_as(self, cloth: Cloth | None) -> Fabric:
        """The fabric as it is cut from the cloth that the customer has; as it is where she chose none.

        What has a nap for the designer has one for the customer too.
        """
        if cloth is None:
            return self
        one_way = cloth.one_way or self.one_way
        return replace(self, width=cloth.width, folded=cloth.folded, one_way=one_way)

    @property
    def depth(self) -> float:
        """What lies on the table from edge to edge, mm: the width, or half of it when folded."""
        return self.width / 2.0 if self.folded else self.width


@dataclass(frozen=True, slots=True)
class Notion:
    """Something to buy besides cloth: `count` of it, and/or `length` mm of it."""

    name: str
    title: str
    count: float | None = None
    length: float | None = None
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class StepText:
    """One step of the making: a heading and Markdown with the customer's figures already in it.

    `seams` are indices in `Pattern.seams` whose picture belongs beside the step.
    """

    title: str
    markdown: str
    seams: tuple[int, ...] = ()
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Pattern:
    """The whole cut pattern for one body, before layout and printing.

    `group` is women, men or children; `statures` (least, most, mm) are those the
    garment is offered for, None where the draft does not say. `stature` is that of the body it is drawn for, mm,
    where it is known. `figures` are what the draft reckons under `figures`, by name: mm, square mm, radians or numbers.
    """

    title: str
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...]
    girths: tuple[Girth, ...]
    fabrics: tuple[Fabric, ...]
    notions: tuple[Notion, ...] = ()
    steps: tuple[StepText, ...] = ()
    figures: dict[str, float] = field(default_factory=dict)
    group: str = "women"
    statures: tuple[float, float] | None = None
    stature: float | None = None
    fits: tuple[FitPlace, ...] = ()

    def piece(self, name: str) -> Piece:
        """The piece of that name; raises KeyError when there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)
