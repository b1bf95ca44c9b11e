"""report.json: every figure of a made pattern, with the same bytes for the same pattern."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.packs.report_model import (
    ArcSegment,
    ChecksReport,
    ClothReport,
    CubicSegment,
    CutReport,
    DartReport,
    EdgeReport,
    FindingReport,
    LineSegment,
    MarkReport,
    MeasuredReport,
    NotchReport,
    NotionReport,
    OutlineReport,
    PieceReport,
    PlacementReport,
    Report,
    RunReport,
    SeamReport,
    SegmentReport,
    SheetReport,
    SizeReport,
)
from app.pattern.checks import CHECKS
from app.pattern.geometry import Arc, Line, Path, Point, Segment
from app.pattern.lay import LayPlan
from app.pattern.make import Made
from app.pattern.pieces.model import Dart, Edge, EdgeRun, Piece, Seam
from app.pattern.plain_words import title_of, told_of
from app.pattern.problem import Problem
from app.pattern.steps import SeamNote, finished_sizes, seam_notes

__all__ = ["FLATNESS", "SheetCount", "report", "report_bytes", "schema"]

#: Points of a flattened outline lie no further than this from the true curve, mm.
FLATNESS = 0.05


@dataclass(frozen=True, slots=True)
class SheetCount:
    """A printable file: its name, the paper it is for, and how many pages it has."""

    file: str
    paper: str
    pages: int


def report(made: Made, lay_plans: Mapping[str, LayPlan], sheets: Sequence[SheetCount]) -> dict[str, Any]:
    """The report as plain JSON values, lengths in mm; `lay_plans` under the fabrics' names."""
    pattern = made.pattern
    notes = seam_notes(pattern)
    whole = Report(
        title=pattern.title,
        measurements={name: _mm(value) for name, value in made.body.items()},
        choices={name: _mm(value) if isinstance(value, float) else value for name, value in made.choices.items()},
        figures={name: _mm(value) for name, value in pattern.figures.items()},
        pieces=tuple(_piece(piece) for piece in pattern.pieces),
        seams=tuple(_seam(seam, note) for seam, note in zip(pattern.seams, notes, strict=True)),
        finished_sizes=tuple(
            SizeReport(name=s.name, title=s.title, garment=_mm(s.garment), body=_maybe(s.body), ease=_maybe(s.ease))
            for s in finished_sizes(pattern)
        ),
        notions=tuple(
            NotionReport(name=n.name, title=n.title, count=_maybe(n.count), length=_maybe(n.length))
            for n in pattern.notions
        ),
        checks=ChecksReport(
            run=tuple(check.title for check in CHECKS), findings=tuple(_finding(problem) for problem in made.findings)
        ),
        cloths=tuple(_cloth(fabric, plan) for fabric, plan in sorted(lay_plans.items())),
        sheets=tuple(SheetReport(file=s.file, paper=s.paper, pages=s.pages) for s in sheets),
    )
    return whole.model_dump(mode="json")


