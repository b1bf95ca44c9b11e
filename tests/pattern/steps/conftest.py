"""A small tunic of our own, built by hand: back, front with bust darts, sleeve, neck facings; lengths in mm."""

from __future__ import annotations

from math import pi

import pytest

from app.pattern.geometry import Path, Point, curve
from app.pattern.pieces.cut import cut_piece
from app.pattern.pieces.model import (
    Allowance,
    CornerCut,
    Cut,
    Edge,
    EdgeRun,
    Fabric,
    Girth,
    Grain,
    Notch,
    Notion,
    Pattern,
    Piece,
    Seam,
    StepText,
)
from app.pattern.pieces.spec import DartSpec, PieceSpec

RIGHT, LEFT, UP, DOWN = 0.0, pi, pi / 2, -pi / 2
ONE, HEM, NONE = Allowance(10.0), Allowance(30.0, CornerCut.TURNED_BACK), Allowance(0.0)


def built(spec: PieceSpec) -> Piece:
    """The cut piece; a problem here is a slip in this file."""
    piece = cut_piece(spec)
    assert isinstance(piece, Piece), piece
    return piece


def back() -> Piece:
    nape, neck_side = Point(0, 600), Point(75, 622)
    tip, underarm, hem_side = Point(195, 580), Point(250, 385), Point(258, 0)
    items = (
        Edge("hem", Path.through(Point(0, 0), hem_side), HEM),
        Edge("side", Path.through(hem_side, underarm), ONE),
        Edge("armhole", curve(underarm, tip, leaving=LEFT, arriving=UP), ONE),
        Edge("shoulder", Path.through(tip, neck_side), ONE),
        Edge("neck", curve(neck_side, nape, leaving=-2.1, arriving=LEFT), ONE),
        Edge("centre", Path.through(nape, Point(0, 0)), NONE, fold=True),
    )
    grain = Grain(Point(90, 100), Point(90, 460))
    return built(PieceSpec("back", "Back", items, grain, (Cut("main", 1, on_fold=True),)))


def front() -> Piece:
    neck, neck_side = Point(0, 575), Point(75, 652)
    tip, underarm, hem_side = Point(195, 610), Point(256, 415), Point(258, 0)
    a, b, point = Point(257, 320), Point(257, 290), Point(115, 330)
    items = (
        Edge("hem", Path.through(Point(0, 0), hem_side), HEM),
        Edge("side_lower", Path.through(hem_side, b), ONE),
        DartSpec("bust", point, b, a, pressed_to="a", label="Bust dart"),
        Edge("side_upper", Path.through(a, underarm), ONE),
        Edge("armhole", curve(underarm, tip, leaving=LEFT, arriving=UP), ONE),
        Edge("shoulder", Path.through(tip, neck_side), ONE),
        Edge("neck", curve(neck_side, neck, leaving=DOWN, arriving=LEFT), ONE),
        Edge("centre", Path.through(neck, Point(0, 0)), NONE, fold=True),
    )
    grain = Grain(Point(90, 100), Point(90, 460))
    notches = (Notch("armhole", 80.0, seam=3),)
    return built(PieceSpec("front", "Front", items, grain, (Cut("main", 1, on_fold=True),), notches))


def sleeve() -> Piece:
    crown, left, right = Point(0, 130), Point(-165, 0), Point(165, 0)
    items = (
        Edge("wrist", Path.through(Point(-140, -300), Point(140, -300)), HEM),
        Edge("underarm_front", Path.through(Point(140, -300), right), ONE),
        Edge("cap_front", curve(right, crown, leaving=LEFT, arriving=LEFT), ONE),
        Edge("cap_back", curve(crown, left, leaving=LEFT, arriving=LEFT), ONE),
        Edge("underarm_back", Path.through(left, Point(-140, -300)), ONE),
    )
    grain = Grain(Point(0, -250), Point(0, 90))
    return built(PieceSpec("sleeve", "Sleeve", items, grain, (Cut("main", 2, pair=True),)))


def facing(name: str, title: str, whole: Piece) -> Piece:
    neck = whole.edge("neck").path
    side, centre = neck.start, neck.end
    outer = Point(centre.x, centre.y - 50), Point(side.x + 50, side.y - 15)
    items = (
        Edge("outer", curve(outer[0], outer[1], leaving=RIGHT, arriving=UP), NONE),
        Edge("shoulder", Path.through(outer[1], side), ONE),
        Edge("neck", neck, ONE),
        Edge("centre", Path.through(centre, outer[0]), NONE, fold=True),
    )
    grain = Grain(Point(20, outer[0].y + 5), Point(20, centre.y - 5))
    return built(PieceSpec(name, title, items, grain, (Cut("facing", 1, on_fold=True),), note="Interface."))


def run(place: str, *, backwards: bool = False, times: int = 1) -> EdgeRun:
    piece, edge = place.split(".")
    return EdgeRun(piece, edge, backwards, times)


def seams() -> tuple[Seam, ...]:
    return (
        Seam((run("back.shoulder"),), (run("front.shoulder"),)),
        Seam((run("back.neck"), run("front.neck")), (run("back_facing.neck"), run("front_facing.neck"))),
        Seam((run("back.side"),), (run("front.side_lower"), run("front.side_upper"))),
        Seam(
            (run("sleeve.cap_front"), run("sleeve.cap_back")),
            (run("front.armhole"), run("back.armhole")),
            kind="ease",
            ease=(10.0, 60.0),
        ),
        Seam((run("sleeve.underarm_front"),), (run("sleeve.underarm_back"),)),
    )


def steps() -> tuple[StepText, ...]:
    return (
        StepText("Close the bust darts", "Fold each dart on its middle line and stitch from the side to the point."),
        StepText("Shoulders", "Stitch back to front, *right sides together*.", seams=(0,)),
        StepText("Neckline", "Stitch the facing round the neckline, turn it in and press.", seams=(1,)),
        StepText("Sleeves", "Run two rows of long stitches round the cap, draw up and set in flat.", seams=(3,)),
        StepText("Sides and sleeves in one", "Stitch from hem to wrist.", seams=(2, 4)),
    )


@pytest.fixture(scope="session")
def tunic() -> Pattern:
    """The whole tunic."""
    behind, before = back(), front()
    pieces = (
        behind,
        before,
        sleeve(),
        facing("back_facing", "Back facing", behind),
        facing("front_facing", "Front facing", before),
    )
    girths = (
        Girth("bust", "Bust", 1012.0, 920.0, 92.0, measure="bust_girth"),
        Girth("hem", "Hem sweep", 1032.0, 0.0, 0.0),
    )
    fabrics = (Fabric("main", "Shell", 1400.0), Fabric("facing", "Facing cloth", 900.0))
    notions = (
        Notion("thread", "Sewing thread", count=1),
        Notion("tape", "Stay tape", length=512.0),
        Notion("hanger", "Hanger loop"),
    )
    return Pattern("Wren tunic", pieces, seams(), girths, fabrics, notions, steps(), {"cap_ease": 24.0})
