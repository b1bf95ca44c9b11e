"""A small garment that holds: skirt with darts, bodice with armholes, eased sleeve and gathered frill."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import pi, radians

import pytest

from app.pattern.checks import run_checks
from app.pattern.geometry import Path, Point, Transform, curve
from app.pattern.pieces import DartSpec, PieceSpec, cut_piece
from app.pattern.pieces.matching import NotchWish, match_notches
from app.pattern.pieces.measure import edge_length, run_length, width_at
from app.pattern.pieces.model import (
    Allowance,
    CornerCut,
    Cut,
    Edge,
    EdgeRun,
    Fabric,
    Girth,
    Grain,
    Mark,
    MarkKind,
    Pattern,
    Piece,
    Seam,
)
from app.pattern.problem import Span

HEM = Allowance(40.0, CornerCut.TURNED_BACK)
SEAM = Allowance(10.0)
SLOPE = radians(-19.3)


def straight(*points: tuple[float, float]) -> Path:
    return Path.through(*(Point(*p) for p in points))


def folded(name: str, *items: Edge | DartSpec, grain: Grain) -> PieceSpec:
    cuts = (Cut("main", 1, on_fold=True),)
    return PieceSpec(name, name.replace("_", " ").title(), items, grain, cuts, span=Span("test.draft", 1, 1, 5))


def centre(top: float, bottom: float) -> Edge:
    return Edge("centre", straight((0.0, top), (0.0, bottom)), Allowance(0.0), fold=True)


def skirt(name: str) -> PieceSpec:
    side = curve(Point(200.0, 606.0), Point(240.0, 5.0), radians(-80.0), radians(-88.0))
    return folded(
        name,
        Edge("waist_middle", straight((0.0, 600.0), (80.0, 600.0)), SEAM, finish="turned in"),
        DartSpec("waist_dart", Point(92.0, 480.0), pressed_to="a", keep_clear=Point(92.0, 450.0), clear_by=25.0),
        Edge(
            "waist_side",
            curve(Point(104.0, 600.0), Point(200.0, 606.0), 0.0, radians(10.0)),
            SEAM,
            finish="turned in",
        ),
        Edge("side", side, Allowance(15.0)),
        Edge("hem", curve(Point(240.0, 5.0), Point(0.0, 0.0), radians(182.0), pi), HEM),
        centre(600.0, 0.0),
        grain=Grain(Point(60.0, 100.0), Point(60.0, 400.0)),
    )


def bodice(name: str, neck_depth: float) -> PieceSpec:
    neck = curve(Point(0.0, -neck_depth), Point(70.0, 22.0), 0.0, SLOPE + pi / 2.0)
    armhole = curve(Point(190.0, -20.0), Point(230.0, -200.0), SLOPE - pi / 2.0, 0.0)
    return folded(
        name,
        Edge("neck", neck, Allowance(6.0), finish="turned in"),
        Edge("shoulder", straight((70.0, 22.0), (190.0, -20.0)), SEAM),
        Edge("armhole", armhole, SEAM),
        Edge("side", straight((230.0, -200.0), (230.0, -400.0)), SEAM),
        Edge("hem", straight((230.0, -400.0), (0.0, -400.0)), HEM),
        centre(-400.0, -neck_depth),
        grain=Grain(Point(60.0, -350.0), Point(60.0, -120.0)),
    )


def sleeve(cap_length: float) -> PieceSpec:
    rise = curve(Point(-180.0, 0.0), Point(0.0, 130.0), 0.0, 0.0)
    cap = rise.joined(curve(Point(0.0, 130.0), Point(180.0, 0.0), 0.0, 0.0))
    cap = cap.transformed(Transform.scale(cap_length / cap.length))
    left, right = cap.start, cap.end
    return PieceSpec(
        "sleeve",
        "Sleeve",
        (
            Edge("cap", cap, SEAM),
            Edge("underarm_front", Path.through(right, right.moved(0.0, -200.0)), SEAM),
            Edge("hem", Path.through(left.moved(0.0, -200.0), right.moved(0.0, -200.0)), HEM),
            Edge("underarm_back", Path.through(left, left.moved(0.0, -200.0)), SEAM),
        ),
        Grain(Point(0.0, -150.0), Point(0.0, 80.0)),
        (Cut("main", 2, pair=True),),
    )


def frill(top: float) -> PieceSpec:
    return folded(
        "frill",
        Edge("top", straight((0.0, 100.0), (top, 100.0)), SEAM),
        Edge("side", straight((top, 100.0), (top, 0.0)), SEAM, finish="closed"),
        Edge("hem", straight((top, 0.0), (0.0, 0.0)), Allowance(20.0, CornerCut.TURNED_BACK)),
        centre(100.0, 0.0),
        grain=Grain(Point(20.0, 50.0), Point(120.0, 50.0)),
    )


def run(dotted: str, *, backwards: bool = False) -> EdgeRun:
    piece, edge = dotted.split(".")
    return EdgeRun(piece, edge, backwards)


SEAMS = (
    Seam((run("skirt_front.side"),), (run("skirt_back.side"),), span=Span("test.draft", 20, 1, 9)),
    Seam((run("front.shoulder"),), (run("back.shoulder"),)),
    Seam((run("front.side"),), (run("back.side"),)),
    Seam(
        (run("sleeve.cap"),),
        (run("back.armhole", backwards=True), run("front.armhole")),
        kind="ease",
        ease=(10.0, 30.0),
    ),
    Seam((run("sleeve.underarm_front"),), (run("sleeve.underarm_back"),)),
    Seam((run("frill.top"),), (run("skirt_front.hem", backwards=True),), kind="gather", ratio=(1.4, 1.6)),
)
WISHES = {
    0: [NotchWish(200.0), NotchWish(100.0, "end")],
    3: [NotchWish(80.0, double=True), NotchWish(70.0, "end"), NotchWish(220.0, side="b")],
    5: [NotchWish(150.0)],
}


def cut(spec: PieceSpec) -> Piece:
    piece = cut_piece(spec)
    assert isinstance(piece, Piece), piece
    return piece


def with_matched_notches(pieces: dict[str, Piece]) -> dict[str, Piece]:
    for index, wishes in WISHES.items():
        for placed in match_notches(pieces, SEAMS[index], index, wishes):
            piece = pieces[placed.piece]
            pieces[placed.piece] = replace(piece, notches=(*piece.notches, placed.notch))
    return pieces


def good_garment() -> Pattern:
    specs = [skirt("skirt_front"), skirt("skirt_back"), bodice("front", 60.0), bodice("back", 5.0)]
    pieces = {spec.name: cut(spec) for spec in specs}
    pieces["sleeve"] = cut(sleeve(run_length(pieces, SEAMS[3].b) + 20.0))
    pieces["frill"] = cut(frill(1.5 * edge_length(pieces["skirt_front"], "hem")))
    pieces["skirt_front"] = replace(
        pieces["skirt_front"],
        marks=(Mark(MarkKind.LENGTHEN, straight((0.0, 300.0), (220.0, 300.0)), Point(0.0, 300.0)),),
    )
    pieces = with_matched_notches(pieces)
    hip = 2.0 * (width_at(pieces["skirt_front"], 400.0) + width_at(pieces["skirt_back"], 400.0))
    return Pattern(
        title="Trial",
        pieces=tuple(pieces.values()),
        seams=SEAMS,
        girths=(Girth("hip", "Hip", hip, hip - 40.0, 40.0, "hip_girth", opens_fully=True),),
        fabrics=(Fabric("main", "Cloth", 1400.0),),
    )


@pytest.fixture(scope="session")
def garment() -> Pattern:
    """The garment that holds. Immutable, so every test may damage a copy of its own."""
    return good_garment()


@dataclass(frozen=True)
class Bench:
    """Ways to damage a pattern and to hear which checks speak."""

    cut: Callable[[PieceSpec], Piece] = cut
    skirt: Callable[[str], PieceSpec] = skirt
    bodice: Callable[[str, float], PieceSpec] = bodice

    @staticmethod
    def codes(pattern: Pattern) -> set[str]:
        return {problem.code for problem in run_checks(pattern)}

    def codes_of_seams(self, pattern: Pattern) -> set[str]:
        """What is heard of a part of the garment, besides that its other edges are sewn to nothing."""
        return self.codes(pattern) - {"checks.edge-unfinished"}

    @staticmethod
    def with_piece(pattern: Pattern, name: str, **changes: object) -> Pattern:
        pieces = tuple(replace(p, **changes) if p.name == name else p for p in pattern.pieces)
        return replace(pattern, pieces=pieces)

    @staticmethod
    def with_recut(pattern: Pattern, spec: PieceSpec) -> Pattern:
        """The pattern with one piece cut again from another spec, its matched notches kept."""
        old = pattern.piece(spec.name)
        new = replace(cut(spec), notches=old.notches)
        return replace(pattern, pieces=tuple(new if p.name == spec.name else p for p in pattern.pieces))

    @staticmethod
    def with_edge(spec: PieceSpec, name: str, **changes: object) -> PieceSpec:
        return replace(spec, items=tuple(replace(i, **changes) if i.name == name else i for i in spec.items))


@pytest.fixture(scope="session")
def bench() -> Bench:
    """The damaging tools."""
    return Bench()