def report_bytes(values: Mapping[str, Any]) -> bytes:
    """A report or schema as a file: sorted keys, one line, UTF-8."""
    return json.dumps(values, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode() + b"\n"


def schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of the report."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **Report.model_json_schema(mode="serialization")}


def _mm(value: float) -> float:
    """A length to the thousandth of a millimetre, without a negative nought."""
    return round(value, 3) + 0.0


def _angle(value: float) -> float:
    return round(value, 9) + 0.0


def _maybe(value: float | None) -> float | None:
    return None if value is None else _mm(value)


def _xy(point: Point | tuple[float, float]) -> tuple[float, float]:
    return (_mm(point[0]), _mm(point[1]))


def _segments(path: Path | None) -> tuple[SegmentReport, ...]:
    return () if path is None else tuple(_segment(segment) for segment in path.segments)


def _outline(path: Path) -> OutlineReport:
    return OutlineReport(
        length=_mm(path.length),
        area=_mm(path.signed_area),
        segments=_segments(path),
        points=tuple(_xy(point) for point in path.flatten(FLATNESS)),
    )


def _segment(segment: Segment) -> SegmentReport:
    if isinstance(segment, Line):
        return LineSegment(start=_xy(segment.start), end=_xy(segment.end))
    if isinstance(segment, Arc):
        return ArcSegment(
            centre=_xy(segment.centre),
            radius=_mm(segment.radius),
            start_angle=_angle(segment.start_angle),
            sweep=_angle(segment.sweep),
        )
    return CubicSegment(start=_xy(segment.start), c1=_xy(segment.c1), c2=_xy(segment.c2), end=_xy(segment.end))


def _piece(piece: Piece) -> PieceReport:
    return PieceReport(
        name=piece.name,
        title=piece.title,
        cuts=tuple(CutReport(fabric=c.fabric, count=c.count, on_fold=c.on_fold, pair=c.pair) for c in piece.cuts),
        grain=(_xy(piece.grain.start), _xy(piece.grain.end)),
        stitching=_outline(piece.stitching),
        cutting=_outline(piece.cutting),
        edges=tuple(_edge(edge) for edge in piece.edges),
        darts=tuple(_dart(dart) for dart in piece.darts),
        notches=tuple(
            NotchReport(
                edge=notch.edge,
                along=_mm(notch.along),
                at=_xy(piece.edge(notch.edge).path.point_at(notch.along)),
                double=notch.double,
                seam=notch.seam,
            )
            for notch in piece.notches
        ),
        marks=tuple(
            MarkReport(kind=str(mark.kind), label=mark.label, at=_xy(mark.at), segments=_segments(mark.path))
            for mark in piece.marks
        ),
    )


def _edge(edge: Edge) -> EdgeReport:
    return EdgeReport(
        name=edge.name,
        length=_mm(edge.path.length),
        allowance=_mm(edge.allowance.width),
        corner=str(edge.allowance.corner),
        fold=edge.fold,
        with_outline=edge.with_outline,
        segments=_segments(edge.path),
    )


def _dart(dart: Dart) -> DartReport:
    clearance = None if dart.keep_clear is None else dart.tip.distance(dart.keep_clear)
    return DartReport(
        name=dart.name,
        label=dart.label,
        a=_xy(dart.a),
        tip=_xy(dart.tip),
        b=_xy(dart.b),
        intake=_mm(dart.intake),
        legs=(_mm(dart.a.distance(dart.tip)), _mm(dart.b.distance(dart.tip))),
        pressed_to=dart.pressed_to,
        clear_by=_mm(dart.clear_by),
        clearance=_maybe(clearance),
    )


def _runs(side: Sequence[EdgeRun]) -> tuple[RunReport, ...]:
    return tuple(RunReport(piece=r.piece, edge=r.edge, backwards=r.backwards, times=r.times) for r in side)


def _seam(seam: Seam, note: SeamNote) -> SeamReport:
    return SeamReport(
        kind=seam.kind,
        a=_runs(seam.a),
        b=_runs(seam.b),
        a_length=_mm(note.a_length),
        b_length=_mm(note.b_length),
        difference=_mm(note.difference),
        ease_allowed=(_mm(seam.ease[0]), _mm(seam.ease[1])),
        ratio_allowed=(_angle(seam.ratio[0]), _angle(seam.ratio[1])),
    )


def _finding(problem: Problem) -> FindingReport:
    measured = None
    if (figures := problem.measured) is not None:
        least, most = _maybe(figures.least_mm), _maybe(figures.most_mm)
        measured = MeasuredReport(is_mm=_mm(figures.is_mm), least_mm=least, most_mm=most)
    return FindingReport(
        check=title_of(problem.code),
        code=problem.code,
        severity=str(problem.severity),
        message=problem.message,
        fix=problem.fix,
        words=told_of(problem.code).words,
        where="" if problem.where is None else str(problem.where),
        measured=measured,
    )


def _cloth(fabric: str, plan: LayPlan) -> ClothReport:
    return ClothReport(
        fabric=fabric,
        title=plan.cloth.title,
        width=_mm(plan.cloth.width),
        folded=plan.cloth.folded,
        one_way=plan.cloth.one_way,
        shrinkage=_angle(plan.cloth.shrinkage),
        length=_mm(plan.length),
        buy=_mm(plan.buy),
        utilisation=round(plan.utilisation, 4),
        placements=tuple(
            PlacementReport(
                piece=placement.piece,
                outline=tuple(_xy(point) for point in placement.outline),
                label=_xy(placement.label),
                on_fold=placement.on_fold,
                mirrored=placement.mirrored,
                turned=placement.turned,
                layers=placement.layers,
            )
            for placement in plan.placements
        ),
    )
