"""The shape of report.json: every figure of a made pattern, in mm, for machines and for a careful reader.

`report_schema.json` beside this file is this shape as JSON Schema; a test keeps the two equal.
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

__all__ = [
    "VERSION",
    "ArcSegment",
    "ChecksReport",
    "ClothReport",
    "CubicSegment",
    "CutReport",
    "DartReport",
    "EdgeReport",
    "FindingReport",
    "LineSegment",
    "MarkReport",
    "NotchReport",
    "NotionReport",
    "OutlineReport",
    "PieceReport",
    "PlacementReport",
    "Report",
    "RunReport",
    "SeamReport",
    "SegmentReport",
    "SheetReport",
    "SizeReport",
]

#: Raised by one whenever a reader of the former shape could misread the new one.
VERSION: Literal[2] = 2

Xy = Annotated[tuple[float, float], Field(description="x, y in mm; x right, y up")]


class _Shape(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class LineSegment(_Shape):
    """A straight line."""

    kind: Literal["line"] = "line"
    start: Xy
    end: Xy


class ArcSegment(_Shape):
    """A circular arc; angles in radians anticlockwise from +x, a negative sweep runs clockwise."""

    kind: Literal["arc"] = "arc"
    centre: Xy
    radius: float
    start_angle: float
    sweep: float


class CubicSegment(_Shape):
    """A cubic curve by its four control points."""

    kind: Literal["cubic"] = "cubic"
    start: Xy
    c1: Xy
    c2: Xy
    end: Xy


SegmentReport = LineSegment | ArcSegment | CubicSegment
Segments = tuple[Annotated[SegmentReport, Field(discriminator="kind")], ...]


class OutlineReport(_Shape):
    """A closed outline, anticlockwise: the exact curves, and points no further than 0.05 mm from them."""

    length: float = Field(description="mm once round")
    area: float = Field(description="square mm inside")
    segments: Segments
    points: tuple[Xy, ...]


class EdgeReport(_Shape):
    """One named edge on the stitching line, in the direction it was drawn."""

    name: str
    length: float = Field(description="mm along the stitching line")
    allowance: float = Field(description="mm outside the stitching line")
    corner: str
    fold: bool
    with_outline: bool
    segments: Segments


class DartReport(_Shape):
    """A dart: legs a-tip and tip-b."""

    name: str
    label: str
    a: Xy
    tip: Xy
    b: Xy
    intake: float = Field(description="mm between the legs at the mouth")
    legs: tuple[float, float] = Field(description="mm, leg a and leg b")
    pressed_to: str
    clear_by: float = Field(description="mm the tip must stay from the point it keeps clear of")
    clearance: float | None = Field(description="mm the tip does stay from that point; null when there is none")


class NotchReport(_Shape):
    """A notch on an edge."""

    edge: str
    along: float = Field(description="mm from the start of the edge as drawn")
    at: Xy
    double: bool
    seam: int | None = Field(description="index of the seam it is matched by")


class MarkReport(_Shape):
    """A line or point drawn inside a piece; no segments for a point."""

    kind: str
    label: str
    at: Xy
    segments: Segments


class CutReport(_Shape):
    """How many to cut from which cloth."""

    fabric: str
    count: int
    on_fold: bool
    pair: bool


class PieceReport(_Shape):
    """One pattern piece in the frame of its drafting sheet."""

    name: str
    title: str
    cuts: tuple[CutReport, ...]
    grain: tuple[Xy, Xy]
    stitching: OutlineReport
    cutting: OutlineReport
    edges: tuple[EdgeReport, ...]
    darts: tuple[DartReport, ...]
    notches: tuple[NotchReport, ...]
    marks: tuple[MarkReport, ...]


class RunReport(_Shape):
    """One edge as it is walked in a seam."""

    piece: str
    edge: str
    backwards: bool
    times: int


class SeamReport(_Shape):
    """A seam: both stitched lengths, and the ease or ratio that the designer allows."""

    kind: str
    a: tuple[RunReport, ...]
    b: tuple[RunReport, ...]
    a_length: float = Field(description="mm")
    b_length: float = Field(description="mm")
    difference: float = Field(description="mm, a less b")
    ease_allowed: tuple[float, float] = Field(description="mm, least and most")
    ratio_allowed: tuple[float, float]


class SizeReport(_Shape):
    """A finished girth; body and ease are null where no body girth lies under it."""

    name: str
    title: str
    garment: float = Field(description="mm, read off the pieces")
    body: float | None
    ease: float | None


class NotionReport(_Shape):
    """A thing to buy besides cloth; length in mm, not rounded."""

    name: str
    title: str
    count: float | None
    length: float | None


class MeasuredReport(_Shape):
    """Both figures of a check that compares lengths: what is, and the least and the most that would hold."""

    is_mm: float
    least_mm: float | None = Field(description="mm; null where there is no bound on this side")
    most_mm: float | None = Field(description="mm; null where there is no bound on this side")


class FindingReport(_Shape):
    """What a check found; never an error, for an error makes no report."""

    check: str = Field(description="the title of the check, as in `run`, or of the room that found it")
    code: str
    severity: str
    message: str
    fix: str
    words: str = Field(description="the same in words for the person who will sew")
    where: str
    measured: MeasuredReport | None = Field(description="null where no lengths are compared")


class ChecksReport(_Shape):
    """Which checks ran and what they found."""

    run: tuple[str, ...] = Field(description="the titles of all checks, in their order")
    findings: tuple[FindingReport, ...]


class PlacementReport(_Shape):
    """A piece on the cloth: x along its length from the cut end, y across from the fold or the selvedge."""

    piece: str
    outline: tuple[Xy, ...]
    label: Xy
    on_fold: bool
    mirrored: bool
    turned: bool = Field(description="by half a turn")
    layers: int = Field(description="layers of cloth cut through")


class ClothReport(_Shape):
    """The lay plan of one cloth."""

    fabric: str
    title: str
    width: float = Field(description="usable mm, unfolded")
    folded: bool
    one_way: bool
    shrinkage: float
    length: float = Field(description="mm of cloth that the lay takes")
    buy: float = Field(description="mm to buy")
    utilisation: float = Field(description="share of the cloth inside the pieces, 0 to 1")
    placements: tuple[PlacementReport, ...]


class SheetReport(_Shape):
    """A printable file and its pages."""

    file: str
    paper: str
    pages: int


class Report(_Shape):
    """Everything measured of one made pattern. Lengths in mm to 0.001, angles in radians."""

    format: Literal["pattern-report"] = "pattern-report"
    version: Literal[2] = VERSION
    title: str
    measurements: dict[str, float] = Field(description="body measurements under ISO 8559-1 names, mm")
    choices: dict[str, float | str | bool]
    figures: dict[str, float] = Field(
        description="the draft's own figures by name: mm, square mm, radians or plain numbers, to 0.001"
    )
    pieces: tuple[PieceReport, ...]
    seams: tuple[SeamReport, ...]
    finished_sizes: tuple[SizeReport, ...]
    notions: tuple[NotionReport, ...]
    checks: ChecksReport
    cloths: tuple[ClothReport, ...]
    sheets: tuple[SheetReport, ...]
